"""Oil for deep-frying is heated further than is safe.

Fry between 160 and 190 °C (320 to 375 °F): common practice. Over 200 °C most oils smoke, and a little
further they catch fire; look for a scale or a digit gone wrong.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from sitegen.readthrough.core_too_low import celsius
from sitegen.readthrough.rule import Finding, Reading

_MOST = 205
"""°C: 400 °F is printed now and then, and smokes."""
_OIL = re.compile(r"\b(?:oil|fryer|deep[- ]fr\w+|lard|dripping|fat)\b")
_ELSEWHERE = re.compile(r"\boven\b|\btin\b|\broast\w*\b|\bbak(?:e|ing)\b|\bgrill\b")


def check(reading: Reading) -> Iterator[Finding]:
    """Temperatures of frying oil over the limit."""
    for sentence in reading.sentences:
        if not sentence.heats:
            continue
        if not any(celsius(heat) > _MOST for heat in sentence.heats if heat.unit != "gas"):
            continue
        if not _OIL.search(sentence.low) or _ELSEWHERE.search(sentence.low):
            continue
        for heat in sentence.heats:
            if heat.unit == "gas" or celsius(heat) <= _MOST:
                continue
            yield reading.about_words(
                sentence,
                heat.text,
                f"oil at {heat.text} is past smoking and near catching fire",
                "write 160 to 190 °C (320 to 375 °F), or correct the scale",
            )
