"""Properties of printed amounts: read back, never nothing, near, and the better of two neighbours.

The ladders are enumerated here from their tables, apart from the code that prints by them.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

import pytest
from hypothesis import assume, example, given
from hypothesis import strategies as st

from sitegen.kitchen.figures import US_SPOON, base_amount, ounce, tsp
from sitegen.kitchen.printing import half_up, print_figure, rung
from sitegen.kitchen.rows import Kitchen, work_row
from sitegen.kitchen.tables import NEAR, ladders
from sitegen.kitchen.units import UNITS, size_of
from sitegen.larder.larder import Larder
from sitegen.problems import Problem
from sitegen.reading.lines import read_line
from sitegen.reading.recipe import Amount, IngredientLine, Recipe
from sitegen.reading.source import Place
from sitegen.site import Settings

LADDERS = sorted(ladders())
WEIGHED_OR_FILLED = ["g", "g-fine", "ml", "us-volume", "us-weight"]
VALUES = st.one_of(
    st.fractions(min_value=Fraction(1, 20), max_value=20, max_denominator=5000),
    st.fractions(min_value=Fraction(1, 20), max_value=20_000, max_denominator=5000),
    st.integers(1, 4000).map(lambda n: Fraction(n, 8)),
)
FACTORS = st.fractions(min_value=Fraction(1, 20), max_value=20, max_denominator=200)


def read(text: str) -> IngredientLine:
    problems: list[Problem] = []
    line = read_line(text, Place(1, 1), "soup.md", problems)
    assert problems == [], text
    assert line is not None
    return line


REGIONAL = {
    "metric-volume": ("eu", Fraction(5)),
    "australian-volume": ("au", Fraction(5)),
    "imperial-volume": ("uk", Fraction("28.4130625")),
}
"""Whose spoons, cups and pints each ladder is for, and its base unit in ml."""


def in_base(amount: Amount, ladder: str) -> tuple[Fraction, Fraction | None]:
    """An amount that was read, in the ladder's base unit, by the units' own sizes."""
    if ladder.startswith("count"):
        per = Fraction(1)
    elif ladder == "us-volume":
        size = size_of(amount.unit, "us")
        assert size is not None
        per = size / tsp()
    elif ladder == "us-weight":
        size = size_of(amount.unit, "us")
        assert size is not None
        per = size / ounce()
    elif ladder in REGIONAL:
        region, base = REGIONAL[ladder]
        size = size_of(amount.unit, region)
        assert size is not None
        per = size / base
    else:
        size = size_of(amount.unit, "us")
        assert size is not None
        per = size
    return amount.value * per, None if amount.upto is None else amount.upto * per


def total(text: str, ladder: str) -> Fraction:
    """What a printed amount says, as the line reader reads it."""
    line = read(f"{text} oats")
    assert line.food == "oats", text
    assert line.amount is not None
    return sum((in_base(term, ladder)[0] for term in line.amount.terms), Fraction(0))


def steps(ladder: str, value: Fraction, *, singles: bool = False) -> Iterator[Fraction]:
    """Every amount of the ladder that may be next to ``value``."""
    spec = ladders()[ladder]
    low = Fraction(0)
    if spec["kind"] == "decimal":
        for below, step in spec["bands"]:
            yield from _multiples(low, below, [Fraction(0)], Fraction(step), value)
            low = Fraction(below or 0)
        return
    top = Fraction(0)
    for amount, _, _, pair in spec.get("rungs", []):
        top = Fraction(amount)
        if not (singles and pair):
            yield top
    low = top + Fraction(1, 1000) if top else Fraction(0)
    bands = [(b, Fraction(per), fs) for b, _, _, per, fs in spec["bands"]]
    if spec["kind"] == "compound":
        bands += [(b, Fraction(step), ["0"]) for b, step in spec["minor"][1]]
    for below, per, fractions in bands:
        yield from _multiples(low, below, [Fraction(f) * per for f in fractions], per, value)
        low = max(low, Fraction(below or 0))


def _multiples(
    low: Fraction, below: str, offsets: list[Fraction], step: Fraction, value: Fraction
) -> Iterator[Fraction]:
    """Multiples of ``step`` plus an offset in a band, next to ``value``; a band's end belongs to it."""
    high = Fraction(below) if below else None
    centre = max(low, value if high is None else min(value, high))
    for n in range(-2, 3):
        for offset in offsets:
            amount = ((centre / step).__floor__() + n) * step + offset
            if amount > 0 and low <= amount and (high is None or amount <= high):
                yield amount


