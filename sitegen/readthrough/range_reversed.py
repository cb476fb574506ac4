"""A range in the method runs backwards: "20–18 minutes", "26–24 °C".

Write the smaller number first, or correct the wrong one. The page can't set a timer or convert a heat by
a range that it can't trust.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from sitegen.reading.recipe import Temperature, TimeSpan
from sitegen.reading.spans import number
from sitegen.readthrough.rule import Finding, Reading

_TWO = re.compile(
    r"(\d+(?:[.,]\d+)?)\s?(?:[–—-]|\bto\b)\s?(\d+(?:[.,]\d+)?)\s?-?(?:sec|min|h(?:our|r)?s?\b|day)",
    re.IGNORECASE,
)


def check(reading: Reading) -> Iterator[Finding]:
    """Times and heats whose second number is the smaller one."""
    for sentence in reading.sentences:
        if not sentence.times and not sentence.heats:
            continue
        pieces: tuple[TimeSpan | Temperature, ...] = (*sentence.times, *sentence.heats)
        for piece in pieces:
            if not _backwards(piece):
                continue
            yield reading.about_words(
                sentence,
                piece.text,
                f"'{piece.text}' in step {sentence.step.number} runs backwards",
                "write the smaller number first, or correct the wrong one",
            )


def _backwards(piece: TimeSpan | Temperature) -> bool:
    if isinstance(piece, Temperature):
        return piece.upto is not None and piece.upto < piece.value
    if piece.upto is not None:
        return False  # a time that runs backwards is read as its first figure
    text = piece.text
    if "–" not in text and "-" not in text and " to " not in text and "—" not in text:
        return False
    found = _TWO.search(text)
    return found is not None and number(found[2]) < number(found[1])
