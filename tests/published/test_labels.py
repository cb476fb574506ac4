"""Label rules at and on both sides of every threshold, and daily values, against the law's text.

US: 21 CFR 101.9(c), 2016 rule, with FDA's rounding guidance. EU: European Commission guidance on
tolerances, December 2012 (from memory, as the reference says); Regulation (EU) 1169/2011.
"""

from __future__ import annotations

import pytest

from sitegen.nutrition.rounding import DAILY_VALUES, EU, US, at_least, at_most, daily, printed

# (rule, paragraph): value → printed
US_ROWS: dict[tuple[str, str], dict[float, str]] = {
    # under 5 may be 0; to 5 up to and including 50; to 10 above
    ("energy_kcal", "(c)(1)"): {
        0: "0 kcal", 4.99: "0 kcal", 5: "5 kcal", 7.49: "5 kcal", 7.5: "10 kcal", 47.5: "50 kcal",
        49.99: "50 kcal", 50: "50 kcal", 50.01: "50 kcal", 54.99: "50 kcal", 55: "60 kcal",
        404.99: "400 kcal", 405: "410 kcal",
    },
    # under 0.5 g is 0; to 0.5 g below 5 g; to 1 g above
    ("fat_g", "(c)(2)"): {
        0: "0 g", 0.49: "0 g", 0.5: "0.5 g", 0.74: "0.5 g", 0.75: "1 g", 1: "1 g", 4.74: "4.5 g",
        4.75: "5 g", 4.99: "5 g", 5: "5 g", 5.49: "5 g", 5.5: "6 g",
    },
    # under 2 mg is 0; "less than 5 mg" from 2 to 5; to 5 mg above
    ("cholesterol_mg", "(c)(3)"): {
        0: "0 mg", 1.99: "0 mg", 2: "less than 5 mg", 4.99: "less than 5 mg",
        5: "less than 5 mg", 5.01: "5 mg", 7.49: "5 mg", 7.5: "10 mg", 62.5: "65 mg",
    },
    # under 5 mg is 0; to 5 mg from 5 to 140; to 10 mg above
    ("sodium_mg", "(c)(4)"): {
        0: "0 mg", 4.99: "0 mg", 5: "5 mg", 7.49: "5 mg", 7.5: "10 mg", 137.4: "135 mg",
        139.99: "140 mg", 140: "140 mg", 140.01: "140 mg", 144.99: "140 mg", 145: "150 mg",
    },
    # under 0.5 g is 0; "less than 1 g" below 1 g; to 1 g above
    ("carbohydrate_g", "(c)(6)"): {
        0: "0 g", 0.49: "0 g", 0.5: "less than 1 g", 0.99: "less than 1 g", 1: "1 g",
        1.49: "1 g", 1.5: "2 g",
    },
    # to 0.1 µg; to 10 mg; to 0.1 mg
    ("vitamin_d_ug", "(c)(8)"): {0: "0 µg", 0.04: "0 µg", 0.05: "0.1 µg", 1.04: "1 µg", 1.05: "1.1 µg"},
    ("calcium_mg", "(c)(8)"): {0: "0 mg", 4.99: "0 mg", 5: "10 mg", 264.9: "260 mg", 265: "270 mg"},
    ("iron_mg", "(c)(8)"): {0: "0 mg", 0.04: "0 mg", 0.05: "0.1 mg", 1.04: "1 mg", 1.05: "1.1 mg"},
}  # fmt: skip
SAME_AS = {  # the same paragraph's rule holds for
    "saturated_g": ("fat_g", "(c)(2)"),
    "trans_g": ("fat_g", "(c)(2)"),
    "monounsaturated_g": ("fat_g", "(c)(2)"),
    "polyunsaturated_g": ("fat_g", "(c)(2)"),
    "fibre_g": ("carbohydrate_g", "(c)(6)"),
    "sugars_g": ("carbohydrate_g", "(c)(6)"),
    "added_sugars_g": ("carbohydrate_g", "(c)(6)"),
    "polyols_g": ("carbohydrate_g", "(c)(6)"),
    "protein_g": ("carbohydrate_g", "(c)(6)"),
    "potassium_mg": ("calcium_mg", "(c)(8)"),
}
US_CASES = [
    *((key, value, text) for (key, _), row in US_ROWS.items() for value, text in row.items()),
    *((key, v, text) for key, whose in SAME_AS.items() for v, text in US_ROWS[whose].items()),
]

