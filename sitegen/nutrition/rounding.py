"""How labels round. Every rule is a row; the tests try each at and on both sides of its thresholds.

US: 21 CFR 101.9(c) (2016 rule) and FDA's rounding guidance. EU: European Commission guidance on
tolerances for nutrients declared on a label, December 2012 (from memory, as the reference says).
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import cache, lru_cache
from typing import Final

_PLACES: Final = 7
_ONE: Final = 10**_PLACES
"""Figures are rounded in whole ten-millionths: exact to the sixth decimal place, in plain integers,
with one more for a bound that belongs to the band below it."""


@dataclass(frozen=True, slots=True, eq=False)
class Rule:  # compared and hashed as the object that it is: there is one of each
    """Bands of ``(below, step)``: below the bound, round to the step; ``words`` replace a band.

    A bound with ``=`` before it belongs to its own band. A band whose step is 0 prints 0.
    """

    bands: tuple[tuple[str, str], ...]
    unit: str
    words: tuple[tuple[str, str, str], ...] = ()
    """``(from, below, printed)``: values for which words are printed."""
    trims: bool = True
    """Whether a nought after the point is dropped: ``5 g``, not ``5.0 g``."""


@dataclass(frozen=True, slots=True)
class _Counted:
    """A rule in ten-millionths."""

    bands: tuple[tuple[int | None, int, int], ...]
    """Bound, step, and the decimal places that the step has."""
    words: tuple[tuple[int, int, str], ...]

    def band(self, number: int) -> tuple[int, int]:
        """The step of the band that ``number`` is in, and its places."""
        for bound, step, places in self.bands:
            if bound is None or number < bound:
                return step, places
        raise AssertionError("the last band has no bound")


@cache
def _counted(rule: Rule) -> _Counted:
    steps = [(_bound(below) if below else None, _units(step)) for below, step in rule.bands]
    return _Counted(
        tuple((bound, step, _places(step)) for bound, step in steps),
        tuple((_units(low), _bound(below), words) for low, below, words in rule.words),
    )


def _units(written: str) -> int:
    return int(Fraction(written) * _ONE)


def _bound(written: str) -> int:
    own = written.startswith("=")
    return _units(written.removeprefix("=")) + (1 if own else 0)


def _places(number: int) -> int:
    places = 0
    while number * 10**places % _ONE:
        places += 1
    return places


def exact(value: float) -> int:
    """A float as the decimal that people see, in ten-millionths: 0.5 is a half, 2.675 is 2.675."""
    if abs(value) < 1e8:  # the same, without reading a number from its digits
        return int(f"{value:.6f}".replace(".", "")) * 10
    return _units(repr(round(value, 6)))


def printed(rule: Rule, value: float) -> str:
    """``value`` as the label prints it, unit included.

    >>> printed(US["energy_kcal"], 47.6), printed(US["fat_g"], 0.49), printed(US["protein_g"], 0.7)
    ('50 kcal', '0 g', 'less than 1 g')
    """
    number, counted = exact(max(0.0, value)), _counted(rule)
    for low, below, words in counted.words:
        if low <= number < below:
            return words
    step = counted.band(number)[0]
    return _amount(rule, _nearest(number, step) if step else 0)


def _nearest(number: int, step: int) -> int:
    """To the nearest multiple of ``step``, halves up."""
    return (2 * number + step) // (2 * step) * step


def at_least(rule: Rule, value: float) -> str:
    """The bound that ``value`` is known to reach, rounded downwards; empty if that is nothing.

    >>> at_least(US["energy_kcal"], 47.6), at_least(US["protein_g"], 0.7)
    ('at least 45 kcal', '')
    """
    number, counted = exact(max(0.0, value)), _counted(rule)
    step = counted.band(number)[0]
    floor = number // step * step if step else 0
    return f"at least {_amount(rule, floor)}" if floor else ""


def at_most(rule: Rule, value: float) -> str:
    """The bound that ``value`` cannot pass, rounded upwards.

    >>> at_most(EU["available_carbohydrate_g"], 41.2)
    'at most 42 g'
    """
    number, counted = exact(max(0.0, value)), _counted(rule)
    step = counted.band(number)[0] or counted.bands[-1][1]
    return f"at most {_amount(rule, -(-number // step) * step)}"


@lru_cache(maxsize=8192)  # labels are made of the same few round numbers
def _amount(rule: Rule, rounded: int) -> str:
    """A rounded amount with the decimals of its own band: 9.96 g is 10 g, not 10.0 g."""
    places = _counted(rule).band(rounded)[1]
    while rounded * 10**places % _ONE:
        places += 1
    digits = f"{rounded * 10**places // _ONE:0{places + 1}d}"
    if places:
        digits = f"{digits[:-places]}.{digits[-places:]}"
        if rule.trims or not rounded:
            digits = digits.rstrip("0").rstrip(".")
    return f"{digits} {rule.unit}"


_US_GRAMS = Rule((("0.5", "0"), ("", "1")), "g", (("0.5", "1", "less than 1 g"),))
_US_FAT = Rule((("0.5", "0"), ("5", "0.5"), ("", "1")), "g")
_TENTH_GRAM = Rule((("", "0.1"),), "g")

US: dict[str, Rule] = {
    "energy_kcal": Rule((("5", "0"), ("=50", "5"), ("", "10")), "kcal"),
    "fat_g": _US_FAT,
    "saturated_g": _US_FAT,
    "trans_g": _US_FAT,
    "monounsaturated_g": _US_FAT,
    "polyunsaturated_g": _US_FAT,
    "cholesterol_mg": Rule((("2", "0"), ("", "5")), "mg", (("2", "=5", "less than 5 mg"),)),
    "sodium_mg": Rule((("5", "0"), ("=140", "5"), ("", "10")), "mg"),
    "carbohydrate_g": _US_GRAMS,
    "fibre_g": _US_GRAMS,
    "sugars_g": _US_GRAMS,
    "added_sugars_g": _US_GRAMS,
    "polyols_g": _US_GRAMS,  # "sugar alcohol", 101.9(c)(6)(iv)
    "protein_g": _US_GRAMS,
    "vitamin_d_ug": Rule((("", "0.1"),), "µg"),
    "calcium_mg": Rule((("", "10"),), "mg"),
    "iron_mg": Rule((("", "0.1"),), "mg"),
    "potassium_mg": Rule((("", "10"),), "mg"),
    "alcohol_g": _TENTH_GRAM,
}

_EU_GRAMS = Rule((("=0.5", "0"), ("10", "0.1"), ("", "1")), "g", trims=False)
_EU_SATURATES = Rule((("=0.1", "0"), ("10", "0.1"), ("", "1")), "g", trims=False)

EU: dict[str, Rule] = {
    "energy_kj": Rule((("", "1"),), "kJ"),
    "energy_kcal": Rule((("", "1"),), "kcal"),
    "fat_g": _EU_GRAMS,
    "saturated_g": _EU_SATURATES,
    "monounsaturated_g": _EU_SATURATES,
    "polyunsaturated_g": _EU_SATURATES,
    "carbohydrate_g": _EU_GRAMS,
    "available_carbohydrate_g": _EU_GRAMS,
    "sugars_g": _EU_GRAMS,
    "polyols_g": _EU_GRAMS,
    "protein_g": _EU_GRAMS,
    "fibre_g": _EU_GRAMS,
    "salt_g": Rule((("=0.0125", "0"), ("1", "0.01"), ("", "0.1")), "g", trims=False),
    "cholesterol_mg": Rule((("", "1"),), "mg"),
    "sodium_mg": Rule((("", "1"),), "mg"),
    "vitamin_d_ug": Rule((("", "0.1"),), "µg", trims=False),
    "calcium_mg": Rule((("", "1"),), "mg"),
    "iron_mg": Rule((("", "0.1"),), "mg", trims=False),
    "potassium_mg": Rule((("", "1"),), "mg"),
    "alcohol_g": _TENTH_GRAM,
}

_PLAIN = {
    "_kcal": Rule((("", "1"),), "kcal"),
    "_kj": Rule((("", "1"),), "kJ"),
    "_g": _TENTH_GRAM,
    "_mg": Rule((("1", "0.01"), ("10", "0.1"), ("", "1")), "mg"),
    "_ug": Rule((("10", "0.1"), ("", "1")), "µg"),
    "_iu": Rule((("", "1"),), "IU"),
}


def rule_for(key: str, form: str) -> Rule:
    """The rule of a label's form; what labels have no rule for is rounded plainly by its unit."""
    found = (US if form == "us" else EU).get(key)
    return found or _PLAIN[f"_{key.rpartition('_')[2]}"]


