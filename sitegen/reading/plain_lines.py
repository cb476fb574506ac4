"""The commonest ingredient lines, read at once: a measure, a food, and perhaps what is done to it.

Most lines are no more than ``500 g strong white flour``, ``2 tbsp dill, chopped`` or ``30 g (2 tbsp)
butter, divided``. They hold no word that the reader of all lines (:mod:`sitegen.reading.lines`) would
stop at, and come out as it reads them.
"""

from __future__ import annotations

import re
from functools import lru_cache

from sitegen.reading.asides import read_aside
from sitegen.reading.measures import scan_measure
from sitegen.reading.numbers import Unreadable
from sitegen.reading.phrases import MODIFIERS_ONLY, states_in
from sitegen.reading.recipe import IngredientLine, Measure
from sitegen.reading.source import Place
from sitegen.reading.unit_words import FIRST_WORDS

_DIGIT = "[0-9¼-¾⅐-⅞]"
_MEASURE = rf"{_DIGIT}(?:[0-9¼-¾⅐-⅞ ./–-]*{_DIGIT})? ?[a-z]+"
_WORDS = "[A-Za-z]+(?:[ -][A-Za-z]+)*"
_REMARK = "optional|divided|to serve|to taste|plus extra(?: [A-Za-z]+)*"
_PLAIN = re.compile(
    rf"(?P<measure>{_MEASURE}) (?:\((?P<aside>(?:about )?{_MEASURE})\) )?(?P<food>{_WORDS})"
    rf"(?:, (?!(?:{_REMARK})$)(?P<done>{_WORDS}))?(?:, (?P<remark>{_REMARK}))?"
)

_PACKET_WORDS = frozenset(
    "tin can jar bottle packet pack package carton tub sachet bag box punnet pot".split()
)
_TELLING = _PACKET_WORDS.union(
    "to or and plus for of as if each enough optional divided "  # begin a remark, or another amount
    "a an one two three four five six seven eight nine ten eleven twelve half third thirds quarter "
    "quarters couple dozen "  # are a number
    "g kg mg ml cl dl tsp tsps tbsp tbsps oz lb lbs".split()  # are a second unit
)
"""Words that the reader of all lines looks at, wherever they stand behind the measure."""


def plain_line(text: str, place: Place) -> IngredientLine | None:
    """A line of the commonest shape; None if it is of any other, or has a mistake.

    >>> line = plain_line("2 tbsp dill, finely chopped", Place(1, 1))
    >>> line.amount.text, line.food, line.preparation
    ('2 tbsp', 'dill', 'finely chopped')
    """
    found = _PLAIN.fullmatch(text)
    if found is None or "  " in text:
        return None
    written, aside, food, done, remark = found.groups("")
    if not _TELLING.isdisjoint(f"{food} {done}".lower().split()):
        return None
    measure = _measure(written)
    if measure is None or ((done or remark) and MODIFIERS_ONLY.fullmatch(food)):
        return None
    beside = _beside(aside) if aside else ()
    if beside is None or (beside and (measure.each or measure.unit in _PACKETS)):
        return None
    states = tuple(dict.fromkeys(states_in(f"{food}, {done}")))
    remarks = (remark,) if remark else ()
    return IngredientLine(text, place, food, measure, beside, done, remarks, states)


_PACKETS = _PACKET_WORDS | {
    "envelope"
}  # of several, a measure in brackets may be of each or of all


@lru_cache(maxsize=2048)  # the same few amounts recur
def _measure(written: str) -> Measure | None:
    """A whole text as a measure with a unit; None if it is none, or could go on."""
    if written.split()[-1].lstrip("0123456789./") in FIRST_WORDS:
        return None
    try:
        found = scan_measure(f"{written} x", 0)
    except Unreadable:
        return None
    if found is None or found.bare or found.end != len(written) or found.loose or found.states:
        return None
    return found.measure if all(term.value for term in found.measure.terms) else None


@lru_cache(maxsize=2048)
def _beside(written: str) -> tuple[Measure, ...] | None:
    """The measures that brackets hold; None if they say more."""
    try:
        aside = read_aside(written, 0)
    except Unreadable:
        return None
    if aside is None or aside.states or aside.of_all or aside.of_each:
        return None
    return tuple(aside.measures)
