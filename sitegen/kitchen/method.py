"""Amounts inside the method: the part of an ingredient that a step uses, in both systems.

Written as a good editor prints them: a count stands before its food (``the 3 eggs``) and none
before a single one (``the bay leaf``), what was counted in other words or weighed stands in brackets
(``the garlic (3 cloves)``, ``the flour (250 g)``), and what the author began with stays first
(``2 tbsp olive oil``). Common practice.
"""

from __future__ import annotations

import re
from fractions import Fraction

from sitegen.changed import changed
from sitegen.dish import AmountPiece, Figure, LedgerRow
from sitegen.kitchen.figures import author_figure, column_of, lead_figure
from sitegen.kitchen.nouns import both_forms
from sitegen.kitchen.printing import counted_word
from sitegen.kitchen.scaling import scale_figure
from sitegen.kitchen.sentence import Lead, is_bracketed, leading
from sitegen.kitchen.units import UNITS, dimension_of
from sitegen.reading.naming import SizeOf, share_of, stem
from sitegen.reading.recipe import Measure, Mention

NBSP = "\N{NO-BREAK SPACE}"

_VAGUE = frozenset("pinch dash drop splash squeeze drizzle handful grind knob".split())
"""Measures of which one is "a pinch" and not "1 pinch": common practice."""

_ROUND, _SQUARE = ("(", ")"), ("[", "]")

_DETERMINER = re.compile(
    r"(?:all(?: of)?\s+)?(?:the|these|those|your|my|our)\s+|all\s+", re.IGNORECASE
)
_COUNTED = frozenset("each every another either of".split())
"""Words that have said how many: what follows them stays as it is."""


def show_mention(
    mention: Mention, rows: list[LedgerRow], region: str, before: str = ""
) -> AmountPiece:
    """The words with their amount; no amount for what is to taste or named again.

    ``before`` is the step's text up to here, which says whether a number may stand before the words.
    """
    if mention.line < 0:
        return AmountPiece(mention.words, mention.line, mention=mention)
    row, bracketed = rows[mention.line], is_bracketed(before)
    if row.lead is None and mention.measure is None and not mention.again and _is_all(mention):
        return _weighed(mention, row, bracketed)  # as most are: nothing to count
    lead = leading(before)
    marks = _SQUARE if bracketed else _ROUND
    piece = AmountPiece(mention.words, mention.line, mention=mention, marks=marks)
    if mention.measure is not None:
        return _measured(piece, mention.measure, row, region)
    if mention.again:
        sure = not (mention.some or mention.rest or lead.counted)
        number = _number(row, piece.words) if sure else None
        return _agreeing(piece, row, number) if number else piece
    if mention.share is not None and not _is_all(mention):
        return _shared(piece, mention, row, mention.share)
    return _whole(piece, row, lead)


def _is_all(mention: Mention) -> bool:
    return mention.share is None or mention.share == 1


def _weighed(mention: Mention, row: LedgerRow, bracketed: bool) -> AmountPiece:
    """All of a line that counts nothing, with its figures in both systems."""
    about, metric, us = _said_once(row.metric, row.us)
    marks = _SQUARE if bracketed else _ROUND
    return AmountPiece(
        mention.words, mention.line, metric, us, mention=mention, about=about, marks=marks
    )


def _whole(piece: AmountPiece, row: LedgerRow, lead: Lead) -> AmountPiece:
    """All of a line."""
    own = any(f is not None and not f.worked_out for f in (row.metric, row.us))
    number = _number(row, piece.words)
    if number is None:
        count = _count(row)
        return changed(piece, lead=count) if count else _with_pair(piece, row.metric, row.us)
    agreeing = piece if lead.counted else _agreeing(piece, row, number)
    if _is_named(piece.words, row) and lead.takes_number and not (number.about or number.prefix):
        opening = _determiner(piece.words)
        number = _one(changed(number, around=f"…{NBSP}"), "")
        agreeing = changed(agreeing, lead=number, before=True, opening=opening)
        return _with_pair(agreeing, row.metric, row.us) if own else agreeing
    if own:
        return _with_pair(agreeing, row.metric, row.us)
    within = _within(piece.words, row, number)
    if within:
        return changed(agreeing, lead=within)
    around = f"{NBSP}{piece.marks[0]}…{piece.marks[1]}"
    return changed(agreeing, lead=_one(changed(number, around=around), ""))


def _shared(piece: AmountPiece, mention: Mention, row: LedgerRow, share: Fraction) -> AmountPiece:
    """``half the butter``."""
    number = _number(row, piece.words)
    if number is not None:
        part = scale_figure(number, share)
        agreeing = _agreeing(piece, row, part if mention.rest else number)
        return changed(agreeing, lead=_one(part, "one"))
    count = _count(row)
    if count is not None:
        return changed(piece, lead=scale_figure(count, share))
    metric, us = (f and scale_figure(f, share) for f in (row.metric, row.us))
    return _with_pair(piece, metric, us)


def _measured(piece: AmountPiece, measure: Measure, row: LedgerRow, region: str) -> AmountPiece:
    """``100 g flour``: the author's figure, and its partner in the row's own proportion."""
    share = share_of(measure, row.line, SizeOf(region))
    fine = row.metric is not None and row.metric.ladder == "g-fine"
    column = column_of(measure.unit, region)
    words = " ".join(piece.words.split())
    first = words.startswith(measure.text) and words != measure.text
    rest = words[len(measure.text) :].strip() if first else words
    piece = changed(piece, words=rest, before=first)
    if column == "lead":
        lead = _own_count(measure, row, region)
        if measure.unit == "" and _is_named(rest, row):
            piece = _agreeing(piece, row, lead)
        return changed(piece, lead=changed(lead, around=f"…{NBSP}") if first else lead)
    figure = author_figure(measure, region, fine)
    other = row.us if column == "metric" else row.metric
    partner = scale_figure(other, share) if share and other else None
    pair = (figure, partner) if column == "metric" else (partner, figure)
    return _with_pair(piece, *pair)


