"""Amounts in the method read as a good editor prints them, at every scale, on the page and in words."""

from __future__ import annotations

import re
from fractions import Fraction
from pathlib import Path

import pytest
from bs4 import BeautifulSoup
from hypothesis import given, settings
from hypothesis import strategies as st

from sitegen.kitchen.nouns import both_forms
from sitegen.kitchen.printing import counted_word, is_one, print_figure, rung
from sitegen.kitchen.scaling import scale
from sitegen.kitchen.sentence import leading
from sitegen.kitchen.words import step_words
from sitegen.pages.pieces import words
from sitegen.site import Settings
from tests.dishes import cooked


def cases():
    for block in Path(__file__).with_name("amounts.txt").read_text("utf-8").split("\n\n")[1:]:
        lines, step, *said = block.strip().split("\n")
        for factor, text in (line.split(maxsplit=1) for line in said):
            yield pytest.param(
                lines.split(" ; "), step[2:], Fraction(factor), text, id=f"{lines} × {factor}"
            )


def step_of(lines, step, factor):
    dish = cooked("title: Test", lines, step=step)
    return scale(dish, factor).dish.method[0].steps[0]


def on_page(step, us_first=False):
    html = str(words(step, us_first, str))
    return " ".join(
        BeautifulSoup(html, "lxml").get_text().replace("\N{NO-BREAK SPACE}", " ").split()
    )


@pytest.mark.parametrize(("lines", "step", "factor", "text"), list(cases()))
def test_a_step_reads_as_an_editor_prints_it(lines, step, factor, text):
    made = step_of(lines, step, factor)
    assert on_page(made) == text
    plain = step_words(made.pieces, "metric")
    assert plain == text.replace(" · ", ", "), "in data for machines, feeds and the terminal too"


def test_us_measures_may_come_first():
    made = step_of(
        ["3 tbsp oil", "100 g flour"], "Warm [2 tbsp oil] and add the [flour].", Fraction(1)
    )
    said = "Warm 2 tbsp (30 ml) oil and add the flour (⅔ cup + 2 tbsp · 100 g)."
    assert on_page(made, us_first=True) == said
    assert step_words(made.pieces, "us") == said.replace(" · ", ", ")


def test_a_measure_of_the_region_s_own_stands_in_the_sentence():
    dish = cooked("title: T", ["1 cup flour"], Settings(region="au"), step="Add the [flour].")
    assert on_page(dish.method[0].steps[0]) == "Add the flour (1 cup)."


def test_with_one_system_alone_no_bracket_is_left_open():
    """What a reader of one system does not see is marked: the other figure and what joins them."""
    made = step_of(
        ["3 tbsp oil", "1 egg"],
        "Warm [2 tbsp oil], add [the remaining oil] and [egg].",
        Fraction(1),
    )
    for hidden, text in (
        (".sys-u, .between", "Warm 30 ml oil, add the remaining oil (15 ml) and egg."),
        (".sys-m, .between", "Warm 2 tbsp oil, add the remaining oil (1 tbsp) and egg."),
    ):
        page = BeautifulSoup(str(words(made, False, str)), "lxml")
        for element in page.select(hidden):
            element.extract()
        assert " ".join(page.get_text().replace("\N{NO-BREAK SPACE}", " ").split()) == text


def test_whatever_an_author_writes_is_escaped():
    made = step_of(["3 <b>eggs</b> & more eggs"], "Beat the [eggs] & go.", Fraction(1))
    html = str(words(made, False, str))
    assert "<b>" not in html
    assert "& " not in html.replace("&amp;", "")


@pytest.mark.parametrize(
    ("before", "takes"),
    [
        ("Beat the ", True), ("Beat ", True), ("Add the milk, ", True), ("Add the milk and ", True),
        ("Fry gently with ", True), ("Add the milk (", True), ("Beat the cold ", False),
        ("", False), ("Stir. ", False), ("Stir. Add ", True), ("Take each ", False), ("Take 2 ", False),
        ("Take the two ", False), ("Chopped ", False), ("Take the half-", False),
    ],
)  # fmt: skip
def test_a_number_stands_only_where_one_may(before, takes):
    assert leading(before).takes_number is takes


@pytest.mark.parametrize(
    "word",
    "leek potato tomato leaf berry radish loaf mango peach box glass olive lemon fish".split(),
)
def test_one_and_many_lead_back_to_each_other(word):
    one, many = both_forms(word)
    assert one == word
    assert both_forms(many) == (one, many)


amounts = st.fractions(min_value=Fraction(1, 50), max_value=400, max_denominator=60)


@settings(max_examples=150, deadline=None)
@given(amounts, st.none() | amounts, st.sampled_from(["count", "count-half"]))
def test_a_word_agrees_with_the_number_beside_it(value, more, ladder):
    upto = None if more is None else value + more
    word = counted_word(ladder, value, upto, "leek|leeks")
    assert print_figure(ladder, value, upto, "leek|leeks").endswith(word)
    printed = rung(ladder, value if upto is None else upto)[0]
    assert (word == "leeks") == (printed > 1)
    if is_one(ladder, value, upto):
        assert print_figure(ladder, value, upto) == "1"
        assert word == "leek"


@settings(max_examples=60, deadline=None)
@given(st.fractions(min_value=Fraction(1, 20), max_value=40, max_denominator=24))
def test_no_bare_one_and_no_one_of_many_is_ever_printed(factor):
    lines = ["3 eggs", "1 bay leaf", "2 onions", "4 spring onions"]
    step = "Beat the [eggs] with the crushed [bay leaf], the [onions] and [half the spring onions]."
    text = on_page(step_of(lines, step, factor))
    assert not re.search(r"(?<![\d.,–½¼⅓⅔¾])1 (?:egg|bay|onion)|\(1\)", text), text
    assert not re.search(r"(?<![\d–])[½¼⅓⅔¾] (?:eggs|onions)", text), text
