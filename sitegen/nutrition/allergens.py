"""Allergen statements by the law of the region, and the diets that a dish's ingredients allow.

"Contains" counts every ingredient, at any depth, and whatever the reader may choose instead. A diet
is claimed only when every ingredient is known to allow it.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from functools import cache
from typing import Final

from sitegen.dish import Allergens
from sitegen.larder.vocabulary import ALLERGEN_ALIASES, ALLERGENS
from sitegen.nutrition.contents import Brought, Contents
from sitegen.nutrition.laws import LAWS, PLAIN_NAMES, Law, Names


def statement(contents: Contents, may_contain: Sequence[str], region: str) -> Allergens:
    """What the dish contains, in the law's own names, and what brings it."""
    law, others, packets = _law(region)
    because = _named(_either(contents.contains, contents.swapped), law.names)
    packet = _named(contents.may_contain, packets)
    return Allergens(
        law=law.title,
        contains=tuple(because),
        because=because,
        check_packet=tuple(f"{name} ({', '.join(foods)})" for name, foods in packet.items()),
        author_may_contain=tuple(dict.fromkeys((*may_contain, *contents.told))),
        unsure=contents.unknown,
        swaps=tuple(
            f"{name}, only if you use {' or '.join(foods)}"
            for name, foods in _named(contents.swapped, law.names).items()
        ),
        beyond=_named(_either(contents.contains, contents.swapped), others),
    )


@cache
def _law(region: str) -> tuple[Law, Names, Names]:
    """A region's law, the names of what it does not name, and those for which a packet is read."""
    law = LAWS[region]
    others = {key: name for key, name in PLAIN_NAMES.items() if key not in law.names}
    return law, others, {**law.names, **others}  # a packet may be read for more than the law asks


def _either(first: Brought, second: Brought) -> dict[str, tuple[str, ...]]:
    keys = first.keys() | second.keys()
    return {key: (*first.get(key, ()), *second.get(key, ())) for key in keys}


def _named(found: Brought, names: Names) -> dict[str, tuple[str, ...]]:
    """Allergens by the law's name, in the law's order: ``nuts (almonds, walnuts)``."""
    grouped: dict[str, tuple[list[str], list[str]]] = {}
    for key, (law_name, particular) in names.items():
        if key not in found:
            continue
        kinds, foods = grouped.setdefault(law_name, ([], []))
        if particular:
            kinds.append(particular)
        foods.extend(found[key])
    return {
        (f"{name} ({', '.join(kinds)})" if kinds else name): tuple(dict.fromkeys(foods))
        for name, (kinds, foods) in grouped.items()
    }


_ANIMAL: Final = frozenset("meat pork poultry fish shellfish gelatine insect".split())
_SEA: Final = frozenset({"fish", "crustaceans", "molluscs"})
_GLUTEN: Final = frozenset({"wheat", "rye", "barley", "oats"})

# Claim → (classes that rule it out, allergens that rule it out)
DIETS: Final[Mapping[str, tuple[frozenset[str], frozenset[str]]]] = {
    "vegan": (_ANIMAL | {"dairy", "egg", "honey", "rennet"}, _SEA | {"milk", "eggs"}),
    "vegetarian": (_ANIMAL | {"rennet"}, _SEA),
    "gluten-free ingredients": (frozenset({"gluten"}), _GLUTEN),
    "dairy-free ingredients": (frozenset({"dairy"}), frozenset({"milk"})),
}

IMPLIED: Final[Mapping[str, tuple[str, ...]]] = {
    "vegan": ("vegetarian", "dairy-free ingredients"),
}
"""What follows from a claim, and is not said beside it."""

# What an author writes under "may contain" → the larder's keys. Words that are not here, nor an
# allergen's own name, could mean anything.
_WRITTEN: Final[Mapping[str, frozenset[str]]] = {
    "gluten": _GLUTEN,
    "cereals containing gluten": _GLUTEN,
    "dairy": frozenset({"milk"}),
    "lactose": frozenset({"milk"}),
    "shellfish": frozenset({"crustaceans", "molluscs"}),
    "crustacean": frozenset({"crustaceans"}),
    "mollusc": frozenset({"molluscs"}),
    "soybeans": frozenset({"soya"}),
    "soybean": frozenset({"soya"}),
    "peanut": frozenset({"peanuts"}),
    "sesame seeds": frozenset({"sesame"}),
    "sulphur dioxide": frozenset({"sulphites"}),
    "sulfites": frozenset({"sulphites"}),
    "nuts": frozenset({"almonds"}),
    "tree nuts": frozenset({"almonds"}),
}


def _meant(words: Sequence[str]) -> frozenset[str] | None:
    """The allergens that the author's words mean; None if one of them is not understood."""
    found: set[str] = set()
    for written in words:
        plain = " ".join(written.lower().split())
        plain = re.sub(r"^(?:traces? of|some) ", "", plain)
        key = plain.replace(" ", "-")
        key = ALLERGEN_ALIASES.get(key, key)
        for candidate in (key, f"{key}s"):
            if candidate in ALLERGENS:
                found.add(candidate)
                break
        else:
            meant = _WRITTEN.get(plain)
            if meant is None:
                return None
            found |= meant
    return frozenset(found)


def may_hold(contents: Contents, may_contain: Sequence[str]) -> frozenset[str] | None:
    """Every allergen, by the larder's keys, that the dish contains or may contain.

    None where nobody can tell: an ingredient is unknown, a made product varies, or an author's
    "may contain" is not understood. A doubt counts as surely as a fact: an allergen that depends on
    the maker, a swap, an alternative, and what an author says it may contain. What is not in the
    answer is absent by every ingredient's own figures.
    """
    told = _meant((*may_contain, *contents.told))
    if contents.unknown or contents.varies or not contents.portions or told is None:
        return None
    gluten = _GLUTEN if "gluten" in contents.classes | contents.unsure_classes else ()
    return frozenset({*contents.contains, *contents.swapped, *contents.may_contain, *told, *gluten})


def diets(contents: Contents, may_contain: Sequence[str]) -> tuple[str, ...]:
    """Claims that every ingredient is known to allow; none at all if one ingredient is unknown.

    A doubt rules a claim out as surely as a fact: a class that depends on the maker, and all that
    :func:`may_hold` names. Vegan implies vegetarian and dairy-free, so only the stronger is given.
    """
    allergens = may_hold(contents, may_contain)
    if allergens is None:
        return ()
    classes = contents.classes | contents.unsure_classes
    allowed = [
        name
        for name, (bad_classes, bad_allergens) in DIETS.items()
        if not bad_classes & classes and not bad_allergens & allergens
    ]
    if "vegan" in allowed:
        allowed = [n for n in allowed if n not in IMPLIED["vegan"]]
    return tuple(allowed)
