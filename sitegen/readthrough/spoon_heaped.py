"""A spoon or cup is heaped, rounded or scant, and the line says nothing of its weight.

Heaped, a spoon of flour holds half as much again or twice as much as level (common practice), and no
table says which: the page works with the level measure. Write level spoons, or give the grams beside
it: ``1 heaped tbsp (15 g) plain flour``.
"""

from __future__ import annotations

from collections.abc import Iterator

from sitegen.kitchen.units import dimension_of
from sitegen.readthrough.rule import Finding, Reading
from sitegen.readthrough.words import LOOSE, near


def check(reading: Reading) -> Iterator[Finding]:
    """Measures by volume that are not level, with no weight beside them."""
    for row in reading.rows:
        line = row.line
        how = next((words for words in line.remarks if words in LOOSE), "")
        if not how or line.amount is None or dimension_of(line.amount.unit) != "volume":
            continue
        if any(dimension_of(measure.unit) == "weight" for measure in line.measures):
            continue
        level = f", about {near(float(row.grams))} g" if row.grams else ""
        yield reading.about_line(
            row.index,
            f"{line.amount.text} is {how}, and is worked out as if it were level{level}",
            "write it in level measures, or put the grams beside it in brackets",
        )
