"""What is eaten of what is written: refuse, drained tins, frying oil, other recipes, swaps, ranges.

Figures: USDA SR28 by number; the weights of tins are common practice.
"""

from __future__ import annotations

import pytest

from sitegen.dish import Dish
from sitegen.kitchen.work_out import work_out
from sitegen.larder import Larder
from sitegen.reading.read import read_recipe
from sitegen.reading.source import Source
from sitegen.site import Settings
from tests.nutrition.cook import cook, figure


def eaten(line: str, method: str = "1. Put everything in a bowl.") -> float | None:
    return cook([line], method).label.lines[0].eaten_grams


@pytest.mark.parametrize(
    ("line", "grams"),
    [
        ("450 g leeks, trimmed", 450 * 0.8),  # refuse.yaml: 20 %, still in what was bought
        ("450 g trimmed leeks", 450),  # weighed after trimming
        ("300 g carrots, peeled", 300 * 0.89),  # 11124: 11 %
        ("300 g peeled carrots", 300),
        ("300 g unpeeled carrots", 300),
        ("a handful of coriander leaves (about 15 g)", 15),  # leaves have no refuse
        ("1 thumb of ginger", 20),  # common practice: about 5 cm
        ("a 5 cm piece of fresh ginger", 20),
        ("2.5 cm piece ginger, grated", 10),
        ("a 2-inch piece of ginger", 20.32),
        ("1 carrot", 61),  # 11124: a medium one, edible part
        ("1 kg mussels in the shell", 300),
        ("6 eggs", 300),  # 01123: 50 g a large one without its shell
        ("500 g chicken thighs, boneless", 500),
        ("1 × 400 g tin chickpeas, drained", 240),
        ("1 tin (400 g) chickpeas, drained", 240),
        ("2 × 400 g tins chickpeas, drained (470 g)", 470),
        ("1 × 145 g tin tuna in brine, drained", 101.5),
        ("1 × 400 g tin chopped tomatoes", 400),
        ("{line: '250 ml sunflower oil, for frying', eaten: 20%}", 0.2 * 250 * 0.9214),
        ("20 to 30 g butter", 25),
    ],
)
def test_what_is_eaten(line: str, grams: float) -> None:
    assert eaten(line) == pytest.approx(grams, rel=0.02)


def test_potatoes_lose_their_parings_only_where_the_recipe_peels_them() -> None:
    """11352: refuse 25 %, "parings and trimmings", of flesh and skin."""
    assert eaten("800 g potatoes, sliced") == 800
    assert eaten("800 g potatoes, peeled") == 600
    assert eaten("800 g potatoes", "1. Peel the [potatoes].") == 600
    assert eaten("800 g potatoes", "1. Scrub the unpeeled [potatoes].") == 800


def sauce(*lines: str, **more: str) -> dict[str, Dish]:
    return {
        "sauce": cook(lines or ["100 g butter", "100 ml water"], serves=4, name="sauce", **more)
    }  # type: ignore[arg-type]


def test_another_recipe_gives_its_share_by_its_own_finished_weight() -> None:
    others = sauce("100 g butter", "100 ml water", more="weighs: 150 g")
    dish = cook(["75 g [sauce](sauce.md)", "100 g sugar"], others=others)
    # 01001: 717 kcal in 100 g of butter, half of it here; 19335: 387 kcal
    assert dish.label.per_serving_values["energy_kcal"] == pytest.approx(717 / 2 + 387)
    assert dish.label.lines[0].source == "worked out on its own page"
    by_portion = cook(["1 portion [sauce](sauce.md)"], others=others)
    assert by_portion.label.per_serving_values["energy_kcal"] == pytest.approx(717 / 4)


def test_what_is_incomplete_within_stays_at_least() -> None:
    # balsamic vinegar (02069) has no figure for fibre; its carbohydrate is 17 g in 100 g
    others = sauce("100 ml balsamic vinegar", "100 g butter")
    dish = cook(["100 g [sauce](sauce.md)", "100 g red lentils"], others=others)
    assert others["sauce"].contents.incomplete("fibre_g")
    printed = figure(dish, "fibre_g")
    assert printed.startswith("at least 1") or printed.startswith("at least 9")
    assert not next(f for f in dish.label.per_serving if f.key == "fibre_g").complete


def test_an_unknown_food_within_lowers_coverage_and_makes_energy_at_least() -> None:
    others = sauce("100 g butter", "100 g grated moonstone")
    dish = cook(["100 g [sauce](sauce.md)", "100 g butter"], others=others)
    assert dish.label.covers == 0.75
    assert figure(dish, "energy_kcal").startswith("at least ")
    assert dish.allergens.unsure == ("grated moonstone (in sauce)",)


def test_an_unknown_weight_leaves_the_batch_and_100_g_open() -> None:
    dish = cook(["100 g butter", "2 handfuls moonstone"])
    assert dish.label.batch_grams is None
    assert dish.label.per_100g == ()
    assert figure(dish, "energy_kcal") == "at least 717 kcal"
    weighed = cook(["100 g butter", "2 handfuls moonstone"], more="weighs: 200 g")
    assert figure(weighed, "energy_kcal", "100 g") == "at least 358 kcal"


