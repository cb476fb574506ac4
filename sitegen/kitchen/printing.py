"""Exact amounts in, kitchen words out.

The page's script holds the same algorithm (``pages/scripts/kitchen.js``); the vectors in the tests
keep the two alike. Rounding is half up, written out, so that both languages agree.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from fractions import Fraction
from functools import cache, lru_cache
from math import lcm
from typing import Any

from sitegen.kitchen.tables import ladders, mixed, nouns

Printed = tuple[Fraction, str, str]
"""The amount that stands on the page (base unit), its number, and its unit's word."""


def half_up(value: Fraction, step: Fraction) -> Fraction:
    """The multiple of ``step`` nearest to ``value``; halves go up.

    >>> half_up(Fraction(5, 2), Fraction(1))
    Fraction(3, 1)
    """
    over, under = value.numerator * step.denominator, value.denominator * step.numerator
    steps = (2 * over + under) // (2 * under)  # in whole numbers: a page has hundreds of amounts
    return Fraction(steps * step.numerator, step.denominator)


def decimal(value: Fraction) -> str:
    """A terminating decimal without trailing zeros: ``Fraction(5, 4)`` is ``1.25``."""
    return _digits(value.numerator, value.denominator)[0]


def exact_decimal(value: Fraction) -> str | None:
    """As :func:`decimal`; None if six places don't say it exactly: a third has no such decimal."""
    digits, rest = _digits(value.numerator, value.denominator)
    return None if rest else digits


def _digits(over: int, under: int) -> tuple[str, int]:
    """At most six decimal places of ``over / under``, and whether anything is left."""
    whole, rest = divmod(over, under)
    digits = ""
    while rest and len(digits) < 6:
        digit, rest = divmod(rest * 10, under)
        digits += str(digit)
    return f"{whole}.{digits}" if digits else str(whole), rest


def rung(ladder: str, value: Fraction, noun: str = "") -> Printed:
    """The step of ``ladder`` that ``value`` prints as; ``value`` above 0, in the base unit.

    >>> rung("us-volume", Fraction(48))
    (Fraction(48, 1), '1', 'cup')
    """
    spec = _compiled(ladder)
    if spec["kind"] == "decimal":
        return _decimal_rung(spec, value)
    if spec["kind"] == "compound" and value >= spec["from"]:
        return _compound_rung(spec, value)
    found = _measure_rung(spec, value)
    if spec["kind"] == "compound" and found[0] >= spec["from"]:
        return _compound_rung(spec, found[0])
    return _with_noun(found, noun) if noun else found


@lru_cache(maxsize=8192)
def print_figure(ladder: str, value: Fraction, upto: Fraction | None = None, noun: str = "") -> str:
    """One amount, or a range, as the page prints it.

    ``noun`` is what a count counts: a key of the unit table, or both forms as ``leek|leeks``.

    >>> print_figure("us-volume", Fraction(6), Fraction(9))
    '2–3 tbsp'
    >>> print_figure("g", Fraction(1250))
    '1.25 kg'
    """
    amount, number, unit = rung(ladder, value, noun)
    if upto is None or upto <= value:
        return f"{number} {unit}".rstrip()
    amount_to, number_to, unit_to = rung(ladder, upto, noun)
    if amount_to == amount:
        return f"{number} {unit}".rstrip()
    one_word = unit == unit_to or _same_word(unit, unit_to) or f"{unit}|{unit_to}" == noun
    if unit_to and one_word:
        return f"{number}–{number_to} {unit_to}"
    if not unit and not unit_to and " " not in number + number_to:
        return f"{number}–{number_to}"
    return f"{f'{number} {unit}'.rstrip()} to {f'{number_to} {unit_to}'.rstrip()}"


def is_one(ladder: str, value: Fraction, upto: Fraction | None = None) -> bool:
    """Whether an amount is printed as exactly one, and not as a range.

    >>> is_one("count", Fraction(1)), is_one("count", Fraction(1), Fraction(2))
    (True, False)
    """
    amounts = {rung(ladder, each)[0] for each in (value, upto) if each is not None}
    return amounts == {1}


def counted_word(ladder: str, value: Fraction, upto: Fraction | None, noun: str) -> str:
    """The form of ``leek|leeks`` that agrees with an amount; of a range, with its upper end.

    >>> counted_word("count", Fraction(1, 2), None, "leek|leeks")
    'leek'
    """
    most = value if upto is None else max(value, upto)
    return rung(ladder, most, noun)[2]


@cache
def _pairs() -> list[list[str]]:
    return list(nouns().values())


def _same_word(one: str, many: str) -> bool:
    return [one, many] in _pairs()


