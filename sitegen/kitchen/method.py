"""Amounts inside the method: the part of an ingredient that a step uses, in both systems."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from sitegen.dish import AmountPiece, Figure, LedgerRow
from sitegen.kitchen.figures import author_figure, column_of, lead_figure
from sitegen.kitchen.printing import print_figure
from sitegen.kitchen.units import dimension_of
from sitegen.reading.naming import SizeOf, share_of
from sitegen.reading.recipe import Measure, Mention

_ALL = Fraction(1)


def show_mention(mention: Mention, rows: list[LedgerRow], region: str) -> AmountPiece:
    """The words with their amount; no amount for what is to taste or named again."""
    if mention.line < 0 or mention.again:
        return AmountPiece(mention.words, mention.line, mention=mention)
    row = rows[mention.line]
    if mention.measure is not None:
        return _measured(mention, mention.measure, row, region)
    share = mention.share if mention.share is not None else _ALL
    metric, us = _part(row.metric, share), _part(row.us, share)
    lead = _part(row.lead, share)
    if lead is not None and "|" in lead.noun:
        # "2 leeks" beside the word "leeks" would say it twice: the number is enough
        lead = None if (metric or us) and share == 1 else replace(lead, noun="", text=_bare(lead))
    if lead is not None and lead.prefix:
        lead = None
    return AmountPiece(mention.words, mention.line, metric, us, lead, mention)


def _bare(figure: Figure) -> str:
    return print_figure(figure.ladder, figure.value, figure.upto)


def _part(figure: Figure | None, share: Fraction) -> Figure | None:
    if figure is None or share is _ALL or share == 1:
        return figure
    value = figure.value * share
    upto = figure.upto * share if figure.upto is not None else None
    text = print_figure(figure.ladder, value, upto, figure.noun)
    return replace(figure, value=value, upto=upto, text=text)


def _measured(mention: Mention, measure: Measure, row: LedgerRow, region: str) -> AmountPiece:
    """``[100 g flour]``: the author's figure, and its partner in the row's own proportion.

    The words keep the amount that the author wrote; the figures beside them are what scales.
    """
    share = share_of(measure, row.line, SizeOf(region))
    fine = row.metric is not None and row.metric.ladder == "g-fine"
    metric = us = lead = None
    column = column_of(measure.unit, region)
    if column == "metric":
        metric = author_figure(measure, region, fine)
        us = _part(row.us, share) if share else None
    elif column == "us":
        us = author_figure(measure, region, fine)
        metric = _part(row.metric, share) if share else None
    else:
        unit = measure.unit
        noun = unit if unit and dimension_of(unit) == "count" else ""
        lead = lead_figure(
            measure, region, noun, half=row.lead is not None and row.lead.ladder == "count-half"
        )
        metric = _part(row.metric, share) if share else None
        us = _part(row.us, share) if share else None
    words = _without(mention.words, measure)
    return AmountPiece(words, mention.line, metric, us, lead, mention)


def _without(words: str, measure: Measure) -> str:
    """The words after the amount: the figures say it, in both systems."""
    rest = " ".join(words.split())
    if rest.startswith(measure.text):
        rest = rest[len(measure.text) :].strip().removeprefix("of ").removeprefix("the ")
    return rest or words
