"""Tins by geometry, scoops by their definition."""

from __future__ import annotations

from fractions import Fraction
from math import pi

import pytest

from sitegen.dish import Tin
from sitegen.kitchen.tins import PI, read_scoop, read_tin, scoop_ml, tin_factor


def tin(text: str) -> Tin:
    found = read_tin(text)
    assert found is not None
    return found


def test_pi() -> None:
    assert abs(float(PI) - pi) < 3e-7


def test_an_18_cm_square_tin_holds_nearly_what_a_20_cm_round_one_does() -> None:
    """Geometry: 324 and 314 cm²."""
    square, circle = tin("18 cm square tin"), tin("20 cm round tin")
    assert square.area == 324
    assert round(circle.area) == 314
    assert float(circle.area) == pytest.approx(pi * 100, rel=1e-6)
    assert abs(tin_factor(square, circle) - 1) < Fraction(4, 100)


def test_other_tins() -> None:
    """Geometry."""
    assert tin("20 x 30 cm baking tin").area == 600
    assert tin("9-inch square tin").area == Fraction("22.86") ** 2
    assert tin("a 9 x 13-inch pan, rectangular").area == Fraction("22.86") * Fraction("33.02")
    assert round(tin_factor(tin("20 cm round tin"), tin("25 cm round tin")), 4) == Fraction(25, 16)


def test_there_and_back_is_where_one_began() -> None:
    a, b = tin("20 cm round tin"), tin("18 cm square tin")
    assert tin_factor(a, b) * tin_factor(b, a) == 1


@pytest.mark.parametrize(
    ("number", "ml"), [(50, 18.9), (40, 23.7), (30, 31.5), (20, 47.3), (16, 59.1), (8, 118.3)]
)
def test_a_scoop_s_number_is_how_many_fill_a_us_quart(number: int, ml: float) -> None:
    """NSF/ANSI practice, from memory; follows from the definition of the number."""
    assert float(scoop_ml(number)) == pytest.approx(ml, abs=0.05)
    assert scoop_ml(number) * number == Fraction("946.352946")


def test_a_no_16_scoop_is_a_quarter_cup_and_a_no_8_half_a_cup() -> None:
    cup = Fraction("236.5882365")
    assert (scoop_ml(16), scoop_ml(8)) == (cup / 4, cup / 2)


def test_300_ml_of_dough_make_16_pieces_with_a_no_50_scoop() -> None:
    """Common practice."""
    assert round(300 / scoop_ml(50)) == 16


@pytest.mark.parametrize(
    ("text", "number"),
    [
        ("no. 40 scoop", 40),
        ("No 16 scoop", 16),
        ("scoop (no. 8)", 8),
        ("2 scoops", None),
        ("no. 3 scoop", None),
    ],
)
def test_scoops_among_tools(text: str, number: int | None) -> None:
    assert read_scoop(text) == number


@pytest.mark.parametrize(
    ("text", "shape", "area"),
    [
        ("20 cm square cake tin", "square", 400),
        ("20 cm cake tin", "round", 314),
        ("30 x 20 cm rectangular cake tin", "oblong", 600),
        ("20 cm square traybake tin", "square", 400),
        ("9 x 13 inch pan", "oblong", 755),  # 22.86 × 33.02 cm
        ("18 x 13 inch sheet pan", "oblong", 1510),  # 45.72 × 33.02 cm
        ("24 cm round pan", "round", 452),
    ],
)
def test_the_shape_that_is_said_is_the_shape(text: str, shape: str, area: int) -> None:
    """Geometry: a square cake tin was taken for a round one, and held a fifth less."""
    found = tin(text)
    assert (found.shape, round(float(found.area))) == (shape, area)


@pytest.mark.parametrize("text", ["28 cm frying pan", "9-inch pan", "2 baking sheets"])
def test_a_pan_without_a_shape_is_no_tin(text: str) -> None:
    assert read_tin(text) is None
