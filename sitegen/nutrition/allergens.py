"""Allergen statements by the law of the region, and the diets that a dish's ingredients allow.

EU and UK: the 14 of Regulation (EU) 1169/2011, Annex II. US: the nine of FD&C Act 201(qq) with the
FASTER Act of 2021. A diet is claimed only when every ingredient is known to allow it.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from sitegen.dish import Allergens
from sitegen.nutrition.contents import Contents

_NUTS = {
    "almonds": "almonds",
    "hazelnuts": "hazelnuts",
    "walnuts": "walnuts",
    "cashews": "cashews",
    "pecans": "pecan nuts",
    "brazil-nuts": "Brazil nuts",
    "pistachios": "pistachio nuts",
    "macadamias": "macadamia nuts",
}

# Larder key → (the law's name, the particular food where the law asks for it)
_EU: Mapping[str, tuple[str, str]] = {
    "wheat": ("cereals containing gluten", "wheat"),
    "rye": ("cereals containing gluten", "rye"),
    "barley": ("cereals containing gluten", "barley"),
    "oats": ("cereals containing gluten", "oats"),
    "crustaceans": ("crustaceans", ""),
    "eggs": ("eggs", ""),
    "fish": ("fish", ""),
    "peanuts": ("peanuts", ""),
    "soya": ("soybeans", ""),
    "milk": ("milk", ""),
    **{key: ("nuts", name) for key, name in _NUTS.items()},
    "celery": ("celery", ""),
    "mustard": ("mustard", ""),
    "sesame": ("sesame seeds", ""),
    "sulphites": ("sulphur dioxide and sulphites", ""),
    "lupin": ("lupin", ""),
    "molluscs": ("molluscs", ""),
}
_US: Mapping[str, tuple[str, str]] = {
    "wheat": ("wheat", ""),
    "crustaceans": ("crustacean shellfish", ""),
    "eggs": ("eggs", ""),
    "fish": ("fish", ""),
    "peanuts": ("peanuts", ""),
    "soya": ("soybeans", ""),
    "milk": ("milk", ""),
    **{key: ("tree nuts", name) for key, name in _NUTS.items()},
    "pine-nuts": ("tree nuts", "pine nuts"),
    "chestnuts": ("tree nuts", "chestnuts"),
    "sesame": ("sesame", ""),
}

LAWS: Mapping[str, tuple[str, Mapping[str, tuple[str, str]]]] = {
    "us": (
        "the 9 major allergens of the US FD&C Act, section 201(qq), and the FASTER Act of 2021",
        _US,
    ),
    "eu": ("the 14 allergens of Regulation (EU) 1169/2011, Annex II", _EU),
}


def statement(
    contents: Contents,
    may_contain: Sequence[str],
    region: str,
    swaps: Sequence[tuple[str, frozenset[str]]] = (),
) -> Allergens:
    """What the dish contains, in the law's own names, and what brings it."""
    law, names = LAWS["us" if region == "us" else "eu"]
    because = _named(contents.contains, names)
    packet = _named(contents.may_contain, names)
    brought = []
    for words, keys in swaps:
        new = {k: (words,) for k in sorted(keys) if k not in contents.contains}
        for entry in _named(new, names):
            brought.append(f"{entry}, if you use {words}")
    return Allergens(
        law=law,
        contains=tuple(because),
        because=because,
        check_packet=tuple(f"{name} ({', '.join(foods)})" for name, foods in packet.items()),
        author_may_contain=tuple(may_contain),
        unsure=contents.unknown,
        swaps=tuple(brought),
    )


def _named(
    found: Mapping[str, tuple[str, ...]], names: Mapping[str, tuple[str, str]]
) -> dict[str, tuple[str, ...]]:
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


_ANIMAL = frozenset("meat pork poultry fish shellfish gelatine insect".split())

# Claim → (classes that rule it out, allergens that rule it out)
DIETS: Mapping[str, tuple[frozenset[str], frozenset[str]]] = {
    "vegan": (
        _ANIMAL | {"dairy", "egg", "honey", "rennet"},
        frozenset({"milk", "eggs", "fish", "crustaceans", "molluscs"}),
    ),
    "vegetarian": (_ANIMAL | {"rennet"}, frozenset({"fish", "crustaceans", "molluscs"})),
    "gluten-free ingredients": (
        frozenset({"gluten"}),
        frozenset({"wheat", "rye", "barley", "oats"}),
    ),
    "dairy-free ingredients": (frozenset({"dairy"}), frozenset({"milk"})),
    "no alcohol": (frozenset({"alcohol"}), frozenset()),
}


def diets(contents: Contents, may_contain: Sequence[str]) -> tuple[str, ...]:
    """Claims that every ingredient is known to allow; none at all if one ingredient is unknown.

    A doubt rules a claim out as surely as a fact: a class or an allergen that depends on the maker,
    a made product that varies, and what the author says it may contain. Vegan implies vegetarian,
    so only the stronger is given.
    """
    if contents.unknown or not contents.portions:
        return ()
    classes = contents.classes | contents.unsure_classes
    allergens = set(contents.contains) | set(contents.may_contain)
    told = " ".join(may_contain).lower()
    allowed = []
    for name, (bad_classes, bad_allergens) in DIETS.items():
        if bad_classes & classes or bad_allergens & allergens:
            continue
        if contents.varies and name != "no alcohol":
            continue
        if any(a in told for a in bad_allergens | {"gluten"} & bad_classes):
            continue
        allowed.append(name)
    if "vegan" in allowed:
        allowed = [n for n in allowed if n not in ("vegetarian", "dairy-free ingredients")]
    return tuple(n for n in allowed if n != "no alcohol")
