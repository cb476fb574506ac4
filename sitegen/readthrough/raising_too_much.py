"""There is far more raising agent than the flour can take.

Look for a tablespoon that should be a teaspoon. Usual are 1/2 to 1 1/4 tsp of bicarbonate of soda, or 1 to
3 tsp of baking powder, for 250 g of flour (common practice); more tastes of soap, and falls again.
"""

from __future__ import annotations

from collections.abc import Iterator

from sitegen.larder.food import Food
from sitegen.readthrough.core_too_low import all_traits
from sitegen.readthrough.rule import Finding, Reading

_MOST = {"bicarbonate": 0.04, "baking powder": 0.11}
"""Grams for a gram of flour and what stands in for it: over twice what is usual."""
_LEAST_FLOUR = 50


def check(reading: Reading) -> Iterator[Finding]:
    """Raising agents by their share of the flour."""
    if "leavening" not in all_traits(reading):
        return
    raising = [
        (i, kind)
        for i, food in enumerate(reading.foods)
        if food is not None and "leavening" in food.traits
        for kind in _MOST
        if kind in food.name
    ]
    if not raising:
        return
    flour = sum(
        float(row.grams)
        for row, food in zip(reading.rows, reading.foods, strict=True)
        if row.grams is not None and food is not None and _bulk(food)
    )
    if flour < _LEAST_FLOUR:
        return
    for index, kind in raising:
        grams = reading.rows[index].grams
        if grams is None or float(grams) <= _MOST[kind] * flour:
            continue
        line = reading.rows[index].line
        amount = line.amount.text if line.amount else f"{float(grams):.0f} g"
        yield reading.about_line(
            index,
            f"{amount} of {line.food} is {float(grams):.0f} g for {flour:.0f} g of flour: at least "
            "twice what any batter needs",
            "write tsp for tbsp, or correct the figure",
        )


def _bulk(food: Food) -> bool:
    """Flour, and what bakers put in its place."""
    words = ("flour", "oats", "cocoa", "ground almonds", "polenta", "semolina", "cornmeal", "bran")
    return "raw-flour" in food.traits or any(word in food.name for word in words)
