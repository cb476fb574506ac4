"""Ovens, core temperatures, scoops and tins against published and common practice."""

from __future__ import annotations

from fractions import Fraction

import pytest

from sitegen.kitchen.ovens import core_pair, setting
from sitegen.kitchen.tins import read_tin, scoop_ml, tin_factor
from sitegen.reading.recipe import Temperature
from sitegen.reading.source import Place


def heat(value, unit, use="oven", air=""):
    return Temperature(Place(1, 1), f"{value} {unit}", Fraction(value), unit, use, air)


GAS = [
    ("1", 140, 275),
    ("2", 150, 300),
    ("3", 160, 325),
    ("4", 180, 350),
    ("5", 190, 375),
    ("6", 200, 400),
    ("7", 220, 425),
    ("8", 230, 450),
    ("9", 240, 475),
]
"""Common practice in British cookery: gas mark, °C, °F, all without a fan."""


@pytest.mark.parametrize(("mark", "c", "f"), GAS)
def test_gas_marks(mark, c, f):
    by_c = setting(heat(c, "C", air="conventional"), "uk")
    assert (by_c.gas, by_c.conventional_c, by_c.conventional_f) == (mark, c, f)
    by_mark = setting(heat(mark, "gas"), "uk")
    assert (by_mark.conventional_c, by_mark.conventional_f) == (c, f)


@pytest.mark.parametrize(("mark", "c", "f"), GAS)
def test_a_fan_takes_off_20_on_celsius_dials_and_25_on_fahrenheit_ones(mark, c, f):
    """Common practice: British 20 °C; American 25 °F (425 °F with a fan does a 450 °F oven's work)."""
    oven = setting(heat(c, "C", air="conventional"), "uk")
    assert (oven.fan_c, oven.fan_f) == (c - 20, f - 25)


@pytest.mark.parametrize(
    ("f", "c"),
    [(165, 74), (160, 71), (145, 63)],
    ids=["poultry", "minced meat", "whole cuts, fish"],
)
def test_safe_core_temperatures_are_paired_as_published(f, c):
    """USDA FSIS safe minimum internal temperature chart."""
    assert core_pair(heat(f, "F", "core")) == (c, f)
    assert core_pair(heat(c, "C", "core")) == (c, f)


@pytest.mark.parametrize("value", range(40, 100))
def test_a_core_temperature_is_never_rounded_downwards(value):
    """By more than the published pairs do themselves: 74 °C is 165.2 °F and printed as 165."""
    c, f = core_pair(heat(value, "C", "core"))
    assert f >= Fraction(c) * Fraction(9, 5) + 32 - Fraction(4, 5)
    if f not in (165, 160, 145, 140):
        assert f >= Fraction(c) * Fraction(9, 5) + 32


@pytest.mark.parametrize(
    ("number", "ml"), [(50, 18.9), (40, 23.7), (30, 31.5), (20, 47.3), (16, 59.1), (8, 118.3)]
)
def test_a_scoops_number_is_its_level_scoops_to_the_us_quart(number, ml):
    """NSF/ANSI practice, the definition; the figures follow from it and were checked by hand."""
    assert float(scoop_ml(number)) == pytest.approx(ml, abs=0.05)


def test_sixteen_pieces_of_a_no_50_scoop_are_about_300_ml():
    """Common practice."""
    assert float(16 * scoop_ml(50)) == pytest.approx(300, rel=0.02)


def test_an_18_cm_square_tin_holds_nearly_what_a_20_cm_round_one_does():
    """Geometry: 324 and 314 cm²."""
    square, ring = read_tin("18 cm square tin"), read_tin("20 cm round tin")
    assert square.area == 324
    assert float(ring.area) == pytest.approx(314.16, abs=0.01)
    assert float(tin_factor(square, ring)) == pytest.approx(314.16 / 324, abs=0.001)
