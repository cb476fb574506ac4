"""What was changed between two versions of a recipe: amounts, times, temperatures, method.

Worked out from the two texts as they were read, so that it is neither forgotten nor misremembered.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from difflib import SequenceMatcher
from typing import Literal, TypeVar

from sitegen.kitchen.words import duration_words, strip_tags
from sitegen.reading.recipe import (
    IngredientLine,
    Length,
    Mention,
    Recipe,
    Step,
    Temperature,
    TimeSpan,
)

Kind = Literal["amount", "ingredient", "yield", "time", "temperature", "tool", "method"]


@dataclass(frozen=True, slots=True)
class Change:
    """One difference: ``butter``, from ``80 g`` to ``65 g``. An empty side: it was not there."""

    kind: Kind
    what: str
    before: str
    after: str

    def words(self) -> str:
        """In one line.

        >>> Change("amount", "butter", "80 g", "65 g").words()
        'butter: 80 g → 65 g'
        """
        if not self.before:
            return f"{self.what}: new: {self.after}" if self.after else f"{self.what}: new"
        if not self.after:
            return f"{self.what}: gone" + (f" (was {self.before})" if self.before else "")
        if self.kind == "method":
            before, after = _where_they_differ(self.before, self.after)
            return f"{self.what}: “{before}” → “{after}”"
        return f"{self.what}: {self.before} → {self.after}"


def _where_they_differ(before: str, after: str, around: int = 2) -> tuple[str, str]:
    """The words that two texts do not share, with a few of those around them.

    >>> _where_they_differ("Bake until the top is brown.", "Bake until the top is golden.")
    ('… top is brown.', '… top is golden.')
    """
    a, b = before.split(), after.split()
    start = 0
    while start < min(len(a), len(b)) and a[start] == b[start]:
        start += 1
    end = 0
    while end < min(len(a), len(b)) - start and a[-1 - end] == b[-1 - end]:
        end += 1
    start, end = max(0, start - around), max(0, end - around)

    def cut(words: list[str]) -> str:
        kept = words[start : len(words) - end]
        return " ".join([*(["…"] if start else []), *kept, *(["…"] if end else [])])

    return cut(a), cut(b)


def changes(before: Recipe, after: Recipe) -> tuple[Change, ...]:
    """Every difference that a cook would taste or see, in the order of the recipe."""
    return (
        *_yields(before, after),
        *_ingredients(before, after),
        *_steps(before.steps, after.steps),
    )


def paired_lines(before: Recipe, after: Recipe) -> list[tuple[int | None, int | None]]:
    """The ingredient lines of both that are the same thing, by number; None where one has no such.

    In the order of ``after``, each line that is gone behind the one it stood behind.
    """
    old, new = _named(before), _named(after)
    pairs: dict[int, int] = {}  # new → old
    for same in (_very_same, _same_food, _same_place):
        for j, name in enumerate(new):
            if j not in pairs:
                left = (
                    i for i in range(len(old)) if i not in pairs.values() and same(old[i], name)
                )
                i = next(left, None)
                if i is not None:
                    pairs[j] = i
    found: list[tuple[int | None, int | None]] = [(pairs.get(j), j) for j in range(len(new))]
    for i in range(len(old)):
        if i not in pairs.values():
            behind = [at for at, (o, _) in enumerate(found) if o is not None and o < i]
            found.insert(max(behind) + 1 if behind else 0, (i, None))
    return found


def _named(recipe: Recipe) -> list[_Name]:
    """Part and food of every line, as they are compared."""
    return [(p.name.casefold(), line.food.casefold()) for p in recipe.parts for line in p.lines]


_Name = tuple[str, str]
"""A line's part and food."""


def _very_same(a: _Name, b: _Name) -> bool:
    return a == b


def _same_food(a: _Name, b: _Name) -> bool:
    return a[1] == b[1]


def _same_place(a: _Name, b: _Name) -> bool:
    """A food of nearly that name in the same part: ``bread flour``, once ``plain flour``."""
    return a[0] == b[0] and _like(a[1], b[1]) >= 0.6


def _like(a: str, b: str) -> float:
    return SequenceMatcher(None, a, b, autojunk=False).ratio()


def _yields(before: Recipe, after: Recipe) -> Iterator[Change]:
    sides = list(zip(_head(before), _head(after), strict=True))
    for (kind, what, old), (_, _, new) in sides:
        if old != new:
            yield Change(kind, what, old, new)
    gone, come = _apart(before.tools, after.tools)
    for tool in gone:
        yield Change("tool", tool, "in use", "")
    for tool in come:
        yield Change("tool", tool, "", "in use")


