"""Which ingredient a bracket in the method names."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

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


def split_share(words: str) -> Said:
    """``half the butter`` is 1/2 of ``butter``.

    >>> split_share("the remaining stock")
    Said(name='stock', share=None, rest=True, some=False)
    """
    text = " ".join(words.split())
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
    for ending, instead, least in _PLURALS:
        if word.endswith(ending) and len(word) >= least:
            return word[: -len(ending)] + instead
    if word.endswith(("oaves", "alves")):
        return word[:-3] + "f"
    if word.endswith(("ches", "shes", "sses", "xes")):
        return word[:-2]
    if word.endswith("s") and not word.endswith(("ss", "us", "is")) and len(word) > 3:
        return word[:-1]
    return word


_WORD = re.compile(r"[^\W_]+(?:['’-][^\W_]+)*")


@lru_cache(maxsize=16384)
def tokens(text: str) -> tuple[str, ...]:
    """The stems of a text's words, in order."""
    return tuple(stem(w) for w in _WORD.findall(text.lower()))


@dataclass(frozen=True, slots=True)
class Named:
    """What a name found: the index, or the indices that it may equally mean."""

    index: int = -1
    rivals: tuple[int, ...] = ()


def find_line(
    name: str, lines: tuple[IngredientLine, ...], here: range | None, used: frozenset[int]
) -> Named:
    """The line that ``name`` means; lines of the part ``here`` come before others.

    Tried in order: the line's own ``as``; the food's very words; all words of the name in the
    line's food; in its food and preparation. Where several lines fit equally, the part decides,
    then the one not used yet; else they are rivals.
    """
    wanted = tokens(name)
    if not wanted:
        return Named()
    for level in range(4):
        fits = [i for i, line in enumerate(lines) if _fits(wanted, line, level)]
        if not fits or (level == 1 and _better_here(wanted, lines, here, fits)):
            continue
        local = [i for i in fits if here is not None and i in here] or fits
        if len(local) > 1 and level > 1:
            exact_head = [i for i in local if tokens(lines[i].food)[-1:] == wanted[-1:]]
            local = exact_head or local
        if len(local) > 1 and len({tokens(lines[i].food) for i in local}) == 1:
            fresh = [i for i in local if i not in used]
            return Named(fresh[0] if fresh else local[-1])
        if len(local) > 1:
            return Named(-1, tuple(local))
        return Named(local[0])
    return Named()


def _better_here(
    wanted: tuple[str, ...], lines: tuple[IngredientLine, ...], here: range | None, fits: list[int]
) -> bool:
    """``butter`` under Pastry is the pastry's "cold butter", not the filling's plain "butter"."""
    if here is None or any(i in here for i in fits):
        return False
    near = [i for i in here if _fits(wanted, lines[i], 2)]
    return len(near) == 1 and tokens(lines[near[0]].food)[-1:] == wanted[-1:]


def _fits(wanted: tuple[str, ...], line: IngredientLine, level: int) -> bool:
    if level == 0:
        return bool(line.called) and tokens(line.called) == wanted
    food = tokens(line.food)
    if level == 1:
        return food == wanted
    if level == 2:
        pool = set(food) | set(tokens(line.called)) | set(tokens(line.whole))
        pool |= {w for alt in line.alternatives for w in tokens(alt.food)}
    else:
        pool = set(food) | set(tokens(line.preparation)) | set(tokens(line.text))
    return set(wanted) <= pool


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
        from sitegen.kitchen.units import dimension_of, size_of

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
        upto = term.upto if term.upto is not None else term.value
        total += (term.value + upto) / 2 * size
    return (kind, total) if total else None
