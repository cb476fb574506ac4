"""How large the type of a card may be, so that the recipe fits on one sheet of each paper.

A style sheet can't know how long a recipe is, so the card's length is reckoned here, in ems, from
the number of letters in each column, and the largest type that fits is named by a class. Printing
every card of the demo in a browser is the check.
"""

from __future__ import annotations

from bisect import bisect_left
from dataclasses import dataclass
from math import ceil

from sitegen.dish import AmidAmount, AmountPiece, Dish, Figure, LedgerRow, StepView

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


@dataclass(frozen=True, slots=True)
class Letters:
    """How many letters stand where on a card; counted once for all papers and sizes."""

    title: int
    fields: int
    metric: int
    us: int
    rows: tuple[tuple[int, int, tuple[int, ...]], ...]
    """For each row: letters of the food, lines of its figures, letters of each choice."""
    parts: int
    allergens: int
    headings: int
    steps: tuple[int, ...]
    cautions: tuple[int, ...]


def card_fit(dish: Dish) -> tuple[str, int]:
    """One class for each paper, and how many sides of a 6 × 4 in index card the recipe takes.

    As in ``("big-95 mid-70 small-55", 2)``.
    """
    letters = count(dish)
    fits = [(paper.name, *_largest(letters, paper)) for paper in PAPERS]
    return " ".join(f"{name}-{size}" for name, size, _ in fits), fits[-1][2]


def _largest(letters: Letters, paper: Paper) -> tuple[int, int]:
    """The largest type that fits, and on how many sheets."""
    sizes = [size for size in SIZES if size >= LEAST[paper.name]]
    for sheets in range(1, paper.sheets + 1):
        high = paper.height * ROOM * sheets

        def overflows(size: int, high: float = high) -> bool:
            em = size / 10 * 25.4 / 72
            return height(letters, paper.width / em) * em > high

        if sheets < paper.sheets and overflows(sizes[-1]):
            continue  # seen at once, as it is often so
        if paper.sheets == 1 and not overflows(sizes[0]):
            return sizes[0], 1
        at = bisect_left(sizes, True, key=lambda size: not overflows(size))
        if at < len(sizes):
            return sizes[at], sheets
    return LEAST[paper.name], paper.sheets


def height(letters: Letters, width: float) -> float:
    """The card's height in ems of its own type, if it is ``width`` ems wide."""
    head = _lines(letters.title, width, 2.1 * 0.55) * 2.31 + 2.1
    head += _lines(letters.fields, width) * 1.5
    inner = width - 2
    return head + max(_ledger(letters, inner * 0.41), _method(letters, inner * 0.59)) + 3


def _ledger(letters: Letters, width: float) -> float:
    food = max(width - (letters.metric + letters.us) * LETTER * 0.95 - 1.4, 4)
    total = 1.6 + 2.2 * letters.parts
    for words, lines, choices in letters.rows:
        total += max(ceil(words * LETTER / food), lines) * 1.235 + 0.44
        if choices:
            total += sum([ceil(choice * LETTER / food) * 1.2 for choice in choices])
    return total + _lines(letters.allergens, width, LETTER * 0.9) * 1.26 + 0.7


def _method(letters: Letters, width: float) -> float:
    total = 2.2 * letters.headings
    text = width - 1.9
    total += sum([ceil(step * LETTER / text) * 1.4 + 0.4 for step in letters.steps])
    small = LETTER * 0.9
    return total + sum(_lines(words, width, small) * 1.26 + 0.7 for words in letters.cautions)


def _lines(letters: float, width: float, letter: float = LETTER) -> int:
    return ceil(letters * letter / width)


def count(dish: Dish) -> Letters:
    """The letters of a dish's card."""
    a, rows = dish.allergens, dish.rows
    said = (a.contains, a.author_may_contain, a.check_packet, a.unsure)
    return Letters(
        title=len(dish.recipe.title),
        fields=sum(len(f.label) + len(f.value) + len(f.detail) + 6 for f in dish.fields),
        metric=max((_wide(row.metric) for row in rows), default=0),
        us=max((_wide(row.us) for row in rows), default=0),
        rows=tuple(
            [(_food(r), max(_lined(r.metric), _lined(r.us)), _choices(r)) for r in rows],
        ),
        parts=sum(1 for part in dish.ledger if part.name),
        allergens=sum(len(", ".join(words)) + 14 for words in said if words),
        headings=sum(1 for part in dish.method if part.name),
        steps=tuple(_step(step) for part in dish.method for step in part.steps),
        cautions=tuple(len(caution.text) for caution in dish.cautions),
    )


def _wide(figure: Figure | None) -> int:
    """The letters of a figure's longest line: it may break after a plus."""
    if figure is None:
        return 0
    shown = f"{'≈ ' * figure.about}{figure.prefix}{figure.text}{figure.suffix}"
    return max(map(len, shown.split("+ "))) if "+ " in shown else len(shown)


def _lined(figure: Figure | None) -> int:
    return figure.text.count("+") + 1 if figure else 1


def _choices(row: LedgerRow) -> tuple[int, ...]:
    others = (*row.alternatives, row.swap) if row.swap else row.alternatives
    return tuple([_food(other) + 14 for other in others]) if others else ()


def _food(row: LedgerRow) -> int:
    lead = row.lead.prefix + row.lead.text if row.lead else ""
    words = (lead, row.size, row.food, row.preparation, *row.remarks, row.line.note)
    return len(" ".join(words)) + sum([_beside(p) for _, pieces in row.amid for p in pieces])


def _beside(piece: str | AmidAmount) -> int:
    """The letters of the figures that stand beside an amount amid other words."""
    if isinstance(piece, str):
        return 0
    return sum(len(f.text) + 3 for f in (piece.metric, piece.us) if f and f.worked_out)


def _step(step: StepView) -> int:
    letters = 0
    for piece in step.pieces:
        if isinstance(piece, str):
            letters += len(piece)
        elif isinstance(piece, AmountPiece):
            shown = (piece.lead, piece.metric, piece.us)
            letters += len(piece.words) + sum(len(f.text) + 3 for f in shown if f)
        else:
            letters += len(piece.text) + len(getattr(piece, "aside", "")) + 3
    return letters
