"""A cooked dish is left to cool, or to stand, for longer than 2 hours before it is chilled.

Write "cool within 2 hours, then chill" (USDA FSIS; 1 hour above 32 °C). Cakes, breads and preserves
are left alone.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from sitegen.readthrough.prose import NUMBER, number, perishable, said
from sitegen.readthrough.rule import Finding, Reading

_SLOW = re.compile(
    rf"\b(?:(?:cool|stand|leave|left|chill|refrigerate|sit|keep)\w*\b[^.;]{{0,50}}?"
    rf"\b(?P<how>within|for|in under|up to)\s+(?:about |up to )?{NUMBER}\s+hours?"
    rf"|(?P<night>(?:cool|stand|leave)\w*\b[^.;]{{0,40}}\bovernight))\b"
)
_COLD = re.compile(
    r"\b(?:fridge|refrigerat\w*|chill\w* (?:for|until)|cold place|freez\w*|marinad\w*|soak\w*"
    r"|ice|simmer\w*|oven|slow cooker|cook\w*|rise|prove|not|don't|never|no more)\b"
)


def check(reading: Reading) -> Iterator[Finding]:
    """Hours in the warm."""
    if "hour" not in reading.body_low and "overnight" not in reading.body_low:
        return
    if not perishable(reading):
        return
    for sentence in said(reading):
        if "hour" not in sentence.low and "overnight" not in sentence.low:
            continue
        found = _SLOW.search(sentence.low)
        if found is None:
            continue
        before_fridge = found["how"] == "within"
        if not before_fridge and _COLD.search(sentence.low):
            continue
        if not found["night"] and number(found["n"]) <= 2:
            continue
        words = sentence.text[found.start() : found.end()]
        yield Finding(
            sentence.place(reading, found.start()),
            f"'{words}': cooked food is to be chilled within 2 hours (USDA FSIS)",
            "write 'cool within 2 hours', or say that it stands in the fridge",
            len(words),
        )
