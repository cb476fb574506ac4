"""Leftovers are to be reheated to less than 74 °C.

Write 74 °C (165 °F) all through (USDA FSIS), or 70 °C held for 2 minutes (UK FSA).
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from sitegen.readthrough.prose import said
from sitegen.readthrough.rule import Finding, Reading

_REHEAT = re.compile(
    r"\b(?:re-?heat|warm (?:it |them )?(?:through|up again))\w*\b[^;]{0,90}?"
    r"(?P<n>\d{2,3})\s*°?\s*(?P<unit>[cf])\b"
)


_WORDS = ("reheat", "re-heat", "warm")


def check(reading: Reading) -> Iterator[Finding]:
    """Reheating that stops too soon."""
    if not any(map(reading.body_low.__contains__, _WORDS)):
        return
    for sentence in said(reading):
        if not any(map(sentence.low.__contains__, _WORDS)):
            continue
        found = _REHEAT.search(sentence.low)
        if found is None or "oven" in found.group():
            continue
        value = int(found["n"])
        degrees = value if found["unit"] == "c" else (value - 32) * 5 / 9
        held = re.search(r"\b(?:[2-9]|two|three|five|\d\d) min", sentence.low)
        if degrees >= 73.5 or degrees < 30 or (degrees >= 70 and held):
            continue
        words = sentence.text[found.start("n") : found.end()]
        yield Finding(
            sentence.place(reading, found.start("n")),
            f"{words} is too low for leftovers: 74 °C (165 °F) by USDA FSIS",
            "write 74 °C, or 70 °C for 2 minutes (UK FSA)",
            len(words),
        )
