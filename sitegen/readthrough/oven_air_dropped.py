"""One oven setting says "fan", and another says nothing: the page takes the second as conventional,
which is 20 °C less heat than the same figure with the fan.

Write "fan" after it as well, or "conventional" if you mean that.
"""

from __future__ import annotations

from collections.abc import Iterator

from sitegen.readthrough.oven_air_unsaid import settings
from sitegen.readthrough.rule import Finding, Reading


def check(reading: Reading) -> Iterator[Finding]:
    """Settings that have lost their fan."""
    found = settings(reading)
    first = next((h for _, h in found if h.air == "fan"), None)
    if first is None:
        return
    for sentence, heat in found:
        if heat.unit == "gas" or heat.air:
            continue
        yield reading.about_words(
            sentence,
            heat.text,
            f"'{first.text}' is for a fan oven, and '{heat.text}' in step {sentence.step.number} "
            "does not say; the page would print it as conventional",
            f"write '{heat.text} fan', or '{heat.text} conventional' if that is meant",
        )
