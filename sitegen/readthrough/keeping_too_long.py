"""A cooked dish is said to keep in the fridge for longer than leftovers safely do.

Write 3 to 4 days at most (USDA FSIS), or that it goes into the freezer. Cakes, breads, pickles and
preserves are left alone.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from sitegen.readthrough.prose import number, perishable, said
from sitegen.readthrough.rule import Finding, Reading

MOST = 4
_SPAN = (
    r"(?:(?:\d+|an?|one|two|three|four|five|six|seven)\s*(?:to|–|-|or)\s*)?"
    r"(?P<last>\d+|an?|one|two|three|four|five|six|seven|ten)\s+(?P<unit>days?|weeks?|months?)"
)
_COLD = r"(?:fridge|refrigerate|refrigerator|chilled)"
_KEEPS = (
    re.compile(rf"\b{_SPAN}\b(?:[^,.;]|, covered){{0,30}}?\b{_COLD}\b"),
    re.compile(rf"\b{_COLD}\b(?:(?!freez)[^.;]){{0,50}}?\b{_SPAN}\b(?!\s+in the freezer)"),
)


def check(reading: Reading) -> Iterator[Finding]:
    """Days in the fridge over the limit."""
    if not any(word in reading.body_low for word in ("frid", "chill", "refrig")):
        return
    if not perishable(reading):
        return
    for sentence in said(reading):
        if (
            "frid" not in sentence.low
            and "chill" not in sentence.low
            and "refrig" not in sentence.low
        ):
            continue
        if "day" not in sentence.low and "week" not in sentence.low and "month" not in sentence.low:
            continue
        for pattern in _KEEPS:
            found = pattern.search(sentence.low)
            if found is None or re.search(r"\bfreez", found.group()):
                continue
            days = number(found["last"]) * {"d": 1, "w": 7, "m": 30}[found["unit"][0]]
            if days <= MOST:
                continue
            start = found.start("last")
            words = sentence.text[start : found.end("unit")]
            yield Finding(
                sentence.place(reading, start),
                f"'{words}' in the fridge is longer than the {MOST} days that cooked dishes keep "
                "(USDA FSIS)",
                "write 3 to 4 days at most, or that it goes into the freezer",
                len(words),
            )
            break
