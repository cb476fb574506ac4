"""A site's own foods: read, checked, and every mistake told with the path to it."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest
import yaml

from sitegen.larder import Food
from sitegen.larder.site import foods_from_mapping

Told = list[tuple[tuple[str | int, ...], str, str]]

GOOD = """
foods:
  - name: harbour oatcakes
    also: [harbour biscuit]
    source: the packet, in March
    per 100 g: {energy_kcal: 441, fat_g: 18.1, sodium_mg: 640}
    measures: {1 oatcake: 11 g, 2 cups: 180 g, "1 cup, crumbled": 95.5 g, "1": 11 g}
    contains: [oats]
    may contain: [sesame, brazil nuts]
    is: ["?gluten"]
    aisle: bakery
    traits: [weighed]
"""


def read(text: str) -> tuple[list[Food], Told]:
    told: Told = []

    def problem(path: tuple[str | int, ...], message: str, hint: str) -> None:
        told.append((path, message, hint))

    return foods_from_mapping(yaml.safe_load(text), problem), told


def test_a_food_is_read_whole() -> None:
    foods, told = read(GOOD)
    assert told == []
    (food,) = foods
    assert food.name == "harbour oatcakes"
    assert food.also == ("harbour biscuit",)
    assert food.source == "the packet, in March"
    assert food.nutrients == {"energy_kcal": 441.0, "fat_g": 18.1, "sodium_mg": 640.0}
    assert food.contains == {"oats"}
    assert food.may_contain == {"sesame", "brazil-nuts"}
    assert food.unsure_classes == {"gluten"}
    assert food.grams_per("oatcake").grams == 11  # type: ignore[union-attr]
    assert food.grams_per("cup").grams_each == 90  # type: ignore[union-attr]
    assert food.grams_per("cup", "crumbled").grams == Fraction("95.5")  # type: ignore[union-attr]
    assert food.grams_per("").grams == 11  # type: ignore[union-attr]


def test_like_takes_what_is_not_given() -> None:
    foods, told = read(
        "foods:\n"
        "  - {name: mill flour, source: the bag, like: plain flour, per 100 g: {protein_g: 12}}\n"
        "  - {name: mill flour sifted, source: the bag, like: mill flour, measures: {1 cup: 100 g}}\n"
    )
    assert told == []
    assert foods[0].nutrients["protein_g"] == 12
    assert foods[0].nutrients["fat_g"] == 0.98  # USDA SR28 20081
    assert foods[0].contains == {"wheat"}
    assert foods[0].grams_per("cup").grams == 125  # type: ignore[union-attr]
    assert foods[1].nutrients["protein_g"] == 12
    assert foods[1].grams_per("cup").grams == 100  # type: ignore[union-attr]
    assert foods[0].number == ""


@pytest.mark.parametrize(
    ("change", "path", "message"),
    [
        ({"source": ""}, ("source",), "'source' is missing or empty"),
        ({"source": None}, ("source",), "'source' is missing or empty"),
        ({"name": " "}, ("name",), "'name' is missing or empty"),
        ({"alsoo": []}, ("alsoo",), "unknown key 'alsoo'"),
        ({"like": "plain flower"}, ("like",), "the larder has no 'plain flower'"),
        ({"aisle": "bakry"}, ("aisle",), "unknown aisle 'bakry'"),
        ({"contains": ["oat", "milk"]}, ("contains", 0), "unknown allergen 'oat'"),
        ({"is": ["glutn"]}, ("is", 0), "unknown class 'glutn'"),
        ({"traits": ["wet"]}, ("traits", 0), "unknown trait 'wet'"),
        ({"per 100 g": {"fat": 3}}, ("per 100 g", "fat"), "unknown nutrient 'fat'"),
        ({"per 100 g": {"fat_g": "3 g"}}, ("per 100 g", "fat_g"), "'3 g' is not a number"),
        ({"per 100 g": {"fat_g": 130}}, ("per 100 g", "fat_g"), "130 cannot be in 100 g"),
        ({"per 100 g": {"fat_g": -1}}, ("per 100 g", "fat_g"), "-1 cannot be in 100 g"),
        ({"per 100 g": {"energy_kcal": 2000}}, ("per 100 g", "energy_kcal"), "cannot be"),
        ({"per 100 g": {"fat_g": 60, "protein_g": 60}}, ("per 100 g",), "come to 120 g"),
        ({"per 100 g": [1]}, ("per 100 g",), "'per 100 g' is not a mapping"),
        ({"measures": {"cup": "90 g"}}, ("measures", "cup"), "'cup' is not a measure"),
        ({"measures": {"1 cup": "3 oz"}}, ("measures", "1 cup"), "'3 oz' is not a weight"),
        ({"measures": {"0 cup": "3 g"}}, ("measures", "0 cup"), "is not a measure"),
        ({"measures": {"1 cup": "0 g"}}, ("measures", "1 cup"), "is not a weight"),
        ({"refuse": "much"}, ("refuse",), "refuse is not a percentage"),
    ],
)
def test_a_mistake_is_told_with_its_path(
    change: dict[str, Any], path: tuple[str | int, ...], message: str
) -> None:
    data = yaml.safe_load(GOOD)
    data["foods"][0].update(change)
    foods, told = read(yaml.safe_dump(data))
    assert foods == []
    assert [where for where, _, _ in told] == [("foods", 0, *path)]
    assert message in told[0][1]


def test_all_mistakes_are_told_and_good_foods_kept() -> None:
    foods, told = read(GOOD + "  - {name: x}\n  - 7\n  - {name: y, source: z, aisle: q, is: [w]}\n")
    assert [food.name for food in foods] == ["harbour oatcakes"]
    assert [where for where, _, _ in told] == [
        ("foods", 1),
        ("foods", 2),
        ("foods", 3, "is", 0),
        ("foods", 3, "aisle"),
    ]


@pytest.mark.parametrize(
    ("text", "path"), [("[]", ()), ("foods: 3", ("foods",)), ("food: []", ("food",))]
)
def test_what_is_not_a_list_of_foods_is_told(text: str, path: tuple[str | int, ...]) -> None:
    foods, told = read(text)
    assert foods == []
    assert [where for where, _, _ in told] == [path]


def test_an_empty_file_has_no_foods_and_no_problem() -> None:
    assert read("") == ([], [])


def test_classes_that_follow_from_allergens_need_not_be_written() -> None:
    foods, told = read(
        "foods:\n  - {name: spread, source: a tub, contains: [milk, wheat], may contain: [eggs]}\n"
        "  - {name: flapjack, source: a packet, contains: [oats]}\n"
    )
    assert told == []
    assert foods[0].classes == {"dairy", "gluten"}
    assert foods[0].unsure_classes == {"egg"}
    assert foods[1].unsure_classes == {"gluten"}


def test_a_class_that_no_allergen_bears_out_is_told() -> None:
    foods, told = read("foods:\n  - {name: spread, source: a tub, is: [dairy]}\n")
    assert foods == []
    assert [(where, message) for where, message, _ in told] == [
        (("foods", 0, "is"), "is dairy but does not contain milk")
    ]


@pytest.mark.parametrize(
    ("word", "named"),
    [
        ("gluten", "wheat"),
        ("tree nuts", "almonds"),
        ("shellfish", "crustaceans"),
        ("dairy", "milk"),
    ],
)
def test_a_word_for_several_allergens_is_answered_with_each(word: str, named: str) -> None:
    _, told = read(f"foods: [{{name: chutney, source: a jar, contains: [{word}]}}]")
    ((path, message, hint),) = told
    assert path == ("foods", 0, "contains", 0)
    assert word in message
    assert named in hint
    assert "did you mean" not in hint


def test_a_name_that_stands_twice_is_told_and_the_first_kept() -> None:
    foods, told = read(
        "foods: [{name: chutney, source: a jar}, {name: chutney, source: another jar}]"
    )
    assert [food.source for food in foods] == ["a jar"]
    assert [path for path, _, _ in told] == [("foods", 1, "name")]
