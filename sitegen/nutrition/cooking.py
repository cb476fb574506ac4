"""What cooking takes away: alcohol with time, vitamins with heat.

Source: USDA Table of Nutrient Retention Factors, Release 6 (2007). Eggs baked (code 0101), flour or
meal baked (0301), milk heated about 10 minutes (2151), meat simmered with its drippings kept (2003)
or poured off (2004, measured on veal) were read there; the alcohol rows are from memory. Foods that
have no row here keep their raw figures, and the label's working says so.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from sitegen.larder.food import Food
from sitegen.nutrition.heat import Cooking

KCAL_PER_GRAM_OF_ALCOHOL: Final = 6.93
"""The factor by which SR28's energy counts alcohol."""

# Minutes of simmering or baking, stirred in → share of alcohol left.
_ALCOHOL: Final[tuple[tuple[float, float], ...]] = (
    (150, 0.05),
    (120, 0.10),
    (90, 0.20),
    (60, 0.25),
    (30, 0.35),
    (15, 0.40),
)
_STIRRED_INTO_HOT: Final = 0.85
_FLAMED: Final = 0.75
_OVERNIGHT: Final = 0.70
_BAKED_NOT_STIRRED: Final = 0.45
_BAKED_NOT_STIRRED_MINUTES: Final = 25


def alcohol_left(cooking: Cooking) -> float:
    """The share of alcohol that is left.

    >>> alcohol_left(Cooking(wet=True, heated=True, minutes=95))
    0.2
    """
    if not cooking.heated:
        return _FLAMED if cooking.flamed else _OVERNIGHT if cooking.overnight else 1.0
    left = _FLAMED if cooking.flamed else _STIRRED_INTO_HOT
    if cooking.oven and cooking.on_top and not cooking.wet:
        # only one time of baking is tabled for what is not stirred in: longer takes no more off
        return (
            min(left, _BAKED_NOT_STIRRED) if cooking.minutes >= _BAKED_NOT_STIRRED_MINUTES else left
        )
    if cooking.oven or cooking.wet:
        for least, share in _ALCOHOL:
            if cooking.minutes >= least:
                return min(left, share)
    return left


_FOLATES: Final = ("folate_ug", "folic_acid_ug", "food_folate_ug", "folate_dfe_ug")


def _spread(shares: Mapping[str, float]) -> dict[str, float]:
    """Folate's share holds for each of its forms."""
    found = {k: v for k, v in shares.items() if k != "folate"}
    if "folate" in shares:
        found |= dict.fromkeys(_FOLATES, shares["folate"])
    return found


_EGG_BAKED: Final = _spread(
    {
        "vitamin_c_mg": 0.80,
        "thiamin_mg": 0.80,
        "riboflavin_mg": 0.95,
        "niacin_mg": 0.90,
        "vitamin_b6_mg": 0.95,
        "folate": 0.75,
        "vitamin_b12_ug": 0.80,
    }
)
_FLOUR_BAKED: Final = _spread(
    {
        "vitamin_c_mg": 0.80,
        "thiamin_mg": 0.80,
        "riboflavin_mg": 0.90,
        "niacin_mg": 0.90,
        "vitamin_b6_mg": 0.90,
        "folate": 0.70,
    }
)
_MILK_HEATED: Final = _spread(
    {
        "vitamin_c_mg": 0.85,
        "thiamin_mg": 0.90,
        "folate": 0.85,
        "vitamin_b12_ug": 0.80,
    }
)
_MEAT_KEPT: Final = {"thiamin_mg": 0.60, "vitamin_b12_ug": 0.70}
_MEAT_POURED: Final = {
    "calcium_mg": 0.85,
    "iron_mg": 0.95,
    "magnesium_mg": 0.65,
    "potassium_mg": 0.60,
    "sodium_mg": 0.65,
    "thiamin_mg": 0.45,
}

_MEAT_GROUPS: Final = ("10", "13", "17")  # SR28's groups for pork, beef, lamb, veal and game
_VITAMINS: Final = ("vitamin_c_mg", "thiamin_mg", "folate_ug")
_RAW: Final = "as raw: no retention factor for it is at hand"


def retention(food: Food, cooking: Cooking) -> tuple[Mapping[str, float], str]:
    """The shares kept of each nutrient that changes, and the code of the table's row."""
    if not cooking.heated:
        return {}, ""
    if "raw-egg" in food.traits and cooking.oven:
        return _EGG_BAKED, "0101"
    if "raw-flour" in food.traits and cooking.oven:
        return _FLOUR_BAKED, "0301"
    if food.name.endswith("milk") and "dairy" in food.classes and "liquid" in food.traits:
        return _MILK_HEATED, "2151"
    if "meat" in food.classes and food.number[:2] in _MEAT_GROUPS and cooking.wet:
        return (_MEAT_POURED, "2004") if cooking.poured_off else (_MEAT_KEPT, "2003")
    return {}, ""


def changes_label(food: Food) -> bool:
    """Whether cooking can change what a label prints of this food: alcohol, what meat gives up."""
    alcohol, meat = food.nutrients.get("alcohol_g"), "meat" in food.classes
    return bool(alcohol) or (meat and food.number[:2] in _MEAT_GROUPS)


def after_cooking(
    food: Food, nutrients: Mapping[str, float], cooking: Cooking
) -> tuple[Mapping[str, float], list[str]]:
    """The nutrients of one ingredient once cooked, and what was taken off, in words."""
    notes: list[str] = []
    kept, code = retention(food, cooking)
    left = alcohol_left(cooking) if nutrients.get("alcohol_g") else 1.0
    if not kept and left >= 1:
        untold = cooking.heated and any(nutrients.get(key) for key in _VITAMINS)
        return nutrients, [_RAW] if untold else []
    cooked = dict(nutrients)
    for key, share in kept.items():
        if key in cooked:
            cooked[key] *= share
    if kept:
        notes.append(f"after heat by USDA retention factors, code {code}")
    elif cooking.heated and any(nutrients.get(key) for key in _VITAMINS):
        notes.append(_RAW)
    alcohol = nutrients.get("alcohol_g", 0.0)
    if alcohol and left < 1:
        cooked["alcohol_g"] = alcohol * left
        gone = alcohol * (1 - left) * KCAL_PER_GRAM_OF_ALCOHOL
        if "energy_kcal" in cooked:
            cooked["energy_kcal"] = max(0.0, cooked["energy_kcal"] - gone)
        after = f" after {cooking.minutes:g} minutes of heat" if cooking.minutes else ""
        notes.append(f"{left:.0%} of the alcohol left{after} (USDA retention factors)")
    return cooked, notes
