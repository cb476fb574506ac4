"""The ladders: every amount that a page may print, as data.

Python prints by these tables and so does the page's script, which gets them as JSON
(:func:`tables_json`). A ladder is one of three kinds:

``decimal``
    Bands of ``[below, step]`` in the base unit; the amount is rounded to the step of its band and
    printed in decimals, divided by ``per`` of the last ``names`` band it reaches.
``measures``
    A list of single amounts and pairs of measures, sorted, then bands of whole numbers with
    fractions. A single one is preferred when it is near enough (``near``).
``compound``
    Bands like those of ``measures``, and from ``from`` on a major and a minor unit together.

Sources: spoon and cup sizes sold in sets, ounces by halves and quarters: common practice.
"""

from __future__ import annotations

import json
from fractions import Fraction
from functools import cache
from typing import Any

from sitegen.kitchen.units import UNITS

_GLYPHS = {
    "1/8": "⅛",
    "1/4": "¼",
    "1/3": "⅓",
    "3/8": "⅜",
    "1/2": "½",
    "5/8": "⅝",
    "2/3": "⅔",
    "3/4": "¾",
    "7/8": "⅞",
}

_CUP_FRACTIONS = ("1/4", "1/3", "1/2", "2/3", "3/4")
# Teaspoons to each measure: US customary; metric spoons with the 250 ml cup; Australian, whose
# tablespoon is 20 ml.
_US_SPOONS = {"tsp": 1, "tbsp": 3, "cup": 48}
_METRIC_SPOONS = {"tsp": 1, "tbsp": 3, "cup": 50}
_AUSTRALIAN_SPOONS = {"tsp": 1, "tbsp": 4, "cup": 50}
NEAR = Fraction(1, 40)


def mixed(value: Fraction) -> str:
    """A whole number with a kitchen fraction: ``Fraction(5, 4)`` is ``1¼``."""
    whole, rest = divmod(value, 1)
    if not rest:
        return str(whole)
    glyph = _GLYPHS.get(str(rest)) or f"{' ' if whole else ''}{rest.numerator}/{rest.denominator}"
    return f"{whole}{glyph}" if whole else glyph


def _name(unit: str, value: Fraction) -> str:
    return UNITS[unit].many if value > 1 else UNITS[unit].one


def _spoon_rungs(per: dict[str, int]) -> list[list[Any]]:
    """Single measures and pairs up to 4 cups: ``[teaspoons, number, unit, 0 single or 1 pair]``."""
    rungs: dict[Fraction, list[Any]] = {}

    def single(amount: Fraction, unit: str) -> None:
        value = amount * per[unit]
        rungs.setdefault(value, [str(value), mixed(amount), _name(unit, amount), 0])

    def pair(major: Fraction, unit: str, minor: Fraction, small: str) -> None:
        value = major * per[unit] + minor * per[small]
        text = f"{mixed(major)} {_name(unit, major)} + {mixed(minor)} {_name(small, minor)}"
        rungs.setdefault(value, [str(value), text, "", 1])

    quarters = [Fraction(n, 4) for n in range(1, 4 * per["tbsp"])]
    single(Fraction(1, 8), "tsp")
    for tsp in quarters:
        single(tsp, "tsp")
    for halves in range(2, 8):
        single(Fraction(halves, 2), "tbsp")
    for whole in range(4):
        for part in ("0", *_CUP_FRACTIONS):
            if whole or part != "0":
                single(whole + Fraction(part), "cup")
    for tsp in quarters:
        pair(tsp, "tsp", Fraction(1, 8), "tsp")
    for tbsp in range(1, 4):
        for n in (1, 2, 3, 4, 6, 8, 10):
            pair(Fraction(tbsp), "tbsp", Fraction(n, 4), "tsp")
    for whole in range(4):
        for part in ("0", *_CUP_FRACTIONS):
            cups = whole + Fraction(part)
            if not cups:
                continue
            if cups < 1:
                for n in (1, 2):
                    pair(cups, "cup", Fraction(n), "tsp")
            for n in (2, 3, 4, 5, 6):
                pair(cups, "cup", Fraction(n, 2), "tbsp")
    top = Fraction(4 * per["cup"])
    return [rungs[v] for v in sorted(rungs) if v < top]