def test_water_lost_changes_100_g_and_not_a_serving() -> None:
    lines = ["100 g butter", "100 ml water"]
    wet, dry = cook(lines, serves=2), cook(lines, serves=2, more="weighs: 120 g")
    assert [f.printed for f in wet.label.per_serving] == [f.printed for f in dry.label.per_serving]
    assert figure(wet, "energy_kcal", "100 g") == "358 kcal"
    assert figure(dry, "energy_kcal", "100 g") == "598 kcal"


def test_a_swap_has_figures_of_its_own_and_leaves_the_recipe_alone() -> None:
    dish = cook(["{line: 100 g butter, swap: 80 ml olive oil}", "100 g sugar"])
    assert figure(dish, "energy_kcal") == "1104 kcal"
    (swap,) = dish.label.swaps
    assert (swap.use, swap.instead_of) == ("olive oil", "butter")
    energy = next(f for f in swap.per_serving if f.key == "energy_kcal")
    # 04053: 884 kcal in 100 g, 216 g to the cup of 236.588 ml
    assert energy.value == pytest.approx(387 + 8.84 * 80 * 216 / 236.588, rel=0.001)


def test_ranges_are_taken_at_their_middle_and_their_ends_are_kept() -> None:
    dish = cook(["20 to 30 g butter", "100 g sugar"])
    assert figure(dish, "energy_kcal") == "566 kcal"
    assert ("energy_kcal", "530 kcal", "602 kcal") in dish.label.ranges
    assert not [row for row in dish.label.ranges if row[0] == "carbohydrate_g"]  # 0.06 g in 100 g
    assert cook(["25 g butter"]).label.ranges == ()
    outer = cook(["63 g [sauce](sauce.md)"], others=sauce("20 to 30 g butter", "100 g sugar"))
    assert outer.label.ranges[0][0] == "energy_kcal"


def test_what_is_to_taste_or_extra_is_not_counted_and_said_so() -> None:
    dish = cook(["black pepper, to taste", "100 g butter, plus extra for the tin"])
    assert [line.note for line in dish.label.lines] == [
        "not counted: no amount",
        "what is extra is not counted",
    ]
    assert dish.label.covers == 1


@pytest.mark.parametrize(
    ("line", "note"),
    [
        ("100 g butter", ""),
        ("2 tbsp olive oil", "weight reckoned from 13.5 g to the tablespoon (USDA SR28 04053)"),
        ("1 × 400 g tin chickpeas, drained", "drained weight taken as 3/5 of the tin"),
        ("20 to 30 g butter", "the middle of the range"),
        ("300 g carrots", "11% refuse taken off"),
        ("{line: 250 g sunflower oil, eaten: 20%}", "20% eaten (the author's figure)"),
    ],
)
def test_the_working_says_how_the_grams_came_about(line: str, note: str) -> None:
    assert cook([line]).label.lines[0].note.startswith(note)
    assert bool(cook([line]).label.lines[0].note) is bool(note)


@pytest.mark.parametrize("line", ["100 g butter or lard", "1 tbsp butter or 1 tbsp olive oil"])
def test_of_a_choice_the_first_is_counted_and_said_so(line: str) -> None:
    dish = cook([line])
    assert dish.label.lines[0].larder_name == "butter"
    assert "first choice" in dish.label.lines[0].note


LEVAIN = """\
title: A loaf
serves: 1
ingredients:
  - Levain:
      - 50 g strong white bread flour
      - 50 g water
  - Dough:
      - 400 g strong white bread flour (80%)
      - 100 g levain (20%)
"""


def test_what_a_part_of_the_list_makes_is_counted_once() -> None:
    text = f"---\n{LEVAIN}---\n\n## Method\n\n1. Mix.\n"
    recipe, _ = read_recipe(Source("content/recipes/loaf.md", text), Settings())
    assert recipe is not None
    dish, problems = work_out(recipe, Larder.load(), Settings(), {})
    assert [p.rule for p in problems] == []
    # USDA SR28 20129: 361 kcal in 100 g
    assert dish.contents.totals["energy_kcal"] == pytest.approx(361 * 4.5)
    assert dish.contents.batch_grams == 500
    assert not dish.contents.unknown
    assert "counted with the part Levain" in dish.label.lines[3].note
    assert not dish.rows[3].missing


def test_what_only_sounds_like_a_part_is_a_food_of_its_own() -> None:
    text = LEVAIN.replace("100 g levain (20%)", "100 g custard").replace("Levain:", "Custard tart:")
    recipe, _ = read_recipe(
        Source("content/recipes/loaf.md", f"---\n{text}---\n\n## Method\n\n1. Mix.\n"), Settings()
    )
    assert recipe is not None
    dish, _ = work_out(recipe, Larder.load(), Settings(), {})
    assert "part" not in dish.label.lines[3].note
