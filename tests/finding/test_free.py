"""Who must avoid something is told only of dishes of which it is known.

The cereals that contain gluten, and the names: Regulation (EU) No 1169/2011, Annex II.
"""

from __future__ import annotations

import pytest

from sitegen.finding.free import all_diets, avoided, free_of
from sitegen.site import Settings
from tests.dishes import cooked

NAMES = avoided("uk")


def free(*lines: str, matter: str = "title: A dish") -> tuple[str, ...]:
    return free_of(cooked(matter, lines), NAMES)


def test_plain_food_is_free_of_everything():
    assert free("400 g potatoes", "200 g leeks") == tuple(NAMES)


@pytest.mark.parametrize(
    ("line", "gone"),
    [
        ("100 ml whole milk", "milk"),
        ("30 g butter, optional", "milk"),
        ("100 g plain flour", "cereals containing gluten"),
        ("100 g rolled oats", "cereals containing gluten"),
        ("2 eggs", "eggs"),
        ("50 g walnuts", "nuts"),
        ("30 g pine nuts", "nuts"),
        ("1 tsp mustard seeds", "mustard"),
    ],
)
def test_one_ingredient_takes_a_dish_off_its_list_and_off_no_other(line, gone):
    assert set(NAMES) - set(free("400 g potatoes", line)) == {gone}


@pytest.mark.parametrize(
    ("lines", "why"),
    [
        (["400 g potatoes", "50 g glimmerwort"], "nobody knows what is in it"),
        (["400 g potatoes", "500 ml vegetable stock"], "makers differ"),
    ],
)
def test_a_dish_of_which_something_is_not_known_is_on_no_list(lines, why):
    assert free(*lines) == (), why


def test_what_the_author_says_it_may_contain_counts():
    told = free("400 g potatoes", matter="title: A dish\nmay contain: [sesame]")
    assert "sesame seeds" not in told
    assert "milk" in told
    vague = free("400 g potatoes", matter="title: A dish\nmay contain: [something in the air]")
    assert vague == ()


def test_a_swap_counts():
    text = "line: 30 g rapeseed oil\n    swap: 30 g butter"
    assert "milk" not in free("400 g potatoes", text)


def test_the_names_are_the_regions_and_the_lists_are_the_wider_ones():
    assert avoided("us")["tree nuts"] >= {"almonds", "pine-nuts", "chestnuts"}
    assert avoided("us")["cereals containing gluten"] == {"wheat", "rye", "barley", "oats"}
    assert avoided("uk")["nuts"] == avoided("us")["tree nuts"]
    for region in ("us", "uk", "eu", "ca", "au"):
        keys = [key for held in avoided(region).values() for key in held]
        assert len(keys) == len(set(keys))
        assert {"milk", "eggs", "wheat", "lupin", "molluscs"} <= set(keys)


def test_what_is_vegan_is_on_the_vegetarian_list_too():
    dish = cooked("title: A dish", ["400 g potatoes"], Settings())
    assert "vegetarian" not in dish.diets
    assert {"vegan", "vegetarian", "dairy-free ingredients"} <= set(all_diets(dish.diets))