@given(VALUES, st.sampled_from(WEIGHED_OR_FILLED))
@example(Fraction(15), "us-volume")
@example(Fraction(49), "us-volume")
@example(Fraction(5000), "us-volume")
@example(Fraction("19.99"), "us-weight")
@example(Fraction(1250), "g")
def test_what_is_printed_is_read_back_as_the_same_amount(value: Fraction, ladder: str) -> None:
    assert total(print_figure(ladder, value), ladder) == rung(ladder, value)[0]


@given(VALUES, st.sampled_from(["count", "count-half"]), st.sampled_from(["clove", "leaf", "tin"]))
def test_counts_are_read_back(value: Fraction, ladder: str, noun: str) -> None:
    assume(value < 900)
    text = print_figure(ladder, value, noun=noun)
    line = read(f"{text} oats")
    assert line.amount is not None
    assert line.amount.terms[0].value == rung(ladder, value)[0]
    assert UNITS[line.amount.unit].key == noun


@given(VALUES, FACTORS, st.sampled_from(WEIGHED_OR_FILLED))
@example(Fraction(2), Fraction(3, 2), "us-volume")
@example(Fraction(20), Fraction(6, 5), "us-weight")
def test_printed_ranges_are_read_back(value: Fraction, factor: Fraction, ladder: str) -> None:
    upto = value * (1 + factor)
    text = print_figure(ladder, value, upto)
    low, high = rung(ladder, value)[0], rung(ladder, upto)[0]
    assert low <= high
    if " to " in text:  # the two ends have units of their own
        first, second = text.split(" to ")
        assert (total(first, ladder), total(second, ladder)) == (low, high)
    elif "–" in text:
        line = read(f"{text} oats")
        assert line.amount is not None
        (term,) = line.amount.terms
        assert in_base(term, ladder) == (low, high)
    else:
        assert low == high == total(text, ladder)


@given(VALUES, st.sampled_from(LADDERS))
def test_no_amount_is_printed_as_nothing(value: Fraction, ladder: str) -> None:
    amount, number, _ = rung(ladder, value)
    assert amount > 0
    assert number not in ("", "0")
    assert print_figure(ladder, value)[0] != "0" or print_figure(ladder, value).startswith("0.")


@given(VALUES, st.sampled_from(LADDERS))
@example(Fraction("4.2"), "us-weight")
@example(Fraction(7, 2), "us-volume")
def test_within_five_per_cent_wherever_the_ladder_has_a_step_that_close(
    value: Fraction, ladder: str
) -> None:
    nearest = min(abs(s - value) for s in steps(ladder, value))
    printed = rung(ladder, value)[0]
    if nearest <= value / 20:
        assert abs(printed - value) <= value / 20, (ladder, float(value), float(printed))


@given(VALUES, st.sampled_from(LADDERS))
@example(Fraction(47, 10), "us-weight")
@example(Fraction("99.7"), "g")
@example(Fraction(191), "us-volume")
def test_never_the_worse_of_two_neighbours(value: Fraction, ladder: str) -> None:
    """Among single measures when it is a single one, among all otherwise."""
    printed, number, unit = rung(ladder, value)
    single = bool(ladders()[ladder].get("rungs")) and " + " not in number
    if single and abs(printed - value) > NEAR * value:
        single = False  # a single measure that is not near is there because no pair is nearer
    nearest = min(abs(s - value) for s in steps(ladder, value, singles=single))
    assert abs(printed - value) <= nearest, (ladder, float(value), number, unit)


@given(VALUES, FACTORS)
def test_scaling_there_and_back_is_exact(value: Fraction, factor: Fraction) -> None:
    amount = Amount(value, "cup", value * 2)
    assert amount.times(factor).times(1 / factor) == amount


