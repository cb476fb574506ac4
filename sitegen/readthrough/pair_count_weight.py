"""A line counts something and weighs it, and no such thing weighs that: "3 leeks (80 g)".

Correct the count or the weight; ``note: as weighed`` under the line keeps both. From under half of
the smallest to over twice the largest that the larder knows, it is pointed out.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from sitegen.kitchen.units import dimension_of
from sitegen.larder.food import VOLUME_ML
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
        words = (unit,) if unit else (*_SIZES, stem(line.food.split()[-1]))
        known = [
            m.grams / m.amount
            for m in food.measures
            if (m.unit not in VOLUME_ML and m.unit in words)
            or (unit and m.unit.endswith(f" {unit}"))
        ]
        if not known:
            continue
        term = line.amount.terms[0]
        count = (term.value, term.upto or term.value)
        low, high = total(weight, region)
        each = (low, high) if weight.apiece else (low / count[1], high / count[0])
        edible = 1 - food.refuse if food.refuse < 1 else Fraction(1)
        if each[1] >= min(known) / 2 and each[0] * edible <= max(known) * 2:
            continue
        usual = f"{near(float(min(known)))}"
        if max(known) > min(known) * Fraction(11, 10):
            usual += f" to {near(float(max(known)))}"
        yield reading.about_line(
            row.index,
            f"{line.amount.text} {line.food} at {weight.text} is {near(float(each[0]))} g each; one "
            f"usually weighs {usual} g",
            "correct the count or the weight, or write 'note: as weighed' under the line",
        )
