"""Printed amounts are ones that a kitchen can measure, near enough, and the right way round.

Which spoons, cups and weights there are is common practice (measures sold in sets); the bounds are
the project's promise: within 5 % wherever the ladder has a measure that close, never nought.
"""

from __future__ import annotations

import re
from fractions import Fraction

from hypothesis import example, given
from hypothesis import strategies as st

from sitegen.kitchen.printing import print_figure
from sitegen.kitchen.tables import ladders

GLYPHS = {"⅛": "1/8", "¼": "1/4", "⅓": "1/3", "½": "1/2", "⅔": "2/3", "¾": "3/4"}
SPOONS = {
    "tsp": (1, {"1/8", "1/4", "1/2", "3/4"}),
    "tbsp": (3, {"1/2"}),
    "cup": (48, {"1/4", "1/3", "1/2", "2/3", "3/4"}),
    "cups": (48, {"1/4", "1/3", "1/2", "2/3", "3/4"}),
    "quarts": (192, {"1/4", "1/2", "3/4"}),
    "quart": (192, {"1/4", "1/2", "3/4"}),
}
"""Size in teaspoons (NIST Handbook 44), and the fractions that measures are sold in."""

amounts = st.fractions(min_value=Fraction(1, 16), max_value=5000, max_denominator=5000)


def measures(text):
    """A printed amount taken apart without the program's help: (whole, fraction, unit) each."""
    for part in text.split(" + "):
        found = re.fullmatch(r"(\d*)([⅛¼⅓½⅔¾]?) ([a-z]+)", part)
        assert found, text
        assert found[1] or found[2], text
        yield int(found[1] or 0), Fraction(GLYPHS.get(found[2], "0")), found[3]


@given(amounts)
@example(Fraction(15))
@example(Fraction(1, 16))
@example(Fraction("191.99"))
def test_us_volumes_are_at_most_two_measures_out_of_the_drawer(value):
    text = print_figure("us-volume", value)
    parts = list(measures(text))
    assert 1 <= len(parts) <= 2, text
    total = Fraction(0)
    for whole, part, unit in parts:
        size, fractions = SPOONS[unit]
        assert not part or str(part) in fractions, text
        total += (whole + part) * size
        if unit == "tsp":
            assert whole + part < 3, f"{text}: three teaspoons are a tablespoon"
        if unit == "tbsp":
            assert whole + part < 4, f"{text}: four tablespoons are a quarter of a cup"
        assert unit not in ("cups", "quarts") or whole + part > 1, text
    assert total > 0
    off = abs(total - value) / value
    nearest = min(abs(Fraction(rung[0]) - value) for rung in ladders()["us-volume"]["rungs"])
    if nearest / value <= Fraction(1, 20):
        assert off <= Fraction(1, 20), f"{float(value)} tsp as {text}"
    if value > 2:
        assert off <= Fraction(1, 10), f"{float(value)} tsp as {text}"


@given(amounts, st.sampled_from(["g", "g-fine", "ml"]))
@example(Fraction(999), "g")
@example(Fraction("4.96"), "g-fine")
def test_metric_amounts_are_near_and_their_step_grows(value, ladder):
    text = print_figure(ladder, value)
    number, unit = text.split(" ")
    printed = Fraction(number) * {"g": 1, "kg": 1000, "ml": 1, "l": 1000}[unit]
    assert printed > 0
    assert (unit in ("kg", "l")) == (printed >= 1000)
    if value >= (10 if ladder == "g" else 5):  # from 5 g to 10 g a scale's step is 1 g
        assert abs(printed - value) / value <= Fraction(1, 20), f"{float(value)} as {text}"
    if value >= 1000:
        assert printed % 10 == 0
    elif value >= 100:
        assert printed % 5 == 0
    elif value >= 50:
        assert printed % 1 == 0


@given(amounts)
@example(Fraction(16))
@example(Fraction("15.9"))
def test_us_weights_are_quarter_ounces_below_four_and_halves_to_the_pound(value):
    text = print_figure("us-weight", value)
    found = re.fullmatch(r"(?:(\d+) lb)? ?(?:(\d*)([⅛¼½¾]?) oz)?", text)
    assert found, text
    ounces = int(found[2] or 0) + Fraction(GLYPHS.get(found[3] or "", "0"))
    total = 16 * int(found[1] or 0) + ounces
    assert total > 0
    assert ounces < 16, text
    if value >= Fraction(1, 4) and total < 4:
        assert (total * 4).denominator == 1
    if value >= 4 and total < 320:
        assert (total * 2).denominator == 1
    if 3 <= value <= 4 or value >= 5:  # half an ounce is more than a tenth of 4 to 5 oz
        assert abs(total - value) / value <= Fraction(1, 20), f"{float(value)} oz as {text}"


@given(amounts, amounts, st.sampled_from(sorted(ladders())))
def test_more_never_prints_as_less(one, other, ladder):
    """Order is kept: an amount prints as the same as a smaller one or as more, never as less."""
    from sitegen.kitchen.printing import rung

    low, high = sorted((one, other))
    slack = Fraction(41, 40) if ladder == "us-volume" else 1  # a single measure wins when near
    assert rung(ladder, low)[0] <= rung(ladder, high)[0] * slack


def test_known_amounts():
    """Worked by hand from the units."""
    for ladder, value, text in [
        ("us-volume", "15", "¼ cup + 1 tbsp"),
        ("us-volume", "48", "1 cup"),
        ("us-volume", "3", "1 tbsp"),
        ("us-volume", "36", "¾ cup"),
        ("us-weight", "24", "1 lb 8 oz"),
        ("us-weight", "15.9", "1 lb"),
        ("g", "1250", "1.25 kg"),
        ("g-fine", "3.04", "3 g"),
        ("ml", "236.5882365", "235 ml"),
        ("count", "5/2", "2½"),
    ]:
        assert print_figure(ladder, Fraction(value)) == text
