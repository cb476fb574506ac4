"""How large the type of a card may be, so that the recipe fits on one sheet of each paper.

A style sheet can't know how long a recipe is, so the card's length is reckoned here, in ems, from
the number of letters in each column, and the largest type that fits is named by a class. Printing
every card of the demo in a browser is the check.
"""

from __future__ import annotations

from bisect import bisect_left
from dataclasses import dataclass
from math import ceil, sqrt
from operator import neg

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
_SIZES = {name: tuple(size for size in SIZES if size >= least) for name, least in LEAST.items()}


@dataclass(frozen=True, slots=True)
class Letters:
    """How many letters stand where on a card; counted once for all papers and sizes."""

    title: int
    fields: int
    metric: int
    us: int
    rows: tuple[tuple[int, int], ...]
    """For each row: letters of the food, lines of its figures."""
    choices: tuple[int, ...]
    """Of what may stand in a row's place, each on a line of its own."""
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
    fits, sheets, covered = [], 1, 0.0
    for paper in PAPERS:
        size, sheets, covered = _largest(letters, paper, covered)
        fits.append(f"{paper.name}-{size}")
    return " ".join(fits), sheets


def _largest(letters: Letters, paper: Paper, covered: float) -> tuple[int, int, float]:
    """The largest type that fits, on how many sheets, and what a card in type of 1 pt covers in mm².

    The last is nearly the same on every paper, so that what was ``covered`` on another leads near
    to the size that fits; zero if nothing is known yet.
    """
    sizes = _SIZES[paper.name]
    for sheets in range(1, paper.sheets + 1):
        high = paper.height * ROOM * sheets
        if sheets < paper.sheets and _high(letters, paper, sizes[-1]) > high:
            continue  # seen at once, as it is often so
        if not covered:
            needed = _high(letters, paper, sizes[0])
            covered = _covered(paper, sizes[0], needed)
            if needed <= high:
                return sizes[0], sheets, covered
        guess = sqrt(high * paper.width / covered) * 10
        at = min(bisect_left(sizes, -guess, key=neg), len(sizes) - 1)
        needed = _high(letters, paper, sizes[at])
        while needed > high and at + 1 < len(sizes):
            at += 1
            needed = _high(letters, paper, sizes[at])
        if needed > high:
            continue
        while at and (more := _high(letters, paper, sizes[at - 1])) <= high:
            at -= 1
            needed = more
        return sizes[at], sheets, _covered(paper, sizes[at], needed)
    return LEAST[paper.name], paper.sheets, covered


def _covered(paper: Paper, size: int, high: float) -> float:
    return high * paper.width / (size / 10) ** 2


def _high(letters: Letters, paper: Paper, size: int) -> float:
    """How high the card is on a paper in type of a size, in mm."""
    em = size / 10 * 25.4 / 72
    return height(letters, paper.width / em) * em


def height(letters: Letters, width: float) -> float:
    """The card's height in ems of its own type, if it is ``width`` ems wide."""
    head = _lines(letters.title, width, 2.1 * 0.55) * 2.31 + 2.1
    head += _lines(letters.fields, width) * 1.5
    inner = width - 2
    return head + max(_ledger(letters, inner * 0.41), _method(letters, inner * 0.59)) + 3


def _ledger(letters: Letters, width: float) -> float:
    in_food = max(width - (letters.metric + letters.us) * LETTER * 0.95 - 1.4, 4) / LETTER
    lines = sum([max(ceil(words / in_food), least) for words, least in letters.rows])
    total = 1.6 + 2.2 * letters.parts + lines * 1.235 + len(letters.rows) * 0.44
    if letters.choices:
        total += sum([ceil(choice / in_food) for choice in letters.choices]) * 1.2
    return total + _lines(letters.allergens, width, LETTER * 0.9) * 1.26 + 0.7


def _method(letters: Letters, width: float) -> float:
    in_step, in_caution = (width - 1.9) / LETTER, width / (LETTER * 0.9)
    total = 2.2 * letters.headings + len(letters.steps) * 0.4 + len(letters.cautions) * 0.7
    total += sum([ceil(step / in_step) for step in letters.steps]) * 1.4
    return total + sum([ceil(words / in_caution) for words in letters.cautions]) * 1.26


def _lines(letters: float, width: float, letter: float = LETTER) -> int:
    return ceil(letters * letter / width)


def count(dish: Dish) -> Letters:
    """The letters of a dish's card."""
    a = dish.allergens
    metric = us = 0
    rows: list[tuple[int, int]] = []
    choices: list[int] = []
    for row in dish.rows:
        wide_m, lines_m = _figure(row.metric)
        wide_u, lines_u = _figure(row.us)
        metric, us = max(metric, wide_m), max(us, wide_u)
        rows.append((_food(row), max(lines_m, lines_u)))
        if row.alternatives or row.swap:
            others = (*row.alternatives, row.swap) if row.swap else row.alternatives
            choices += [_food(other) + 14 for other in others]
    said = (a.contains, a.author_may_contain, a.check_packet, a.unsure)
    return Letters(
        title=len(dish.recipe.title),
        fields=sum([len(f.label) + len(f.value) + len(f.detail) + 6 for f in dish.fields]),
        metric=metric,
        us=us,
        rows=tuple(rows),
        choices=tuple(choices),
        parts=sum([1 for part in dish.ledger if part.name]),
        allergens=sum([len(", ".join(words)) + 14 for words in said if words]),
        headings=sum([1 for part in dish.method if part.name]),
        steps=tuple([_step(step) for part in dish.method for step in part.steps]),
        cautions=tuple([len(caution.text) for caution in dish.cautions]),
    )


def _figure(figure: Figure | None) -> tuple[int, int]:
    """The letters of a figure's longest line, and its lines: it may break after a plus."""
    if figure is None:
        return 0, 1
    text = figure.text
    if "+" not in text and "+" not in figure.prefix and "+" not in figure.suffix:
        return 2 * figure.about + len(figure.prefix) + len(text) + len(figure.suffix), 1
    shown = f"{'≈ ' * figure.about}{figure.prefix}{text}{figure.suffix}"
    return max(map(len, shown.split("+ "))), text.count("+") + 1


def _food(row: LedgerRow) -> int:
    lead = row.lead.prefix + row.lead.text if row.lead else ""
    words = (lead, row.size, row.food, row.preparation, *row.remarks, row.line.note)
    amid = [_beside(piece) for _, pieces in row.amid for piece in pieces] if row.amid else ()
    return len(" ".join(words)) + sum(amid)


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
            letters += len(piece.words) + sum([len(f.text) + 3 for f in shown if f])
        else:
            letters += len(piece.text) + len(getattr(piece, "aside", "")) + 3
    return letters
