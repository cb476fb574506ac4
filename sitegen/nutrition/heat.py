"""How an ingredient is cooked, read from the steps of the method.

Where the words leave a choice, the one that takes less away is made: more is then declared than
may be left, never less.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache
from typing import Final

from sitegen.reading.recipe import Mention, Recipe, Step, TimeSpan


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


def _words(text: str) -> re.Pattern[str]:
    return re.compile(rf"\b(?:{text})\b", re.IGNORECASE)


# What a word says by itself. A step is looked at word by word, each word in a table: far less work
# than trying every expression at every letter, and a method has few different words.
_SAYS_OVEN, _SAYS_WET, _SAYS_DRY, _SAYS_BROWN, _SAYS_FLAMED, _SAYS_ON_TOP = (
    1 << n for n in range(6)
)
_SENSES: Final = {
    **dict.fromkeys("bake bakes baked baking roast roasting roasted oven".split(), _SAYS_OVEN),
    **dict.fromkeys(
        "fry fries fried frying sweat griddle toast cook melt warm heat soften".split(), _SAYS_DRY
    ),
    **dict.fromkeys(("brown", "browned"), _SAYS_BROWN),
    **dict.fromkeys(("flame", "flamed", "ignite"), _SAYS_FLAMED),
    **dict.fromkeys(("brush", "drizzle", "sprinkle"), _SAYS_ON_TOP),
}
_BEGINNINGS: Final = {
    **dict.fromkeys("simmer boil stew brais poach steam bubbl reduc".split(), _SAYS_WET),
    **dict.fromkeys(("sear", "grill"), _SAYS_DRY),
    **dict.fromkeys(("flambe", "flambé"), _SAYS_FLAMED),
}
_WORD: Final = re.compile(r"\w+")
_BROWN: Final = re.compile(r"\bbrown(?:ed)?\b(?! sugar)")
_OFF: Final = re.compile(r"\b(?:pour|spoon|tip) (?:off|away)\b[^.]*\b(?:fat|juices|drippings)\b")
_ALIGHT: Final = re.compile(r"\bset (?:it|the pan) alight\b")
_OVER: Final = re.compile(r"\b(?:spoon\w* over|pour\w* over|over the top)\b")
_NOT_HEAT: Final = re.compile(
    r"\bheat the oven\b|\bpreheat\w*\b|\boff the heat\b|\bremove from the heat\b"
    r"|\boven gloves?\b|\bboiled water\b"
)
_IDLE: Final = _words(
    r"cool\w*|chill\w*|fridge|rest|rests|resting|stand|stands|leave|prove|proves|rise|rises|soak\w*"
    r"|marinat\w*|set aside|freez\w*|overnight"
)
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
        remarks = self._lines[index].remarks
        if begun is None or any(r.startswith("to serve") or r == "to garnish" for r in remarks):
            return Cooking()
        found = self._from.get(begun)
        if found is None:
            found = self._from[begun] = self._onwards(begun)
        return found

    def _onwards(self, begun: int) -> Cooking:
        if self._said is None:
            self._said = [_said(step) for step in self._steps]
        said = self._said[begun:]
        minutes = 0.0
        for one in said:
            minutes += one.minutes
        return Cooking(
            oven=any(one.oven for one in said),
            wet=any(one.wet for one in said),
            heated=any(one.heated for one in said),
            minutes=minutes,
            poured_off=any(one.poured_off for one in said),
            flamed=any(one.flamed for one in said),
            overnight=any(one.overnight for one in said),
            on_top=said[0].on_top,
        )


def cooking_of(recipe: Recipe, index: int) -> Cooking:
    """How one ingredient is cooked; see :meth:`Method.cooking_of`."""
    return Method(recipe).cooking_of(index)


def _said(step: Step) -> Cooking:
    """What one step says; its minutes are those of heat, its night is one without heat."""
    text = step.text.lower()
    words = set(_WORD.findall(text))
    on_top = _senses(words) & _SAYS_ON_TOP or ("over" in words and _OVER.search(text))
    if "heat" in text or "oven glove" in text or "boiled water" in text:
        text = _NOT_HEAT.sub(" ", text)
        words = set(_WORD.findall(text))
    senses = _senses(words)
    oven, wet = bool(senses & _SAYS_OVEN), bool(senses & _SAYS_WET)
    dry = senses & _SAYS_DRY or (senses & _SAYS_BROWN and _BROWN.search(text))
    hot = oven or wet or bool(dry)
    return Cooking(
        oven,
        wet,
        hot,
        _minutes_of_heat(step) if hot else 0.0,
        poured_off=bool(("off" in words or "away" in words) and _OFF.search(text)),
        flamed=bool(senses & _SAYS_FLAMED or ("alight" in words and _ALIGHT.search(text))),
        overnight=not hot and _is_overnight(step),
        on_top=bool(on_top),
    )


def _senses(words: Iterable[str]) -> int:
    found = 0
    for word in words:
        found |= _sense(word)
    return found


@lru_cache(maxsize=4096)
def _sense(word: str) -> int:
    whole = _SENSES.get(word)
    if whole is not None:
        return whole
    if word.startswith("saut") and len(word) > len("saut"):
        return _SAYS_DRY
    for beginning, sense in _BEGINNINGS.items():
        if word.startswith(beginning):
            return sense
    return 0


def _is_overnight(step: Step) -> bool:
    long = any(isinstance(p, TimeSpan) and p.seconds >= _OVERNIGHT_SECONDS for p in step.pieces)
    return long or "overnight" in step.text.lower()


def _minutes_of_heat(step: Step) -> float:
    """The times of a hot step, without those of clauses that are about rest or cold."""
    minutes, at = 0.0, 0
    for piece in step.pieces:
        if not isinstance(piece, TimeSpan):
            continue
        found = step.text.find(piece.text, at)
        clause = _clause(step.text, max(0, found))
        at = max(at, found + len(piece.text)) if found >= 0 else at
        if not _IDLE.search(clause):
            minutes += piece.seconds / 60
    return minutes


_REACH: Final = 400
"""No clause is longer: it bounds the search in a step of any length."""


def _clause(text: str, at: int) -> str:
    first = max(0, at - _REACH)
    before, after = text[first:at], text[at : at + _REACH]
    begin = max((m.end() for m in _CLAUSE.finditer(before)), default=0)
    end = next((m.start() for m in _CLAUSE.finditer(after)), len(after))
    return before[begin:] + after[:end]
