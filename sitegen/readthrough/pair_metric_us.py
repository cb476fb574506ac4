"""A line gives one thing in two systems, both weights or both volumes, and they are not the same.

Correct one of them: 1 oz is 28.35 g, 1 lb is 454 g, 1 US cup is 237 ml. Rounding to what kitchens
measure is fine; a gap of over 8 % is not.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import combinations

from sitegen.kitchen.units import dimension_of
from sitegen.reading.recipe import Measure
from sitegen.readthrough.pair_volume_weight import apart, as_weighed, total
from sitegen.readthrough.rule import Finding, Reading
from sitegen.readthrough.words import near

_GAP = Fraction(8, 100)


def check(reading: Reading) -> Iterator[Finding]:
    """Two weights, or two volumes, of one line."""
    region = reading.settings.region
    for row in reading.rows:
        line = row.line
        if not line.measures:
            continue
        measures: list[Measure] = [m for m in (line.amount, *line.measures) if m is not None]
        if as_weighed(line) or "drained" in line.text:
            continue
        for one, other in combinations(measures, 2):
            kind = dimension_of(one.unit)
            if kind == "count" or dimension_of(other.unit) != kind or one.apiece or other.apiece:
                continue
            if one.each or other.each:
                continue
            first, second = total(one, region), total(other, region)
            if apart(first, second) <= _GAP:
                continue
            unit = "g" if kind == "weight" else "ml"
            yield reading.about_line(
                row.index,
                f"{one.text} and {other.text} are not the same amount: {near(float(first[0]))} {unit} "
                f"against {near(float(second[0]))} {unit}",
                "correct one of the two, or leave one out: the page works it out",
            )
            break
