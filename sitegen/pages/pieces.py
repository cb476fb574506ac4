"""The words of a step and the rows of the ledger, with the values in them, as HTML.

Done here and not in a template, since it is the most of what a recipe's page does. A row, and a step
that links to nothing, read the same on a recipe and on its card; they are written once for both.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping
from typing import TYPE_CHECKING

from markupsafe import Markup

from sitegen.dish import (
    AmidAmount,
    AmountPiece,
    Field,
    Figure,
    LedgerPart,
    LedgerRow,
    LengthPiece,
    MethodPartView,
    StepView,
    TemperaturePiece,
    TimePiece,
)
from sitegen.pages.compiling import written
from sitegen.pages.figures import draw_figure, draw_word, held, tight
from sitegen.pages.recent import Recent

if TYPE_CHECKING:
    from sitegen.pages.film import FilmStep, FilmView
    from sitegen.pages.view import RecipeView

BETWEEN = '<span class="between">&nbsp;· </span>'
"""Between the figures of the two systems, of which a reader may see one."""

APPOSED = ('<span class="between"> (</span>', '<span class="between">)</span>')
"""The same, where they stand before the food: ``30 ml (2 tbsp) olive oil``."""

Linked = Callable[[str], str]
Value = AmountPiece | TimePiece | TemperaturePiece | LengthPiece


def steps(part: MethodPartView, us_first: bool, linked: Linked, film: FilmView | None) -> Markup:
    """The steps of a part of the method, each with what stands in its margin."""
    drawn = []
    for step in part.steps:
        n = step.number
        mark = f' data-name="{written(step.mark)}"' if step.mark else ""
        begun, ended = "<p>", "</p>"
        if in_blocks(step.pieces):
            begun, ended = '<div class="prose">', "</div>"
        drawn.append(
            f'<li class="step" id="step-{n}" value="{n}"{mark}>\n'
            '<div class="margin">\n<div class="mark">\n'
            f'<a class="no" href="#step-{n}" aria-label="Step {n}">{n}</a>\n'
            f'<label class="done"><input type="checkbox" id="done-{n}">'
            f'<span class="vh">Step {n} is done</span></label>\n</div>\n'
            f"{_notes(step, film.steps.get(n) if film else None)}</div>\n"
            f'<div class="text">{begun}{words(step, us_first, linked)}{ended}</div>\n</li>\n'
        )
    return Markup("".join(drawn))


def _notes(step: StepView, shown: FilmStep | None) -> str:
    """What the eye looks for beside a step; ``shown`` is where the film has it."""
    drawn = []
    for note in step.margin:
        first, *others = note.lines
        drawn.append(f'<li class="note-{note.kind} first">{written(first)}</li>\n')
        drawn += [f'<li class="note-{note.kind}">{written(line)}</li>\n' for line in others]
    if shown:
        drawn.append(
            f'<li class="note-film first"><a href="{written(shown.href)}" data-at="{shown.second}">'
            f'<span class="vh">Step {step.number} in the </span>film, {written(shown.clock)}</a></li>\n'
        )
    return f'<ul class="notes">\n{"".join(drawn)}</ul>\n' if drawn else ""


_BLOCK = re.compile(r"<(?:p|ul|ol|dl|pre|blockquote|table|figure|h[1-6]|hr)[\s>]")


def in_blocks(pieces: Iterable[object]) -> bool:
    """Whether a step is more than one run of text, so that it can't stand in a paragraph."""
    return any(isinstance(p, str) and "<" in p and _BLOCK.search(p) for p in pieces)


def words(step: StepView, us_first: bool, linked: Linked) -> Markup:
    """A step; ``linked`` puts the links and pictures in the author's own HTML right."""
    for piece in step.pieces:
        if isinstance(piece, str) and ("<a " in piece or "<img " in piece):
            return _words(step, us_first, linked)
    return _unlinked(step, us_first)


def _words(step: StepView, us_first: bool, linked: Linked) -> Markup:
    shown = [linked(p) if isinstance(p, str) else _value(p, us_first) for p in step.pieces]
    return Markup("".join(shown))


_unlinked = Recent(lambda step, us_first: _words(step, us_first, held), most=512)


def _value(piece: Value, us_first: bool) -> str:
    if isinstance(piece, AmountPiece):
        return _amount(piece, us_first)
    text = written(tight(piece.text))
    if isinstance(piece, TimePiece):
        upto = f' data-upto="{piece.upto}"' if piece.upto else ""
        return f'<span class="time" data-seconds="{piece.seconds}"{upto}>{text}</span>'
    return (
        f'{text} <span class="aside">({written(tight(piece.aside))})</span>'
        if piece.aside
        else text
    )


def _amount(piece: AmountPiece, us_first: bool) -> str:
    """The words of an ingredient with its amount before or after them, see :mod:`kitchen.method`."""
    food = f"{written(piece.rest)}{draw_word(piece.word) if piece.word else ''}"
    opening, about = written(piece.opening), "about " if piece.about else ""
    if piece.before and piece.lead is None:
        pair = _pair(piece.metric, piece.us, us_first, APPOSED)
        return f'{opening}<span class="amount">{about}{pair}</span> {food}'
    after = _pair(piece.metric, piece.us, us_first)
    if piece.lead:
        lead = draw_figure(piece.lead)
        if piece.before:
            food = f'<span class="amount">{lead}</span>{food}'
        elif piece.lead.around:
            food += f'<span class="amount">{lead}</span>'
        else:
            after = lead
    if not after:
        return f"{opening}{food}"
    opened, closed = piece.marks
    return f'{opening}{food} {opened}<span class="amount">{about}{after}</span>{closed}'


