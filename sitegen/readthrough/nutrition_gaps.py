"""The nutrition figures rest on less than nine tenths of the dish's weight.

Pin the foods that are not known (``food:``), weigh the lines that have no weight, or add the food to
``content/larder`` with its source. Until then the label says how much it covers.
"""

from __future__ import annotations

from collections.abc import Iterator

from sitegen.readthrough.rule import Finding, Reading
from sitegen.readthrough.words import listed

LEAST = 0.9


def check(reading: Reading) -> Iterator[Finding]:
    """Low coverage."""
    contents = reading.dish.contents
    without = [p for p in contents.portions if p.eaten is None or "energy_kcal" not in p.nutrients]
    if not without or contents.covers >= LEAST:
        return
    names = [reading.rows[p.index].line.food for p in without if p.eaten != 0]
    if not names:
        return
    yield reading.about_field(
        "ingredients",
        f"the nutrition covers {contents.covers:.0%} of the weight; left out: {listed(names)}",
        "pin the foods with 'food: …', or give the lines a weight in brackets",
    )
