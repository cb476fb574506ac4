"""An amount is given in something that differs from kitchen to kitchen: a glass, a ladle, a handful
of something that matters.

Weigh or measure it once and write that, in place of the word or in brackets after it: "a handful of
rice (about 60 g)". Handfuls of herbs and leaves, and splashes to finish a dish, are left alone.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from sitegen.kitchen.units import dimension_of
from sitegen.reading.unit_words import VESSELS
from sitegen.readthrough.rule import Finding, Reading

NO_SIZE = re.compile(
    r"^(?:(?:large|small|good|generous|heaped|level|big)\s+)?(?P<word>glass(?:es)?|mugs?|bowls?"
    r"|bowlfuls?|ladles?|ladlefuls?|dollops?|glugs?|spoons?|spoonfuls?|spoonsful|teacups?|capfuls?"
    r"|shots?|scoops?|jugs?|plates?|lots?|bits?|some|heaps?|trickles?)\b\s*(?:of\b)?"
)
LOOSE = VESSELS | frozenset("handful knob splash drizzle glug dollop lump heap".split())
_LEAVES = frozenset("herbs vegetables fruit spices".split())


def check(reading: Reading) -> Iterator[Finding]:
    """Amounts that no two kitchens measure alike."""
    for row in reading.rows:
        line = row.line
        if line.amount is None:
            continue
        unit = line.amount.unit
        if unit and unit not in LOOSE:
            continue
        if any(dimension_of(m.unit) != "count" for m in line.measures if m.unit):
            continue
        odd = NO_SIZE.match(line.food.lower()) if not unit else None
        word = odd["word"] if odd else unit if unit in LOOSE else ""
        if not word:
            continue
        if not odd and (
            row.aisle in _LEAVES
            or line.remarks
            or (unit == "knob" and "butter" in line.food)
            or (unit in ("splash", "drizzle", "glug") and row.aisle in ("oils", "sauces"))
        ):
            continue
        yield reading.about_line(
            row.index,
            f"'{line.amount.text} {word if odd else ''}'".replace(" '", "'")
            + " has no size of its own, so it can't be weighed, scaled or counted",
            f"measure it once and write it so: '{line.text} (about 60 g)', with your figure",
        )
