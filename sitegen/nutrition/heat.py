"""How an ingredient is cooked, read from the steps of the method.

Where the words leave a choice, the one that takes less away is made: more is then declared than
may be left, never less.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache
from typing import Final

from sitegen.reading.recipe import Mention, Recipe, Step, TimeSpan
from sitegen.reading.spans import INSTEAD


@dataclass(frozen=True, slots=True)
class Cooking:
    """What happens to one ingredient after it goes in."""

    oven: bool = False
    wet: bool = False
    heated: bool = False
    minutes: float = 0.0
    poured_off: bool = False
    flamed: bool = False
    overnight: bool = False
    on_top: bool = False
    """Brushed, poured or spooned over rather than stirred in."""


# What a word says by itself. A step is looked at word by word, each word in a table: far less work
# than trying every expression at every letter, and a method has few different words.
_SAYS_OVEN, _SAYS_WET, _SAYS_DRY, _SAYS_BROWN = 1, 2, 4, 8
_SAYS_FLAMED, _SAYS_ON_TOP, _SAYS_IDLE = 16, 32, 64
_HAS_OVER, _HAS_OFF, _HAS_ALIGHT, _HAS_ASIDE = 128, 256, 512, 1024
"""Words that say something only in a phrase, for which there is an expression below."""
_SENSES: Final = {
    **dict.fromkeys("bake bakes baked baking roast roasting roasted oven".split(), _SAYS_OVEN),
    **dict.fromkeys(
        "fry fries fried frying sweat griddle toast cook melt warm heat soften".split(), _SAYS_DRY
    ),
    **dict.fromkeys(("brown", "browned"), _SAYS_BROWN),
    **dict.fromkeys(("flame", "flamed", "ignite"), _SAYS_FLAMED),
    "cooker": _SAYS_WET,  # slow or pressure: a lid keeps the wet in
    **dict.fromkeys(("brush", "drizzle", "sprinkle"), _SAYS_ON_TOP),
    **dict.fromkeys(
        "fridge rest rests resting stand stands leave prove proves rise rises overnight".split(),
        _SAYS_IDLE,
    ),
}
_SENSES.update(over=_HAS_OVER, off=_HAS_OFF, away=_HAS_OFF, alight=_HAS_ALIGHT, aside=_HAS_ASIDE)
_BEGINNINGS: Final = {
    **dict.fromkeys("simmer boil stew brais poach steam bubbl reduc".split(), _SAYS_WET),
    **dict.fromkeys(("sear", "grill"), _SAYS_DRY),
    **dict.fromkeys(("flambe", "flambé"), _SAYS_FLAMED),
    **dict.fromkeys("cool chill soak marinat freez".split(), _SAYS_IDLE),
}
_WORD: Final = re.compile(r"\w+")
_BROWN: Final = re.compile(r"\bbrown(?:ed)?\b(?! sugar)")
_OFF: Final = re.compile(r"\b(?:pour|spoon|tip) (?:off|away)\b[^.]*\b(?:fat|juices|drippings)\b")
_ALIGHT: Final = re.compile(r"\bset (?:it|the pan) alight\b")
_ASIDE: Final = re.compile(r"\bset aside\b")
_OVER: Final = re.compile(r"\b(?:spoon\w* over|pour\w* over|over the top)\b")
_NOT_HEAT: Final = re.compile(
    r"\bheat the oven\b|\bpreheat\w*\b|\boff the heat\b|\bremove from the heat\b"
    r"|\boven gloves?\b|\bboiled water\b"
)
_NOT_HEAT_HOLDS: Final = ("heat the oven", "preheat", "the heat", "oven glove", "boiled water")
_CLAUSE: Final = re.compile(r"[.;:]\s|,\s(?:then|and)\s")
_OVERNIGHT_SECONDS: Final = 8 * 3600


class Method:
    """The steps of one recipe, read for heat once; each ingredient then asks how it is cooked."""

    def __init__(self, recipe: Recipe) -> None:
        self._lines = recipe.lines
        self._steps = recipe.steps
        self._named_first: dict[int, int] = {}
        for place, step in enumerate(self._steps):
            for piece in step.pieces:
                if isinstance(piece, Mention):
                    self._named_first.setdefault(piece.line, place)
        self._said: list[Cooking] | None = None
        self._from: dict[int, Cooking] = {}

    def cooking_of(self, index: int) -> Cooking:
        """How the ingredient ``index`` is cooked, from the step that first names it onwards.

        Minutes are those of clauses with heat in them and no rest, at the lower end of each range.
        """
        begun = self._named_first.get(index)
        if begun is None or _served_as_it_is(self._lines[index].remarks):
            return _UNTOUCHED
        found = self._from.get(begun)
        if found is None:
            found = self._from[begun] = self._onwards(begun)
        return found

    def _onwards(self, begun: int) -> Cooking:
        if self._said is None:
            self._said = [_said(step) for step in self._steps]
        oven = wet = heated = poured_off = flamed = overnight = False
        minutes = 0.0
        for one in self._said[begun:]:
            oven, wet, heated = oven or one.oven, wet or one.wet, heated or one.heated
            minutes += one.minutes
            poured_off, flamed = poured_off or one.poured_off, flamed or one.flamed
            overnight = overnight or one.overnight
        on_top = self._said[begun].on_top
        return Cooking(oven, wet, heated, minutes, poured_off, flamed, overnight, on_top)


_UNTOUCHED: Final = Cooking()


def _served_as_it_is(remarks: tuple[str, ...]) -> bool:
    return bool(remarks) and any(r.startswith("to serve") or r == "to garnish" for r in remarks)


def cooking_of(recipe: Recipe, index: int) -> Cooking:
    """How one ingredient is cooked; see :meth:`Method.cooking_of`."""
    return Method(recipe).cooking_of(index)


def _said(step: Step) -> Cooking:
    """What one step says; its minutes are those of heat, its night is one without heat."""
    text = whole = step.text.lower()
    senses = _senses(text)
    on_top = senses & _SAYS_ON_TOP or (senses & _HAS_OVER and _OVER.search(text))
    if any(phrase in text for phrase in _NOT_HEAT_HOLDS):
        text = _NOT_HEAT.sub(" ", whole)
        senses = _senses(text)
    oven, wet = bool(senses & _SAYS_OVEN), bool(senses & _SAYS_WET)
    dry = senses & _SAYS_DRY or (senses & _SAYS_BROWN and _BROWN.search(text))
    hot = oven or wet or bool(dry)
    return Cooking(
        oven,
        wet,
        hot,
        _minutes_of_heat(step) if hot else 0.0,
        poured_off=bool(senses & _HAS_OFF and _OFF.search(text)),
        flamed=bool(senses & _SAYS_FLAMED or (senses & _HAS_ALIGHT and _ALIGHT.search(text))),
        overnight=not hot and _is_overnight(step),
        on_top=bool(on_top),
    )


def _senses(text: str) -> int:
    found = 0
    for sense in set(map(_sense, text.split())):
        found |= sense
    return found


@lru_cache(maxsize=4096)
def _sense(written: str) -> int:
    """What a word says, with the signs that cling to it: ``half-baked,`` is two words."""
    found = 0
    for word in _WORD.findall(written):
        found |= _SENSES.get(word, 0)
        found |= _SAYS_DRY if word.startswith("saut") and len(word) > len("saut") else 0
        for beginning, sense in _BEGINNINGS.items():
            found |= sense if word.startswith(beginning) else 0
    return found


def _is_overnight(step: Step) -> bool:
    long = any(isinstance(p, TimeSpan) and p.seconds >= _OVERNIGHT_SECONDS for p in step.pieces)
    return long or "overnight" in step.text.lower()


def _minutes_of_heat(step: Step) -> float:
    """The times of a hot step, without those of clauses that are about rest or cold."""
    minutes, at = 0.0, 0
    times = [piece for piece in step.pieces if isinstance(piece, TimeSpan)]
    breaks = [m.span() for m in _CLAUSE.finditer(step.text)] if times else []
    for time in times:
        found = step.text.find(time.text, at)
        if found > 0 and INSTEAD.search(step.text, max(0, found - 40), found):
            at = found + len(time.text)
            continue
        clause = _clause(step.text, breaks, max(0, found)).lower()
        at = max(at, found + len(time.text)) if found >= 0 else at
        senses = _senses(clause)
        if not senses & _SAYS_IDLE and not (senses & _HAS_ASIDE and _ASIDE.search(clause)):
            minutes += time.seconds / 60
    return minutes


_REACH: Final = 400
"""No clause is longer: it bounds the search in a step of any length."""


def _clause(text: str, breaks: list[tuple[int, int]], at: int) -> str:
    """The clause around a place, between the ``breaks`` before and after it."""
    first, last = max(0, at - _REACH), at + _REACH
    for start, end in breaks:
        if first <= start and end <= at:
            first = end
        elif at <= start and end <= last:
            return text[first:start]
    return text[first:last]
