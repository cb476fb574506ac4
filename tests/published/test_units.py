"""Published sizes of units, to the last digit given, and the installed Pint's own."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sitegen.kitchen import make_factors
from sitegen.kitchen.ovens import celsius, fahrenheit
from sitegen.kitchen.units import UNITS, dimension_of, factors, size_of

REGIONS = ("us", "uk", "eu", "au", "ca")


@pytest.mark.parametrize(
    ("unit", "printed"),
    [
        ("cup", "236.588 236 5"),
        ("tbsp", "14.786 764 78"),
        ("tsp", "4.928 921 59"),
        ("fl oz", "29.573 529 56"),
        ("pint", "473.176 473"),
        ("quart", "946.352 946"),
        ("gallon", "3785.411 784"),
        ("lb", "453.592 37"),
        ("oz", "28.349 523 125"),
    ],
)
def test_us_units_are_those_of_nist_handbook_44(unit: str, printed: str) -> None:
    """NIST Handbook 44, Appendix C: as many digits as it prints."""
    digits = printed.replace(" ", "")
    size = size_of(unit, "us")
    assert size is not None
    step = Decimal(1).scaleb(-len(digits.partition(".")[2]))
    exact = Decimal(size.numerator) / Decimal(size.denominator)
    assert exact.quantize(step) == Decimal(digits)


def test_the_gallon_is_231_cubic_inches() -> None:
    """NIST Handbook 44, Appendix C: 1 US gallon = 231 in³ exactly, 1 in = 25.4 mm exactly."""
    inch_cm = factors()["in"] / 10
    assert inch_cm == Fraction("2.54")
    gallon = 231 * inch_cm**3
    for unit, to_the_gallon in (
        ("gallon", 1),
        ("quart", 4),
        ("pint", 8),
        ("cup", 16),
        ("fl oz", 128),
        ("tbsp", 256),
        ("tsp", 768),
    ):
        assert size_of(unit, "us") == gallon / to_the_gallon


def test_a_pound_is_16_ounces_exactly() -> None:
    for region in REGIONS:
        pound, ounce = size_of("lb", region), size_of("oz", region)
        assert pound == Fraction("453.59237")
        assert ounce is not None
        assert pound == 16 * ounce


@pytest.mark.parametrize("region", ["uk", "au", "ca"])
def test_imperial_pints_and_ounces(region: str) -> None:
    """UK Weights and Measures Act 1985, Schedule 1."""
    assert size_of("pint", region) == size_of("imperial pint", region) == Fraction("568.26125")
    assert size_of("fl oz", region) == Fraction("28.4130625")
    assert size_of("quart", region) == 2 * Fraction("568.26125")


@pytest.mark.parametrize(
    ("unit", "region", "ml"),
    [
        ("cup", "eu", 250),
        ("cup", "au", 250),
        ("tbsp", "uk", 15),
        ("tbsp", "au", 20),
        ("tsp", "uk", 5),
        ("tsp", "au", 5),
        ("dessertspoon", "uk", 10),
        ("metric cup", "us", 250),
    ],
)
def test_metric_cups_and_spoons(unit: str, region: str, ml: int) -> None:
    """Common practice."""
    assert size_of(unit, region) == ml


def test_a_british_cup_is_a_us_cup() -> None:
    """Britain has spoons but no cup of its own (common practice): its cups are for US readers."""
    assert size_of("cup", "uk") == size_of("cup", "us")


def test_two_cups_of_water_are_about_475_ml() -> None:
    """Common practice."""
    cup = size_of("cup", "us")
    assert cup is not None
    assert abs(2 * cup - 475) < 5


@pytest.mark.parametrize("region", REGIONS)
def test_every_weight_and_volume_has_a_size_everywhere(region: str) -> None:
    for key, unit in UNITS.items():
        size = size_of(key, region)
        if unit.dimension == "count":
            assert size is None
        else:
            assert size is not None
            assert size > 0


def test_no_spelling_means_two_units() -> None:
    spellings = [(form.lower(), unit.key) for unit in UNITS.values() for form in unit.forms]
    assert len({form for form, _ in spellings}) == len(set(spellings))
    assert dimension_of("clove") == "count"


def test_factors_are_the_installed_pint_s() -> None:
    """General reference library: Pint, whose factors are rational when asked with Fraction."""
    assert make_factors.factors() == {key: str(value) for key, value in factors().items()}


@given(st.fractions(min_value=-100, max_value=500))
def test_degrees_there_and_back(value: Fraction) -> None:
    """°F = °C × 9/5 + 32, by definition."""
    assert fahrenheit(value) == value * 9 / 5 + 32
    assert celsius(fahrenheit(value)) == value


def test_fixed_points() -> None:
    """Water freezes at 0 °C = 32 °F and boils at 100 °C = 212 °F; the scales meet at −40."""
    for c, f in ((0, 32), (100, 212), (-40, -40)):
        assert fahrenheit(Fraction(c)) == f
