"""Slips of the pen at a line's head that would pass for the name of a food nobody knows."""

from __future__ import annotations

import re

from sitegen.reading.measures import Found
from sitegen.reading.numbers import Unreadable

_SIGN = re.compile(r"\s*([-–—−+])\s*[\d¼-¾⅐-⅞]")
_SHORT = r"(?:g|kg|mg|ml|cl|dl|tsps?|tbsps?|oz|lbs?)\.?(?=\s+[A-Za-z])"
_SHORT_UNIT = re.compile(rf"\s*({_SHORT})", re.IGNORECASE)
_UNIT_ALONE = re.compile(
    rf"\s*({_SHORT}"
    r"|(?:(?:tea|table)spoons?|cups?|pints?|quarts?|pounds?|ounces?|lit(?:re|er)s?)(?=\s+of\b)"
    r"|(?:tea|table)spoons(?=\s+[A-Za-z]))",
    re.IGNORECASE,
)
"""A measure's unit where a line's number should be. ``pound cake`` is a food, ``cup of sugar`` is not."""


def number_not_lost(text: str, start: int) -> None:
    """Of a line without an amount: ``–150 g flour`` and ``tbsp oil`` raise Unreadable."""
    sign = _SIGN.match(text, start)
    if sign:
        message = f"a '{sign[1]}' stands before the amount, and no amount is less than nothing"
        raise _at(sign, "amount-sign", message, "take it away")
    unit = _UNIT_ALONE.match(text, start)
    if unit:
        message = f"'{unit[1]}' is a unit, and no number stands before it"
        raise _at(unit, "number-missing", message, f"write how many: '1 {unit[1]}'")


def one_unit(text: str, found: Found) -> None:
    """Of a line with an amount: ``400 g g flour`` and ``2 tbsp tsp salt`` raise Unreadable."""
    unit = _SHORT_UNIT.match(text, found.end)
    if unit:
        message = f"'{unit[1]}' is a second unit behind '{found.measure.text}'"
        raise _at(unit, "unit-twice", message, "leave one of them")


def _at(found: re.Match[str], rule: str, message: str, hint: str) -> Unreadable:
    return Unreadable(rule, found.start(1), len(found[1]), message, hint)
