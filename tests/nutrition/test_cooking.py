"""What cooking takes away, against USDA's Table of Nutrient Retention Factors, Release 6 (2007).

Eggs, flour, milk and meat were read there (codes beside them); the alcohol rows are from memory.
"""

from __future__ import annotations

import pytest

from sitegen.nutrition.cooking import KCAL_PER_GRAM_OF_ALCOHOL, alcohol_left
from sitegen.nutrition.heat import Cooking
from tests.nutrition.cook import cook

WINE = "100 g red wine"  # SR28 14096: 85 kcal in 100 g; its alcohol is derived


@pytest.mark.parametrize(
    ("method", "left"),
    [
        ("Pour the [red wine] into the bowl.", 1.0),
        ("Stir the [red wine] into the hot soup and serve. Warm through.", 0.85),
        ("Set light to the [red wine]: flame it in the ladle.", 0.75),
        ("Pour over the [red wine] and leave it for 12 hours.", 0.70),
        ("Leave in the [red wine] overnight.", 0.70),
        ("Brush with the [red wine] and bake for 25 minutes.", 0.45),
        ("Stir in the [red wine] and simmer for 14 minutes.", 0.85),
        ("Stir in the [red wine] and simmer for 15 minutes.", 0.40),
        ("Stir in the [red wine] and bake for 29 minutes.", 0.40),
        ("Stir in the [red wine] and bake for 30 minutes.", 0.35),
        ("Stir in the [red wine] and simmer for 1 hour.", 0.25),
        ("Stir in the [red wine] and simmer for 1 h 30 min.", 0.20),
        ("Stir in the [red wine] and simmer for 2 hours.", 0.10),
        ("Stir in the [red wine] and simmer for 2 1/2 to 3 hours.", 0.05),
        # the lower end of a range, so that no more is taken off than surely goes
        ("Stir in the [red wine] and simmer for 25 to 35 minutes.", 0.40),
        # one of two settings of a slow cooker, not both in a row
        (
            "Put the [red wine] in the slow cooker. Cook on low for 8 hours or high for 5 hours.",
            0.05,
        ),
        (
            "Put the [red wine] in the slow cooker. Cook on high for 1 hour or on low for 3 hours.",
            0.25,
        ),
        # rest is no heat, and heating the oven heats no wine
        ("Stir in the [red wine] and simmer for 15 minutes. Leave it to stand for 2 hours.", 0.40),
        ("Heat the oven to 200 °C. Pour the [red wine] into the bowl.", 1.0),
    ],
)
def test_alcohol_left(method: str, left: float) -> None:
    dish = cook([WINE], f"1. {method}")
    raw = cook([WINE]).contents.totals
    cooked = dish.contents.totals
    assert cooked["alcohol_g"] == pytest.approx(raw["alcohol_g"] * left)
    gone = raw["alcohol_g"] * (1 - left) * KCAL_PER_GRAM_OF_ALCOHOL
    assert cooked["energy_kcal"] == pytest.approx(raw["energy_kcal"] - gone)
    assert ("alcohol left" in dish.label.lines[0].note) is (left < 1)


def test_heat_before_it_goes_in_takes_nothing() -> None:
    method = "1. Simmer the [water] for 2 hours.\n2. Off the heat, stir in the [red wine]."
    dish = cook(["100 ml water", WINE], method)
    assert dish.contents.totals["alcohol_g"] == cook([WINE]).contents.totals["alcohol_g"]


def test_heat_for_another_ingredient_takes_nothing() -> None:
    method = "1. Stir the [red wine] into the salad.\n2. Fry the [onion] for 40 minutes."
    dish = cook([WINE, "1 onion"], method)
    assert dish.contents.totals["alcohol_g"] == cook([WINE]).contents.totals["alcohol_g"]


def test_more_time_never_leaves_more() -> None:
    shares = [alcohol_left(Cooking(wet=True, heated=True, minutes=m)) for m in range(200)]
    assert shares == sorted(shares, reverse=True)


# code: (line, method, nutrient → share kept); what is not named keeps all of it
RETENTION = {
    "0101": ("3 eggs", "Bake the [eggs] for 20 minutes.", {
        "thiamin_mg": 0.80, "riboflavin_mg": 0.95, "niacin_mg": 0.90, "vitamin_b6_mg": 0.95,
        "folate_ug": 0.75, "vitamin_b12_ug": 0.80}),
    "0301": ("100 g plain flour", "Bake the [flour] for 20 minutes.", {
        "thiamin_mg": 0.80, "riboflavin_mg": 0.90, "niacin_mg": 0.90, "vitamin_b6_mg": 0.90,
        "folate_ug": 0.70}),
    "2151": ("100 ml whole milk", "Simmer the [milk] for 10 minutes.", {
        "vitamin_c_mg": 0.85, "thiamin_mg": 0.90, "folate_ug": 0.85, "vitamin_b12_ug": 0.80}),
    "2003": ("300 g beef shin, boneless", "Simmer the [beef shin] for 2 hours.", {
        "thiamin_mg": 0.60, "vitamin_b12_ug": 0.70}),
    "2004": ("300 g beef shin, boneless", "Simmer the [beef shin] for 2 hours, then pour off the fat.", {
        "thiamin_mg": 0.45, "calcium_mg": 0.85, "iron_mg": 0.95, "magnesium_mg": 0.65,
        "potassium_mg": 0.60, "sodium_mg": 0.65}),
}  # fmt: skip


@pytest.mark.parametrize("code", RETENTION)
def test_vitamins_and_minerals_after_heat(code: str) -> None:
    line, method, kept = RETENTION[code]
    raw, dish = cook([line]).contents.totals, cook([line], f"1. {method}")
    cooked = dish.contents.totals
    assert f"code {code}" in dish.label.lines[0].note
    folates = {"folic_acid_ug", "food_folate_ug", "folate_dfe_ug"}  # go with folate_ug
    for key in raw.keys() - folates:
        assert cooked[key] == pytest.approx(raw[key] * kept.get(key, 1)), key
    if "folate_ug" in kept:
        assert cooked["food_folate_ug"] == pytest.approx(raw["food_folate_ug"] * kept["folate_ug"])


@pytest.mark.parametrize(
    ("line", "method"),
    [
        ("200 g spinach", "Boil the [spinach] for 5 minutes."),
        ("200 g potatoes", "Roast the [potatoes] for 40 minutes."),
        ("100 g mayonnaise", "Bake the [mayonnaise] for 20 minutes."),  # no egg to the eye
        ("3 eggs", "Boil the [eggs] for 8 minutes."),  # the row is of baked ones
    ],
)
def test_what_has_no_row_keeps_its_raw_figures_and_says_so(line: str, method: str) -> None:
    dish, raw = cook([line], f"1. {method}"), cook([line])
    assert dish.contents.totals == raw.contents.totals
    assert "as raw" in dish.label.lines[0].note
    assert "as raw" not in raw.label.lines[0].note
