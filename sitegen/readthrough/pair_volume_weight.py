"""A line gives a volume and a weight of the same thing, and they do not fit each other.

The larder knows what a cup or a spoon of the food weighs, from a table with a source; a gap of over
15 % is pointed out. If you have weighed it and mean it, write ``note: as weighed`` under the line.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from sitegen.kitchen.units import dimension_of, size_of
from sitegen.kitchen.weighing import density
from sitegen.reading.recipe import IngredientLine, Measure
from sitegen.readthrough.rule import Finding, Reading
from sitegen.readthrough.words import LOOSE, near

GAP = Fraction(15, 100)
_SPOONS = Fraction(30, 100)  # a level spoon is read off to a third at best; a cup is not
_LOOSE = Fraction(150, 100)  # heaped, a spoon holds up to twice as much and more
_ONE = Fraction(1)
Span = tuple[Fraction, Fraction]


def check(reading: Reading) -> Iterator[Finding]:
    """Cups and spoons against grams and ounces."""
    region = reading.settings.region
    for row in reading.rows:
        line = row.line
        if not line.measures or as_weighed(line):
            continue
        measures = [m for m in (line.amount, *line.measures) if m is not None and not m.each]
        volumes = [m for m in measures if dimension_of(m.unit) == "volume" and not m.apiece]
        weights = [m for m in measures if dimension_of(m.unit) == "weight" and not m.apiece]
        food = reading.foods[row.index]
        if not volumes or not weights or food is None:
            continue
        found = density(food, volumes[0].unit, line.states)
        if found is None:
            continue
        per_ml, whose = found
        low, high = total(volumes[0], region)
        expected = low * per_ml, high * per_ml
        given = total(weights[0], region)
        small = volumes[0].unit in ("tsp", "tbsp", "dsp", "us tsp", "us tbsp") and high < 40
        allowed = _SPOONS if small else GAP
        if not LOOSE.isdisjoint(line.remarks):
            allowed = _LOOSE
        if apart(expected, given) <= allowed:
            continue
        yield reading.about_line(
            row.index,
            f"{volumes[0].text} of {line.food} weighs about {near(float(expected[0]))} g, and the "
            f"line says {weights[0].text} ({whose})",
            "correct one of the two, or write 'note: as weighed' under the line if it is right",
        )


def as_weighed(line: IngredientLine) -> bool:
    """Whether the author says that the figures were measured."""
    return "as weighed" in f"{line.note} {line.text}".lower()


def total(measure: Measure, region: str) -> Span:
    """A measure in grams or millilitres, from its low to its high end."""
    if len(measure.terms) == 1:
        (term,) = measure.terms
        size = size_of(term.unit, region) or _ONE
        low = term.value * size
        return low, low if term.upto is None else term.upto * size
    low = high = Fraction(0)
    for term in measure.terms:
        size = size_of(term.unit, region) or _ONE
        least = term.value * size
        low += least
        high += least if term.upto is None else term.upto * size
    return low, high


def apart(one: Span, other: Span) -> Fraction:
    """How far two ranges are from meeting, as a share of the smaller.

    >>> apart((Fraction(100), Fraction(110)), (Fraction(121), Fraction(121)))
    Fraction(1, 10)
    """
    if one[1] < other[0]:
        return other[0] / one[1] - 1 if one[1] else Fraction(9)
    if other[1] < one[0]:
        return one[0] / other[1] - 1 if other[1] else Fraction(9)
    return Fraction(0)
