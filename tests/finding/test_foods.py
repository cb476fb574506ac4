"""Main ingredients: what a reader would look a dish up by, and nothing that is in everything."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest

from sitegen.finding.foods import main_foods, plain_name
from sitegen.gathering import Gatherer
from tests.dishes import cooked

REPO = Path(__file__).parents[2]


@pytest.mark.parametrize(
    ("larder", "aisle", "plain"),
    [
        ("leek", "vegetables", "leeks"),
        ("potato", "vegetables", "potatoes"),
        ("baking potato", "vegetables", "potatoes"),
        ("sweet potato", "vegetables", "sweet potatoes"),
        ("avocado", "fruit", "avocados"),
        ("quince", "fruit", "quinces"),
        ("kale", "vegetables", "kale"),
        ("celeriac, boiled", "vegetables", "celeriac"),
        ("beef shin, boneless", "meat", "beef"),
        ("rump steak", "meat", "beef"),
        ("lamb's liver", "meat", "offal"),
        ("chicken, whole", "meat", "chicken"),
        ("cod fillet", "fish", "cod"),
        ("smoked haddock", "fish", "smoked haddock"),
        ("chickpeas, tinned, drained", "tins", "chickpeas"),
        ("tinned tomatoes", "tins", "tomatoes"),
        ("lemon zest", "fruit", "lemons"),
        ("egg yolk", "dairy", "eggs"),
        ("rolled oats", "grains", "oats"),
        ("ground almonds", "baking", "almonds"),
        ("brussels sprouts", "vegetables", "Brussels sprouts"),
        ("oyster mushrooms", "vegetables", "mushrooms"),
    ],
)
def test_a_larder_food_has_the_name_that_a_reader_looks_for(larder, aisle, plain):
    assert plain_name(larder, aisle) == plain


def test_the_demos_dishes_are_known_by_what_matters_in_them():
    dishes = Gatherer(REPO).gather(drafts=False).collection.dishes
    found = {slug: set(main_foods(dish)) for slug, dish in dishes.items()}
    assert found["leek-omelette"] >= {"eggs", "leeks", "potatoes"}
    assert found["barley-broth"] >= {"barley", "leeks"}
    assert found["fish-pie"] >= {"cod", "smoked haddock", "potatoes"}  # its title names none
    assert found["beef-in-wine"] >= {"beef", "wine"}  # the wine is named, not weighed
    assert found["oat-biscuits"] >= {"oats", "sesame"}
    assert found["apple-ginger-cake"] == {"apples", "ginger"}
    everything = set().union(*found.values())
    for staple in ("water", "salt", "olive oil", "rapeseed oil", "sugar", "garlic", "black pepper"):
        assert staple not in everything


def test_the_weight_decides_and_the_heaviest_come_first():
    dish = cooked(
        "title: Friday pan",
        ["400 g potatoes", "300 g leeks", "20 g carrots", "500 ml water", "60 ml olive oil"],
    )
    assert main_foods(dish) == ("potatoes", "leeks")
    assert all(row.grams is None or row.grams > Fraction(0) for row in dish.rows)


def test_a_title_names_what_is_too_light_to_count():
    lines = ["400 g potatoes", "20 g dill", "2 tsp mustard seeds"]
    assert main_foods(cooked("title: Potatoes", lines)) == ("potatoes",)
    named = main_foods(cooked("title: Potatoes with dill", lines))
    assert named == ("potatoes", "dill")
