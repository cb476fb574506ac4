"""Lines weighed: USDA SR28's own household weights, to the gram, through the whole of the kitchen."""

from __future__ import annotations

from fractions import Fraction

import pytest

from sitegen.kitchen.foods import identify
from sitegen.kitchen.weighing import Weighed, weigh
from sitegen.larder.larder import Larder
from sitegen.problems import Problem
from sitegen.reading.lines import read_line
from sitegen.reading.source import Place


def weighed(text: str, region: str = "us") -> Weighed:
    problems: list[Problem] = []
    line = read_line(text, Place(1, 1), "soup.md", problems)
    assert line is not None
    found = identify(line, Larder.load(), "soup.md", problems)
    assert problems == []
    assert found.food is not None
    return weigh(line, found.food, region)


@pytest.mark.parametrize(
    ("text", "grams", "number"),
    [
        ("1 cup plain flour", "125", "20081"),
        ("1 cup granulated sugar", "200", "19335"),
        ("1 cup whole milk", "244", "01077"),
        ("1 cup olive oil", "216", "04053"),
        ("1 tbsp olive oil", "13.5", "04053"),
        ("1 tsp salt", "6", "02047"),
        ("1 cup sesame seeds", "144", "12023"),
        ("1 tbsp sesame seeds", "9", "12023"),
        ("1 cup chopped parsley", "60", "11297"),
        ("1 cup parsley, chopped", "60", "11297"),
        ("1 tbsp parsley", "3.8", "11297"),
        ("1 tbsp chopped parsley", "3.75", "11297"),
        ("1 large egg", "50", "01123"),
        ("3 eggs", "150", "01123"),
        ("1 cup lemon juice", "244", "09152"),
        ("juice of 1 lemon", "48", "09152"),
        ("juice of half a lemon", "24", "09152"),
        ("1 stick butter", "113", "01001"),
        ("1 cup butter", "227", "01001"),
        ("1 clove garlic", "3", "11215"),
        ("1 tsp garlic", "2.8", "11215"),
        ("1 cup chopped onion", "160", "11282"),
        ("1 medium onion", "110", "11282"),
        ("1 large onion", "150", "11282"),
    ],
)
def test_sr28_measures_to_the_gram(text: str, grams: str, number: str) -> None:
    """USDA SR28, WEIGHT.txt, the food of that number."""
    found = weighed(text).grams
    assert found is not None
    assert found == (Fraction(grams), Fraction(grams))


def test_a_metric_cup_is_larger_by_what_it_is_larger() -> None:
    """125 g to 236.588 ml (SR28 20081) is 132.1 g to 250 ml."""
    found = weighed("1 cup plain flour", "au").grams
    assert found is not None
    assert round(float(found[0]), 1) == 132.1


def test_ranges_keep_both_ends() -> None:
    assert weighed("2–3 cloves garlic").grams == (6, 9)
    assert weighed("1 to 1 1/2 cups plain flour").grams == (125, Fraction("187.5"))


def test_the_author_s_own_grams_come_first() -> None:
    found = weighed("1 cup (140 g) plain flour")
    assert found.grams == (140, 140)
    assert found.grams_basis == ""


def test_each_and_in_all() -> None:
    assert weighed("3 onions (90 g each)").grams == (270, 270)
    assert weighed("3 onions (270 g in all)").grams == (270, 270)
    assert weighed("3 onions (270 g)").grams == (270, 270)


def test_a_measure_of_a_different_kind_is_not_borrowed() -> None:
    """SR28 11215 has a clove and a teaspoon of garlic, but nothing that says what a head weighs."""
    assert weighed("1 bunch garlic").grams is None


def test_a_stick_is_half_a_cup_and_eight_spoons() -> None:
    """USDA SR28 01001: a stick is 113 g, a cup 227 g, a tablespoon 14.2 g."""
    stick, cup, spoons = (
        weighed(text).grams for text in ("1 stick butter", "1/2 cup butter", "8 tbsp butter")
    )
    assert stick is not None
    assert cup is not None
    assert spoons is not None
    assert abs(stick[0] - cup[0]) <= 1
    assert abs(stick[0] - spoons[0]) <= 1
