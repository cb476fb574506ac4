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


_OVEN: Final = _words("bake|bakes|baked|baking|roast|roasting|roasted|oven")
_WET: Final = _words(r"simmer\w*|boil\w*|stew\w*|brais\w*|poach\w*|steam\w*|bubbl\w*|reduc\w*")
_DRY: Final = re.compile(
    r"\b(?:fry|fries|fried|frying|saut\w+|sweat|brown(?:ed)?\b(?! sugar)|sear\w*|grill\w*|griddle"
    r"|toast|cook|melt|warm|heat|soften)\b",
    re.IGNORECASE,
)
_OFF: Final = re.compile(
    r"\b(?:pour|spoon|tip) (?:off|away)\b[^.]*\b(?:fat|juices|drippings)\b", re.IGNORECASE
)
_FLAMED: Final = _words(r"flam(?:e|ed|b[eé]\w*)|ignite|set (?:it|the pan) alight")
_NOT_HEAT: Final = re.compile(
    r"\bheat the oven\b|\bpreheat\w*\b|\boff the heat\b|\bremove from the heat\b"
    r"|\boven gloves?\b|\bboiled water\b",
    re.IGNORECASE,
)
_IDLE: Final = _words(
    r"cool\w*|chill\w*|fridge|rest|rests|resting|stand|stands|leave|prove|proves|rise|rises|soak\w*"
    r"|marinat\w*|set aside|freez\w*|overnight"
)
_ON_TOP: Final = _words(r"brush|drizzle|sprinkle|spoon\w* over|pour\w* over|over the top")
_CLAUSE: Final = re.compile(r"[.;:]\s|,\s(?:then|and)\s")
_OVERNIGHT_SECONDS: Final = 8 * 3600


def cooking_of(recipe: Recipe, index: int) -> Cooking:
    """How the ingredient ``index`` is cooked, from the step that first names it onwards.

    Minutes are those of clauses with heat in them and no rest, at the lower end of each range.
    """
    line = recipe.lines[index]
    if any(r.startswith("to serve") or r == "to garnish" for r in line.remarks):
        return Cooking()
    oven = wet = heated = off = flamed = overnight = on_top = begun = False
    minutes = 0.0
    for step in recipe.steps:
        named = any(isinstance(p, Mention) and p.line == index for p in step.pieces)
        said = _said(step.text)
        on_top = on_top or (named and not begun and said.on_top)
        begun = begun or named
        if not begun:
            continue
        hot = said.heated
        oven, wet, heated = oven or said.oven, wet or said.wet, heated or hot
        off = off or said.poured_off
        flamed = flamed or said.flamed
        overnight = overnight or (not hot and _is_overnight(step))
        if hot:
            minutes += _minutes_of_heat(step)
    return Cooking(oven, wet, heated, minutes, off, flamed, overnight, on_top)


@lru_cache(maxsize=512)
def _said(step: str) -> Cooking:
    """What the words of one step say; each ingredient of a recipe asks it of every step."""
    text = _NOT_HEAT.sub(" ", step)
    oven, wet = bool(_OVEN.search(text)), bool(_WET.search(text))
    return Cooking(
        oven,
        wet,
        oven or wet or bool(_DRY.search(text)),
        poured_off=bool(_OFF.search(text)),
        flamed=bool(_FLAMED.search(text)),
        on_top=bool(_ON_TOP.search(step)),
    )


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
