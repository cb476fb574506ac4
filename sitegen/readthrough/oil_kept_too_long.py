"""Garlic, herbs or chillies under oil are said to keep for more than 4 days, or out of the fridge.

Write "in the fridge, up to 4 days", or freeze it (USDA and state extension services). There is no air
under oil, which is what the bacterium of botulism needs, and it can't be smelled.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from sitegen.readthrough.prose import number, said
from sitegen.readthrough.rule import Finding, Reading

_LONG = re.compile(
    r"\b(?P<n>\d+|an?|one|two|three|four|five|six|seven|eight|ten)\s+(?P<unit>days?|weeks?|months?)\b"
)
_WARM = re.compile(
    r"\b(?:cupboard|room temperature|larder|pantry|cool dark place|cool, dark place|shelf)\b"
)
_KEEP = re.compile(r"\b(?:keeps?|store|stored|last|lasts|use|eat|fridge|refrigerat\w*)\b")


def check(reading: Reading) -> Iterator[Finding]:
    """Oil that is kept too long or too warm."""
    every = (*reading.dish.cautions, *reading.dish.cautions_left_out)
    if not any(c.key == "oil" for c in every) or any(r.reference for r in reading.rows):
        return
    for sentence in said(reading):
        if not _KEEP.search(sentence.low):
            continue
        warm = _WARM.search(sentence.low)
        refused = re.search(r"\b(?:not|don't|never|no more than)\b", sentence.low)
        if warm and not refused and re.search(r"\b(?:keeps?|store|stored)\b", sentence.low):
            yield Finding(
                sentence.place(reading, warm.start()),
                f"'{warm.group()}' is no place for garlic or herbs under oil",
                "write 'in the fridge, up to 4 days', or freeze it",
                len(warm.group()),
            )
            continue
        for found in _LONG.finditer(sentence.low):
            days = number(found["n"]) * {"d": 1, "w": 7, "m": 30}[found["unit"][0]]
            if days <= 4 or re.search(r"\bfr(?:ee|o)z", sentence.low):
                continue
            yield Finding(
                sentence.place(reading, found.start()),
                f"'{found.group()}' is too long for garlic or herbs under oil: 4 days in the fridge",
                "write 'in the fridge, up to 4 days', or freeze it",
                len(found.group()),
            )
            break