@cache
def ladders() -> dict[str, Any]:
    """All ladders by name. Amounts are exact rationals in text."""
    weight_bands = [["100", "1"], ["500", "5"], ["3000", "10"], ["10000", "50"], ["", "100"]]
    grams = [["0", "g", "1"], ["1000", "kg", "1000"]]
    return {
        "g": {
            "kind": "decimal",
            "bands": [["1", "1/10"], ["5", "1/2"], *weight_bands],
            "names": grams,
        },
        "g-fine": {
            "kind": "decimal",
            "bands": [["5", "1/10"], ["10", "1/2"], *weight_bands],
            "names": grams,
        },
        "ml": {
            "kind": "decimal",
            "bands": [
                ["1", "1/10"],
                ["5", "1/4"],
                ["10", "1/2"],
                ["50", "1"],
                ["1000", "5"],
                ["5000", "10"],
                ["10000", "50"],
                ["", "100"],
            ],
            "names": [["0", "ml", "1"], ["1000", "l", "1000"]],
        },
        "us-volume": {
            "kind": "measures",
            "near": str(NEAR),
            "rungs": _spoon_rungs(_US_SPOONS),
            "bands": [
                ["768", "cup", "cups", "48", ["0", *_CUP_FRACTIONS]],
                ["", "quart", "quarts", "192", ["0", "1/4", "1/2", "3/4"]],
            ],
        },
        "metric-volume": {
            "kind": "measures",
            "near": str(NEAR),
            "rungs": _spoon_rungs(_METRIC_SPOONS),
            "bands": [["", "cup", "cups", "50", ["0", *_CUP_FRACTIONS]]],
        },
        "australian-volume": {
            "kind": "measures",
            "near": str(NEAR),
            "rungs": _spoon_rungs(_AUSTRALIAN_SPOONS),
            "bands": [["", "cup", "cups", "50", ["0", *_CUP_FRACTIONS]]],
        },
        "imperial-volume": {
            "kind": "measures",
            "near": "0",
            "rungs": [],
            "bands": [
                ["5", "fl oz", "fl oz", "1", ["0", "1/4", "1/2", "3/4"]],
                ["", "pint", "pints", "20", ["0", *_CUP_FRACTIONS]],
            ],
        },
        "us-weight": {
            "kind": "compound",
            "bands": [
                ["1/4", "oz", "oz", "1", ["0", "1/8", "1/4"]],
                ["4", "oz", "oz", "1", ["0", "1/4", "1/2", "3/4"]],
                ["16", "oz", "oz", "1", ["0", "1/2"]],
            ],
            "from": "16",
            "major": ["lb", "16"],
            "minor": ["oz", [["160", "1/2"], ["320", "1"], ["", "4"]]],
        },
        "count": {
            "kind": "measures",
            "near": "0",
            "rungs": [],
            "bands": [
                ["5", "", "", "1", ["0", *_CUP_FRACTIONS]],
                ["10", "", "", "1", ["0", "1/2"]],
                ["", "", "", "1", ["0"]],
            ],
        },
        "count-half": {
            "kind": "measures",
            "near": "0",
            "rungs": [],
            "bands": [
                ["1/2", "", "", "1", ["0", "1/4", "1/2"]],
                ["10", "", "", "1", ["0", "1/2"]],
                ["", "", "", "1", ["0"]],
            ],
        },
    }


@cache
def nouns() -> dict[str, list[str]]:
    """Counted words: key → [after 1 or less, after more]."""
    return {
        u.key: [u.one, u.many] for u in UNITS.values() if u.one != u.many or u.key not in ("g",)
    }


@cache
def tables_json() -> str:
    """The tables as the page's script reads them; stable bytes."""
    data = {"ladders": ladders(), "nouns": nouns(), "glyphs": _GLYPHS}
    return json.dumps(data, ensure_ascii=False, separators=(",", ":"), sort_keys=True)
