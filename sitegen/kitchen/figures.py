"""Measures turned into the figures that stand in the ledger's columns."""

from __future__ import annotations

import re
from collections.abc import Callable
from fractions import Fraction
from functools import cache, lru_cache

from sitegen.dish import Figure
from sitegen.kitchen.printing import exact_decimal, print_figure
from sitegen.kitchen.tables import mixed, nouns
from sitegen.kitchen.units import ONE, UNITS, dimension_of, size_of
from sitegen.reading.recipe import Amount, Measure

US_SPOON = {"us_tsp": Fraction(1), "us_tbsp": Fraction(3), "us_cup": Fraction(48)}
_SAME = Fraction(1, 50)
"""A spoon of 15 ml and one of 14.79 ml are the same spoon to a cook: within 2 %."""


@lru_cache(maxsize=1024)
def column_of(unit: str, region: str) -> str:
    """Where a measure of ``unit`` stands: ``metric``, ``us``, or ``lead`` before the food's name.

    A cup of 250 ml is neither metric weight nor a US cup, so it leads; a spoon of 15 ml stands
    among the US figures, where spoons are.
    """
    if dimension_of(unit) == "count":
        return "lead"
    if UNITS[unit].system == "metric":
        return "metric"
    if dimension_of(unit) == "weight":
        return "us"
    size, us_size = size_of(unit, region), size_of(unit, "us")
    if size is None or us_size is None or abs(size / us_size - 1) > _SAME:
        return "lead"
    return "us"


def written_number(amount: Amount, written: str) -> str:
    """The author's number, exactly, in the page's types: fractions stay fractions."""
    low = _one_number(amount.value, amount.unit, written)
    if amount.upto is None:
        return low
    return f"{low}–{_one_number(amount.upto, amount.unit, written)}"


_FRACTION_SIGN = re.compile(r"[/⁄¼-¾⅐-⅞]")


def _one_number(value: Fraction, unit: str, written: str) -> str:
    if value.denominator == 1:
        return str(value.numerator)
    if value.denominator in (2, 3, 4, 8):
        known = UNITS.get(unit)
        if known is None or known.system != "metric" or _FRACTION_SIGN.search(written):
            return mixed(value)
    return exact_decimal(value) or mixed(value)


def written(measure: Measure) -> str:
    """The author's measure in the page's types; never rounded.

    >>> from sitegen.reading.measures import scan_measure
    >>> written(scan_measure("1 1/2 cups", 0).measure)
    '1½ cups'
    """
    words: list[str] = []
    if measure.each is not None:
        term, each = measure.terms[0], measure.each
        high = term.upto if term.upto is not None else term.value
        packet = UNITS[term.unit]
        size = f"{written_number(each, measure.text)} {each.unit}"
        count = written_number(term, measure.text)
        return f"{count} × {size} {packet.many if high > 1 else packet.one}"
    for term in measure.terms:
        number = written_number(term, measure.text)
        high = term.upto if term.upto is not None else term.value
        unit = UNITS.get(term.unit)
        name = (unit.many if high > 1 else unit.one) if unit else ""
        words.append(f"{number} {name}".strip())
    joint = " " if measure.terms[0].unit in ("lb", "kg", "l") else " + "
    return joint.join(words)


def base_amount(measure: Measure, ladder: str, region: str) -> tuple[Fraction, Fraction | None]:
    """The measure in the ladder's base unit, with the upper end of a range."""
    if len(measure.terms) == 1:
        term = measure.terms[0]
        size = _size(term.unit, ladder, region)
        low = term.value if size is ONE else term.value * size
        return low, None if term.upto is None else term.upto * size
    low = high = Fraction(0)
    ranged = False
    for term in measure.terms:
        size = _size(term.unit, ladder, region)
        low += term.value * size
        high += (term.upto if term.upto is not None else term.value) * size
        ranged = ranged or term.upto is not None
    return low, high if ranged else None


