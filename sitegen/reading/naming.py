"""Which ingredient a bracket in the method names."""

from __future__ import annotations

import re
from collections.abc import Set
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property, lru_cache

from sitegen.kitchen.units import dimension_of, size_of
from sitegen.reading.numbers import fold
from sitegen.reading.recipe import IngredientLine, Measure

_SHARES: tuple[tuple[str, Fraction], ...] = (
    (r"(?:the )?(?:other |second |first )?half(?: of)?", Fraction(1, 2)),
    (r"(?:a|one|the first) third(?: of)?", Fraction(1, 3)),
    (r"two[- ]thirds(?: of)?", Fraction(2, 3)),
    (r"(?:a|one) quarter(?: of)?", Fraction(1, 4)),
    (r"three[- ]quarters(?: of)?", Fraction(3, 4)),
    (r"(?:a|one) fifth(?: of)?", Fraction(1, 5)),
    (r"(?:a|one) sixth(?: of)?", Fraction(1, 6)),
    (r"(?:a|one) tenth(?: of)?", Fraction(1, 10)),
    (r"all(?: of)?", Fraction(1)),
)
_SHARE = tuple((re.compile(rf"{p}\s+(?:the\s+|my\s+)?", re.IGNORECASE), v) for p, v in _SHARES)
_REST = re.compile(
    r"(?:the\s+)?(?:rest of(?: the)?|remaining|remainder of(?: the)?|last of(?: the)?)\s+",
    re.IGNORECASE,
)
_SOME = re.compile(
    r"(?:most|some|a little|a few|a splash|a pinch|a handful|more|extra|reserved|a spoonful)\b"
    r"(?: of)?\s*(?:the\s+)?",
    re.IGNORECASE,
)
_SAME = re.compile(r"(?:the same|this|that|these|those|each|every|the)\s+", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Said:
    """A bracket's words split: how much, and of what."""

    name: str
    share: Fraction | None = None
    rest: bool = False
    some: bool = False


# What the patterns above begin with: most brackets hold a plain name.
_OPENING = re.compile(
    r"(?:the|other|second|first|half|an?|one|two|three|all|rest|remaining|remainder|last|most|some"
    r"|more|extra|reserved|this|that|these|those|each|every)\b",
    re.IGNORECASE,
)


def split_share(words: str) -> Said:
    """``half the butter`` is 1/2 of ``butter``.

    >>> split_share("the remaining stock")
    Said(name='stock', share=None, rest=True, some=False)
    """
    text = " ".join(words.split())
    if not _OPENING.match(text):
        return Said(text)
    rest = _REST.match(text)
    if rest:
        return Said(_bare(text[rest.end() :]), rest=True)
    for pattern, value in _SHARE:
        found = pattern.match(text)
        if found:
            return Said(_bare(text[found.end() :]), share=value)
    some = _SOME.match(text)
    if some and some.end() < len(text):
        return Said(_bare(text[some.end() :]), some=True)
    return Said(_bare(text))


_SHARE_BEFORE = re.compile(
    r"\b(?P<share>(?:(?:the )?(?:other |second |first )?half|two[- ]thirds|three[- ]quarters"
    r"|(?:a|one|the first) third|(?:a|one) quarter|the (?:rest|remainder)|(?:the )?remaining|most|some)"
    r"(?: of)?) (?:the |your |my )?$",
    re.IGNORECASE,
)
_SHARES_IN_WORDS = ("half", "third", "quarter", "rest", "remain", "most", "some")
_ENDS_A_SHARE = ("the ", "of ", "half ", "ing ", "most ", "some ", "your ", "my ")


def share_before(before: str, said: Said) -> Said:
    """What the words before a bracket say of how much: ``half the [butter]`` is ``[half the butter]``.

    >>> share_before("Melt half of the ", Said("butter")).share
    Fraction(1, 2)
    """
    if not before.endswith(_ENDS_A_SHARE):
        return said
    near = before[-40:]
    if not any(map(fold(near).__contains__, _SHARES_IN_WORDS)):
        return said
    found = _SHARE_BEFORE.search(near)
    if found is None:
        return said
    inside = split_share(f"{found['share']} {said.name}")
    return Said(said.name, inside.share, inside.rest, inside.some)


def _bare(text: str) -> str:
    found = _SAME.match(text)
    return text[found.end() :] if found else text


# Plural ending, its singular, and how long the word must be: "pies" is no plural of "py".
_PLURALS = (("ookies", "ookie", 7), ("ies", "y", 5), ("oes", "o", 5), ("eaves", "eaf", 6))


@lru_cache(maxsize=16384)
def stem(word: str) -> str:
    """A word without its plural, well enough to compare names.

    >>> [stem(w) for w in ("leeks", "tomatoes", "berries", "leaves", "couscous", "cookies")]
    ['leek', 'tomato', 'berry', 'leaf', 'couscous', 'cookie']
    """
    word = word.lower().strip("'’.,")
    if not word.endswith("s"):
        return word
    for ending, instead, least in _PLURALS:
        if word.endswith(ending) and len(word) >= least:
            return word[: -len(ending)] + instead
    if word.endswith(("oaves", "alves")):
        return word[:-3] + "f"
    if word.endswith(("ches", "shes", "sses", "xes")):
        return word[:-2]
    if not word.endswith(("ss", "us", "is")) and len(word) > 3:
        return word[:-1]
    return word


_WORD = re.compile(r"[^\W_]+(?:['’-][^\W_]+)*")


@lru_cache(maxsize=16384)
def tokens(text: str) -> tuple[str, ...]:
    """The stems of a text's words, in order."""
    return tuple(map(stem, _WORD.findall(text.lower())))


_BRACKET_AT_END = re.compile(r"\s*\([^()]*\)$")


def bare_food(food: str) -> str:
    """A food's words without a bracket behind them.

    >>> bare_food("water (75%)"), bare_food("(unsalted) butter")
    ('water', '(unsalted) butter')
    """
    return _BRACKET_AT_END.sub("", food) or food if food.endswith(")") else food


def name_of(line: IngredientLine) -> str:
    """What the method may call a line: its own name, or its food without a bracket behind it."""
    return line.called or bare_food(line.food)


@dataclass(frozen=True, slots=True)
class Named:
    """What a name found: the index, or the indices that it may equally mean."""

    index: int = -1
    rivals: tuple[int, ...] = ()


class Names:
    """The words by which lines may be named, taken apart once for all that name them."""

    def __init__(self, lines: tuple[IngredientLine, ...]) -> None:
        self._lines = lines
        self._called = [tokens(line.called) if line.called else () for line in lines]
        # "water (75%)" is called water: what a bracket adds is no part of the name
        self._foods = [tokens(bare_food(line.food)) for line in lines]
        self._exactly: tuple[dict[tuple[str, ...], list[int]], ...] = ({}, {})
        for exactly, names in zip(self._exactly, (self._called, self._foods), strict=True):
            for i, name in enumerate(names):
                exactly.setdefault(name, []).append(i)

    @cached_property
    def _pools(self) -> tuple[list[frozenset[str]], list[frozenset[str]]]:
        """Each line's words for its food; and those with its preparation and all else of it."""
        narrow, wide = [], []
        for line, called, food in zip(self._lines, self._called, self._foods, strict=True):
            others = (w for alt in line.alternatives for w in tokens(alt.food))
            bracket = tokens(line.food) if "(" in line.food else ()
            narrow.append(frozenset((*food, *called, *tokens(line.whole), *others, *bracket)))
            wide.append(frozenset((*food, *tokens(line.preparation), *tokens(line.text))))
        return narrow, wide

    def find(self, name: str, here: range | None, used: Set[int]) -> Named:
        """The line that ``name`` means; lines of the part ``here`` come before others.

        Tried in order: the line's own ``as``; the food's very words; all words of the name in the
        line's food; in its food and preparation. Where several lines fit equally, the part decides,
        then the one not used yet; else they are rivals.
        """
        wanted = tokens(name)
        if not wanted:
            return Named()
        # nearly always one line has that very name
        called = self._exactly[0].get(wanted)
        fits = called or self._exactly[1].get(wanted) or []
        if len(fits) == 1 and (called or here is None or fits[0] in here):
            return Named(fits[0])
        for level in range(4):
            fits = self._fitting(wanted, level)
            if not fits or (level == 1 and self._better_here(wanted, here, fits)):
                continue
            local = [i for i in fits if here is not None and i in here] or fits
            if len(local) > 1 and level > 1:
                exact_head = [i for i in local if self._foods[i][-1:] == wanted[-1:]]
                local = exact_head or local
            if len(local) > 1 and len({self._foods[i] for i in local}) == 1:
                fresh = [i for i in local if i not in used]
                return Named(fresh[0] if fresh else local[-1])
            if len(local) > 1:
                return Named(-1, tuple(local))
            return Named(local[0])
        return Named()

    def _better_here(self, wanted: tuple[str, ...], here: range | None, fits: list[int]) -> bool:
        """``butter`` under Pastry is the pastry's "cold butter", not the filling's own "butter"."""
        if here is None or any(i in here for i in fits):
            return False
        near = [i for i in self._fitting(wanted, 2) if i in here]
        return len(near) == 1 and self._foods[near[0]][-1:] == wanted[-1:]

    def _fitting(self, wanted: tuple[str, ...], level: int) -> list[int]:
        if level < 2:
            return self._exactly[level].get(wanted, [])
        return [i for i, pool in enumerate(self._pools[level - 2]) if pool.issuperset(wanted)]


def find_line(
    name: str, lines: tuple[IngredientLine, ...], here: range | None, used: Set[int]
) -> Named:
    """The line that ``name`` means, as :meth:`Names.find` finds it."""
    return Names(lines).find(name, here, used)


def share_of(measure: Measure, line: IngredientLine, sizes: SizeOf) -> Fraction | None:
    """What part of the line a measure in the method is, when both are of one kind."""
    taken = _total(measure, sizes)
    if taken is None:
        return None
    for own in (line.amount, *line.measures):
        if own is None:
            continue
        whole = _total(own, sizes)
        if whole and whole[0] == taken[0]:
            return taken[1] / whole[1]
    return None


class SizeOf:
    """Sizes of units under one region, as :func:`~sitegen.kitchen.units.size_of` gives them."""

    def __init__(self, region: str) -> None:
        self.region = region

    def __call__(self, unit: str) -> tuple[str, Fraction]:
        """The unit's kind and size; a counted unit is its own kind, of size 1."""
        size = size_of(unit, self.region)
        if size is None:
            return unit or "each", Fraction(1)
        return dimension_of(unit), size


def _total(measure: Measure, sizes: SizeOf) -> tuple[str, Fraction] | None:
    total = Fraction(0)
    kind = ""
    for term in measure.terms:
        term_kind, size = sizes(term.unit)
        if kind and term_kind != kind:
            return None
        kind = term_kind
        middle = term.value if term.upto is None else (term.value + term.upto) / 2
        total += middle * size
    return (kind, total) if total else None
