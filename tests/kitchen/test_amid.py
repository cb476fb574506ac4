"""Amounts amid the words of a line scale and are converted; what is of one piece stays."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sitegen.dish import AmidAmount, LedgerRow
from sitegen.kitchen.rows import Kitchen, work_row
from sitegen.kitchen.scaling import _scale_row
from sitegen.kitchen.words import row_words
from sitegen.larder import Larder
from sitegen.pages.pieces import choices, food
from sitegen.reading.amid import amounts_amid
from sitegen.reading.lines import read_line
from sitegen.reading.recipe import Recipe
from sitegen.reading.source import Place
from sitegen.site import Settings


def row_of(text: str, region: str = "uk") -> LedgerRow:
    line = read_line(text, Place(1, 1), "x.md", problems := [])
    assert line is not None, problems
    kitchen = Kitchen(Larder.load(), Settings(region=region), {})  # type: ignore[arg-type]
    return work_row(0, line, Recipe("x.md", "x", "X", 4), kitchen, []).row


def test_amounts_are_found_where_they_stand() -> None:
    for text, wanted in (
        ("cooked in 3 l water", ["3 l"]),
        ("soaked for 8 hours in 1 1/2 l water", ["1 1/2 l"]),
        ("cooked in 3-4 l salted water", ["3-4 l"]),
        ("dissolved in two tablespoons of water", ["two tablespoons"]),
        ("mixed with a tablespoon of water", ["a tablespoon"]),
        ("with 1 lb 4 oz ice", ["1 lb 4 oz"]),
        ("in 100 ml/3½ fl oz water", ["100 ml/3½ fl oz"]),
        ("in 1 l (4 cups) water", ["1 l (4 cups)"]),
        ("plus 2 tbsp for the tin", ["2 tbsp"]),
        ("to make 300 ml, then 1 litre more", ["300 ml", "1 litre"]),
    ):
        assert [text[a.start : a.end] for a in amounts_amid(text)] == wanted


@pytest.mark.parametrize(
    "text",
    [
        "cut into 2 cm dice", "about 150 g each", "in 30 g pieces", "from a 1.2 kg chicken",
        "drained from a 400 g tin", "a 5 l pot", "in a 20 x 30 cm tin", "at 180 °C for 20 minutes",
        "cut in 8 wedges", "15 % fat", "for 4 people", "a splash of water", "2 x 200 g", "1,000 ml",
        "sliced", "a tablespoon at a time", "into 50 g balls", "80/20", "a 6 oz steak", "",
    ],
)  # fmt: skip
def test_what_is_of_one_piece_or_no_amount_is_left_alone(text: str) -> None:
    assert amounts_amid(text) == []


@pytest.mark.parametrize(
    ("line", "region", "own", "doubled"),
    [
        (
            "200 g pasta, cooked in 3 l water", "uk",
            "200 g (7 oz) pasta, cooked in 3 l (12⅔ cups) water",
            "400 g (14 oz) pasta, cooked in 6 l (6¼ quarts) water",
        ),
        (
            "2 tsp gelatine powder, soaked in 2 tbsp cold water", "uk",
            "4.7 g (2 tsp) gelatine powder, soaked in 30 ml (2 tbsp) cold water",
            "9.5 g (1 tbsp + 1 tsp) gelatine powder, soaked in 60 ml (¼ cup) cold water",
        ),
        (
            "200 g dried haricot beans, soaked in 2 pints water", "uk",
            "200 g (¾ cup + 3 tbsp) dried haricot beans, soaked in 2 pints (1.14 l, 4¾ cups) water",
            "400 g (1¾ cups + 3 tbsp) dried haricot beans, soaked in 4 pints (2.27 l, 9⅔ cups) water",
        ),
        (
            "200 g pasta, cooked in 3 l (13 cups) water", "uk",
            "200 g (7 oz) pasta, cooked in 3 l (13 cups) water",
            "400 g (14 oz) pasta, cooked in 6 l (6½ quarts) water",
        ),
        (
            "200 g pasta, cooked in about 1/2 l water", "uk",
            "200 g (7 oz) pasta, cooked in about 1/2 l (2 cups + 2 tbsp) water",
            "400 g (14 oz) pasta, cooked in about 1 l (4¼ cups) water",
        ),
    ],
)  # fmt: skip
def test_both_systems_at_two_sizes(line: str, region: str, own: str, doubled: str) -> None:
    row = row_of(line, region)
    assert row_words(row, "metric") == own
    assert row_words(_scale_row(row, Fraction(2)), "metric") == doubled


def test_a_bracket_behind_the_water_measures_the_water() -> None:
    assert row_of("200 g pasta, cooked in 3 l (13 cups) water").line.measures == ()
    assert [m.text for m in row_of("1 kg rhubarb, in 2 cm pieces (8 cups)").line.measures] == [
        "8 cups"
    ]


def test_the_page_shows_them_as_live_figures_in_the_preparation_the_remarks_and_the_note() -> None:
    shown = str(food(row_of("200 g pasta, cooked in 3 l <b> water"), False))
    assert 'cooked in <data class="fig sys-m" value="3000"' in shown
    assert '</data><span class="between">)</span> &lt;b&gt; water</span>' in shown
    remark = str(food(row_of("200 g butter, plus 2 tbsp for the tin"), True))
    assert remark.index("sys-u") < remark.index("sys-m")
    from dataclasses import replace

    line = read_line("1 tsp salt", Place(1, 1), "x.md", [])
    assert line is not None
    kitchen = Kitchen(Larder.load(), Settings(), {})
    noted = replace(line, note="soak it in 500 ml water")
    row = work_row(0, noted, Recipe("x.md", "x", "X", 4), kitchen, []).row
    assert 'data-value="500"' in str(choices(row, False))


@given(st.integers(1, 5000), st.sampled_from(["ml", "g", "tbsp", "cup", "oz", "l", "pint"]),
       st.fractions(Fraction(1, 20), 20))  # fmt: skip
def test_there_and_back_gives_the_same_words(value: int, unit: str, factor: Fraction) -> None:
    row = row_of(f"200 g pasta, cooked in {value} {unit} water")
    amounts = [p for _, pieces in row.amid for p in pieces if isinstance(p, AmidAmount)]
    assert len(amounts) == 1
    there = _scale_row(row, factor)
    back = [
        p for _, ps in _scale_row(there, 1 / factor).amid for p in ps if isinstance(p, AmidAmount)
    ]
    for one, other in zip(
        (amounts[0].metric, amounts[0].us), (back[0].metric, back[0].us), strict=True
    ):
        assert one is not None
        assert other is not None
        assert (one.value, one.upto) == (other.value, other.upto)
