"""Amounts amid the words of a line, in both systems."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import replace
from fractions import Fraction

from sitegen.dish import AmidAmount, Figure
from sitegen.kitchen.figures import (
    author_figure,
    column_of,
    lead_figure,
    ounce,
    tsp,
    worked_out,
)
from sitegen.kitchen.units import dimension_of, size_of
from sitegen.reading.amid import amounts_amid
from sitegen.reading.recipe import Measure

_MAY = re.compile(r"[\d¼½¾⅓⅔⅛]|spoon|cup|litre|ounce|pound|pint")
"""Without one of these there is no amount: nearly every text is told so at once."""

_FINE_BELOW = 10
"""Grams below which the fine ladder prints: ``2.5 g`` of salt is not 3 g."""

Pieces = tuple[str | AmidAmount, ...]


def amid(texts: Iterable[str], region: str) -> tuple[tuple[str, Pieces], ...]:
    """Those of ``texts`` that have amounts in them, each with its pieces."""
    return tuple(
        [
            (text, pieces)
            for text in texts
            if text and _MAY.search(text) and len(pieces := _pieces(text, region)) > 1
        ]
    )


def _pieces(text: str, region: str) -> Pieces:
    pieces: list[str | AmidAmount] = []
    at = 0
    for start, end, measure, other in amounts_amid(text):
        written = measure.text if other else text[start:end]
        pieces += [text[at:start], _both(measure, written, other, region)]
        at = end
    return (*pieces, text[at:])


def _both(measure: Measure, written: str, other: Measure | None, region: str) -> AmidAmount:
    """The author's figure, word for word at the recipe's own size, and the other system's."""
    low, high = _base(measure, region)
    weight = dimension_of(measure.unit) == "weight"
    column = column_of(measure.unit, region)
    fine = weight and low < _FINE_BELOW
    own = _own(measure, written, region, fine)
    metric: Figure | None = own if column == "metric" else None
    us: Figure | None = own if column == "us" else None
    if other is not None:
        second = column_of(other.unit, region)
        if second == "us" != column:
            us = _own(other, other.text, region, fine)
        elif second == "metric" != column:
            metric = _own(other, other.text, region, fine)
    if metric is None:
        ladder = ("g-fine" if fine else "g") if weight else "ml"
        metric = worked_out(ladder, low, high, "", measure.about)
    if us is None:
        unit = ounce() if weight else tsp()
        ladder = "us-weight" if weight else "us-volume"
        upper = None if high is None else high / unit
        us = worked_out(ladder, low / unit, upper, "", measure.about)
    return AmidAmount(metric, us, own if column == "lead" else None)


def _own(measure: Measure, written: str, region: str, fine: bool) -> Figure:
    """The author's figure; "about" and the like stay in the text before it."""
    if column_of(measure.unit, region) == "lead":
        figure = lead_figure(measure, region, "", half=False)
    else:
        figure = author_figure(measure, region, fine)
    return replace(figure, text=written, about=False, prefix="")


def _base(measure: Measure, region: str) -> tuple[Fraction, Fraction | None]:
    """The measure in grams or millilitres, with the upper end of a range."""
    low = high = Fraction(0)
    ranged = False
    for term in measure.terms:
        size = size_of(term.unit, region) or Fraction(1)
        low += term.value * size
        high += (term.upto if term.upto is not None else term.value) * size
        ranged = ranged or term.upto is not None
    return low, high if ranged else None


def amid_words(pieces: Pieces, units: str) -> str:
    """The text in plain words, each amount in both systems: ``cooked in 3 l (12¾ cups) water``."""
    words: list[str] = []
    for piece in pieces:
        if isinstance(piece, str):
            words.append(piece)
            continue
        pair = (piece.metric, piece.us) if units == "metric" else (piece.us, piece.metric)
        first, *others = [f.text for f in (piece.lead, *pair) if f]
        words.append(f"{first} ({', '.join(others)})" if others else first)
    return "".join(words)
