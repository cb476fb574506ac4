"""A range in the method runs backwards: "20–18 minutes", "26–24 °C".

Write the smaller number first, or correct the wrong one. The page can't set a timer or convert a heat by
a range that it can't trust.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from sitegen.readthrough.rule import Finding, Reading

_RANGE = re.compile(
    r"(?<![\d.,/–—-])(?P<a>\d{1,4}(?:[.,]\d+)?)\s?(?:°\s?[cf]?\s?)?(?:[–—-]|\bto\b)\s?"
    r"(?P<b>\d{1,4}(?:[.,]\d+)?)\s?-?"
    r"(?:seconds?|secs?|minutes?|mins?|hours?|hrs?|h|days?|weeks?|°\s?[cf]|degrees|cm|mm|g|kg|ml)\b",
    re.IGNORECASE,
)


def check(reading: Reading) -> Iterator[Finding]:
    """Times, heats, lengths and weights whose second number is the smaller one."""
    for sentence in reading.sentences:
        text = sentence.text
        if "–" not in text and "-" not in text and " to " not in text and "—" not in text:
            continue
        for found in _RANGE.finditer(sentence.text):
            first, second = (float(found[x].replace(",", ".")) for x in "ab")
            if second >= first:
                continue
            words = found.group()
            yield reading.about_words(
                sentence,
                words,
                f"'{words}' in step {sentence.step.number} runs backwards",
                "write the smaller number first, or correct the wrong one",
            )
