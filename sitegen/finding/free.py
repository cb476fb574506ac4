"""Lists for those who must avoid something: only dishes of which it is known."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Final

from sitegen.dish import Dish
from sitegen.late import noted
from sitegen.nutrition.allergens import IMPLIED, may_hold
from sitegen.nutrition.laws import LAWS, PLAIN_NAMES

_NUTS: Final = "nuts"
_SAME: Final[Mapping[str, str]] = {"pine nuts": _NUTS, "chestnuts": _NUTS}
"""Not nuts by every law, but whoever avoids nuts will want to know."""


def avoided(region: str) -> Mapping[str, frozenset[str]]:
    """What a list can be free of → the larder's allergen keys that it must then not hold.

    Wider than the region's law rather than narrower: all four cereals with gluten and all nuts stay
    together, since that is how they are avoided. The names are the law's where it has one.

    >>> sorted(avoided("us")["cereals containing gluten"])
    ['barley', 'oats', 'rye', 'wheat']
    """
    law = LAWS[region].names
    keys: dict[str, set[str]] = {}
    for key, (name, _) in PLAIN_NAMES.items():
        keys.setdefault(_SAME.get(name, name), set()).add(key)
    named = {}
    for name, held in keys.items():
        lawful = {law[key][0] for key in held if key in law}
        single = len(held) == 1 or (name == _NUTS and len(lawful) == 1)
        named[lawful.pop() if lawful and single else name] = frozenset(held)
    return named


def free_of(dish: Dish, names: Mapping[str, frozenset[str]]) -> tuple[str, ...]:
    """Those of ``names`` that the dish is known to be free of; none if anything in it is not known."""
    held = _held(dish)
    return () if held is None else tuple(name for name, keys in names.items() if not keys & held)


@noted(Dish)
def _held(dish: Dish) -> frozenset[str] | None:
    return may_hold(dish.contents, dish.recipe.may_contain)


def all_diets(claims: Iterable[str]) -> tuple[str, ...]:
    """A dish's claims with what follows from them: what is vegan is vegetarian too."""
    return tuple(
        dict.fromkeys(name for claim in claims for name in (claim, *IMPLIED.get(claim, ())))
    )
