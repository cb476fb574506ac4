"""How large the type of a card may be, so that the recipe fits on one sheet of each paper.

A style sheet can't know how long a recipe is, so the card's length is reckoned here, in ems, from
the number of letters in each column, and the largest type that fits is named by a class. Printing
every card of the demo in a browser is the check.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import ceil

from sitegen.dish import AmountPiece, Dish, Figure, LedgerRow, StepView

SIZES = (105, 100, 95, 90, 85, 80, 75, 70, 65, 60, 55, 50)
"""Type sizes in tenths of a point, as the classes of ``card.css`` have them."""

LETTER = 0.57
"""The width of an average letter of a wide sans face, in ems; narrower faces leave room over."""

ROOM = 0.93
"""The share of the sheet that may be filled, which leaves room for what the estimate misses."""


@dataclass(frozen=True, slots=True)
class Paper:
    """The print area of a paper, in mm, within the margins that ``card.css`` sets."""

    name: str
    width: float
    height: float
    sheets: int = 1
    """More where the smallest type is not enough: an index card has a back."""


PAPERS = (
    Paper("big", 188, 257),  # the narrower of A4 and the shorter of US Letter, margins 11 mm
    Paper("mid", 132, 194),  # A5, margins 8 mm
    Paper("small", 142.4, 91.6, 2),  # 6 × 4 in index card, margins 5 mm
)
LEAST = {"big": 60, "mid": 55, "small": 55}
"""Smaller type than this is not read at arm's length; then a second sheet is the lesser evil."""


def card_sizes(dish: Dish) -> Iterator[str]:
    """One class for each paper: ``big-95 mid-70 small-55``."""
    for paper in PAPERS:
        yield f"{paper.name}-{_largest(dish, paper)}"


def _largest(dish: Dish, paper: Paper) -> int:
    for sheets in range(1, paper.sheets + 1):
        for size in SIZES:
            em = size / 10 * 25.4 / 72
            high = paper.height * ROOM * sheets
            if size >= LEAST[paper.name] and height(dish, paper.width / em) * em <= high:
                return size
    return LEAST[paper.name]


def height(dish: Dish, width: float) -> float:
    """The card's height in ems of its own type, if it is ``width`` ems wide."""
    recipe = dish.recipe
    fields = sum(len(f"{f.label} {f.value} {f.detail}") + 4 for f in dish.fields)
    head = _lines(len(recipe.title), width, 2.1 * 0.55) * 2.31 + _lines(fields, width) * 1.5 + 2.1
    inner = width - 2
    body = max(_ledger(dish, inner * 0.41), _method(dish, inner * 0.59))
    return head + body + 3


def _ledger(dish: Dish, width: float) -> float:
    rows = dish.rows
    metric = max((_wide(row.metric) for row in rows), default=0)
    us = max((_wide(row.us) for row in rows), default=0)
    food = max(width - (metric + us) * LETTER * 0.95 - 1.4, 4)
    total = 1.6 + sum(2.2 for part in dish.ledger if part.name)
    for row in rows:
        figures = max(f.text.count("+") + 1 if f else 1 for f in (row.metric, row.us))
        high = max(_lines(len(_food(row)), food), figures) * 1.235
        for other in (*row.alternatives, *((row.swap,) if row.swap else ())):
            high += _lines(len(_food(other)) + 14, food) * 1.2
        total += high + 0.44
    a = dish.allergens
    said = (a.contains, a.author_may_contain, a.check_packet, a.unsure)
    letters = sum(len(", ".join(words)) + 14 for words in said if words)
    return total + _lines(letters, width, LETTER * 0.9) * 1.26 + 0.7


def _method(dish: Dish, width: float) -> float:
    total = 0.0
    for part in dish.method:
        total += 2.2 if part.name else 0
        total += sum(_lines(_letters(step), width - 1.9) * 1.4 + 0.4 for step in part.steps)
    return total + sum(
        _lines(len(caution.text), width, LETTER * 0.9) * 1.26 + 0.7 for caution in dish.cautions
    )


def _lines(letters: float, width: float, letter: float = LETTER) -> int:
    return ceil(letters * letter / width) if letters else 0


def _wide(figure: Figure | None) -> int:
    """The letters of a figure's longest line: it may break after a plus."""
    if figure is None:
        return 0
    lines = f"{'≈ ' * figure.about}{figure.prefix}{figure.text}{figure.suffix}".split("+ ")
    return max(map(len, lines))


def _food(row: LedgerRow) -> str:
    lead = row.lead.prefix + row.lead.text if row.lead else ""
    return " ".join((lead, row.size, row.food, row.preparation, *row.remarks, row.line.note))


def _letters(step: StepView) -> int:
    count = 0
    for piece in step.pieces:
        if isinstance(piece, str):
            count += len(piece)
        elif isinstance(piece, AmountPiece):
            shown = (piece.lead,) if piece.lead else (piece.metric, piece.us)
            count += len(piece.words) + sum(len(f.text) + 3 for f in shown if f)
        else:
            count += len(piece.text) + len(getattr(piece, "aside", "")) + 3
    return count
