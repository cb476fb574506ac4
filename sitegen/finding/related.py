"""Recipes that a reader of one may want next: alike in what they are made of and how they are filed."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Mapping
from copy import copy
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

_LOOKED_AT: Final = 80
"""How many recipes are weighed against one at least, if so many have anything in common with it:
they are found by its rarest traits, so that a page costs as much on a large site as on a small one."""

Trait = tuple[str, str]


class Relations:
    """Who is related to whom in a site; a trait that few recipes have counts for more."""

    def __init__(self, dishes: Mapping[str, Dish]) -> None:
        self._dishes = dishes
        self._traits = {slug: frozenset(_traits(dish)) for slug, dish in dishes.items()}
        self._order = {slug: place for place, slug in enumerate(dishes)}
        self._holders: dict[Trait, list[str]] = {}
        for slug, traits in self._traits.items():
            for trait in traits:
                self._holders.setdefault(trait, []).append(slug)
        self._having = {trait: set(holders) for trait, holders in self._holders.items()}
        # Whole millionths, so that sums are the same in whatever order they are made.
        self._worth = {
            trait: round(1e6 * _WORTH[trait[0]] * log1p(len(dishes) / len(holders)))
            for trait, holders in self._holders.items()
        }

    @classmethod
    def after(cls, dishes: Mapping[str, Dish], before: Relations | None) -> Relations:
        """The same as anew; if no dish has come, gone or another trait, with little to do."""
        if before is None or list(dishes) != list(before._order):
            return cls(dishes)
        others = (slug for slug, dish in dishes.items() if before._dishes[slug] is not dish)
        if any(frozenset(_traits(dishes[slug])) != before._traits[slug] for slug in others):
            return cls(dishes)
        made = copy(before)
        made._dishes = dishes
        return made

    def of(self, slug: str, *, but: frozenset[str] = frozenset()) -> tuple[Dish, ...]:
        """The nearest to a dish, nearest first, never itself nor any of ``but``; ties by title."""
        looked_at = self._looked_at(slug) - but
        scores = dict.fromkeys(looked_at, 0)
        for trait in self._traits[slug]:
            worth = self._worth[trait]
            for other in self._having[trait] & looked_at:
                scores[other] += worth
        best = sorted(scores.values(), reverse=True)[:SHOWN]
        least = max(best[-1] if best else 0, _ENOUGH * 1e6)
        near = [other for other, score in scores.items() if score >= least]
        near.sort(key=lambda other: (-scores[other], self._order[other]))
        return tuple([self._dishes[other] for other in near[:SHOWN]])

    def _looked_at(self, slug: str) -> set[str]:
        """Those that share its rarest traits; of a trait that many have, its neighbours by title."""
        found: set[str] = set()
        place = self._order[slug]
        rarest_first = sorted(self._traits[slug], key=lambda t: (len(self._holders[t]), t))
        for trait in rarest_first:
            holders = self._holders[trait]
            if len(holders) > 2 * _LOOKED_AT:
                here = bisect_left(holders, place, key=self._order.__getitem__)
                first = min(max(here - _LOOKED_AT, 0), len(holders) - 2 * _LOOKED_AT)
                holders = holders[first : first + 2 * _LOOKED_AT]
            found.update(holders)
            if len(found) > _LOOKED_AT:
                break
        found.discard(slug)
        return found


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
