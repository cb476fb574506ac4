"""What an ingredient line weighs and fills, by its food's own measures.

The author's own figures come first. Where there are none, the larder's measure of the same kind and
state is used; a measure of a different kind is never borrowed, and what can't be known stays unknown.
"""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from sitegen.kitchen.units import ONE, dimension_of, size_of
from sitegen.larder.food import VOLUME_ML, Food
from sitegen.reading.naming import stem
from sitegen.reading.recipe import Amount, IngredientLine, Measure

Span = tuple[Fraction, Fraction]
"""A low and a high end; when there is no range, one and the same number."""

_ONCE: Span = (ONE, ONE)

_LARDER_UNIT = {
    "fl oz": "fl_oz",
    "us tsp": "tsp",
    "us tbsp": "tbsp",
    "us cup": "cup",
    "us pint": "pint",
    "us fl oz": "fl_oz",
    "metric cup": "cup",
    "imperial pint": "pint",
    "imperial fl oz": "fl_oz",
    "cl": "ml",
    "dl": "ml",
    "gallon": "quart",
}

# Small measures by common practice, in US teaspoons, for foods whose table has none of their own.
_SMALL = {"pinch": Fraction(1, 16), "dash": Fraction(1, 8)}

_CENTIMETRES = {"cm": ONE, "mm": Fraction(1, 10), "in": Fraction(254, 100)}
_THUMB_CM = 5
"""What a thumb-sized piece measures: common practice, as the larder's thumbs are weighed."""

# Sizes tried for a food that is simply counted: "3 onions".
_PLAIN_COUNT = ("", "medium", "whole", "fruit", "large")

DRAINED_SHARE = Fraction(3, 5)
"""What is left of a tin of pulses once drained: common practice (240 g of 400 g)."""
DRAINED_FISH = Fraction(7, 10)
"""The same for fish: common practice (102 g of 145 g)."""

_TINS = ("tin", "can", "jar")


class Weighed(NamedTuple):
    """What a line comes to."""

    grams: Span | None = None
    millilitres: Span | None = None
    grams_basis: str = ""
    """How the grams were reckoned; empty if the author gave them."""
    volume_basis: str = ""
    as_bought: bool = False
    """The grams are the author's, of the food as bought: the food's refuse is still in them."""
    counted: str = ""
    """The larder's word for what was counted (``clove``), where a count was used."""


def _span(amount: Amount) -> Span:
    return amount.value, amount.value if amount.upto is None else amount.upto


def _sum(measure: Measure, region: str) -> Span:
    if len(measure.terms) == 1:
        term = measure.terms[0]
        size = size_of(term.unit, region) or ONE
        low = term.value if size is ONE else term.value * size
        return low, low if term.upto is None else term.upto * size
    low = high = Fraction(0)
    for term in measure.terms:
        size = size_of(term.unit, region) or ONE
        a, b = _span(term)
        low, high = low + a * size, high + b * size
    return low, high


def _times(span: Span, factor: Span) -> Span:
    """The product of both ends. Where there is no range, it is reckoned once."""
    if span[0] is span[1] and factor[0] is factor[1]:
        one = span[0] if factor[0] is ONE else span[0] * factor[0]
        return one, one
    return span[0] * factor[0], span[1] * factor[1]


def density(food: Food, unit: str, states: tuple[str, ...]) -> tuple[Fraction, str] | None:
    """Grams per ml of ``food``, from its measure nearest in size to ``unit``; and whose it is."""
    return food.once(("density", unit, states), lambda: _density(food, unit, states))


def _density(food: Food, unit: str, states: tuple[str, ...]) -> tuple[Fraction, str] | None:
    wanted = _LARDER_UNIT.get(unit, unit)
    wanted = wanted if wanted in VOLUME_ML else "cup"
    for state in (*states, ""):
        found = food.grams_per(wanted, state)
        if found:
            per_ml = found.grams / found.amount / VOLUME_ML[wanted]
            grams = float(found.grams / found.amount)
            name = {"fl_oz": "fluid ounce", "tsp": "teaspoon", "tbsp": "tablespoon"}.get(
                wanted, wanted
            )
            stated = f", {found.state}" if found.state else ""
            return per_ml, f"{grams:.4g} g to the {name}{stated} ({found.source})"
    return None


def weigh(line: IngredientLine, food: Food | None, region: str) -> Weighed:
    """Grams and millilitres of a line, with how they were reckoned."""
    measures = _in_order(line)
    count = _span(line.amount.terms[0]) if line.amount else _ONCE
    grams = millilitres = None
    as_bought = False
    for measure in measures:
        each = count if measure.apiece else _ONCE
        dimension = dimension_of(measure.unit)
        if dimension == "weight" and grams is None:
            grams, as_bought = _times(_sum(measure, region), each), not line.part_of
        elif dimension == "volume" and millilitres is None:
            millilitres = _times(_sum(measure, region), each)
        elif measure.each is not None and measure is line.amount:
            size = size_of(measure.each.unit, region)
            if size and dimension_of(measure.each.unit) == "weight" and grams is None:
                grams, as_bought = _packets(measure, size), True
            elif size and dimension_of(measure.each.unit) == "volume" and millilitres is None:
                millilitres = _packets(measure, size)
    basis = ""
    if grams is not None and _tin_to_drain(line):
        share = DRAINED_FISH if food and "fish" in food.classes else DRAINED_SHARE
        basis = f"drained weight taken as {share} of the tin (common practice)"
        grams = _times(grams, (share, share))
    if food is None:
        return Weighed(grams, millilitres, basis, "", as_bought)
    return _by_larder(line, food, Weighed(grams, millilitres, basis, "", as_bought))


