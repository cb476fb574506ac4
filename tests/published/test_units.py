"""Units against the standards that define them."""

from __future__ import annotations

from fractions import Fraction

import pytest

from sitegen.kitchen.ovens import fahrenheit
from sitegen.kitchen.units import factors, size_of

NIST = {
    "tsp": "4.92892159375",
    "tbsp": "14.78676478125",
    "cup": "236.5882365",
    "fl oz": "29.5735295625",
    "pint": "473.176473",
    "quart": "946.352946",
    "oz": "28.349523125",
    "lb": "453.59237",
}
"""NIST Handbook 44, Appendix C: 1 US gallon = 231 in³, 1 in = 25.4 mm, 1 lb = 453.592 37 g, exactly."""


@pytest.mark.parametrize(("unit", "size"), NIST.items())
def test_us_units_are_exact(unit, size):
    assert size_of(unit, "us") == Fraction(size)


def test_the_gallon_is_231_cubic_inches():
    inch = Fraction(254, 100)  # cm
    assert size_of("gallon", "us") == 231 * inch**3
    for unit, parts in {
        "quart": 4,
        "pint": 8,
        "cup": 16,
        "fl oz": 128,
        "tbsp": 256,
        "tsp": 768,
    }.items():
        assert size_of(unit, "us") * parts == 231 * inch**3, unit


@pytest.mark.parametrize(
    ("unit", "region", "size"),
    [
        # UK Weights and Measures Act 1985, Schedule 1
        ("pint", "uk", "568.26125"),
        ("fl oz", "uk", "28.4130625"),
        ("imperial pint", "us", "568.26125"),
        # common practice
        ("metric cup", "us", "250"),
        ("cup", "au", "250"),
        ("tbsp", "au", "20"),
        ("tsp", "au", "5"),
        ("tsp", "uk", "5"),
        ("tbsp", "uk", "15"),
    ],
)
def test_units_of_other_regions(unit, region, size):
    assert size_of(unit, region) == Fraction(size)


def test_the_factors_are_those_of_pint():
    """Pint, an independent library of units: its definitions, in rational numbers."""
    import pint

    registry = pint.UnitRegistry(non_int_type=Fraction)
    names = {
        "us_tsp": ("teaspoon", "milliliter"),
        "us_tbsp": ("tablespoon", "milliliter"),
        "us_cup": ("cup", "milliliter"),
        "us_gallon": ("gallon", "milliliter"),
        "imp_pint": ("imperial_pint", "milliliter"),
    }
    for key, (name, base) in names.items():
        assert registry.Quantity(Fraction(1), name).to(base).magnitude == factors()[key], key


@pytest.mark.parametrize(("c", "f"), [(0, 32), (100, 212), (-40, -40), (180, 356)])
def test_fahrenheit_by_definition(c, f):
    assert fahrenheit(Fraction(c)) == f
