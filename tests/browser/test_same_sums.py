"""The page's arithmetic is Python's: every displayed string of some thousands, run in Chromium."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest

import sitegen
from sitegen.kitchen.printing import counted_word, is_one
from sitegen.kitchen.tables import ladders, nouns, tables_json
from tests.vectors.make import vectors

SCRIPT = Path(sitegen.__file__).parent / "pages" / "scripts" / "kitchen.js"


@pytest.fixture
def kitchen(page):
    """A page with nothing but the tables and the script."""
    page.add_script_tag(
        content=f"const KITCHEN_TABLES = {tables_json()};\n{SCRIPT.read_text(encoding='utf-8')}"
    )
    return page


def test_every_vector_prints_the_same_in_the_page(kitchen):
    made = list(vectors())
    assert len(made) >= 5000
    assert {each.ladder for each in made} == set(ladders())
    assert {each.noun for each in made} >= set(nouns())
    printed = kitchen.evaluate(
        "rows => rows.map(([ladder, value, upto, noun, factor]) =>"
        " Kitchen.print(ladder, value, upto, noun, factor))",
        [list(each) for each in made],
    )
    differing = [
        f"{each}: page says {said!r}"
        for each, said in zip(made, printed, strict=True)
        if said != each.text
    ]
    assert not differing, f"{len(differing)} of {len(made)} differ:\n" + "\n".join(differing[:20])


def test_every_counted_word_agrees_with_its_number_as_python_says(kitchen):
    made = [each for each in vectors() if each.ladder in ("count", "count-half")]
    assert len(made) > 1000
    said = kitchen.evaluate(
        "rows => rows.map(([ladder, value, upto, noun, factor]) =>"
        " [Kitchen.isOne(ladder, value, upto, factor), Kitchen.word(ladder, value, upto, noun, factor)])",
        [list(each) for each in made],
    )
    wanted = []
    for each in made:
        factor = Fraction(each.factor)
        value = Fraction(each.value) * factor
        upto = Fraction(each.upto) * factor if each.upto else None
        wanted.append(
            [is_one(each.ladder, value, upto), counted_word(each.ladder, value, upto, each.noun)]
        )
    assert said == wanted
    assert {one for one, _ in wanted} == {True, False}


@pytest.mark.parametrize(
    ("typed", "amount"),
    [
        ("6", "6"),
        (" 12 ", "12"),
        ("1 1/2", "3/2"),
        ("1½", "3/2"),
        ("1 ½", "3/2"),
        ("⅔", "2/3"),
        ("1⁄3", "1/3"),
        ("3 / 4", "3/4"),
        ("2.5", "5/2"),
        ("2,5", "5/2"),
        ("0.125", "1/8"),
        ("10/4", "5/2"),
    ],
)
def test_what_a_reader_types_is_read(kitchen, typed, amount):
    assert kitchen.evaluate("text => Kitchen.parse(text)", typed) == amount


@pytest.mark.parametrize(
    "typed",
    [
        "",
        " ",
        "0",
        "0.0",
        "1/0",
        "0/3",
        "-2",
        "two",
        "1,250",
        "1.2.3",
        "½½",
        "1e3",
        "1/2/3",
        "9" * 9,
    ],
)
def test_what_is_no_clear_amount_is_not_guessed(kitchen, typed):
    assert kitchen.evaluate("text => Kitchen.parse(text)", typed) is None


def test_factors_are_exact(kitchen):
    texts = ["6", "4", "3/2", "1/3", "355/113", "1000000"]
    for one in texts:
        for other in texts:
            ratio, product, order = kitchen.evaluate(
                "([a, b]) => [Kitchen.ratio(a, b), Kitchen.times(a, b), Kitchen.compare(a, b)]",
                [one, other],
            )
            a, b = Fraction(one), Fraction(other)
            assert (ratio, product, order) == (str(a / b), str(a * b), (a > b) - (a < b))
