"""Which sugars are added ones, where that is plain from what the food is.

21 CFR 101.9(c)(6)(iii): sugars added in processing or packaged as such, with those of syrups and
honey. Food tables do not give them. So a sweetener's sugars all count, a plain food's do not, and of
anything made (or sweetened, or of a kind not listed here) it is not known.
"""

from __future__ import annotations

import re
from typing import Final

from sitegen.larder.food import Food

# Sweeteners by USDA SR28 number, and those that have none by name.
_SWEETENERS: Final = frozenset(
    "19334 19335 19336 19908 19340 19353 19911 19296 19304 19349 19350 19352 19355 19912 43216 "
    "90480".split()
)
_SWEETENERS_BY_NAME: Final = frozenset(
    {"date syrup", "dextrose", "golden syrup", "jaggery", "jam sugar", "pearl sugar", "rice syrup"}
)
_PLAIN_AISLES: Final = frozenset(
    "vegetables fruit herbs meat fish dairy grains pulses nuts spices oils water".split()
)
_MADE: Final = re.compile(
    r"sweet(?:ened|meat)|syrup|sugar|candied|glac[eé]|honey|flavou?r|vanilla|chocolate|jam|juice"
    r"|nectar|cocktail|dessert|ice cream|drink|cured|glazed|pudding|shake|mix\b",
    re.IGNORECASE,
)
_UNSWEETENED: Final = re.compile(r"unsweetened|without added sugar|no sugar added", re.IGNORECASE)


def added_sugars(food: Food) -> float | None:
    """Added sugars per 100 g, or None if they are not known.

    All 99.8 g of granulated sugar's are added (SR28 19335), and none of an apple's.
    """
    if "added_sugars_g" in food.nutrients:
        return food.nutrients["added_sugars_g"]
    sugars = food.nutrients.get("sugars_g")
    if sugars == 0:
        return 0.0
    if food.number in _SWEETENERS or food.name in _SWEETENERS_BY_NAME:
        return sugars
    text = _UNSWEETENED.sub("", f"{food.name} / {food.description}")
    if "varies" in food.traits or food.aisle not in _PLAIN_AISLES or _MADE.search(text):
        return None
    return 0.0
