"""A heading is deeper by more than one than the heading before it: "####" after "##".

Use the next depth. Readers who listen to the page move through it by its headings.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from sitegen.reading.source import Place
from sitegen.readthrough.rule import Finding, Reading

_HEADING_OR_FENCE = re.compile(r"^ {0,3}(?:(#{1,6})(?:\s|$)|```|~~~)", re.MULTILINE)


def check(reading: Reading) -> Iterator[Finding]:
    """Jumps in the headings' depth."""
    first, text = reading.body
    before, fenced = 1, False
    for found in _HEADING_OR_FENCE.finditer(text):
        if found[1] is None:
            fenced = not fenced
        if fenced or found[1] is None:
            continue
        depth = len(found[1])
        if depth > before + 1:
            yield Finding(
                Place(first + text.count("\n", 0, found.start()), 1),
                f"a heading of depth {depth} follows one of depth {before}",
                f"write '{'#' * (before + 1)}' here",
                depth,
            )
        before = depth