def _pair(
    metric: Figure | None, us: Figure | None, us_first: bool, joint: tuple[str, str] = (BETWEEN, "")
) -> str:
    if metric and us:
        first, second = draw_figure(metric, "sys-m"), draw_figure(us, "sys-u")
        if us_first:
            first, second = second, first
        return f"{first}{joint[0]}{second}{joint[1]}"
    one = metric or us
    return draw_figure(one) if one else ""


def measures(row: LedgerRow, us_first: bool) -> Markup:
    """The two cells of a row's figures."""
    metric = _cell("sys-m", "metric", row.metric, row.us, row.missing)
    us = _cell("sys-u", "US", row.us, row.metric, row.missing)
    return Markup(f"{us}\n{metric}" if us_first else f"{metric}\n{us}")


def _cell(sort: str, name: str, mine: Figure | None, other: Figure | None, missing: str) -> str:
    if mine:
        lone = "" if other else " lone"
        return f'<td class="{sort} num{lone}">{draw_figure(mine)}</td>'
    void = " void" if other else ""
    none = ""
    if other or missing:
        none = (
            '<span class="none" aria-hidden="true">–</span>'
            f'<span class="vh">no {name} figure</span>'
        )
    return f'<td class="{sort} num{void}">{none}</td>'


def food(row: LedgerRow, us_first: bool) -> Markup:
    """What a row is of: a count, a size, the food, how it is prepared."""
    words: list[str] = [draw_figure(row.lead)] if row.lead else []
    words += [written(word) for word in (row.size, row.food) if word]
    shown = " ".join(words)
    for more in _after(row):
        shown += f'<span class="prep">, {_said(row, more, us_first)}</span>'
    return Markup(shown)


def _said(row: LedgerRow, text: str, us_first: bool) -> str:
    """Words of the author's on a row, with the amounts amid them as live figures."""
    if not row.amid:
        return written(text)
    return "".join(
        written(piece) if isinstance(piece, str) else _amid(piece, us_first)
        for piece in row.pieces_of(text)
    )


def _amid(amount: AmidAmount, us_first: bool) -> str:
    if amount.lead:
        return f"{draw_figure(amount.lead)} ({_pair(amount.metric, amount.us, us_first)})"
    return _pair(amount.metric, amount.us, us_first, APPOSED)


def _after(row: LedgerRow) -> tuple[str, ...]:
    return (row.preparation, *row.remarks) if row.preparation else row.remarks


def choices(row: LedgerRow, us_first: bool) -> Markup:
    """What may stand in a row's place, and the author's word on it."""
    others = (*row.alternatives, row.swap) if row.swap else row.alternatives
    said = [f'<span class="choice">{_choice(other, us_first)}</span>' for other in others]
    if row.line.note:
        said.append(f'<span class="choice">{_said(row, row.line.note, us_first)}</span>')
    return Markup("".join(said))


def _choice(row: LedgerRow, us_first: bool) -> str:
    amount = f"{_pair(row.metric, row.us, us_first)} " if row.metric or row.us else ""
    return f"or {amount}{food(row, us_first)}"


_Cells = tuple[str, str, str]


def _row(row: LedgerRow, us_first: bool) -> _Cells:
    more = choices(row, us_first) if row.alternatives or row.swap or row.line.note else ""
    return measures(row, us_first), food(row, us_first), more


_cells = Recent(_row, most=512)


def rows(part: LedgerPart, us_first: bool, ticks: bool, links: Mapping[str, str]) -> Markup:
    """The rows of a part of the ledger, which can be ticked off or not; ``links`` to other recipes."""
    written_rows = []
    for row in part.rows:
        figures, what, more = _cells(row, us_first)
        cautions = f' data-cautions="{written(" ".join(row.cautions))}"' if row.cautions else ""
        made = ""
        if row.reference and row.reference in links:
            made = f' <a class="made" href="{written(links[row.reference])}">recipe</a>'
        if ticks:
            start = (
                f'<tr data-name="{written(row.line.food)}"{cautions}>\n'
                f'<td class="tick"><input type="checkbox" id="tick-{row.index}"></td>\n'
            )
            what = f'<label for="tick-{row.index}">{what}</label>'
        else:
            start = f"<tr{cautions}>\n"
        written_rows.append(
            f'{start}{figures}\n<th scope="row" class="food">{what}{made}{more}</th>\n</tr>\n'
        )
    return Markup("".join(written_rows))


def facts(view: RecipeView) -> Markup:
    """The rows of the nutrition table."""
    drawn = []
    for row in view.nutrients:
        indent = ' class="indent"' if row.indent else ""
        daily = f'<td class="num">{written(row.daily)}</td>' if view.has_daily else ""
        hundred = f'<td class="num">{written(tight(row.hundred))}</td>' if view.has_100g else ""
        drawn.append(
            f'<tr{indent}>\n<th scope="row">{written(row.label)}</th>\n'
            f'<td class="num">{written(tight(row.serving))}</td>\n{daily}{hundred}</tr>\n'
        )
    return Markup("".join(drawn))


def listed(names: Iterable[str]) -> Markup:
    """Names with commas between them."""
    return Markup(", ".join(map(written, names)))


def detail(field: Field) -> Markup:
    """What stands after a field's value."""
    figure = field.detail_figure
    return draw_figure(figure) if figure else Markup(written(tight(field.detail)))
