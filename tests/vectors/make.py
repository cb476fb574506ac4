"""Makes the cases that hold the page's arithmetic to Python's: same amount, same printed string.

Every ladder at every rung, band edge and tie between neighbours, and a little to either side of each;
every counted word; ranges; and seeded random amounts, each times factors that readers use and some
that nobody would. ``python -m tests.vectors.make`` prints them, one JSON list a line.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise
from random import Random
from typing import Any, NamedTuple

from sitegen.kitchen.printing import print_figure
from sitegen.kitchen.tables import ladders, nouns

FACTORS = (
    "1",
    "2",
    "1/2",
    "3/2",
    "2/3",
    "1/3",
    "3",
    "4/3",
    "5/6",
    "7/6",
    "12",
    "1/8",
    "355/452",
    "40",
)
ABOUT = (Fraction(1), Fraction(999, 1000), Fraction(1001, 1000), Fraction(39, 40), Fraction(41, 40))


WORDS = ("word that no table has", "leek|leeks", "sheep|sheep", "half|halves", "odd|", "|", "a|b|c")
"""What is counted and stands in no table: both forms in one, or something malformed."""


class Vector(NamedTuple):
    """What is printed, of what; rationals as text, as in the page's data attributes."""

    ladder: str
    value: str
    upto: str | None
    noun: str
    factor: str
    text: str


def vector(
    ladder: str, value: Fraction, upto: Fraction | None = None, noun: str = "", factor: str = "1"
) -> Vector:
    """One case, printed by the Python side."""
    by = Fraction(factor)
    text = print_figure(ladder, value * by, None if upto is None else upto * by, noun)
    return Vector(ladder, str(value), None if upto is None else str(upto), noun, factor, text)


def landmarks(spec: dict[str, Any]) -> list[Fraction]:
    """Where a ladder changes its mind: rungs, ties between rungs, band edges, ties between steps."""
    rungs = sorted(Fraction(rung[0]) for rung in spec.get("rungs", []))
    singles = sorted(Fraction(rung[0]) for rung in spec.get("rungs", []) if not rung[3])
    found = {*rungs, *((a + b) / 2 for row in (rungs, singles) for a, b in pairwise(row))}
    minor = spec["minor"][1] if "minor" in spec else []
    for band in [*spec["bands"], *minor]:
        edge = Fraction(band[0] or 2000)
        found.add(edge)
        if len(band) == 2:
            step = Fraction(band[1])
            found |= {edge - step / 2, edge - step, edge - step * Fraction(3, 2), step, step / 2}
        else:
            per, parts = Fraction(band[3]), [Fraction(part) for part in (*band[4], "1")]
            whole = (edge / per).__floor__() - 1
            for low, high in pairwise(parts):
                found |= {(whole + low) * per, (whole + (low + high) / 2) * per}
    if "from" in spec:
        start = Fraction(spec["from"])
        found |= {start, start - Fraction(1, 4), start - Fraction(1, 8), start + Fraction(1, 4)}
    return sorted(amount for amount in found if amount > 0)


def random_amount(rng: Random) -> Fraction:
    """From a thousandth to ten thousand, evenly over the orders of magnitude."""
    size = Fraction(10) ** rng.randint(-3, 3)
    return size * Fraction(rng.randint(1000, 9999), 1000) / rng.choice((1, 1, 2, 3, 7, 11))


def vectors(seed: int = 20) -> Iterator[Vector]:
    """The cases in an order that is always the same."""
    rng = Random(seed)
    for name, spec in sorted(ladders().items()):
        marks = landmarks(spec)
        for mark in marks:
            for about in ABOUT:
                yield vector(name, mark * about)
        for low, high in pairwise(marks):
            yield vector(name, low, high, factor=rng.choice(FACTORS))
        for factor in FACTORS:
            for _ in range(40):
                value = random_amount(rng)
                yield vector(name, value, factor=factor)
                upto = value * rng.choice((Fraction(101, 100), Fraction(4, 3), Fraction(5, 2), 1))
                yield vector(name, value, upto, factor=factor)
    for noun in (*sorted(nouns()), *WORDS):
        for ladder in ("count", "count-half"):
            for value in (Fraction(1, 2), Fraction(1), Fraction(3, 2), Fraction(7)):
                factor = rng.choice(FACTORS)
                yield vector(ladder, value, noun=noun, factor=factor)
                yield vector(ladder, value, value + rng.randint(1, 3), noun=noun, factor=factor)


if __name__ == "__main__":
    for each in vectors():
        print(json.dumps(each, ensure_ascii=False))
