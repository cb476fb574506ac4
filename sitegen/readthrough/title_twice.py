"""Two recipes have the same title.

Say in each what tells it from the other: what is in it, whose it is, how it is cooked. A variation may
name what it varies.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from sitegen.dish import Dish
from sitegen.readthrough.rule import Finding, about_field_of


def check(dishes: Sequence[Dish]) -> Iterator[tuple[Dish, Finding]]:
    """Titles that stand on an earlier recipe too, small and capital letters and space apart."""
    first: dict[str, Dish] = {}
    for dish in dishes:
        known = first.setdefault(" ".join(dish.recipe.title.casefold().split()), dish)
        if known is not dish:
            yield (
                dish,
                about_field_of(
                    dish.recipe,
                    "title",
                    f"'{dish.recipe.title}' is the title of {known.recipe.file} too",
                    "give each a title that tells it from the other",
                ),
            )
