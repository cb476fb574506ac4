"""The weight and the volume of the batch do not fit each other, or the volume and what goes in.

A millilitre of food weighs from 0.3 g (whipped, puffed) to 1.45 g (syrup). Measure the batch again.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from sitegen.kitchen.units import size_of
from sitegen.readthrough.rule import Finding, Reading
from sitegen.readthrough.words import near

_LIGHTEST, _HEAVIEST = 0.3, 1.45


def check(reading: Reading) -> Iterator[Finding]:
    """Grams to the millilitre, out of what foods have."""
    volume = reading.recipe.volume
    grams = reading.dish.contents.batch_grams
    if volume is None or not grams:
        return
    ml = float(volume.value * (size_of(volume.unit, reading.settings.region) or Fraction(1)))
    if not ml or _LIGHTEST <= grams / ml <= _HEAVIEST:
        return
    yield reading.about_field(
        "volume",
        f"the batch fills {near(ml)} ml and weighs {near(grams)} g: {grams / ml:.1f} g to the millilitre",
        "correct the volume or the weight",
    )