@lru_cache(maxsize=2048)
def _size(unit: str, ladder: str, region: str) -> Fraction:
    """How many of the ladder's base unit one ``unit`` is."""
    if ladder in ("count", "count-half"):
        return ONE
    size = size_of(unit, region) or ONE
    if ladder == "us-volume":
        if unit in ("tsp", "tbsp", "cup"):
            return US_SPOON[f"us_{unit}"]
        return size / tsp()
    return size / _BASE_UNITS[ladder]() if ladder in _BASE_UNITS else size


@cache
def tsp() -> Fraction:
    """A US teaspoon in ml."""
    size = size_of("us tsp", "us")
    assert size is not None
    return size


@cache
def ounce() -> Fraction:
    """An avoirdupois ounce in g."""
    size = size_of("oz", "us")
    assert size is not None
    return size


def metric_tsp() -> Fraction:
    """A metric teaspoon in ml: common practice."""
    return Fraction(5)


def imperial_fl_oz() -> Fraction:
    """An imperial fluid ounce in ml."""
    size = size_of("imperial fl oz", "uk")
    assert size is not None
    return size


_BASE_UNITS: dict[str, Callable[[], Fraction]] = {
    "us-weight": ounce,
    "metric-volume": metric_tsp,
    "australian-volume": metric_tsp,
    "imperial-volume": imperial_fl_oz,
}


def regional_ladder(unit: str, region: str) -> str:
    """The ladder of a volume that stands in neither column: a cup of 250 ml, a pint of 568.

    >>> regional_ladder("tbsp", "au"), regional_ladder("cup", "eu"), regional_ladder("pint", "uk")
    ('australian-volume', 'metric-volume', 'imperial-volume')
    """
    if unit in ("tsp", "tbsp", "cup", "metric cup"):
        return "australian-volume" if region == "au" else "metric-volume"
    return "imperial-volume"


@lru_cache(maxsize=1024)
def _own_ladder(unit: str, region: str, fine: bool) -> str:
    """The ladder of the author's own figure in one of the two columns."""
    volume = dimension_of(unit) == "volume"
    if column_of(unit, region) == "metric":
        return "ml" if volume else ("g-fine" if fine else "g")
    return "us-volume" if volume else "us-weight"


def author_figure(measure: Measure, region: str, fine: bool) -> Figure:
    """The author's own figure for one of the two columns."""
    ladder = _own_ladder(measure.unit, region, fine)
    value, upto = base_amount(measure, ladder, region)
    prefix = f"{measure.limit} " if measure.limit else ""
    return Figure(ladder, value, upto, written(measure), False, measure.about, prefix=prefix)


def lead_figure(
    measure: Measure, region: str, noun: str, *, half: bool, prefix: str = ""
) -> Figure:
    """A count, or a measure of the region's own, that stands before the food's name."""
    ladder = "count-half" if half else "count"
    term = measure.terms[0]
    if dimension_of(term.unit) == "volume":
        ladder, noun = regional_ladder(term.unit, region), ""
    value, upto = base_amount(measure, ladder, region)
    high = term.upto if term.upto is not None else term.value
    one, _, many = noun.partition("|")
    if not many:
        one, many = nouns().get(noun, [noun, noun])
    word = many if high > 1 else one
    text = f"{written_number(term, measure.text)} {word}".strip()
    if len(measure.terms) > 1 or not ladder.startswith("count"):
        text = written(measure)
    if measure.limit:
        prefix = f"{prefix}{measure.limit} "
    return Figure(ladder, value, upto, text, False, measure.about, noun, prefix=prefix)


def worked_out(
    ladder: str, value: Fraction, upto: Fraction | None, basis: str, about: bool = False
) -> Figure:
    """A figure reckoned from another, printed by its ladder."""
    text = print_figure(ladder, value, upto)
    return Figure(ladder, value, upto, text, True, about, basis=basis)
