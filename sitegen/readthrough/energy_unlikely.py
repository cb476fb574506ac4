"""The energy of a portion is not believable for such a course.

Look for a figure too many, a wrong unit, or a wrong number of portions; and for frying oil or brine
that is not eaten, which ``eaten: 10%`` takes out. The bounds are wide (common practice).
"""

from __future__ import annotations

from collections.abc import Iterator

from sitegen.reading.courses import kind_of
from sitegen.readthrough import portion_unusual, yield_weight
from sitegen.readthrough.rule import Finding, Reading
from sitegen.readthrough.words import near

USUAL: dict[str, tuple[int, int]] = {
    "main": (120, 1300),
    "soup": (30, 900),
    "starter": (15, 800),
    "salad": (15, 900),
    "side": (8, 800),
    "pudding": (40, 1000),
    "dessert": (40, 1000),
    "baking": (30, 900),
    "cake": (60, 1000),
    "bread": (50, 900),
    "sauce": (1, 600),
    "snack": (10, 700),
    "breakfast": (60, 1100),
    "drink": (0, 700),
    "preserve": (1, 300),
}
"""kcal of a portion, by course: common practice, deliberately wide."""
_ANY = (1, 1600)
_DENSEST = 902.0  # kcal in 100 g of oil, USDA SR28: nothing eaten holds more


def check(reading: Reading) -> Iterator[Finding]:
    """Energy out of a course's bounds, or of any food's."""
    label = reading.dish.label
    each = label.per_serving_values.get("energy_kcal")
    if each is None:
        return
    low, high = USUAL.get(kind_of(reading.recipe.course), _ANY)
    if next(portion_unusual.check(reading), None) or next(yield_weight.check(reading), None):
        return  # the cause has been told already
    dense = label.per_100g_values.get("energy_kcal", 0.0)
    if dense > _DENSEST:
        yield reading.about_field(
            "weighs",
            f"100 g would hold {near(dense)} kcal; pure oil holds {near(_DENSEST)}",
            "correct the weight of the batch",
        )
    elif each > high or (each < low and label.covers >= 0.95):
        yield reading.about_field(
            "serves",
            f"a portion holds {near(each)} kcal; one of this course usually holds {low} to {high}",
            "look at serves and at the amounts; 'eaten: 10%' takes out frying oil that stays in the pan",
        )
