"""The finished batch is said to weigh more than went in, or less than half of it.

Weigh the batch again, or correct an amount; water that the method adds without a line in the list
belongs in the list. Half gone is more than ovens and pans usually take.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from sitegen.kitchen.units import size_of
from sitegen.readthrough.rule import Finding, Reading
from sitegen.readthrough.words import near

_MORE, _LESS = 1.15, 0.45


def check(reading: Reading) -> Iterator[Finding]:
    """``weighs`` against the sum of the list."""
    weighs = reading.recipe.weighs
    portions = reading.dish.contents.portions
    if weighs is None or not portions:
        return
    eaten = [p.eaten for p in portions]
    known = sum(e for e in eaten if e)
    given = float(weighs.value * (size_of(weighs.unit, reading.settings.region) or Fraction(1)))
    complete = all(e is not None for e in eaten)
    if not known:
        return
    if complete and given > known * _MORE:
        yield reading.about_field(
            "weighs",
            f"the batch is said to weigh {near(given)} g, and the ingredients come to {near(known)} g",
            "correct the weight or an amount; list the water that goes in",
        )
    elif given < known * _LESS:
        yield reading.about_field(
            "weighs",
            f"the batch is said to weigh {near(given)} g, and {near(known)} g of ingredients go in",
            "correct the weight or an amount; 'eaten: 30%' says how much of a brine, a marinade or "
            "frying oil stays in the food",
        )
