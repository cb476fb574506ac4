"""Published check: every figure of the larder is the one that USDA SR28 publishes.

The files are read here on their own, by the field order that USDA's documentation gives, and not
with the larder's reader, so that a slip in that reader shows.
"""

from __future__ import annotations

import json
from fractions import Fraction
from itertools import pairwise
from pathlib import Path

import pytest
import yaml

from sitegen import larder
from sitegen.larder import Larder
from sitegen.larder.food import VOLUME_ML

#: The columns of ABBREV, named as in USDA's documentation, each with the larder's key.
COLUMNS = {
    2: "water_g", 3: "energy_kcal", 4: "protein_g", 5: "fat_g", 6: "ash_g", 7: "carbohydrate_g",
    8: "fibre_g", 9: "sugars_g", 10: "calcium_mg", 11: "iron_mg", 12: "magnesium_mg",
    13: "phosphorus_mg", 14: "potassium_mg", 15: "sodium_mg", 16: "zinc_mg", 17: "copper_mg",
    18: "manganese_mg", 19: "selenium_ug", 20: "vitamin_c_mg", 21: "thiamin_mg",
    22: "riboflavin_mg", 23: "niacin_mg", 24: "pantothenic_acid_mg", 25: "vitamin_b6_mg",
    26: "folate_ug", 27: "folic_acid_ug", 28: "food_folate_ug", 29: "folate_dfe_ug",
    30: "choline_mg", 31: "vitamin_b12_ug", 32: "vitamin_a_iu", 33: "vitamin_a_ug",
    34: "retinol_ug", 35: "alpha_carotene_ug", 36: "beta_carotene_ug",
    37: "beta_cryptoxanthin_ug", 38: "lycopene_ug", 39: "lutein_zeaxanthin_ug",
    40: "vitamin_e_mg", 41: "vitamin_d_ug", 42: "vitamin_d_iu", 43: "vitamin_k_ug",
    44: "saturated_g", 45: "monounsaturated_g", 46: "polyunsaturated_g", 47: "cholesterol_mg",
}  # fmt: skip
ALCOHOL = "alcohol_g"


def rows(path: Path) -> list[list[str]]:
    text = path.read_text(encoding="utf-8")
    return [[cell.strip("~") for cell in line.split("^")] for line in text.splitlines() if line]


@pytest.fixture(scope="module")
def abbreviated(sr28_folder: Path) -> dict[str, list[str]]:
    return {row[0]: row for row in rows(sr28_folder / "ABBREV.txt")}


@pytest.fixture(scope="module")
def weights(sr28_folder: Path) -> dict[str, set[Fraction]]:
    """Grams of one unit, for every household measure of every food."""
    found: dict[str, set[Fraction]] = {}
    for row in rows(sr28_folder / "WEIGHT.txt"):
        found.setdefault(row[0], set()).add(Fraction(row[4]) / Fraction(row[2]))
    return found


def test_the_larder_is_large_enough() -> None:
    assert len(Larder.load().foods) >= 1000


def test_every_nutrient_of_every_food_is_the_published_one(
    abbreviated: dict[str, list[str]],
) -> None:
    compared = 0
    for food in Larder.load().foods:
        if not food.number:
            continue
        row = abbreviated[food.number]
        published = {key: float(row[i]) for i, key in COLUMNS.items() if row[i] != ""}
        ours = {key: value for key, value in food.nutrients.items() if key != ALCOHOL}
        assert ours == published, food.name
        compared += len(published)
    assert compared > 40_000


def test_the_decimal_text_is_kept_as_published(abbreviated: dict[str, list[str]]) -> None:
    data = json.loads(
        (Path(__file__).parents[2] / "sitegen" / "larder" / "data" / "foods.json").read_text(
            encoding="utf-8"
        )
    )
    for record in data["foods"]:
        if record["number"]:
            row = abbreviated[record["number"]]
            assert record["per_100_g"].split() == [row[i] or "-" for i in COLUMNS], record["name"]


def test_refuse_and_description_are_the_published_ones(
    abbreviated: dict[str, list[str]], sr28_folder: Path
) -> None:
    described = {row[0]: row[2] for row in rows(sr28_folder / "FOOD_DES.txt")}
    table = Path(larder.__file__).parent / "table" / "refuse.yaml"
    corrected = yaml.safe_load(table.read_text(encoding="utf-8"))
    for food in Larder.load().foods:
        if food.number:
            published = abbreviated[food.number][52] or 0
            per_cent = corrected.get(food.name, [published])[0]  # the table says why, one by one
            assert food.refuse == Fraction(per_cent) / 100, food.name
            assert food.description == described[food.number], food.name


def test_measures_said_to_be_of_sr28_are_of_sr28(weights: dict[str, set[Fraction]]) -> None:
    compared = 0
    for food in Larder.load().foods:
        for measure in food.measures:
            if food.number and measure.source.startswith("USDA SR28"):
                number = measure.source.split()[2].rstrip(":,")
                each = measure.grams_each
                known = weights[number]
                sixteenth = {grams / 16 for grams in known}  # "one sixteenth of a cup"
                assert each in known | sixteenth, (food.name, measure)
                compared += 1
    assert compared > 3000


def test_nothing_but_alcoholic_foods_holds_alcohol() -> None:
    for food in Larder.load().foods:
        if food.nutrients.get(ALCOHOL):
            assert "alcohol" in food.classes | food.unsure_classes, food.name


@pytest.mark.parametrize(
    ("words", "low", "high"),
    [
        # Alcohol by weight; bands by common practice: wine 11-14 % by volume is 9-11.5 g per
        # 100 g, beer 4-5 % 3-4.2 g, spirits of 40 % by volume 33.4 g (SR28 14037, 80 proof).
        ("red wine", 9.0, 11.5),
        ("white wine", 9.0, 11.5),
        ("beer", 3.0, 4.3),
        ("vodka", 32.0, 35.0),
        ("sweet dessert wine", 14.0, 17.0),
    ],
)
def test_alcohol_is_derived_within_what_is_usual(words: str, low: float, high: float) -> None:
    food = Larder.load().get(words)
    assert food is not None
    assert low <= food.nutrients[ALCOHOL] <= high


def test_volumes_grow_with_their_unit() -> None:
    """Of one food in one state, a larger spoon or cup never weighs less than a smaller one."""
    for food in Larder.load().foods:
        for state in {measure.state for measure in food.measures}:
            sized = sorted(
                (VOLUME_ML[m.unit], m.grams_each)
                for m in food.measures
                if m.state == state and m.unit in VOLUME_ML
            )
            for (smaller, light), (larger, heavy) in pairwise(sized):
                if smaller < larger:
                    assert light < heavy, (food.name, state)