def _decimal_rung(spec: dict[str, Any], value: Fraction) -> Printed:
    """In whole numbers throughout: a page has hundreds of amounts, and rationals are slow."""
    over, under = value.numerator, value.denominator
    up, down = spec["steps"][bisect_right(spec["bounds"], over * spec["scale"] // under)]
    steps = max((2 * over * down + under * up) // (2 * under * up), 1)
    amount = steps * up  # of 1/down
    _, name, per = next(named for named in spec["names"] if amount >= named[0] * down)
    return Fraction(amount, down), _digits(amount, down * per)[0], name


def _measure_rung(spec: dict[str, Any], value: Fraction) -> Printed:
    every = spec["every"]
    over, under = value.numerator, value.denominator
    if every.steps and over * every.scale < every.steps[-1] * under:
        single = _nearest(spec["single"], value)
        up, down = single[0].numerator, single[0].denominator
        near = spec["near"]
        if abs(up * under - over * down) * near.denominator > near.numerator * over * down:
            single = _nearest(every, value)
        return single[0], single[1], single[2]
    band = bisect_right(spec["bounds"], over * spec["scale"] // under)
    per = spec["bands"][band][3]
    whole = over * per.denominator // (under * per.numerator)
    amount, number, unit = _nearest(_between_wholes(spec["name"], band, whole), value)
    return amount, number, unit


@lru_cache(maxsize=1024)
def _between_wholes(ladder: str, band: int, whole: int) -> _Rungs:
    """The steps of a band from one whole number to the next, with their words."""
    _, one, many, per, fractions = _compiled(ladder)["bands"][band]
    numbers = [number for f in (*fractions, 1) if (number := Fraction(whole + f)) > 0]
    return _Rungs([(n * per, mixed(n), many if n > 1 else one) for n in numbers])


def _compound_rung(spec: dict[str, Any], value: Fraction) -> Printed:
    major, per = spec["major"]
    minor, bands = spec["minor"]
    step = next(s for below, s in bands if below is None or value < below)
    amount = half_up(value, step)
    whole, rest = divmod(amount, per)
    if not rest:
        return amount, str(whole), major
    return amount, f"{whole} {major} {mixed(rest)} {minor}", ""


def _nearest(rungs: _Rungs, value: Fraction) -> tuple[Any, ...]:
    """The rung that is nearest; of two, the upper one."""
    steps, scale = rungs.steps, rungs.scale
    wanted, over = value.numerator * scale, value.denominator
    above = bisect_left(steps, -(-wanted // over))
    if above == len(steps):
        return rungs.rows[-1]
    upper = bisect_right(steps, steps[above]) - 1
    if above and wanted - steps[above - 1] * over < steps[upper] * over - wanted:
        return rungs.rows[above - 1]
    return rungs.rows[upper]


class _Rungs:
    """Rows by their first field, smallest first, and that field in whole numbers of 1/scale."""

    __slots__ = ("rows", "scale", "steps")

    def __init__(self, rows: Sequence[tuple[Any, ...]]) -> None:
        self.scale = lcm(*[row[0].denominator for row in rows])
        self.rows = sorted(rows, key=self._step)
        self.steps = [self._step(row) for row in self.rows]

    def _step(self, row: tuple[Any, ...]) -> int:
        step: Fraction = row[0]
        return step.numerator * (self.scale // step.denominator)


def _with_noun(printed: Printed, noun: str) -> Printed:
    one, _, many = noun.partition("|")
    if not many:
        one, many = nouns().get(noun, [noun, noun])
    return printed[0], printed[1], many if printed[0] > 1 else one


def _in_wholes(bounds: Sequence[str]) -> tuple[int, list[int]]:
    """Bounds of bands, in whole numbers of 1/scale: a value's whole part is enough to compare."""
    found = [Fraction(bound) for bound in bounds if bound]
    scale = lcm(*[bound.denominator for bound in found])
    return scale, [int(bound * scale) for bound in found]


@cache
def _compiled(name: str) -> dict[str, Any]:
    """A ladder with its amounts as rationals."""
    spec = dict(ladders()[name])

    def number(text: str) -> Fraction | None:
        return Fraction(text) if text else None

    if spec["kind"] == "decimal":
        steps = [Fraction(step) for _, step in spec["bands"]]
        spec["steps"] = [(step.numerator, step.denominator) for step in steps]
        spec["names"] = [(int(start), n, int(per)) for start, n, per in reversed(spec["names"])]
        spec["scale"], spec["bounds"] = _in_wholes([below for below, _ in spec["bands"]])
        return spec
    spec["bands"] = [
        (number(below), one, many, Fraction(per), [Fraction(f) for f in fractions])
        for below, one, many, per, fractions in spec["bands"]
    ]
    spec["name"] = name
    spec["scale"], spec["bounds"] = _in_wholes([band[0] for band in ladders()[name]["bands"]])
    spec["rungs"] = [(Fraction(v), n, u, t) for v, n, u, t in spec.get("rungs", [])]
    spec["every"] = _Rungs(spec["rungs"])
    spec["single"] = _Rungs([rung for rung in spec["rungs"] if not rung[3]])
    spec["near"] = Fraction(spec.get("near", "0"))
    if spec["kind"] == "compound":
        spec["from"] = Fraction(spec["from"])
        spec["major"] = (spec["major"][0], Fraction(spec["major"][1]))
        spec["minor"] = (
            spec["minor"][0],
            [(number(b), Fraction(s)) for b, s in spec["minor"][1]],
        )
    return spec