@pytest.mark.parametrize(
    "text", ["200 g oats", "1 1/3 cups oats", "2–3 tbsp oats", "1 lb 4 oz oats", "3 large eggs"]
)
@given(factor=FACTORS)
def test_figures_of_a_line_scale_there_and_back(text: str, factor: Fraction) -> None:
    row = work_row(0, read(text), RECIPE, KITCHEN, []).row
    figures = [f for f in (row.metric, row.us, row.lead) if f is not None]
    assert figures
    for figure in figures:
        assert figure.value * factor / factor == figure.value
        scaled = print_figure(
            figure.ladder,
            figure.value * factor,
            None if figure.upto is None else figure.upto * factor,
            figure.noun,
        )
        assert scaled


RECIPE = Recipe("content/recipes/soup.md", "soup", "Soup", 4)
KITCHEN = Kitchen(Larder.load(), Settings(region="us"), {})


def _slack(ladder: str, value: Fraction) -> Fraction:
    """How far the ladder may print from ``value``: half its gap there, or what counts as near."""
    below = [s for s in steps(ladder, value) if s <= value]
    above = [s for s in steps(ladder, value) if s >= value]
    gap = (min(above) - max(below)) / 2 if below and above else min(above) - value
    return max(gap, NEAR * value)


@given(
    st.one_of(
        st.integers(8, 3000).map(lambda n: f"{n} g"),
        st.integers(1, 40).map(lambda n: f"{n} oz"),
        st.sampled_from([f"{n}/{d} cup" for n in range(1, 9) for d in (2, 3, 4)]),
    ),
    st.sampled_from(
        ["plain flour", "granulated sugar", "whole milk", "butter", "beef mince", "carrots"]
    ),
)
def test_both_systems_of_a_line_say_the_same(amount: str, food: str) -> None:
    """The two figures come from one exact amount, and print as near to it as their steps allow."""
    worked = work_row(0, read(f"{amount} {food}"), RECIPE, KITCHEN, [])
    metric, us = worked.row.metric, worked.row.us
    if metric is None or us is None:
        return
    grams, millilitres = worked.weighed.grams, worked.weighed.millilitres
    base = millilitres if metric.ladder == "ml" else grams
    assert base is not None
    assert metric.value == base[0]
    per = ounce() if us.ladder == "us-weight" else tsp()
    if (us.ladder == "us-weight") == (metric.ladder == "ml"):  # a weight beside a volume
        assert grams is not None
        assert millilitres is not None
        heavy = grams[0] / millilitres[0]
        per = per / heavy if metric.ladder == "ml" else per * heavy
    assert us.value * per == metric.value
    printed_metric = rung(metric.ladder, metric.value)[0]
    printed_us = rung(us.ladder, us.value)[0] * per
    allowed = _slack(metric.ladder, metric.value) + _slack(us.ladder, us.value) * per
    assert abs(printed_metric - printed_us) <= allowed


def test_half_up() -> None:
    for value, step, rounded in [
        ("2.5", "1", 3),
        ("2.49", "1", 2),
        ("7.5", "5", 10),
        ("0", "1", 0),
    ]:
        assert half_up(Fraction(value), Fraction(step)) == rounded


def test_base_amounts_of_spoons() -> None:
    """A cup is 16 spoons of 3 teaspoons: follows from the units."""
    assert US_SPOON == {"us_tsp": 1, "us_tbsp": 3, "us_cup": 48}
    line = read("1 cup plus 2 tbsp oats")
    assert line.amount is not None
    assert base_amount(line.amount, "us-volume", "us") == (54, None)


@pytest.mark.parametrize(
    ("ladder", "ml", "printed"),
    [
        # an Australian tablespoon is 20 ml, a metric cup 250 ml (common practice)
        ("australian-volume", "46.875", "2 tbsp + 1½ tsp"),
        ("australian-volume", "62.5", "¼ cup"),
        ("metric-volume", "187.5", "¾ cup"),
        # an imperial pint is 20 fl oz, 568.26125 ml (UK Weights and Measures Act 1985)
        ("imperial-volume", "284.130625", "½ pint"),
        ("imperial-volume", "1136.5225", "2 pints"),
    ],
)
def test_a_regions_own_measures_are_printed_in_its_own_spoons(
    ladder: str, ml: str, printed: str
) -> None:
    assert print_figure(ladder, Fraction(ml) / REGIONAL[ladder][1]) == printed
