"""A portion holds more salt than anybody would want in one, or a ferment too little to be safe.

Look for a spoon or a digit gone wrong; ``eaten: 10%`` takes out brine, cure or cooking water. A portion
of over 10 g of salt is far more than an adult should have in a day (UK NHS: 6 g). Vegetables that ferment
under their own brine want about 2 % of their weight in salt, and never less than 1.5 % (common
practice; USDA Complete Guide to Home Canning, guide 6, has about 2 %, from memory).
"""

from __future__ import annotations

from collections.abc import Iterator

from sitegen.readthrough import portion_unusual
from sitegen.readthrough.rule import Finding, Reading

_MOST = 10.0  # g in a portion
_LEAST_OF_FERMENT = 0.015
_PER_SODIUM = 2.5 / 1000  # g of salt for a mg of sodium: Regulation (EU) 1169/2011, Annex I


def check(reading: Reading) -> Iterator[Finding]:
    """Salt of a portion, and of a ferment."""
    sodium = reading.dish.label.per_serving_values.get("sodium_mg", 0.0)
    salt = sodium * _PER_SODIUM
    if salt > _MOST and next(portion_unusual.check(reading), None) is None:
        index = _saltiest(reading)
        yield reading.about_line(
            index,
            f"a portion holds {salt:.0f} g of salt; an adult should have no more than 6 g in a day "
            "(UK NHS)",
            "look at this amount and at serves; 'eaten: 10%' takes out brine or cure that is left",
        )
    dish = reading.dish
    keys = [c.key for c in dish.cautions] + [c.key for c in dish.cautions_left_out]
    if "ferment" in keys:
        yield from _of_ferment(reading)


def _saltiest(reading: Reading) -> int:
    lines = reading.dish.label.lines
    return max(lines, key=lambda line: line.per_serving.get("sodium_mg", 0.0)).index


def _of_ferment(reading: Reading) -> Iterator[Finding]:
    grams = [row.grams for row in reading.rows]
    salts = [
        i
        for i, food in enumerate(reading.foods)
        if food is not None and "salt" in food.traits and grams[i] is not None
    ]
    known = sum(float(g) for g in grams if g is not None)
    salt = sum(float(grams[i] or 0) for i in salts)
    if not salts or not known or salt / known >= _LEAST_OF_FERMENT:
        return
    yield reading.about_line(
        salts[0],
        f"{salt:.0f} g of salt is {100 * salt / known:.1f} % of what ferments; under 1.5 % the wrong "
        "germs may win",
        "weigh about 2 % of the vegetables, brine included",
    )
