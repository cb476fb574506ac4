"""The recipe needs a tin or dish whose size decides how it bakes, and gives none.

Write the size into the tool: "23 cm round tin, 5 cm deep", "900 g loaf tin".
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from sitegen.kitchen.tins import read_tin
from sitegen.readthrough.rule import Finding, Reading
from sitegen.readthrough.words import TIN_WORD

_SIZE = re.compile(
    r"\d[\s-]*(?:[x×]\s*\d+[\s-]*)?(?:cm|mm|in\b|inch|l\b|litre|g\b|lb\b|ml\b|hole|cup)",
    re.IGNORECASE,
)


def check(reading: Reading) -> Iterator[Finding]:
    """Tins without a size."""
    sized = any(
        read_tin(t) or (TIN_WORD.search(t) and _SIZE.search(t)) for t in reading.recipe.tools
    )
    for tool in reading.recipe.tools:
        found = TIN_WORD.search(tool)
        if found and not _SIZE.search(tool):
            yield reading.about_field(
                "tools",
                f"the {found.group()} has no size",
                f"write '20 cm {found.group()}', with your size",
            )
            return
    if sized:
        return
    for sentence in reading.sentences:
        found = TIN_WORD.search(sentence.text)
        if found and not any(
            TIN_WORD.search(s.text) and _SIZE.search(s.text) for s in reading.sentences
        ):
            yield reading.about_words(
                sentence,
                found.group(),
                f"the {found.group()} has no size",
                f"add '20 cm {found.group()}', with your size, to tools",
            )
            return
