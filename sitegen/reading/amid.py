"""Amounts amid other words: the ``3 l`` of "200 g pasta, cooked in 3 l water".

They grow and shrink with the recipe and are of use in both systems, as those of the list are. Amounts
of one piece ("in 50 g pieces", "a tablespoon at a time") and the sizes of pots and tins stay as they are.
"""

from __future__ import annotations

import re
from typing import NamedTuple

from sitegen.kitchen.units import dimension_of
from sitegen.reading.measures import scan_measure
from sitegen.reading.numbers import Unreadable
from sitegen.reading.recipe import Measure

OF_ONE = re.compile(
    r"^\s*(?:(?:of|portions?|of dough|of the mixture|of batter)\s+)*(?:each|apiece|at a time|per\b|pieces?"
    r"|portions?|balls?|lumps?|chunks?|slices?|fillets?|steaks?|patt(?:y|ies)|rounds?|cubes?|knobs?|pots?"
    r"|pans?|tins?|cans?|packets?|dish|bowls?|jars?|jugs?|saucepan|stockpot|scoops?"
    r"|measures?|loaf|loaves|basins?|containers?|bottles?|ramekins?|(?:[\w-]+\s){0,2}(?:pot|pan|tin|can|jar"
    r"|jug|bowl|dish|saucepan|casserole|loaf tin|basin|bottle|container|mould|ramekins?)s?\b)"
    r"|^[^,]{0,30}\b(?:at a time|each|apiece|per (?:person|portion|serving))\b"
)
"""What stands, in small letters, after an amount that is of one piece or of a vessel."""

BEFORE_ONE = re.compile(
    r"\b(?:each|every|per|into|weigh(?:ing|s)?|scant|size of|no more than)\s$", re.IGNORECASE
)
"""What stands before one."""

_ARTICLE = re.compile(r"\b(?:an?|one|the|from|×|x)\s$", re.IGNORECASE)
"""``from a 1.2 kg chicken``: of one, too, where words of a line are looked at."""

_OPENS = re.compile(
    r"(?<![\w.,/°–—-])(?=[\d¼½¾⅓⅔⅛]|(?:an?|half|one|two|three|four|five|six|eight|ten|twelve)\s)",
    re.IGNORECASE,
)


class Amid(NamedTuple):
    """An amount and where it stands in its text."""

    start: int
    end: int
    measure: Measure
    other: Measure | None = None
    """The same in another unit, where the author gives it: ``1 l (4 cups)``."""


def amounts_amid(text: str) -> list[Amid]:
    """The weights and volumes that stand amid the words of ``text``.

    >>> [text[a.start : a.end] for text in ["soaked for 8 hours in 1 1/2 l water"] for a in amounts_amid(text)]
    ['1 1/2 l']
    """
    found: list[Amid] = []
    at = 0
    while opens := _OPENS.search(text, at):
        start = at = opens.start()
        try:
            scanned = scan_measure(text, start)
        except Unreadable:
            scanned = None
        if scanned is None or scanned.bare:
            at += 1
            continue
        measure = scanned.measure
        end = start + len(text[start : scanned.end].removesuffix(" of").rstrip())
        at = scanned.end
        if measure.each or dimension_of(measure.unit) not in ("weight", "volume"):
            continue
        before = text[:start]
        if BEFORE_ONE.search(before) or _ARTICLE.search(before):
            continue
        after = text[end:].lower()
        if OF_ONE.search(after) and not after.startswith(" for "):
            continue
        other, end = _pair(text, end, measure)
        at = max(at, end)
        found.append(Amid(start, end, measure, other))
    return found


_JOINT = re.compile(r"\s?/\s?|\s?(?P<bracket>\()(?:about\s)?", re.IGNORECASE)


def _pair(text: str, end: int, measure: Measure) -> tuple[Measure | None, int]:
    """The author's own second figure, right behind the first, and where it ends."""
    joint = _JOINT.match(text, end)
    if not joint:
        return None, end
    try:
        found = scan_measure(text, joint.end())
    except Unreadable:
        return None, end
    if (
        found is None
        or found.bare
        or dimension_of(found.measure.unit) != dimension_of(measure.unit)
    ):
        return None, end
    if not joint["bracket"]:
        return found.measure, found.end
    closed = text.startswith(")", found.end)
    return (found.measure, found.end + 1) if closed else (None, end)
