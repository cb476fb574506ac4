"""The ladders: every amount that a page may print, as data.

Python prints by these tables and so does the page's script, which gets them as JSON
(:func:`tables_json`). A ladder is one of three kinds:

``decimal``
    Bands of ``[below, step]`` in the base unit; the amount is rounded to the step of its band and
    printed in decimals, divided by ``per`` of the last ``names`` band it reaches.
``measures``
    Single amounts and pairs of measures (``rungs``, sorted; made of ``steps``, with ``per`` base
    units to each measure), then bands of whole numbers with fractions. A single one is preferred
    when it is near enough (``near``).
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
    whole, rest = divmod(value.numerator, value.denominator)
    if not rest:
        return str(whole)
    part = f"{rest}/{value.denominator}"
    glyph = _GLYPHS.get(part) or f"{' ' if whole else ''}{part}"
    return f"{whole}{glyph}" if whole else glyph


def _name(unit: str, value: Fraction) -> str:
    return UNITS[unit].many if value > 1 else UNITS[unit].one


def _spoon_steps(per: dict[str, int]) -> list[list[str]]:
    """Which measures and pairs of them there are: ``[amounts, unit]`` or with a smaller one beside.

    Amounts stand in one text, as ``"1/4 1/2 3/4"``. Of two that are equally much, the first counts.
    """

    def row(*amounts: Fraction | int) -> str:
        return " ".join(map(str, amounts))

    quarters = row(*(Fraction(n, 4) for n in range(1, 4 * per["tbsp"])))
    parts = [Fraction(part) for part in _CUP_FRACTIONS]
    cups = row(
        *(whole + part for whole in range(4) for part in (Fraction(0), *parts) if whole or part)
    )
    return [
        ["1/8", "tsp"],
        [quarters, "tsp"],
        [row(*(Fraction(n, 2) for n in range(2, 8))), "tbsp"],
        [cups, "cup"],
        [quarters, "tsp", "1/8", "tsp"],
        ["1 2 3", "tbsp", row(*(Fraction(n, 4) for n in (1, 2, 3, 4, 6, 8, 10))), "tsp"],
        [cups, "cup", row(*(Fraction(n, 2) for n in range(2, 7))), "tbsp"],
        [row(*parts), "cup", "1 2", "tsp"],
    ]


def _spoon_rungs(per: dict[str, int]) -> list[list[Any]]:
    """The steps as rungs up to 4 cups: ``[teaspoons, number, unit, 0 single or 1 pair]``.

    The page's script makes the same of the same steps.
    """
    rungs: dict[Fraction, list[Any]] = {}
    for amounts, unit, *small in _spoon_steps(per):
        for major in map(Fraction, amounts.split()):
            value, words = major * per[unit], [mixed(major), _name(unit, major)]
            if not small:
                rungs.setdefault(value, [str(value), *words, 0])
                continue
            for minor in map(Fraction, small[0].split()):
                both = value + minor * per[small[1]]
                text = " ".join([*words, "+", mixed(minor), _name(small[1], minor)])
                rungs.setdefault(both, [str(both), text, "", 1])
    top = Fraction(4 * per["cup"])
    return [rungs[v] for v in sorted(rungs, key=float) if v < top]


def _spoons(per: dict[str, int]) -> dict[str, Any]:
    return {"per": per, "steps": _spoon_steps(per), "rungs": _spoon_rungs(per)}


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
            **_spoons(_US_SPOONS),
            "bands": [
                ["768", "cup", "cups", "48", ["0", *_CUP_FRACTIONS]],
                ["", "quart", "quarts", "192", ["0", "1/4", "1/2", "3/4"]],
            ],
        },
        "metric-volume": {
            "kind": "measures",
            "near": str(NEAR),
            **_spoons(_METRIC_SPOONS),
            "bands": [["", "cup", "cups", "50", ["0", *_CUP_FRACTIONS]]],
        },
        "australian-volume": {
            "kind": "measures",
            "near": str(NEAR),
            **_spoons(_AUSTRALIAN_SPOONS),
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
    """The tables as the page's script reads them; stable bytes.

    Rungs are left out: the script makes them of the steps, which are a tenth of their size.
    """
    shown = {
        name: {key: value for key, value in ladder.items() if key != "rungs"}
        for name, ladder in ladders().items()
    }
    data = {"ladders": shown, "nouns": nouns(), "glyphs": _GLYPHS}
    return json.dumps(data, ensure_ascii=False, separators=(",", ":"), sort_keys=True)
