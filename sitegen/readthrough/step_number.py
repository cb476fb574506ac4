"""The numbers of the steps leave one out: 1, 2, 4.

A step may have been lost, or a line has lost its number and is now part of the step above. The page
counts for itself, so that nobody sees the gap. Give the line its number, or number them in a row.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from sitegen.readthrough.rule import Finding, Reading

_NUMBER = re.compile(r"\s*(\d{1,3})[.)]\s")


def check(reading: Reading) -> Iterator[Finding]:
    """Numbers that do not follow the one before; a list of ones, or one that begins anew, is left."""
    before = 0
    source = reading.source
    text, offset = source.text, source.offset
    for step in reading.recipe.steps:
        if text.startswith(f"{before + 1}. ", offset(step.place.line)):
            before += 1
            continue  # nearly always
        written = _NUMBER.match(source.line(step.place.line))
        if written is None:
            return
        number = int(written[1])
        if number not in (1, before, before + 1) and before:
            yield Finding(
                step.place,
                f"step {number} comes after step {before}",
                f"look whether step {before + 1} is lost, or its line has lost its number",
                len(written[1]) + 1,
            )
            return  # the others follow from it
        before = number
