"""A line counts something and weighs it, and no such thing weighs that: "3 leeks (80 g)".

Correct the count or the weight; ``note: as weighed`` under the line keeps both. From under half of
the smallest to over twice the largest that the larder knows, it is pointed out.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import NamedTuple

from sitegen.kitchen.units import dimension_of
from sitegen.larder.food import VOLUME_ML, Food
from sitegen.reading.naming import stem
from sitegen.readthrough.pair_volume_weight import as_weighed, total
from sitegen.readthrough.rule import Finding, Reading
from sitegen.readthrough.words import near

_SIZES = ("", "small", "medium", "large", "extra large", "whole", "fruit", "jumbo", "each")


def check(reading: Reading) -> Iterator[Finding]:
    """Counts against weights."""
    region = reading.settings.region
    for row in reading.rows:
        line = row.line
        if not line.measures or line.amount is None or line.amount.each:
            continue
        if as_weighed(line) or line.part_of:
            continue
        unit = line.amount.unit
        if unit and dimension_of(unit) != "count":
            continue
        weight = next((m for m in line.measures if dimension_of(m.unit) == "weight"), None)
        food = reading.foods[row.index]
        if weight is None or food is None:
            continue
        usual = _usual(food, unit, "" if unit else stem(line.food.split()[-1]))
        if usual is None:
            continue
        term = line.amount.terms[0]
        count = (term.value, term.upto or term.value)
        low, high = total(weight, region)
        each = (low, high) if weight.apiece else (low / count[1], high / count[0])
        if each[1] >= usual.least / 2 and each[0] * usual.edible <= usual.most * 2:
            continue
        weighs = f"{near(float(usual.least))}"
        if usual.most > usual.least * Fraction(11, 10):
            weighs += f" to {near(float(usual.most))}"
        yield reading.about_line(
            row.index,
            f"{line.amount.text} {line.food} at {weight.text} is {near(float(each[0]))} g each; one "
            f"usually weighs {weighs} g",
            "correct the count or the weight, or write 'note: as weighed' under the line",
        )


class _Usual(NamedTuple):
    """What one of a food weighs by the larder, in grams, and the share of it that is eaten."""

    least: Fraction
    most: Fraction
    edible: Fraction


def _usual(food: Food, unit: str, noun: str) -> _Usual | None:
    """The weights of one ``unit``, or of one piece that is named by ``noun``; None if none is known."""
    return food.once(("one", unit, noun), lambda: _reckoned(food, unit, noun))


def _reckoned(food: Food, unit: str, noun: str) -> _Usual | None:
    words = (unit,) if unit else (*_SIZES, noun)
    known = [
        m.grams / m.amount
        for m in food.measures
        if (m.unit not in VOLUME_ML and m.unit in words) or (unit and m.unit.endswith(f" {unit}"))
    ]
    edible = 1 - food.refuse if food.refuse < 1 else Fraction(1)
    return _Usual(min(known), max(known), edible) if known else None