def _head(recipe: Recipe) -> Iterator[tuple[Kind, str, str]]:
    def minutes(value: int | None) -> str:
        return duration_words(value * 60) if value else ""

    def amount(value: object) -> str:
        number, unit = getattr(value, "value", None), getattr(value, "unit", "")
        return "" if number is None else f"{float(number):g} {unit}"

    yield "yield", "serves", str(recipe.serves)
    yield "yield", "makes", recipe.makes.text if recipe.makes else ""
    yield "yield", "weighs", amount(recipe.weighs)
    yield "yield", "volume", amount(recipe.volume)
    yield "time", "prep", minutes(recipe.times.prep)
    yield "time", "cook", minutes(recipe.times.cook)
    yield "time", "rest", minutes(recipe.times.rest)


T = TypeVar("T")


def _apart(old: Sequence[T], new: Sequence[T]) -> tuple[list[T], list[T]]:
    return [x for x in old if x not in new], [x for x in new if x not in old]


def _ingredients(before: Recipe, after: Recipe) -> Iterator[Change]:
    old, new = before.lines, after.lines
    for i, j in paired_lines(before, after):
        if i is None and j is not None:
            yield Change("ingredient", new[j].food, "", new[j].text)
        elif j is None and i is not None:
            yield Change("ingredient", old[i].food, old[i].text, "")
        elif i is not None and j is not None:
            yield from _line(old[i], new[j])


def _line(old: IngredientLine, new: IngredientLine) -> Iterator[Change]:
    was, now = amount_words(old), amount_words(new)
    if was != now:
        yield Change("amount", new.food, was or "no amount", now or "no amount")
    if (rest := _rest(old)) != _rest(new):
        yield Change("ingredient", new.food, rest, _rest(new))
    if old.eaten != new.eaten:
        yield Change(
            "amount", f"{new.food}, eaten", f"{float(old.eaten):.0%}", f"{float(new.eaten):.0%}"
        )


def amount_words(line: IngredientLine) -> str:
    """An ingredient's amount with its other measures, as written: ``3 (450 g)``."""
    if line.amount is None:
        return ""
    about = "about " if line.amount.about else ""
    others = f" ({', '.join(m.text for m in line.measures)})" if line.measures else ""
    return f"{about}{line.amount.text}{others}"


def _rest(line: IngredientLine) -> str:
    """All that a line says but its amounts."""
    swap = f"or {line.swap.text}" if line.swap else ""
    others = [f"or {other.text}" for other in line.alternatives]
    return ", ".join(filter(None, [line.food, line.preparation, *line.remarks, *others, swap]))


def _steps(old: Sequence[Step], new: Sequence[Step]) -> Iterator[Change]:
    matcher = SequenceMatcher(None, [s.text for s in old], [s.text for s in new], autojunk=False)
    for what, i, i_end, j, j_end in matcher.get_opcodes():
        if what == "equal":
            continue
        for was, now in _alike(old[i:i_end], new[j:j_end]):
            if was is None and now is not None:
                yield Change("method", f"step {now.number}", "", now.text)
            elif now is None and was is not None:
                yield Change("method", f"step {was.number}", was.text, "")
            elif was is not None and now is not None:
                yield from _step(was, now)


def _alike(old: Sequence[Step], new: Sequence[Step]) -> Iterator[tuple[Step | None, Step | None]]:
    """Steps of one stretch that was changed, in pairs that read alike, in order."""
    left = list(old)
    for now in new:
        near = next((s for s in left if _like(_bare(s), _bare(now)) >= 0.5), None)
        if near is None:
            yield None, now
            continue
        for gone in left[: left.index(near)]:
            yield gone, None
        left = left[left.index(near) + 1 :]
        yield near, now
    for gone in left:
        yield gone, None


def _step(old: Step, new: Step) -> Iterator[Change]:
    what = f"step {new.number}"
    kinds: tuple[tuple[Kind, list[str], list[str]], ...] = (
        ("time", _times(old), _times(new)),
        ("temperature", _heats(old), _heats(new)),
    )
    for kind, was, now in kinds:
        if len(was) == len(now):
            yield from (Change(kind, what, a, b) for a, b in zip(was, now, strict=True) if a != b)
        else:
            yield Change(kind, what, ", ".join(was), ", ".join(now))
    if _bare(old) != _bare(new):
        yield Change("method", what, old.text, new.text)


def _times(step: Step) -> list[str]:
    return [p.text for p in step.pieces if isinstance(p, TimeSpan)]


def _heats(step: Step) -> list[str]:
    return [p.text for p in step.pieces if isinstance(p, Temperature)]


def _bare(step: Step) -> str:
    """A step's words without its times and temperatures."""
    return " ".join("".join(_words(step.pieces)).split())


def _words(pieces: Iterable[object]) -> Iterator[str]:
    for piece in pieces:
        if isinstance(piece, str):
            yield strip_tags(piece)
        elif isinstance(piece, Mention):
            yield piece.words
        elif isinstance(piece, Length):
            yield piece.text
        else:
            yield "…"