def _own_count(measure: Measure, row: LedgerRow, region: str) -> Figure:
    """The count that an author has written in the method; at its own size in the author's words."""
    unit = measure.unit
    noun = unit if unit and dimension_of(unit) == "count" else ""
    half = row.lead is not None and row.lead.ladder == "count-half"
    lead = lead_figure(measure, region, noun, half=half)
    if measure.about or measure.limit or not measure.text[:1].isalpha():
        return lead
    lead = changed(lead, text=measure.text)
    return _one(lead, measure.text)


def _with_pair(piece: AmountPiece, metric: Figure | None, us: Figure | None) -> AmountPiece:
    """With the figures of both systems."""
    about, metric, us = _said_once(metric, us)
    return changed(piece, metric=metric, us=us, about=about)


def _said_once(
    metric: Figure | None, us: Figure | None
) -> tuple[bool, Figure | None, Figure | None]:
    """Whether "about" stands before the figures; then they do not say it themselves."""
    if not ((metric and metric.about) or (us and us.about)):
        return False, metric, us
    return True, metric and changed(metric, about=False), us and changed(us, about=False)


def _number(row: LedgerRow, words: str) -> Figure | None:
    """How many there are of a food that is counted by itself: ``3`` of "3 large eggs".

    So it is with "3 cloves garlic" where the words are ``garlic cloves``.
    """
    count, amount = row.lead, row.line.amount
    if count is None or amount is None or not count.ladder.startswith("count") or row.line.part_of:
        return None
    if amount.unit == "piece" and amount.each is not None:
        if "piece" in amount.text.lower():
            return None
    elif amount.unit and (amount.each is not None or _unit_head(row) != _head(words)):
        return None
    text = _digits(count)
    prefix = f"{amount.limit} " if amount.limit else ""
    return changed(count, noun="", text=text, prefix=prefix)


def _digits(count: Figure) -> str:
    """A count's text without its noun."""
    word = counted_word(count.ladder, count.value, count.upto, count.noun) if count.noun else ""
    return count.text.removesuffix(word).strip() if word else count.text


def _count(row: LedgerRow) -> Figure | None:
    """A count of something else, as of cloves, sachets and tins, or a measure of the region's own."""
    count, amount = row.lead, row.line.amount
    if count is None or amount is None:
        return None
    if not count.ladder.startswith("count"):
        return count
    if row.line.part_of:  # "juice of 1 lemon": how much juice, where that is known
        return None if row.metric or row.us else changed(count, prefix="of ")
    if dimension_of(amount.unit) != "count":
        return None  # "500 g potatoes (about 3)": the weight is the measure
    if amount.each is not None:  # "2 × 400 g tins" are 2 tins to the hand that opens them
        word = counted_word(count.ladder, count.value, count.upto, amount.unit)
        count = changed(count, noun=amount.unit, text=f"{_digits(count)} {word}")
    name = count.noun.partition("|")[0]
    name = name if "|" in count.noun or name not in UNITS else UNITS[name].one
    article = amount.text[:2].lower().strip() in ("a", "an") or amount.unit in _VAGUE
    return _one(count, f"{'an' if name[:1] in 'aeiou' else 'a'} {name}") if article else count


def _one(figure: Figure, words: str) -> Figure:
    """``words`` stand for exactly one of it."""
    single = figure.value == 1 and figure.upto is None
    return changed(figure, one=words, text=words if single else figure.text)


def _head(words: str) -> str:
    """The stem of the last word, which is what is counted; a bracket after it is left out."""
    plain = words.partition(" (")[0].split()
    return stem(plain[-1]) if plain else ""


def _unit_head(row: LedgerRow) -> str:
    """The counted unit's own word: ``clove``; nothing for other measures."""
    unit = row.line.amount.unit if row.line.amount else ""
    counted = unit in UNITS and UNITS[unit].dimension == "count"
    return _head(UNITS[unit].one) if counted else "-"


def _is_named(words: str, row: LedgerRow) -> bool:
    """Whether the words end in the very thing that the line counts."""
    return "," not in words and _head(words) in (_head(row.line.food), _unit_head(row))


def _agreeing(piece: AmountPiece, row: LedgerRow, number: Figure) -> AmountPiece:
    """The words, their last one in the form that the number asks for."""
    if not _is_named(piece.words, row):
        return piece
    first, last = piece.words.split()[0].lower(), piece.words.split()[-1]
    one, many = both_forms(last)
    if one == many or first in _COUNTED or last.endswith(")"):
        return piece
    noun = f"{one}|{many}"
    text = counted_word(number.ladder, number.value, number.upto, noun)
    word = changed(number, noun=noun, text=text, prefix="", around="", one=None, about=False)
    return changed(piece, words=piece.words.removesuffix(last) + text, word=word)


def _determiner(words: str) -> str:
    """The words before which no number can stand: ``all the``."""
    found = _DETERMINER.match(words)
    return found[0] if found else ""


def _within(words: str, row: LedgerRow, number: Figure) -> Figure | None:
    """``celery`` of "2 celery sticks": the two are sticks."""
    food = row.line.food.split()
    said = words.split()
    if len(said) < len(food) and [w.lower() for w in food[: len(said)]] == [
        w.lower() for w in said
    ]:
        rest = food[len(said) :]
        if len(rest) == 1:
            one, many = both_forms(rest[0])
            noun = f"{one}|{many}"
            word = counted_word(number.ladder, number.value, number.upto, noun)
            return changed(number, noun=noun, text=f"{number.text} {word}")
    return None
