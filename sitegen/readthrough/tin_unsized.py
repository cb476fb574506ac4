"""The recipe needs a tin or dish whose size decides how it bakes, and gives none.

Write the size into the tool: "23 cm round tin, 5 cm deep", "900 g loaf tin".
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from sitegen.kitchen.tins import read_tin
from sitegen.reading.numbers import fold
from sitegen.readthrough.rule import Finding, Reading
from sitegen.readthrough.words import TIN_WORD

_SIZE = re.compile(
    r"\d[\s-]*(?:[x×]\s*\d+[\s-]*)?(?:cm|mm|in\b|inch|l\b|litre|g\b|lb\b|ml\b|hole|cup)",
    re.IGNORECASE,
)


def check(reading: Reading) -> Iterator[Finding]:
    """Tins without a size."""
    for tool in reading.recipe.tools:
        found = _tin(tool)
        if found and not _SIZE.search(tool):
            yield reading.about_field(
                "tools",
                f"the {found.group()} has no size",
                f"write '20 cm {found.group()}', with your size",
            )
            return
    if any(read_tin(t) or (_tin(t) and _SIZE.search(t)) for t in reading.recipe.tools):
        return
    named = [(s, found) for s in reading.sentences if (found := _tin(s.text))]
    if not named or any(_SIZE.search(s.text) for s, _ in named):
        return
    sentence, found = named[0]
    yield reading.about_words(
        sentence,
        found.group(),
        f"the {found.group()} has no size",
        f"add '20 cm {found.group()}', with your size, to tools",
    )


_MADE_OF = ("tin", "pan", "dish", "plate", "mould", "form")


def _tin(text: str) -> re.Match[str] | None:
    """The first word for a vessel whose size matters."""
    low = fold(text)
    return TIN_WORD.search(text) if any(map(low.__contains__, _MADE_OF)) else None
