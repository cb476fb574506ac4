"""What labels print is reckoned at once, the other nutrients when asked: both by the same sums."""

from __future__ import annotations

from itertools import product

import pytest

from sitegen.kitchen.batch import known_nutrients
from sitegen.larder.larder import Larder
from sitegen.nutrition.amounts import LABELLED, Amounts, add, at_hand, in_full, times
from sitegen.nutrition.cooking import after_cooking, changes_label
from sitegen.nutrition.heat import Cooking
from sitegen.nutrition.label import _EU_ROWS, _POLYOLS, _US_ROWS
from sitegen.nutrition.rounding import EU, US
from tests.nutrition.cook import cook

LINES = [
    "200 g plain flour",
    "2 to 3 eggs",
    "500 g minced beef",
    "150 ml red wine",
    "300 ml whole milk",
    "2 onions",
    "a handful of mystery leaves (about 20 g)",
    "salt, to taste",
]
METHOD = (
    "1. Fry the [onions] and the [minced beef], then pour off the fat. Add the [red wine] and simmer"
    " for 2 hours.\n2. Whisk the [eggs], [milk] and [flour], pour over and bake for 40 minutes."
)


def labelled(nutrients: Amounts) -> dict[str, float]:
    return {key: value for key, value in in_full(nutrients).items() if key in LABELLED}


def test_what_is_at_hand_is_what_is_reckoned_in_full() -> None:
    dish = cook(LINES, METHOD)
    contents, label = dish.contents, dish.label
    assert contents.ends is not None
    ends = [end for p in contents.portions if p.ends for end in p.ends]
    found = [
        *(p.nutrients for p in contents.portions),
        *(contents.totals, *contents.ends, *ends),
        *(label.per_serving_values, label.per_100g_values),
    ]
    amounts = [one for one in found if isinstance(one, Amounts)]
    assert len(amounts) >= 12
    for one in amounts:
        assert at_hand(one) == labelled(one)
        assert len(in_full(one)) > 2 * len(at_hand(one)) > 0


def test_a_label_asks_for_nothing_else() -> None:
    rows = {row.key for row in (*_US_ROWS, *_EU_ROWS, *_POLYOLS.values())}
    derived = {"energy_kj", "salt_g", "available_carbohydrate_g"}
    assert rows - derived <= LABELLED
    assert rows <= US.keys() | EU.keys()


@pytest.mark.parametrize("said", list(product((False, True), repeat=4)))
def test_cooking_changes_what_is_labelled_only_where_it_says_so(said: tuple[bool, ...]) -> None:
    oven, wet, poured_off, flamed = said
    cooking = Cooking(oven, wet, True, 95.0, poured_off, flamed)
    for food in Larder.load().foods:
        known = known_nutrients(food)
        cooked, _ = after_cooking(food, in_full(known), cooking)
        own, _ = after_cooking(food, at_hand(known), cooking)
        assert own == {key: value for key, value in cooked.items() if key in LABELLED}, food.name
        assert changes_label(food) or own == at_hand(known), food.name


def test_amounts_are_a_mapping() -> None:
    one = Amounts({"fat_g": 1.0}, lambda: {"fat_g": 1.0, "water_g": 9.0})
    assert dict(one) == {"fat_g": 1.0, "water_g": 9.0} == dict(times(one, 1.0))
    assert one["water_g"] == 9.0
    assert one.get("sugars_g") is None
    assert "fat_g" in one
    assert "sugars_g" not in one
    assert "zinc_mg" not in one
    assert len(one) == 2
    assert bool(one)
    assert not Amounts({}, dict)
    assert dict(add([one, {"fat_g": 2.0, "zinc_mg": 1.0}])) == {
        "fat_g": 3.0,
        "water_g": 9.0,
        "zinc_mg": 1.0,
    }
