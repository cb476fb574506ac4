"""Two versions of a recipe side by side: amounts, ratios, nutrition of a portion, yields.

Both are worked out by the same larder, so what differs is the recipe and not the figures it rests on.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from sitegen.dish import Dish, LedgerRow
from sitegen.kitchen.words import duration_words
from sitegen.trials.changes import Change, changes, paired_lines

_FLOUR = re.compile(r"\bflours?\b", re.IGNORECASE)
LOSS = "lost in cooking"
_DUSTING = re.compile(r"\b(?:dusting|rolling|to dust|to serve|for the tin)\b", re.IGNORECASE)
FLOUR_COUNTS_FROM = 1 / 6
"""Share of the weight from which flour is what a formula is reckoned on: breads, cakes, biscuits. A
spoonful that thickens a stew is not. Our own line; that flour is 100 per cent is common practice."""


@dataclass(frozen=True, slots=True)
class Row:
    """One figure of both versions; ``a`` and ``b`` are exact, the texts are for reading."""

    what: str
    before: str
    after: str
    a: float | None
    b: float | None
    part: str = ""
    points: bool = False
    """The figures are per cents, so their difference is said in points."""

    @property
    def change(self) -> str:
        """The difference in per cent of the first; empty where one side is not known.

        >>> Row("butter", "80 g", "65 g", 80, 65).change
        '−19 %'
        >>> Row("water", "78 %", "74 %", 78.2, 74.5, points=True).change
        '−3.7 pts'
        """
        if not self.a or self.b is None:
            return ""
        if self.points:
            apart = round(self.b - self.a, 1)
            return f"{'+' if apart > 0 else '−'}{abs(apart):.1f} pts" if apart else ""
        share = round((self.b - self.a) / self.a * 100)
        if share == 0:
            return "" if self.a == self.b else "±0 %"
        return f"{'+' if share > 0 else '−'}{abs(share)} %"

    def as_json(self) -> dict[str, Any]:
        """For ``--format json``."""
        found: dict[str, Any] = {"what": self.what, "before": self.before, "after": self.after}
        found |= {"a": _rounded(self.a), "b": _rounded(self.b)}
        return {"part": self.part, **found} if self.part else found


@dataclass(frozen=True, slots=True)
class Side:
    """One of the two: what it is called, and its dish."""

    label: str
    dish: Dish


@dataclass(frozen=True, slots=True)
class Comparison:
    """Everything that is set side by side."""

    a: Side
    b: Side
    changes: tuple[Change, ...]
    amounts: tuple[Row, ...]
    base: str
    """What the ratios are per cent of."""
    ratios: tuple[Row, ...]
    nutrition: tuple[Row, ...]
    yields: tuple[Row, ...]

    def tables(self) -> list[tuple[str, tuple[Row, ...]]]:
        """The tables that have rows, in the order in which a cook asks, each with its heading."""
        every = [
            ("Amounts", self.amounts),
            (f"Per cent of {self.base}", self.ratios),
            ("A portion", self.nutrition),
            ("Yields", self.yields),
        ]
        return [(heading, rows) for heading, rows in every if rows]

    def as_json(self) -> dict[str, Any]:
        """For ``--format json``."""
        return {
            "a": self.a.label,
            "b": self.b.label,
            "changes": [
                {"kind": c.kind, "what": c.what, "before": c.before, "after": c.after}
                for c in self.changes
            ],
            "amounts": [row.as_json() for row in self.amounts],
            "ratios": {"per_cent_of": self.base, "rows": [row.as_json() for row in self.ratios]},
            "nutrition_per_serving": [row.as_json() for row in self.nutrition],
            "yields": [row.as_json() for row in self.yields],
        }


def compare(a: Side, b: Side) -> Comparison:
    """Set two versions of one recipe side by side."""
    pairs = [
        (a.dish.rows[i] if i is not None else None, b.dish.rows[j] if j is not None else None)
        for i, j in paired_lines(a.dish.recipe, b.dish.recipe)
    ]
    parts = {row.index: part.name for part in b.dish.ledger for row in part.rows}
    base, of_a, of_b = _base(a.dish, b.dish)
    return Comparison(
        a,
        b,
        changes(a.dish.recipe, b.dish.recipe),
        amounts=tuple(
            Row(
                _food(was, now),
                _amount(was),
                _amount(now),
                _grams(was),
                _grams(now),
                parts.get(now.index, "") if now else "",
            )
            for was, now in pairs
        ),
        base=base,
        ratios=tuple(_ratios(pairs, of_a, of_b)),
        nutrition=tuple(_nutrition(a.dish, b.dish)),
        yields=tuple(_yields(a.dish, b.dish)),
    )


def _food(was: LedgerRow | None, now: LedgerRow | None) -> str:
    row = now or was
    assert row is not None, "a pair has at least one side"
    return row.line.food


def _amount(row: LedgerRow | None) -> str:
    if row is None:
        return "–"
    measure = row.metric or row.us
    shown = [f.text for f in (row.lead, measure) if f]
    if not shown:
        return "to taste" if row.line.to_taste else "–"
    return shown[0] + (f" ({shown[1]})" if len(shown) > 1 else "")


def _grams(row: LedgerRow | None) -> float | None:
    return None if row is None or row.grams is None else float(row.grams)


def _base(a: Dish, b: Dish) -> tuple[str, Fraction | None, Fraction | None]:
    """What is 100 per cent in both: all flour, where a formula is reckoned on it; else the heaviest."""
    if any(_flour(d) >= _whole(d) * Fraction(FLOUR_COUNTS_FROM) > 0 for d in (a, b)):
        return "flour", _flour(a) or None, _flour(b) or None
    heaviest = max((r for r in a.rows if r.grams), key=lambda r: r.grams or 0, default=None)
    if heaviest is None:
        return "", None, None
    food = heaviest.line.food
    other = next((r.grams for r in b.rows if r.line.food.casefold() == food.casefold()), None)
    return food, heaviest.grams, other


def _flour(dish: Dish) -> Fraction:
    rows = (r for r in dish.rows if _FLOUR.search(r.line.food) and not r.optional)
    return sum((r.grams or Fraction(0) for r in rows if not _only_dusts(r)), Fraction(0))


def _only_dusts(row: LedgerRow) -> bool:
    said = [r for r in row.remarks if not r.startswith("plus extra")]
    return any(_DUSTING.search(r) for r in (*said, row.preparation))


def _whole(dish: Dish) -> Fraction:
    return sum((row.grams or Fraction(0) for row in dish.rows), Fraction(0))


def _ratios(
    pairs: list[tuple[LedgerRow | None, LedgerRow | None]],
    of_a: Fraction | None,
    of_b: Fraction | None,
) -> Iterator[Row]:
    for was, now in pairs:
        a, b = _share(was, of_a), _share(now, of_b)
        if a is not None or b is not None:
            yield Row(_food(was, now), _per_cent(a), _per_cent(b), a, b, points=True)


def _share(row: LedgerRow | None, of: Fraction | None) -> float | None:
    return None if row is None or row.grams is None or not of else float(row.grams / of * 100)


def _per_cent(share: float | None) -> str:
    if share is None:
        return "–"
    return f"{share:.1f} %" if share < 10 else f"{share:.0f} %"


def _nutrition(a: Dish, b: Dish) -> Iterator[Row]:
    others = {figure.key: figure for figure in b.label.per_serving}
    for figure in a.label.per_serving:
        other = others.get(figure.key)
        if other is not None and not (figure.value is None and other.value is None):
            yield Row(figure.label, figure.printed, other.printed, figure.value, other.value)


def _yields(a: Dish, b: Dish) -> Iterator[Row]:
    sides = [dict(_yield(dish)) for dish in (a, b)]
    for what in dict.fromkeys((*sides[0], *sides[1])):
        (before, x), (after, y) = (side.get(what, ("–", None)) for side in sides)
        yield Row(what, before, after, x, y, points=what == LOSS)


def _yield(dish: Dish) -> Iterator[tuple[str, tuple[str, float | None]]]:
    recipe, batch = dish.recipe, dish.label.batch_grams
    raw = float(_whole(dish))
    yield "serves", (str(recipe.serves), float(recipe.serves))
    if recipe.makes:
        yield "makes", (recipe.makes.text, float(recipe.makes.number))
    if raw:
        yield "goes in", (_weight(raw), raw)
    if batch is not None and recipe.weighs:
        yield "comes out, weighed", (_weight(batch), batch)
        if raw:
            loss = (1 - batch / raw) * 100
            yield LOSS, (f"{loss:.0f} %", loss)
    if batch is not None:
        yield "a portion", (_weight(batch / recipe.serves), batch / recipe.serves)
        if recipe.makes:
            each = batch / float(recipe.makes.number)
            yield "each piece", (_weight(each), each)
    if recipe.times.total:
        total = recipe.times.total
        yield "from start to table", (duration_words(total * 60), float(total))


def _weight(grams: float) -> str:
    return f"{grams / 1000:.2f} kg" if grams >= 1000 else f"{grams:.0f} g"


def _rounded(value: float | None) -> float | None:
    return None if value is None else round(value, 4)