DAILY_VALUES: dict[str, float] = {
    "fat_g": 78,
    "saturated_g": 20,
    "cholesterol_mg": 300,
    "sodium_mg": 2300,
    "carbohydrate_g": 275,
    "fibre_g": 28,
    "added_sugars_g": 50,
    "protein_g": 50,
    "vitamin_d_ug": 20,
    "calcium_mg": 1300,
    "iron_mg": 18,
    "potassium_mg": 4700,
}
"""21 CFR 101.9(c)(8)(iv) and (9)."""

_VITAMINS_AND_MINERALS = ("vitamin_d_ug", "calcium_mg", "iron_mg", "potassium_mg")


def daily(key: str, value: float) -> str:
    """The per cent of the daily value as a US label prints it; empty where none is set.

    >>> daily("fat_g", 12.0), daily("iron_mg", 1.7)
    ('15%', '10%')
    """
    whole = DAILY_VALUES.get(key)
    if whole is None or key == "protein_g":
        return ""  # protein's needs a quality score (101.9(c)(7)), which food tables lack
    share, one = exact(value) * 100, exact(whole)  # per cent: share / one
    if key not in _VITAMINS_AND_MINERALS:
        return f"{_nearest(share, one) // one}%"
    if share < 2 * one:
        return "0%"
    step = 2 if share <= 10 * one else 5 if share <= 50 * one else 10
    return f"{_nearest(share, step * one) // one}%"
