"""A portion weighs far less or far more than such a course usually is.

Look at ``serves``, and at the amounts for a figure too many. The bounds are wide (common practice):
a main dish of 180 to 950 g, a soup of 180 to 800 g, and so on for each course.
"""

from __future__ import annotations

from collections.abc import Iterator

from sitegen.reading.courses import kind_of
from sitegen.readthrough.rule import Finding, Reading
from sitegen.readthrough.words import near

USUAL: dict[str, tuple[int, int]] = {
    "main": (180, 950),
    "soup": (180, 800),
    "starter": (50, 450),
    "salad": (60, 600),
    "side": (50, 450),
    "pudding": (50, 450),
    "dessert": (50, 450),
    "baking": (20, 280),
    "cake": (30, 280),
    "bread": (30, 280),
    "sauce": (8, 250),
    "snack": (10, 250),
    "breakfast": (60, 600),
    "drink": (40, 700),
    "preserve": (8, 250),
}
"""Grams of a portion as served, by course: common practice, deliberately wide."""


def check(reading: Reading) -> Iterator[Finding]:
    """Portions out of a course's bounds."""
    bounds = USUAL.get(kind_of(reading.recipe.course))
    batch = reading.dish.contents.batch_grams
    if bounds is None or not batch:
        return
    each = batch / reading.recipe.serves
    low, high = bounds
    complete = all(p.eaten is not None for p in reading.dish.contents.portions)
    if each > high or (complete and each < low):
        yield reading.about_field(
            "serves",
            f"a portion weighs about {near(each)} g; one of this course usually weighs "
            f"{low} to {high} g",
            "look at serves, and at the amounts for a figure too many or too few",
        )
