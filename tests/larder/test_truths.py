"""What has to be true of every food in the larder, whatever table it comes from."""

from __future__ import annotations

import re

import pytest

from sitegen.larder import Food, Larder
from sitegen.larder.contradictions import contradictions
from sitegen.larder.vocabulary import AISLES, ALLERGENS, CLASSES, NUTRIENTS, TRAITS

FOODS = Larder.load().foods
PLANT_MILK = re.compile(r"coconut|soya|soy|almond|oat|rice|hemp|nut|cocoa|cacao|peanut|seed")


def named(pattern: str, excused: str = r"(?!)") -> list[Food]:
    return [f for f in FOODS if re.search(pattern, f.name) and not re.search(excused, f.name)]


def test_no_food_contradicts_itself() -> None:
    told = [(f.name, text) for f in FOODS for text in contradictions(f, f.description)]
    assert told == []


def test_words_are_from_the_lists() -> None:
    for food in FOODS:
        assert food.contains | food.may_contain <= ALLERGENS, food.name
        assert food.classes | food.unsure_classes <= CLASSES, food.name
        assert food.traits <= TRAITS, food.name
        assert food.aisle in AISLES, food.name
        assert set(food.nutrients) <= set(NUTRIENTS), food.name
        assert food.source, food.name
        assert len(food.traits & {"spooned", "weighed"}) == 1, food.name
        assert not food.contains & food.may_contain, food.name


# The allergens of foods whose name tells them: Regulation (EU) 1169/2011, Annex II.
@pytest.mark.parametrize(
    ("pattern", "excused", "allergen"),
    [
        (r"cheese|cheddar|mozzarella|parmesan|ricotta|feta|brie", r"head cheese|celeriac", "milk"),
        (r"\bmilk\b", PLANT_MILK.pattern + r"|chestnut", "milk"),
        (r"yoghurt|\bcream\b|crème fraîche|ghee", r"coconut|cracker|cones|soda|cocoa|tartar", "milk"),
        (r"^(plain|strong|self-raising|wholemeal|cake|bread) .*flour", r"(?!)", "wheat"),
        (r"couscous|bulgur|semolina|farina|spelt", r"(?!)", "wheat"),
        (r"\bpasta\b|noodles|spaghetti", r"gluten-free|rice|glass|squash|sauce|cooking water|kelp", "wheat"),
        (r"bread\b|baguette|naan|brioche", r"gluten-free|sweetbread|rye|corn|crisp|pumper", "wheat"),
        (r"\brye\b", r"(?!)", "rye"),
        (r"barley", r"(?!)", "barley"),
        (r"\boats?\b|oatmeal", r"(?!)", "oats"),
        (r"\begg\b|mayonnaise", r"eggplant|noodle wrapper|light|without egg", "eggs"),
        (r"prawn|shrimp|\bcrab\b|lobster|langoustine", r"crab apple|crab sticks", "crustaceans"),
        (r"mussel|clam|oyster|squid|octopus|scallop", r"mushroom|sauce|chowder", "molluscs"),
        (r"salmon|cod\b|tuna|haddock|anchovy|mackerel|trout", r"(?!)", "fish"),
        (r"almond", r"extract", "almonds"),
        (r"walnut", r"(?!)", "walnuts"),
        (r"hazelnut", r"(?!)", "hazelnuts"),
        (r"cashew", r"(?!)", "cashews"),
        (r"pistachio", r"(?!)", "pistachios"),
        (r"pecan", r"(?!)", "pecans"),
        (r"peanut", r"no peanuts", "peanuts"),
        (r"soya|tofu|tempeh|miso|edamame", r"(?!)", "soya"),
        (r"sesame|tahini|halva", r"(?!)", "sesame"),
        (r"mustard", r"greens|cress|komatsuna", "mustard"),
        (r"celery|celeriac", r"(?!)", "celery"),
        (r"lupin", r"(?!)", "lupin"),
    ],
)  # fmt: skip
def test_a_food_named_for_an_allergen_contains_it(
    pattern: str, excused: str, allergen: str
) -> None:
    foods = named(pattern, excused)
    assert foods
    lacking = [food.name for food in foods if allergen not in food.contains | food.may_contain]
    assert lacking == []


