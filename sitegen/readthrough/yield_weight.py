"""The finished batch is said to weigh more than went in, or less than half of it.

Weigh the batch again, or correct an amount; water that the method adds without a line in the list
belongs in the list. Half gone is more than ovens and pans usually take.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction

from sitegen.kitchen.units import size_of
from sitegen.readthrough.rule import Finding, Reading
from sitegen.readthrough.words import near

_MORE, _LESS = 1.15, 0.45


_EACH = re.compile(r"(\d+(?:[.,]\d+)?)\s*(kg|g)\b")
_FULL = 1.2


def check(reading: Reading) -> Iterator[Finding]:
    """``weighs`` against the sum of the list, and ``5 jars (340 g each)`` against both."""
    weighs = reading.recipe.weighs
    portions = reading.dish.contents.portions
    if weighs is None:
        yield from _of_each(reading, None)
        return
    if not portions:
        return
    eaten = [p.eaten for p in portions]
    known = sum(e for e in eaten if e)
    given = float(weighs.value * (size_of(weighs.unit, reading.settings.region) or Fraction(1)))
    complete = all(e is not None for e in eaten)
    if not known:
        return
    yield from _of_each(reading, given)
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


def _of_each(reading: Reading, given: float | None) -> Iterator[Finding]:
    """More jars or pieces of one weight than the batch can fill."""
    makes, eaten = reading.recipe.makes, reading.dish.contents.eaten
    found = _EACH.search(makes.noun) if makes else None
    if makes is None or found is None:
        return
    size = float(found[1].replace(",", ".")) * (1000 if found[2] == "kg" else 1)
    filled, batch = float(makes.number) * size, given if given is not None else eaten
    if batch and filled > batch * _FULL:
        yield reading.about_field(
            "makes",
            f"{makes.text} hold {near(filled)} g, and the batch comes to {near(batch)} g",
            "correct the number or the size of what it makes",
        )
