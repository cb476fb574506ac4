"""Ovens, gas marks and core temperatures, against what kitchens and food authorities print."""

from __future__ import annotations

from fractions import Fraction
from typing import Literal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sitegen.kitchen.ovens import celsius, core, core_pair, fahrenheit, piece, setting
from sitegen.reading.recipe import Temperature
from sitegen.reading.source import Place

Unit = Literal["C", "F", "gas"]
Air = Literal["fan", "conventional", ""]


def oven(value: int | Fraction, unit: Unit, air: Air = "") -> Temperature:
    return Temperature(Place(1, 1), f"{value}", Fraction(value), unit, "oven", air)


def inside(value: int, unit: Unit, upto: int | None = None) -> Temperature:
    high = None if upto is None else Fraction(upto)
    return Temperature(Place(1, 1), f"{value}", Fraction(value), unit, "core", "", high)


def test_us_fan_oven() -> None:
    """Common practice: a fan oven at 425 °F / 220 °C does the work of 450 °F / 230 °C without."""
    for heat in (oven(425, "F", "fan"), oven(450, "F"), oven(450, "F", "conventional")):
        s = setting(heat, "us")
        assert (s.fan_f, s.fan_c, s.conventional_f, s.conventional_c) == (425, 220, 450, 230)


def test_british_fan_oven() -> None:
    """Common practice: 200 °C fan, 220 °C without, gas mark 7."""
    for heat in (oven(200, "C", "fan"), oven(220, "C"), oven(7, "gas")):
        s = setting(heat, "uk")
        assert (s.fan_c, s.conventional_c, s.gas) == (200, 220, "7")


@pytest.mark.parametrize(
    ("mark", "c", "f"),
    [
        (1, 140, 275),
        (2, 150, 300),
        (3, 160, 325),
        (4, 180, 350),
        (5, 190, 375),
        (6, 200, 400),
        (7, 220, 425),
        (8, 230, 450),
        (9, 240, 475),
    ],
)
def test_gas_marks(mark: int, c: int, f: int) -> None:
    """Common practice."""
    from_gas = setting(oven(mark, "gas"), "uk")
    assert (from_gas.conventional_c, from_gas.conventional_f) == (c, f)
    assert setting(oven(c, "C"), "uk").gas == str(mark)
    assert setting(oven(c, "C"), "uk").conventional_f == f
    assert setting(oven(f, "F"), "uk").conventional_c == c


@given(
    st.integers(50, 280),
    st.sampled_from(["fan", "conventional", ""]),
    st.sampled_from(["us", "uk", "eu", "au", "ca"]),
)
def test_what_the_author_set_is_kept_and_the_rest_is_on_dials(
    value: int, air: Air, region: str
) -> None:
    s = setting(oven(value, "C", air), region)
    assert (s.fan_c if air == "fan" else s.conventional_c) == value
    assert s.conventional_c - s.fan_c == 20  # common practice on Celsius dials
    assert s.conventional_f - s.fan_f == 25  # common practice on Fahrenheit dials
    assert s.conventional_f % 25 == 0
    assert abs(fahrenheit(Fraction(s.conventional_c)) - s.conventional_f) <= 18


@given(st.integers(150, 500), st.sampled_from(["fan", "conventional", ""]))
def test_a_fahrenheit_setting_is_kept_to_the_degree(value: int, air: Air) -> None:
    for region in ("us", "uk"):
        s = setting(oven(value, "F", air), region)
        assert (s.fan_f if air == "fan" else s.conventional_f) == value
        assert s.conventional_c % 10 == 0
        assert s.fan_c % 10 == 0
        assert 10 <= s.conventional_c - s.fan_c <= 20


@pytest.mark.parametrize(("f", "c"), [(165, 74), (160, 71), (145, 63), (40, 4), (140, 60)])
def test_fsis_prints_these_pairs(f: int, c: int) -> None:
    """USDA FSIS safe minimum internal temperature chart, and its cold and hot holding limits."""
    assert core_pair(inside(f, "F")) == (c, f)
    assert core_pair(inside(c, "C")) == (c, f)


SAFE_FROM = 50  # °C: under it a temperature is a dough's or a cellar's, and kills no germ


@given(st.integers(SAFE_FROM, 250))
def test_a_core_temperature_is_never_rounded_downwards(value: int) -> None:
    c, f = core(inside(value, "C"))
    assert c == value
    assert 0 <= f - fahrenheit(Fraction(value)) < 1
    in_f = value * 9 // 5 + 33
    c, f = core(inside(in_f, "F"))
    assert f == in_f
    assert 0 <= c - celsius(Fraction(in_f)) < 1


@given(st.integers(-20, SAFE_FROM - 1))
def test_the_warmth_of_a_dough_is_rounded_to_the_nearest_degree(value: int) -> None:
    """°C × 9/5 + 32, by definition: 14 °C is 57.2 °F, which no thermometer shows as 58."""
    _, f = core(inside(value, "C"))
    assert abs(f - fahrenheit(Fraction(value))) <= Fraction(1, 2)
    in_f = value * 9 // 5 + 32
    c, _ = core(inside(in_f, "F"))
    assert abs(c - celsius(Fraction(in_f))) <= Fraction(1, 2)


PUBLISHED = {(74, 165), (71, 160), (63, 145), (60, 140), (4, 40)}


@given(st.integers(-20, 250))
def test_only_a_published_pair_may_lie_under_the_exact_figure(value: int) -> None:
    """FSIS pairs 165 °F with 74 °C, which is 165.2 °F: by less than half a degree."""
    for heat in (inside(value, "C"), inside(value, "F")):
        c, f = core_pair(heat)
        short = fahrenheit(Fraction(c)) - f if heat.unit == "C" else celsius(Fraction(f)) - c
        nearest = (c, f) in PUBLISHED or (
            c if heat.unit == "C" else celsius(Fraction(f))
        ) < SAFE_FROM
        assert short <= (Fraction(1, 2) if nearest else 0)


def test_a_range_of_core_temperatures_keeps_both_ends() -> None:
    shown = piece(inside(60, "C", 63), "uk")
    assert (shown.core_c, shown.core_c_upto, shown.core_f, shown.core_f_upto) == (60, 63, 140, 145)


@pytest.mark.parametrize(
    ("text", "region", "aside"),
    [
        ("180C/160C fan/gas 4", "uk", "350 °F"),
        ("180C/160C fan/gas 4 (350F)", "uk", ""),
        ("180C/160C fan", "uk", "gas 4, 350 °F"),
        ("350°F/180°C", "us", "fan 325 °F, fan 160 °C"),
    ],
)
def test_a_form_that_the_author_gave_is_not_given_again(text: str, region: str, aside: str) -> None:
    value, unit = Fraction(text[:3]), "F" if text[3:5] == "°F" else "C"
    heat = Temperature(Place(1, 1), text, value, unit, "oven", "")  # type: ignore[arg-type]
    assert piece(heat, region).aside == aside
