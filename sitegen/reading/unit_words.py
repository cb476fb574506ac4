"""The words for units, as cooks spell and misspell them."""

from __future__ import annotations

import re
from difflib import get_close_matches
from functools import lru_cache

from sitegen.kitchen.units import UNITS, dimension_of
from sitegen.reading.numbers import Unreadable, fold

FORMS: dict[str, str] = {form: unit.key for unit in UNITS.values() for form in unit.forms}
"""Every spelling, in small letters, and the key of its unit."""


FIRST_WORDS = frozenset(form.split()[0] for form in FORMS if " " in form)
"""What a unit of several words begins with: ``fl`` of ``fl oz``."""


def _spelt(forms: list[str]) -> re.Pattern[str]:
    return re.compile(
        "(?P<form>"
        + "|".join(sorted(map(re.escape, forms), key=len, reverse=True))
        + r")(?P<dot>\.(?=\s|$|,|\)))?(?![\w’'])(?!-\w)",
        re.IGNORECASE,
    )


# By first letter, so that not all spellings are tried on every word.
_UNITS_BY_LETTER = {
    letter: _spelt([form for form in FORMS if form.startswith(letter)])
    for letter in {form[0] for form in FORMS}
}

VESSELS = frozenset({"glass", "wine glass", "mug", "teacup", "bowl", "ladleful"})
"""Words that measure only before "of"."""
_OF = re.compile(r"\s+of\s")

_AMBIGUOUS = re.compile(r"[TtCc]\.?(?=\s|$)")


@lru_cache(maxsize=1024)  # several readings of one line ask the same
def scan_unit(text: str, at: int) -> tuple[str, int] | None:
    """The unit that starts at ``at`` and where it ends."""
    first = text[at : at + 1]
    if first and first in "TtCc" and _AMBIGUOUS.match(text, at) and not text.startswith("c.", at):
        letter = text[at]
        meant = "tbsp or tsp" if letter in "Tt" else "cup or cl"
        raise Unreadable(
            "unit-ambiguous",
            at,
            1,
            f"'{letter}' is read as one unit by some cooks and as another by others",
            f"write {meant}",
        )
    spelt = _UNITS_BY_LETTER.get(fold(first))
    found = spelt.match(text, at) if spelt else None
    if not found:
        return None
    unit = FORMS[fold(found["form"])]
    if unit in VESSELS and not _OF.match(text, found.end()):
        return None  # "2 glass jars", "1 mug cake"
    return unit, found.end()


_LONG_FORMS = [f for f in FORMS if len(f) >= 4 and dimension_of(FORMS[f]) != "count"]


_LETTERS_AFTER_FIGURE = re.compile(r"(?<=\d)[^\W\d_]+")
_SHORT_WORD = re.compile(r"[A-Za-z]{3,12}\.?(?=\s+\w)")
_NO_SPOONS = frozenset("tps tbp tbls tbps tsb tpsp tspn tbsn tbspn".split())


def refuse_glued(text: str, at: int) -> None:
    """``250mlmilk``: letters right after a figure that are no unit."""
    found = _LETTERS_AFTER_FIGURE.match(text, at)
    if found:
        raise Unreadable(
            "unit-glued",
            at,
            len(found.group()),
            f"'{found.group()}' stands right after a number and is not a unit",
            "put spaces between number, unit and food; a name like this needs its amount before it",
        )


def refuse_misspelt(text: str, at: int) -> None:
    """``2 tbps sugar``: a word that is nearly a unit is a typing error, not a food."""
    found = _SHORT_WORD.match(text, at)
    if not found:
        return
    word = found.group().lower()
    near = _nearest_form(word)
    spoon_like = word in _NO_SPOONS
    if spoon_like or near.startswith(word[0]):
        meant = near or ("tbsp" if "b" in word else "tsp")
        raise Unreadable(
            "unit-unknown", at, len(word), f"'{word}' is not a unit", f"did you mean '{meant}'?"
        )


@lru_cache(maxsize=4096)
def _nearest_form(word: str) -> str:
    """The long form of a unit that a word is very nearly; empty if it is none."""
    # A word that begins otherwise than every near form is let pass, and nearly all words are that.
    alike = [form for form in _LONG_FORMS if form[0] == word[0]]
    if word not in _NO_SPOONS and not get_close_matches(word, alike, n=1, cutoff=0.84):
        return ""
    return next(iter(get_close_matches(word, _LONG_FORMS, n=1, cutoff=0.84)), "")
