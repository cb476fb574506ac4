"""What cooking takes away: alcohol with time, vitamins with heat.

Source: USDA Table of Nutrient Retention Factors, Release 6 (2007). Eggs baked (code 0101), flour or
meal baked (0301), milk heated about 10 minutes (2151), meat simmered with its drippings kept (2003)
or poured off (2004, measured on veal) were read there; the alcohol rows are from memory. Foods that
have no row here keep their raw figures, and the label's working says so.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass

from sitegen.larder.food import Food
from sitegen.reading.recipe import Mention, Recipe, TimeSpan

KCAL_PER_GRAM_OF_ALCOHOL = 6.93
"""The factor by which SR28's energy counts alcohol."""


@dataclass(frozen=True, slots=True)
class Cooking:
    """What happens to one ingredient after it goes in."""

    oven: bool = False
    wet: bool = False
    heated: bool = False
    minutes: float = 0.0
    poured_off: bool = False


_OVEN = re.compile(r"\b(?:bake|baked|baking|roast|roasting|roasted|oven)\b", re.IGNORECASE)
_WET = re.compile(
    r"\b(?:simmer\w*|boil\w*|stew\w*|brais\w*|poach\w*|steam\w*|bubbl\w*|reduc\w*)\b", re.IGNORECASE
)
_DRY = re.compile(
    r"\b(?:fry|fries|fried|frying|saut\w+|sweat|brown(?:ed)?\b(?! sugar)|sear\w*|grill\w*|griddle"
    r"|toast|cook|melt|warm|heat|soften)\b",
    re.IGNORECASE,
)
_OFF = re.compile(
    r"\b(?:pour|spoon|tip) (?:off|away)\b[^.]*\b(?:fat|juices|drippings)\b", re.IGNORECASE
)


def cooking_of(recipe: Recipe, index: int) -> Cooking:
    """How the ingredient ``index`` is cooked, from the step that first names it onwards.

    Minutes are those of steps with heat in them, at the lower end of each range, so that no more is
    taken away than surely goes.
    """
    line = recipe.lines[index]
    if any(r.startswith("to serve") or r == "to garnish" for r in line.remarks):
        return Cooking()
    oven = wet = heated = off = False
    minutes = 0.0
    begun = False
    for step in recipe.steps:
        begun = begun or any(isinstance(p, Mention) and p.line == index for p in step.pieces)
        if not begun:
            continue
        text = re.sub(r"\bheat the oven\b|\bpreheat\b", " ", step.text, flags=re.IGNORECASE)
        in_oven, in_wet = bool(_OVEN.search(text)), bool(_WET.search(text))
        hot = in_oven or in_wet or bool(_DRY.search(text))
        oven, wet, heated = oven or in_oven, wet or in_wet, heated or hot
        off = off or bool(_OFF.search(text))
        if hot and not re.search(r"\b(?:cool|chill|fridge)\b", text, re.IGNORECASE):
            minutes += sum(p.seconds / 60 for p in step.pieces if isinstance(p, TimeSpan))
    return Cooking(oven, wet, heated, minutes, off)


# Minutes of simmering or baking → share of alcohol left.
_ALCOHOL: tuple[tuple[float, float], ...] = (
    (150, 0.05),
    (120, 0.10),
    (90, 0.20),
    (60, 0.25),
    (30, 0.35),
    (15, 0.40),
)
STIRRED_INTO_HOT = 0.85


def alcohol_left(cooking: Cooking) -> float:
    """The share of alcohol that is left.

    >>> alcohol_left(Cooking(wet=True, heated=True, minutes=95))
    0.2
    """
    if not cooking.heated:
        return 1.0
    if cooking.oven or cooking.wet:
        for least, left in _ALCOHOL:
            if cooking.minutes >= least:
                return left
    return STIRRED_INTO_HOT


_EGG_BAKED = {
    "vitamin_c_mg": 0.80,
    "thiamin_mg": 0.80,
    "riboflavin_mg": 0.95,
    "niacin_mg": 0.90,
    "vitamin_b6_mg": 0.95,
    "folate": 0.75,
    "vitamin_b12_ug": 0.80,
}
_FLOUR_BAKED = {
    "vitamin_c_mg": 0.80,
    "thiamin_mg": 0.80,
    "riboflavin_mg": 0.90,
    "niacin_mg": 0.90,
    "vitamin_b6_mg": 0.90,
    "folate": 0.70,
}
_MILK_HEATED = {"vitamin_c_mg": 0.85, "thiamin_mg": 0.90, "folate": 0.85, "vitamin_b12_ug": 0.80}
_MEAT_KEPT = {"thiamin_mg": 0.60, "vitamin_b12_ug": 0.70}
_MEAT_POURED = {
    "calcium_mg": 0.85,
    "iron_mg": 0.95,
    "magnesium_mg": 0.65,
    "potassium_mg": 0.60,
    "sodium_mg": 0.65,
    "thiamin_mg": 0.45,
}

_FOLATES = ("folate_ug", "folic_acid_ug", "food_folate_ug", "folate_dfe_ug")
_MEAT_GROUPS = ("10", "13", "17")  # SR28's groups for pork, beef, lamb, veal and game


def retention(food: Food, cooking: Cooking) -> tuple[Mapping[str, float], str]:
    """The shares kept of each nutrient that changes, and the code of the table's row."""
    if not cooking.heated:
        return {}, ""
    if "egg" in food.classes and cooking.oven:
        return _spread(_EGG_BAKED), "0101"
    if "raw-flour" in food.traits and cooking.oven:
        return _spread(_FLOUR_BAKED), "0301"
    if food.name.endswith("milk") and "dairy" in food.classes and "liquid" in food.traits:
        return _spread(_MILK_HEATED), "2151"
    if "meat" in food.classes and food.number[:2] in _MEAT_GROUPS and cooking.wet:
        return (_spread(_MEAT_POURED), "2004") if cooking.poured_off else (_MEAT_KEPT, "2003")
    return {}, ""


def _spread(shares: Mapping[str, float]) -> dict[str, float]:
    """Folate's share holds for each of its forms."""
    found = {k: v for k, v in shares.items() if k != "folate"}
    if "folate" in shares:
        found |= dict.fromkeys(_FOLATES, shares["folate"])
    return found


def after_cooking(
    food: Food, nutrients: dict[str, float], cooking: Cooking
) -> tuple[dict[str, float], str]:
    """The nutrients of one ingredient once cooked, and what was taken off, in words."""
    notes: list[str] = []
    kept, code = retention(food, cooking)
    cooked = {key: value * kept.get(key, 1.0) for key, value in nutrients.items()}
    if kept:
        notes.append(f"vitamins after heat by USDA retention factors, code {code}")
    alcohol = nutrients.get("alcohol_g", 0.0)
    left = alcohol_left(cooking)
    if alcohol and left < 1:
        cooked["alcohol_g"] = alcohol * left
        gone = alcohol * (1 - left) * KCAL_PER_GRAM_OF_ALCOHOL
        cooked["energy_kcal"] = max(0.0, cooked.get("energy_kcal", 0.0) - gone)
        notes.append(f"{left:.0%} of the alcohol left (USDA retention factors)")
    return cooked, "; ".join(notes)
