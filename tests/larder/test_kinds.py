"""A word for a kind of food is answered with the foods that a cook would mean by it."""

from __future__ import annotations

import pytest

from sitegen.kitchen.foods import identify
from sitegen.larder import Larder
from sitegen.larder.kinds import table
from sitegen.problems import Problem
from sitegen.reading.lines import read_line
from sitegen.reading.source import Place


def test_every_food_of_the_table_is_in_the_larder_under_that_name() -> None:
    larder = Larder.load()
    for names in table().values():
        assert 1 <= len(names) <= 5
        assert len(set(names)) == len(names)
        for name in names:
            food = larder.get(name)
            assert food is not None, name
            assert food.name == name


def test_no_kind_is_also_the_name_of_a_food() -> None:
    larder = Larder.load()
    for whole in table():
        assert not larder.find(whole).sure, whole


@pytest.mark.parametrize(
    ("words", "first"),
    [
        ("beef", ["stewing beef", "beef mince"]),
        ("fish", ["cod fillet", "haddock fillet"]),
        ("fresh fish", ["cod fillet", "haddock fillet"]),
        ("cheese", ["cheddar", "mozzarella"]),
        ("chicken", ["chicken breast, skinless, boneless", "chicken thigh, skinless, boneless"]),
        ("pork", ["pork shoulder, boneless", "pork loin, boneless"]),
        ("lamb", ["lamb, diced", "lamb shoulder, boneless"]),
        ("beans", ["red kidney beans, tinned, drained", "cannellini beans, tinned, drained"]),
        ("chickpeas", ["chickpeas, dried", "chickpeas, tinned, drained"]),
        ("black beans", ["black beans, dried", "black beans, tinned, drained"]),
        ("navy beans", ["haricot beans, dried", "haricot beans, tinned, drained"]),
        ("fava beans", ["broad beans, dried", "broad beans, fresh"]),
        ("stock", ["vegetable stock", "chicken stock"]),
        ("hot stock", ["vegetable stock", "chicken stock"]),
        ("vinegar", ["white wine vinegar", "cider vinegar"]),
        ("crab", ["crab meat, cooked", "crab, tinned, drained"]),
        ("custard", ["egg custard, baked", "custard powder"]),
        ("olives", ["black olives", "green olives"]),
        ("corn", ["sweetcorn, tinned, drained", "sweetcorn, frozen"]),
        ("pulled pork", ["roast pork shoulder", "pulled pork in barbecue sauce"]),
        ("guanciale", ["pork jowl", "streaky bacon"]),
    ],
)
def test_the_foods_a_cook_would_mean_come_first(words: str, first: list[str]) -> None:
    match = Larder.load().find(words)
    assert not match.sure
    assert [food.name for food in match.candidates[:2]] == first


def test_what_is_none_of_a_kind_is_not_offered_it() -> None:
    match = Larder.load().find("vegan cheese")
    assert not match.sure
    assert {food.name for food in match.candidates}.isdisjoint(
        {"cheddar", "mozzarella", "parmesan"}
    )


@pytest.mark.parametrize("words", ["chermoula", "haggis", "tteok", "lutefisk"])
def test_what_is_near_nothing_is_answered_with_nothing(words: str) -> None:
    assert Larder.load().find(words).candidates == ()


@pytest.mark.parametrize(
    ("text", "food"),
    [
        ("1 chicken", "chicken, whole"),
        ("1 free-range chicken (1.5 kg)", "chicken, whole"),
        ("2 ducks", "duck, whole"),
        ("1 turkey (5 kg)", "turkey, whole"),
        ("500 g chicken", None),
        ("2 tins chicken", None),
        ("2 steaks", None),
    ],
)
def test_a_counted_bird_is_a_whole_one(text: str, food: str | None) -> None:
    problems: list[Problem] = []
    line = read_line(text, Place(1, 1), "x.md", problems)
    assert line is not None
    found = identify(line, Larder.load(), "x.md", problems).food
    assert (found.name if found else None) == food
    assert [p.rule for p in problems] == ([] if food else ["food-unknown"])
