"""An oven temperature does not say whether it is for a fan oven or a conventional one.

Write "180 °C fan" or "200 °C conventional". Fahrenheit settings and gas marks are conventional by
custom and need no word. Unsaid, a setting is taken as conventional.
"""

from __future__ import annotations

from collections.abc import Iterator

from sitegen.reading.recipe import Temperature
from sitegen.reading.sentences import Sentence
from sitegen.readthrough.rule import Finding, Reading, shared


def check(reading: Reading) -> Iterator[Finding]:
    """Settings without a word about the fan, in a recipe that never says one."""
    found = settings(reading)
    if reading.settings.region == "us" or any(h.air for _, h in found):
        return
    for sentence, heat in found[:1]:
        if heat.unit == "C":
            yield reading.about_words(
                sentence,
                heat.text,
                f"'{heat.text}' may be meant for a fan oven or for a conventional one; the page "
                "takes it as conventional",
                f"write '{heat.text} fan' or '{heat.text} conventional'",
            )


@shared
def settings(reading: Reading) -> tuple[tuple[Sentence, Temperature], ...]:
    """The oven settings, in order."""
    return tuple((s, h) for s in reading.sentences for h in s.heats if h.use == "oven")
