"""Rows, times and HTML as plain words."""

from __future__ import annotations

import html
import re
from collections.abc import Iterable
from fractions import Fraction

from sitegen.dish import AmountPiece, DishPiece, Figure, LedgerRow, LengthPiece, TemperaturePiece
from sitegen.kitchen.amid import amid_words
from sitegen.kitchen.tables import mixed

_TAG = re.compile(r"<[^>]+>")


def strip_tags(text: str) -> str:
    """HTML that this program rendered, as plain text."""
    if "<" in text:
        text = _TAG.sub("", text)
    return html.unescape(text) if "&" in text else text


def duration_words(seconds: int, upto: int | None = None) -> str:
    """A time in short words: ``1 h 10 min``, ``12–15 min``.

    >>> duration_words(4200), duration_words(720, 900), duration_words(3600, 5400)
    ('1 h 10 min', '12–15 min', '1–1 h 30 min')
    >>> duration_words(36 * 3600), duration_words(52 * 3600), duration_words(2 * 86400, 3 * 86400)
    ('36 h', '2 days 4 h', '2–3 days')
    >>> duration_words(49 * 3600 + 1800)
    '2 days 1 h 30 min'
    """
    if upto is None:
        return _one(seconds)
    first, last = _one(seconds), _one(upto)
    for unit in (" min", " h", " s", " days"):
        if first.endswith(unit) and last.endswith(unit) and first.count(" ") == 1:
            return f"{first.removesuffix(unit)}–{last}"
    if " min" not in first:
        return f"{first.removesuffix(' h')}–{last}" if first.endswith(" h") else f"{first}–{last}"
    return f"{first} to {last}"


_IN_DAYS = 48
"""Hours from which a time is told in days: nobody reckons a ferment as 504 h."""


def _one(seconds: int) -> str:
    if seconds < 60:
        return f"{seconds} s"
    if seconds % 60 == 30 and seconds < 600:
        return f"{mixed(Fraction(seconds, 60))} min"
    hours, rest = divmod(round(seconds / 60), 60)
    if not hours:
        return f"{rest} min"
    if hours >= _IN_DAYS:
        days, hours = divmod(hours, 24)
        parts = ((days, "days"), (hours, "h"), (rest, "min"))
        return " ".join([f"{number} {unit}" for number, unit in parts if number])
    return f"{hours} h {rest} min" if rest else f"{hours} h"


def row_words(row: LedgerRow, units: str) -> str:
    """One ingredient as one readable string with both systems.

    ``150 g (1¼ cups) plain flour``; ``3 leeks (450 g, 1 lb), finely sliced``.
    """
    first, second = (row.metric, row.us) if units == "metric" else (row.us, row.metric)
    figures = [f"{f.prefix}{'about ' if f.about else ''}{f.text}" for f in (first, second) if f]
    lead = ""
    if row.lead:
        lead = f"{'about ' if row.lead.about else ''}{row.lead.prefix}{row.lead.text}"
    size = f"{row.size} " if row.size and row.size not in (lead or "") else ""
    name = f"{size}{row.food}".strip()
    if lead:
        head = f"{lead} {name}".strip()
        head += f" ({', '.join(figures)})" if figures else ""
    elif figures:
        rest = f" ({figures[1]})" if len(figures) > 1 else ""
        head = f"{figures[0]}{rest} {name}"
    else:
        head = name
    said = [t for t in (row.preparation, *row.remarks) if t]
    if row.amid:
        said = [amid_words(row.pieces_of(text), units) for text in said]
    text = ", ".join([head, *said])
    for other in row.alternatives:
        text += f", or {row_words(other, units)}"
    return text


_WITH_ASIDE = (TemperaturePiece, LengthPiece)


def step_words(pieces: Iterable[DishPiece], units: str) -> str:
    """A step in plain words, amounts in brackets: for machines, feeds and the terminal."""
    words: list[str] = []
    for piece in pieces:
        if isinstance(piece, str):
            words.append(strip_tags(piece) if "<" in piece or "&" in piece else piece)
        elif isinstance(piece, AmountPiece):
            words.append(_amount_words(piece, units))
        elif isinstance(piece, _WITH_ASIDE):
            words.append(f"{piece.text} ({piece.aside})" if piece.aside else piece.text)
        else:
            words.append(piece.text)
    return " ".join("".join(words).split())


def _amount_words(piece: AmountPiece, units: str) -> str:
    """``the 3 eggs``, ``flour (250 g, 2 cups)``, ``2 tbsp (30 ml) olive oil``."""
    first, second = (piece.metric, piece.us) if units == "metric" else (piece.us, piece.metric)
    figures = [f"{f.prefix}{f.text}" for f in (first, second) if f]
    if piece.about:
        figures[0] = f"about {figures[0]}"
    lead = _lead_words(piece.lead) if piece.lead else ""
    food = piece.rest + (piece.word.text if piece.word else "")
    if piece.before and piece.lead is None:
        both = f"{figures[0]} ({figures[1]})" if len(figures) > 1 else "".join(figures)
        return f"{piece.opening}{both} {food}"
    after = ", ".join(figures)
    if piece.before:
        food = lead + food
    elif lead and piece.lead and piece.lead.around:
        food += lead
    elif lead:
        after = lead
    opened, closed = piece.marks
    return f"{piece.opening}{food} {opened}{after}{closed}" if after else f"{piece.opening}{food}"


def _lead_words(lead: Figure) -> str:
    text = lead.text
    if not lead.said_as_one:
        text = f"{'about ' if lead.about else ''}{lead.prefix}{text}"
    return (
        lead.around.replace("…", text).replace("\N{NO-BREAK SPACE}", " ")
        if text and lead.around
        else text
    )