def test_wine_may_hold_sulphites() -> None:
    for food in named(r"\bwine\b", r"vinegar"):
        assert "sulphites" in food.contains | food.may_contain, food.name


def test_meat_and_fish_are_never_vegetarian() -> None:
    flesh = {"meat", "pork", "poultry", "fish", "shellfish"}
    for food in FOODS:
        if food.aisle in ("meat", "fish") and food.number:
            group_is_egg = "egg" in food.classes
            seaweed = re.search(r"seaweed|laver|nori|carrageen|kelp|kombu|wakame|agar", food.name)
            if not (seaweed or group_is_egg or "seaweed" in food.description.lower()):
                assert food.classes & flesh, food.name


def test_honey_warns_of_infants() -> None:
    honey = Larder.load().get("honey")
    assert honey is not None
    assert "honey" in honey.traits
    assert "honey" in honey.classes


@pytest.mark.parametrize(
    ("name", "trait"),
    [
        ("chicken breast, skinless, boneless", "raw-poultry"),
        ("beef mince", "raw-mince"),
        ("sirloin steak", "raw-cut"),
        ("salmon fillet", "raw-fish"),
        ("mussels, in the shell", "raw-shellfish"),
        ("egg", "raw-egg"),
        ("plain flour", "raw-flour"),
        ("red kidney beans, dried", "raw-kidney-bean"),
        ("bean sprouts", "raw-sprouts"),
        ("baking powder", "leavening"),
        ("salt", "salt"),
        ("gelatine powder", "gelling"),
        ("water", "liquid"),
        ("whole milk", "liquid"),
    ],
)
def test_foods_that_need_a_caution_ask_for_it(name: str, trait: str) -> None:
    food = Larder.load().get(name)
    assert food is not None
    assert trait in food.traits


def test_cooked_foods_are_not_called_raw() -> None:
    raw = {"raw-poultry", "raw-mince", "raw-cut", "raw-fish", "raw-shellfish", "raw-kidney-bean"}
    for food in named(r", (cooked|boiled|roasted|fried|braised|grilled|baked)\b"):
        assert not food.traits & raw, food.name


def test_energy_is_near_what_the_parts_give() -> None:
    """Energy within a fifth (or 25 kcal) of 4, 4, 9 and 7 kcal a gram, the general factors.

    Source: Regulation (EU) 1169/2011, Annex XIV. Left out: foods of fibre, acids and polyols,
    whose factors differ, and cocoa, for which SR28 uses factors of its own.
    """
    odd = re.compile(
        r"cocoa|bran|vinegar|psyllium|yeast|\btea\b|coffee|carob|agar|citric|pectin|\bgum\b"
        r"|baking powder|tartar|stevia|chocolate|zest|lemon|lime\b"
    )
    far = []
    for food in FOODS:
        get = food.nutrients.get
        fibre = get("fibre_g", 0.0)
        if "energy_kcal" not in food.nutrients or odd.search(food.name) or get("polyols_g"):
            continue
        if get("allulose_g") or fibre > 15 or food.aisle in ("spices", "herbs", "vegetables"):
            continue
        parts = (
            4 * (get("protein_g", 0.0) + get("carbohydrate_g", 0.0))
            + 9 * get("fat_g", 0.0)
            + 7 * get("alcohol_g", 0.0)
        )
        energy = food.nutrients["energy_kcal"]
        if not (parts - 4 * fibre) * 0.8 - 25 <= energy <= parts * 1.2 + 25:
            far.append((food.name, energy, round(parts)))
    assert far == []
