"""Published checks: household measures weigh what USDA SR28's WEIGHT file says, to the gram."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sitegen.larder import Food, Larder, Measure
from sitegen.larder.food import VOLUME_ML
from sitegen.larder.weights import parse, plain_measures


@pytest.mark.parametrize(
    ("name", "unit", "state", "grams"),
    [
        ("plain flour", "cup", "", "125"),  # USDA SR28 20081
        ("granulated sugar", "cup", "", "200"),  # 19335
        ("whole milk, with vitamin D", "cup", "", "244"),  # 01077
        ("olive oil", "cup", "", "216"),  # 04053
        ("olive oil", "tbsp", "", "13.5"),
        ("salt", "tsp", "", "6.0"),  # 02047
        ("sesame seeds", "cup", "", "144"),  # 12023
        ("sesame seeds", "tbsp", "", "9"),
        ("parsley, fresh", "cup", "chopped", "60"),  # 11297
        ("parsley, fresh", "tbsp", "", "3.8"),
        ("egg", "large", "", "50"),  # 01123
        ("egg", "", "", "50"),
        ("lemon juice", "cup", "", "244"),  # 09152
        ("lemon juice", "lemon", "", "48"),
        ("onion", "cup", "chopped", "160"),  # 11282
        ("onion", "cup", "sliced", "115"),
        ("onion", "medium", "", "110"),
        ("onion", "large", "", "150"),
        ("onion", "", "", "110"),
        ("garlic", "clove", "", "3.0"),  # 11215
        ("garlic", "tsp", "", "2.8"),
        ("butter", "stick", "", "113"),  # 01001
        ("butter", "cup", "", "227"),
        ("celery", "stalk", "", "40"),  # 11143, medium
        ("soft dark brown sugar", "cup", "", "220"),  # 19334, packed
        ("soft dark brown sugar", "cup", "unpacked", "145"),
    ],
)
def test_a_measure_weighs_what_usda_publishes(name: str, unit: str, state: str, grams: str) -> None:
    food = Larder.load().get(name)
    assert food is not None
    measure = food.grams_per(unit, state)
    assert measure is not None
    assert measure.grams_each == Fraction(grams)


def test_a_cup_of_onions_in_no_known_state_is_not_guessed() -> None:
    onion = Larder.load().get("onion")
    assert onion is not None
    assert onion.grams_per("cup") is None
    assert onion.grams_per("cup", "grated") is None


def food_of(*measures: tuple[str, str, str]) -> Food:
    made = (Measure(Fraction(1), u, s, Fraction(g), "test") for u, s, g in measures)
    return Food("test", measures=tuple(made))


def test_a_millilitre_of_flour_comes_from_its_cup() -> None:
    measure = food_of(("cup", "", "125")).grams_per("ml")
    assert measure is not None
    # 1 US cup is 236.588 236 5 ml (NIST Handbook 44, Appendix C).
    assert measure.grams == Fraction(125) / Fraction("236.5882365")
    assert "from 1 cup" in measure.source


def test_the_measure_nearest_in_size_is_converted() -> None:
    food = food_of(("tsp", "", "5"), ("cup", "", "216"))
    assert food.grams_per("tbsp").grams == 15  # type: ignore[union-attr]
    assert food.grams_per("pint").grams == 432  # type: ignore[union-attr]


def test_a_plain_measure_serves_for_a_state_that_has_none() -> None:
    food = food_of(("cup", "", "100"), ("cup", "ground", "90"))
    assert food.grams_per("cup", "chopped").grams == 100  # type: ignore[union-attr]
    assert food.grams_per("tbsp", "ground").grams == Fraction(90, 16)  # type: ignore[union-attr]


def test_grated_and_shredded_are_one_state() -> None:
    cheddar = Larder.load().get("cheddar")
    assert cheddar is not None
    assert cheddar.grams_per("cup", "grated").grams == 113  # type: ignore[union-attr]
    assert cheddar.grams_per("cup", "sliced") is None


@given(st.sampled_from(sorted(VOLUME_ML)), st.sampled_from(sorted(VOLUME_ML)))
def test_volumes_convert_by_their_size_alone(has: str, asked: str) -> None:
    measure = food_of((has, "", "100")).grams_per(asked)
    assert measure is not None
    assert measure.grams_each / VOLUME_ML[asked] == Fraction(100) / VOLUME_ML[has]


@given(
    st.sampled_from(["clove", "slice", "", "large", "oz", "g"]),
    st.sampled_from(["", "chopped"]),
)
def test_a_count_is_never_made_of_a_volume(unit: str, state: str) -> None:
    assert food_of(("cup", "", "100")).grams_per(unit, state) is None


@pytest.mark.parametrize(
    ("written", "name", "parsed"),
    [
        ("cup", "", [("cup", "")]),
        ("cup, chopped or sliced", "", [("cup", "chopped"), ("cup", "sliced")]),
        ("cup chopped", "", [("cup", "chopped")]),
        ("cup slices", "", [("cup", "sliced")]),
        ("cup, cubes", "", [("cup", "cubed")]),
        ('cup (1" pieces)', "", [("cup", "pieces")]),
        ("cup (4.86 large eggs)", "egg", [("cup", "")]),
        ("cup unsifted, dipped", "", [("cup", "unsifted")]),
        ("cup (not packed)", "", [("cup", "unpacked")]),
        ("cup (1 NLEA serving)", "", [("cup", "")]),
        ("tbsp chopped", "", [("tbsp", "chopped")]),
        ("tablespoon", "", [("tbsp", "")]),
        ("teaspoon", "", [("tsp", "")]),
        ("fl oz", "", [("fl_oz", "")]),
        ("liter", "", [("l", "")]),
        ("clove", "", [("clove", "")]),
        ("cloves", "", [("clove", "")]),
        ("sprigs", "", [("sprig", "")]),
        ('medium (2-1/2" dia)', "", [("medium", "")]),
        ('medium whole (2-3/5" dia)', "tomato", [("medium", "")]),
        ("extra large", "", [("extra large", "")]),
        ('fruit (2-1/8" dia)', "", [("", "")]),
        ("fruit without refuse", "", [("", "")]),
        ("fruit, small", "", [("small", "")]),
        ('potato large (3" to 4-1/4" dia)', "potato", [("large", "")]),
        ('slice, large (1/4" thick)', "", [("slice", "large")]),
        ("slice, thin", "", [("slice", "thin")]),
        ('stalk, medium (7-1/2" - 8" long)', "", [("stalk", "medium")]),
        ("leaf outer", "", [("leaf", "outer")]),
        ("lemon yields", "lemon juice", [("lemon", "")]),
        ("plum tomato", "plum tomatoes", [("", "")]),
        ('head, small (4" dia)', "", [("head", "small")]),
        ("NLEA serving", "", []),
        ("oz", "", []),
        ("oz, boneless", "", []),
        ("lb", "", []),
        ("can (15 oz)", "", []),
        ("serving", "", []),
        ("unit (yield from 1 lb ready-to-cook chicken)", "", []),
        ("cubic inch", "", []),
    ],
)
def test_usda_measure_texts_are_parted(
    written: str, name: str, parsed: list[tuple[str, str]]
) -> None:
    assert parse(written, name.split()) == parsed


@pytest.mark.parametrize(
    ("known", "meant"),
    [
        ([("cup", "whole"), ("cup", "ground")], {("cup", ""): ("cup", "whole")}),
        ([("cup", "packed"), ("cup", "unpacked")], {("cup", ""): ("cup", "packed")}),
        ([("cup", "chopped")], {}),
        ([("cup", ""), ("cup", "whole")], {}),
        ([("cup", "whole"), ("tsp", "")], {}),
        ([("stalk", "medium"), ("stalk", "large")], {("stalk", ""): ("stalk", "medium")}),
        ([("medium", ""), ("large", "")], {("", ""): ("medium", "")}),
        ([("", "")], {("medium", ""): ("", "")}),
    ],
)
def test_what_a_cook_means_when_no_state_is_given(
    known: list[tuple[str, str]], meant: dict[tuple[str, str], tuple[str, str]]
) -> None:
    assert plain_measures(dict.fromkeys(known, "")) == meant
