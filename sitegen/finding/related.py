"""Recipes that a reader of one may want next: alike in what they are made of and how they are filed."""

from __future__ import annotations

from collections.abc import Mapping
from math import log1p
from typing import Final

from sitegen.dish import Dish
from sitegen.finding.foods import main_foods

SHOWN: Final = 4
"""How many a page shows at most."""
_WORTH: Final = {"food": 3.0, "tag": 2.0, "course": 2.0, "cuisine": 1.0}
"""What it counts to have one of these in common, before rarity."""
_ENOUGH: Final = 2.5
"""Course and cuisine alone, where half the site shares them, make no relation."""

Trait = tuple[str, str]


class Relations:
    """Who is related to whom in a site; a trait that few recipes have counts for more."""

    def __init__(self, dishes: Mapping[str, Dish]) -> None:
        self._dishes = dishes
        self._traits = {slug: _traits(dish) for slug, dish in dishes.items()}
        self._holders: dict[Trait, list[str]] = {}
        for slug, traits in self._traits.items():
            for trait in traits:
                self._holders.setdefault(trait, []).append(slug)

    def of(self, slug: str, *, but: frozenset[str] = frozenset()) -> tuple[Dish, ...]:
        """The nearest to a dish, nearest first, never itself nor any of ``but``; ties by title."""
        scores: dict[str, float] = {}
        for trait in self._traits[slug]:
            holders = self._holders[trait]
            worth = _WORTH[trait[0]] * log1p(len(self._dishes) / len(holders))
            for other in holders:
                scores[other] = scores.get(other, 0.0) + worth
        order = {other: place for place, other in enumerate(self._dishes)}
        near = [
            other
            for other, score in scores.items()
            if score >= _ENOUGH and other != slug and other not in but
        ]
        near.sort(key=lambda other: (-round(scores[other], 6), order[other]))
        return tuple(self._dishes[other] for other in near[:SHOWN])


_KNOWN: dict[str, tuple[Dish, tuple[Trait, ...]]] = {}
"""The last dish of each name: a preview asks anew after each save, and one dish is another then."""


def _traits(dish: Dish) -> tuple[Trait, ...]:
    known = _KNOWN.get(dish.recipe.slug)
    if known is None or known[0] is not dish:
        known = _KNOWN[dish.recipe.slug] = (dish, _found(dish))
    return known[1]


def _found(dish: Dish) -> tuple[Trait, ...]:
    recipe = dish.recipe
    found = [
        *(("food", name) for name in main_foods(dish)),
        *(("tag", tag.casefold()) for tag in recipe.tags),
        ("course", recipe.course),
        ("cuisine", recipe.cuisine),
    ]
    return tuple(dict.fromkeys(trait for trait in found if trait[1]))
