"""Scaling: by portions, by a factor, by what one has of an ingredient, by the tin.

Amounts are multiplied exactly and printed by the ladders. Times, oven settings and tins stay.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction

from sitegen.changed import changed
from sitegen.dish import (
    AmidAmount,
    AmountPiece,
    Dish,
    Figure,
    LedgerPart,
    LedgerRow,
    MethodPartView,
)
from sitegen.kitchen.printing import counted_word, is_one, print_figure
from sitegen.kitchen.tins import read_tin, tin_factor
from sitegen.kitchen.weighing import weigh
from sitegen.larder.larder import Larder
from sitegen.reading.lines import read_line
from sitegen.reading.naming import SizeOf, find_line, share_of
from sitegen.reading.numbers import Unreadable, scan_number
from sitegen.reading.source import Place

LARGEST = Fraction(100)


class NotScalable(Exception):
    """What was asked can't be worked out; the message says why and what to ask instead."""


@dataclass(frozen=True, slots=True)
class Scaled:
    """A dish at another size."""

    factor: Fraction
    dish: Dish
    notes: tuple[str, ...]


def by_serves(dish: Dish, portions: Fraction) -> Fraction:
    """The factor for so many portions."""
    return _sound(portions / dish.recipe.serves)


def by_factor(text: str) -> Fraction:
    """A factor as a cook writes it: ``1.5``, ``1 1/2``, ``half``."""
    try:
        number = scan_number(text.strip().lower(), 0)
    except Unreadable as trouble:
        raise NotScalable(f"{trouble.message}; {trouble.hint}") from None
    if number is None or text.strip()[number.end :].strip():
        raise NotScalable(f"'{text}' is not a number; write 2, 1.5 or 1/2")
    return _sound(number.value)


def by_have(dish: Dish, text: str, larder: Larder, region: str) -> Fraction:
    """The factor that uses up what one has: ``300 g flour``.

    The amount is compared with the line's own measures first; where they are of another kind, both
    are weighed.
    """
    problems: list[object] = []
    have = read_line(text, Place(1, 1), "have", problems)  # type: ignore[arg-type]
    if have is None or have.amount is None:
        raise NotScalable(f"'{text}' is not an amount of something; write '300 g flour'")
    lines = dish.recipe.lines
    named = find_line(have.food, lines, None, frozenset())
    index = named.index if named.index >= 0 else (named.rivals[0] if named.rivals else -1)
    if index < 0:
        foods = ", ".join(dict.fromkeys(line.food for line in lines if line.amount))
        raise NotScalable(f"the recipe has no '{have.food}'; it has {foods}")
    line, row = lines[index], dish.rows[index]
    if line.amount is None:
        raise NotScalable(f"the recipe gives no amount of '{line.food}'")
    share = share_of(have.amount, line, SizeOf(region))
    if share:
        return _sound(share)
    food = larder.get(row.larder_name) if row.larder_name else None
    weight = weigh(have, food, region).grams
    if weight is None or not row.grams:
        raise NotScalable(
            f"'{text}' and '{line.text}' can't be compared: no measure of {line.food} links the two; "
            "give both by weight"
        )
    own = (row.grams + (row.grams_upto if row.grams_upto is not None else row.grams)) / 2
    return _sound((weight[0] + weight[1]) / 2 / own)


def by_tin(dish: Dish, text: str) -> Fraction:
    """The factor for another tin: by volume where both depths are known, else by area."""
    if not dish.tins:
        raise NotScalable(
            "the recipe names no tin with a size among its tools, as in 'tools: [20 cm round tin]'"
        )
    words = text if any(w in text for w in ("tin", "pan", "dish", "mould")) else f"{text} tin"
    other = read_tin(words)
    if other is None:
        raise NotScalable(
            f"'{text}' is not a tin with a size; write '23 cm square' or '20 x 30 cm'"
        )
    return _sound(tin_factor(dish.tins[0], other))


def _sound(factor: Fraction) -> Fraction:
    if factor <= 0:
        raise NotScalable("a recipe can't be scaled to nothing")
    if factor > LARGEST or factor < 1 / LARGEST:
        raise NotScalable(f"{float(factor):g} times the recipe is beyond what scaling is good for")
    return factor


def scale_figure(figure: Figure, factor: Fraction) -> Figure:
    """A figure scaled; at a factor of 1 it is the author's own, untouched.

    >>> scale_figure(Figure("us-volume", Fraction(3), None, "1 tbsp"), Fraction(2)).text
    '2 tbsp'
    """
    if factor == 1:
        return figure
    value = figure.value * factor
    upto = figure.upto * factor if figure.upto is not None else None
    if figure.one is not None and is_one(figure.ladder, value, upto):
        text = figure.one
    else:
        text = print_figure(figure.ladder, value, upto, figure.noun)
    return changed(figure, value=value, upto=upto, text=text)


def scale(dish: Dish, factor: Fraction) -> Scaled:
    """The dish with every amount scaled, in the table and in the method."""
    ledger = tuple(
        LedgerPart(part.name, tuple(_scale_row(row, factor) for row in part.rows))
        for part in dish.ledger
    )
    method = tuple(
        MethodPartView(
            part.name,
            part.lead,
            tuple(
                replace(
                    step,
                    pieces=tuple(
                        _scale_piece(p, factor) if isinstance(p, AmountPiece) else p
                        for p in step.pieces
                    ),
                )
                for step in part.steps
            ),
        )
        for part in dish.method
    )
    scaled = replace(dish, ledger=ledger, method=method)
    notes = dish.scaling_notes if factor != 1 else ()
    return Scaled(factor, scaled, notes)


def _figure(figure: Figure | None, factor: Fraction) -> Figure | None:
    return None if figure is None else scale_figure(figure, factor)


def _scale_row(row: LedgerRow, factor: Fraction) -> LedgerRow:
    return replace(
        row,
        metric=_figure(row.metric, factor),
        us=_figure(row.us, factor),
        lead=_figure(row.lead, factor),
        grams=None if row.grams is None else row.grams * factor,
        grams_upto=None if row.grams_upto is None else row.grams_upto * factor,
        millilitres=None if row.millilitres is None else row.millilitres * factor,
        swap=_scale_row(row.swap, factor) if row.swap else None,
        alternatives=tuple(_scale_row(a, factor) for a in row.alternatives),
        amid=tuple(
            (text, tuple(p if isinstance(p, str) else _scale_amid(p, factor) for p in pieces))
            for text, pieces in row.amid
        ),
    )


def _scale_amid(amount: AmidAmount, factor: Fraction) -> AmidAmount:
    return AmidAmount(
        _figure(amount.metric, factor), _figure(amount.us, factor), _figure(amount.lead, factor)
    )


def _scale_piece(piece: AmountPiece, factor: Fraction) -> AmountPiece:
    words, word = piece.words, piece.word
    if word:
        value = word.value * factor
        upto = word.upto * factor if word.upto is not None else None
        text = counted_word(word.ladder, value, upto, word.noun)
        words = words.removesuffix(word.text) + text
        word = replace(word, value=value, upto=upto, text=text)
    return replace(
        piece,
        metric=_figure(piece.metric, factor),
        us=_figure(piece.us, factor),
        lead=_figure(piece.lead, factor),
        words=words,
        word=word,
    )