EU_GRAMS = {  # 0.5 g or less may be 0; to 0.1 g below 10 g; to 1 g from there
    0: "0 g", 0.49: "0 g", 0.5: "0 g", 0.51: "0.5 g", 0.55: "0.6 g", 9.94: "9.9 g", 9.96: "10 g",
    10: "10 g", 10.49: "10 g", 10.5: "11 g", 1: "1.0 g",
}  # fmt: skip
EU_ROWS: dict[str, dict[float, str]] = {
    "energy_kj": {0: "0 kJ", 0.49: "0 kJ", 0.5: "1 kJ", 1710.4: "1710 kJ", 1710.5: "1711 kJ"},
    "energy_kcal": {0: "0 kcal", 0.49: "0 kcal", 0.5: "1 kcal", 408.5: "409 kcal"},
    "fat_g": EU_GRAMS,
    "carbohydrate_g": EU_GRAMS,
    "available_carbohydrate_g": EU_GRAMS,
    "sugars_g": EU_GRAMS,
    "polyols_g": EU_GRAMS,
    "protein_g": EU_GRAMS,
    "fibre_g": EU_GRAMS,
    "saturated_g": {  # 0.1 g or less may be 0
        0: "0 g", 0.1: "0 g", 0.11: "0.1 g", 0.15: "0.2 g", 9.94: "9.9 g", 9.96: "10 g",
        10.5: "11 g",
    },
    "salt_g": {  # 0.0125 g or less may be 0; to 0.01 g below 1 g; to 0.1 g from there
        0: "0 g", 0.0125: "0 g", 0.0126: "0.01 g", 0.015: "0.02 g", 0.984: "0.98 g", 0.996: "1.0 g",
        1: "1.0 g", 1.04: "1.0 g", 1.05: "1.1 g", 0.5: "0.50 g",
    },
}  # fmt: skip
EU_CASES = [(key, value, text) for key, row in EU_ROWS.items() for value, text in row.items()]


@pytest.mark.parametrize(("key", "value", "text"), US_CASES)
def test_us_rounding(key: str, value: float, text: str) -> None:
    assert printed(US[key], value) == text


@pytest.mark.parametrize(("key", "value", "text"), EU_CASES)
def test_eu_rounding(key: str, value: float, text: str) -> None:
    assert printed(EU[key], value) == text


def test_every_rule_is_tried_here() -> None:
    """But for those that no source has: they are plain decimals."""
    plain = {"alcohol_g"}
    assert {key for key, *_ in US_CASES} | plain == set(US)
    no_eu_rule = {"cholesterol_mg", "sodium_mg", "vitamin_d_ug", "calcium_mg", "iron_mg"}
    unsaturated = {"monounsaturated_g", "polyunsaturated_g"}  # the rule object of saturates
    assert all(EU[key] is EU["saturated_g"] for key in unsaturated)
    tried = {key for key, *_ in EU_CASES}
    assert tried | plain | no_eu_rule | unsaturated | {"potassium_mg"} == set(EU)


def test_daily_values() -> None:
    """21 CFR 101.9(c)(8)(iv) and (9)."""
    assert DAILY_VALUES == {
        "fat_g": 78, "saturated_g": 20, "cholesterol_mg": 300, "sodium_mg": 2300,
        "carbohydrate_g": 275, "fibre_g": 28, "added_sugars_g": 50, "protein_g": 50,
        "vitamin_d_ug": 20, "calcium_mg": 1300, "iron_mg": 18, "potassium_mg": 4700,
    }  # fmt: skip


@pytest.mark.parametrize(
    ("key", "value", "text"),
    [
        # to the whole per cent: 101.9(d)(7)(ii)
        ("fat_g", 0.38, "0%"), ("fat_g", 0.39, "1%"), ("fat_g", 78, "100%"),
        ("sodium_mg", 344.9, "15%"), ("added_sugars_g", 25, "50%"),
        # vitamins and minerals: under 2 % may be 0; to 2 % up to 10; to 5 % up to 50; to 10 % above
        ("calcium_mg", 25.9, "0%"), ("calcium_mg", 26, "2%"), ("calcium_mg", 38.9, "2%"),
        ("calcium_mg", 39, "4%"), ("calcium_mg", 130, "10%"), ("calcium_mg", 130.1, "10%"),
        ("calcium_mg", 162.4, "10%"), ("calcium_mg", 162.5, "15%"), ("calcium_mg", 650, "50%"),
        ("calcium_mg", 650.1, "50%"), ("calcium_mg", 714.9, "50%"), ("calcium_mg", 715, "60%"),
        ("iron_mg", 0.35, "0%"), ("iron_mg", 0.36, "2%"), ("potassium_mg", 470, "10%"),
        ("vitamin_d_ug", 2, "10%"),
        # no quality score of protein is known (101.9(c)(7)), and sugars have no daily value
        ("protein_g", 25, ""), ("sugars_g", 25, ""), ("energy_kcal", 400, ""),
    ],
)  # fmt: skip
def test_per_cent_of_the_daily_value(key: str, value: float, text: str) -> None:
    assert daily(key, value) == text


@pytest.mark.parametrize("form", [US, EU])
@pytest.mark.parametrize("value", [0.0, 0.04, 0.3, 0.7, 1.2, 4.8, 9.97, 51, 143, 404.9])
def test_bounds_are_never_on_the_wrong_side(form: dict[str, object], value: float) -> None:
    for rule in (US if form is US else EU).values():
        least, most = at_least(rule, value), at_most(rule, value)
        assert not least or float(least.split()[2]) <= value
        assert float(most.split()[2]) >= value
