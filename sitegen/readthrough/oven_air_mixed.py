"""One oven setting of the recipe is for a fan oven and another for a conventional one.

Give both the same way. The page shows each in both forms, so nothing is lost; a figure with the
wrong word after it would be 20 °C off.
"""

from __future__ import annotations

from collections.abc import Iterator

from sitegen.readthrough.oven_air_unsaid import settings
from sitegen.readthrough.rule import Finding, Reading


def check(reading: Reading) -> Iterator[Finding]:
    """The first setting that is of the other kind."""
    found = [(s, h) for s, h in settings(reading) if h.air]
    for sentence, heat in found:
        if heat.air != found[0][1].air:
            yield reading.about_words(
                sentence,
                heat.text,
                f"'{found[0][1].text}' and '{heat.text}': one is with the fan, one without",
                f"give both settings as {found[0][1].air}",
            )
            return
