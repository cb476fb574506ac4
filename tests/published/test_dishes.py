"""Dishes whose composition USDA publishes, composed from text and brought to the published moisture.

Targets: USDA SR28, per 100 g, by the numbers beside them. Proportions: common practice.
"""

from __future__ import annotations

import pytest

from tests.nutrition.cook import cook

SHORTENING = "{line: 137 g shortening, food: 'shortening, soya and cottonseed'}"

# USDA's number, published water (g per 100 g), lines, published energy and so on.
DISHES = [
    pytest.param(
        19.7,
        ["250 g plain flour", SHORTENING, "6 g salt", "75 ml water"],
        {
            "energy_kcal": 469,
            "protein_g": 5.70,
            "fat_g": 30.80,
            "carbohydrate_g": 42.30,
            "saturated_g": 7.674,
        },
        id="18402 pie crust, standard, unbaked",
    ),
    pytest.param(
        47.4,
        ["50 g groundnut oil", "50 g distilled white vinegar"],
        {"energy_kcal": 449, "fat_g": 50.1},
        id="04135 salad dressing, vinegar and oil",
    ),
]


@pytest.mark.parametrize(("water", "lines", "published"), DISHES)
def test_a_composed_dish_is_the_published_one_within_one_per_cent(
    water: float, lines: list[str], published: dict[str, float]
) -> None:
    raw = cook(lines)
    totals, grams = raw.contents.totals, raw.contents.batch_grams
    assert grams is not None
    # what is not water stays; the finished batch is as moist as USDA's
    finished = (grams - totals["water_g"]) / (1 - water / 100)
    dish = cook(lines, more=f"weighs: {finished:.2f} g")
    assert dish.label.batch_grams == pytest.approx(finished, abs=0.01)
    for key, target in published.items():
        assert dish.label.per_100g_values[key] == pytest.approx(target, rel=0.01), key


def test_the_foods_are_those_of_the_reference() -> None:
    """The numbers that the dishes are reckoned from."""
    dishes = [cook(param.values[1]) for param in DISHES]  # type: ignore[arg-type]
    sources = [[line.source for line in dish.label.lines] for dish in dishes]
    assert sources == [
        [f"USDA SR28 {number}" for number in ("20081", "04031", "02047", "14411")],
        [f"USDA SR28 {number}" for number in ("04042", "02053")],
    ]