def _packets(measure: Measure, size: Fraction) -> Span:
    assert measure.each is not None
    return _times(_span(measure.terms[0]), _times(_span(measure.each), (size, size)))


def _in_order(line: IngredientLine) -> list[Measure]:
    """The author's measures, the one to be believed first: a drained weight before the tin's."""
    amount = [] if line.amount is None else [line.amount]
    if not line.measures:
        return amount
    return [*line.measures, *amount] if _drained_weight(line) else [*amount, *line.measures]


def _tin_to_drain(line: IngredientLine) -> bool:
    """A tin whose content is drained, when the author has not said what is left."""
    return _drained_tin(line) and not _drained_weight(line)


def _drained_tin(line: IngredientLine) -> bool:
    return "drained" in line.states and line.amount is not None and line.amount.unit in _TINS


def _drained_weight(line: IngredientLine) -> bool:
    """Whether the brackets hold what is left of a drained tin, and not how large the tin is.

    They do where the tin's size stands before it, and where they come with or after the word
    "drained": ``1 tin (400 g) beans, drained`` is a tin of 400 g, ``1 tin beans, drained (240 g)``
    is 240 g of beans.
    """
    if not _drained_tin(line) or not any(dimension_of(m.unit) == "weight" for m in line.measures):
        return False
    before = line.text.lower().partition("drained")[0]
    return ")" not in before or (line.amount is not None and line.amount.each is not None)


def _by_larder(line: IngredientLine, food: Food, known: Weighed) -> Weighed:
    grams, millilitres, basis = known.grams, known.millilitres, known.grams_basis
    volume_basis, counted = "", ""
    unit = line.amount.unit if line.amount else ""
    as_bought = known.as_bought
    if grams is None and millilitres is not None:
        found = density(food, _volume_unit(line), line.states)
        if found:
            per_ml, whose = found
            grams, basis = _times(millilitres, (per_ml, per_ml)), f"from {whose}"
    if grams is None and line.amount is not None and millilitres is None:
        each = _each(line, food, unit)
        if each:
            weight, counted, whose = each
            grams = _times(_span(line.amount.terms[0]), (weight, weight))
            basis, as_bought, counted = f"from {whose}", False, counted or "each"
    if millilitres is None and grams is not None:
        found = density(food, "cup", line.states)
        if found:
            per_ml, whose = found
            low = grams[0] / per_ml
            millilitres = low, low if grams[0] is grams[1] else grams[1] / per_ml
            volume_basis = f"from {whose}"
    return Weighed(grams, millilitres, basis, volume_basis, as_bought, counted)


def _volume_unit(line: IngredientLine) -> str:
    for measure in (line.amount, *line.measures):
        if measure and dimension_of(measure.unit) == "volume":
            return measure.unit
    return "cup"


def _each(line: IngredientLine, food: Food, unit: str) -> tuple[Fraction, str, str] | None:
    """Grams of one of what is counted, its word, and whose figure it is."""
    assert line.amount is not None
    if unit in _SMALL and not food.grams_per(unit):
        found = density(food, "tsp", line.states)
        if not found:
            return None
        teaspoon = _SMALL[unit]
        grams = found[0] * VOLUME_ML["tsp"] * teaspoon
        return grams, unit, f"a {unit} of {teaspoon} teaspoon (common practice), {found[1]}"
    long = line.amount.each
    if long is not None and long.unit in _CENTIMETRES and (cut := _by_length(food, long)):
        return cut
    for word in _words(line, unit):
        for state in (*line.states, ""):
            measure = food.grams_per(word, state)
            if measure and measure.unit not in VOLUME_ML:
                shown = f"{word} " if word else ""
                each = measure.grams / measure.amount
                return (
                    each,
                    word,
                    f"{float(each):.4g} g to one {shown}({measure.source})".replace("  ", " "),
                )
    return None


def _by_length(food: Food, long: Amount) -> tuple[Fraction, str, str] | None:
    """``a 5 cm piece of ginger``, by what a thumb of it weighs."""
    thumb = food.grams_per("thumb")
    if thumb is None:
        return None
    length = long.value * _CENTIMETRES[long.unit]
    each = thumb.grams / thumb.amount * length / _THUMB_CM
    return (
        each,
        "piece",
        f"{float(each):.3g} g to one, {float(length):.2g} cm long ({thumb.source})",
    )


def _words(line: IngredientLine, unit: str) -> tuple[str, ...]:
    assert line.amount is not None
    if unit.startswith("="):
        return (unit[1:], "", "fruit")
    if unit:
        size = line.amount.size
        return (f"{size} {unit}", unit) if size else (unit,)
    size = line.amount.size.replace("-", " ")
    if size:
        return (size,)
    last = stem(line.food.split()[-1]) if line.food.split() else ""
    return (last, *_PLAIN_COUNT)
