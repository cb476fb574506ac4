"""Words as searching compares them: the page's script does the same to what a reader types.

The tables here are handed to the script with the index, so that the two can't part; a test runs both
over the same words.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Sequence
from functools import lru_cache
from typing import Final

LETTERS: Final = str.maketrans(
    {"ø": "o", "æ": "ae", "œ": "oe", "ß": "ss", "ł": "l", "đ": "d", "ð": "d", "þ": "th", "ı": "i"}
)
"""Letters that no decomposition of Unicode's makes plain."""
IRREGULAR: Final = {
    "leaves": "leaf",
    "loaves": "loaf",
    "halves": "half",
    "knives": "knife",
    "calves": "calf",
    "cookies": "cookie",
    "pies": "pie",
    "quiches": "quiche",
    "hummus": "hummus",
    "couscous": "couscous",
    "swiss": "swiss",
}
"""Plurals that the rules would spoil."""
STOP: Final = frozenset(
    """a an and are as at be but by for from has have if in into is it its of off on or so that the
    their them then there they this to until up when which while with you your"""
    .split()
)  # fmt: skip
"""Words that find nothing."""

_MAYBE_MARK: Final = re.compile("[\u0300-\U0010ffff]")
"""No character before these is a combining mark."""
_WORD: Final = re.compile(r"[^\W_]+")
_BLANKS: Final = bytes(
    code if code > 127 or chr(code).isalnum() else ord(" ") for code in range(256)
)
"""Of UTF-8: whatever of ASCII stands in no word is a blank. No folding joins words over one, so that
they can be parted there first, which is quick, and the few that need it folded after."""


def fold(text: str) -> str:
    """Small letters without accents.

    >>> fold("Crème Brûlée")
    'creme brulee'
    """
    low = text.lower()
    if low.isascii():
        return low
    apart = unicodedata.normalize("NFKD", low)
    return _MAYBE_MARK.sub(_without_mark, apart).translate(LETTERS)


def _without_mark(found: re.Match[str]) -> str:
    return "" if unicodedata.category(found[0])[0] == "M" else found[0]


def stem(word: str) -> str:
    """A folded word without its plural ending.

    >>> stem("tomatoes"), stem("berries"), stem("leeks"), stem("couscous")
    ('tomato', 'berry', 'leek', 'couscous')
    """
    if word in IRREGULAR:
        return IRREGULAR[word]
    if len(word) < 4 or not word.endswith("s") or word.endswith(("ss", "us", "is")):
        return word
    if word.endswith("ies") and len(word) > 4:
        return word[:-3] + "y"
    return word[:-2] if word.endswith(("oes", "ches", "shes", "sses", "xes")) else word[:-1]


def terms(text: str) -> list[str]:
    """The stems of a text's words, in order; numbers, single letters and stop words left out."""
    words = [part for word in _split(text) for part in _parts(word)]
    return [term for term in map(_term, words) if term]


def different_terms(text: str) -> dict[str, None]:
    """The different stems of a text's words, each word looked at once."""
    once = dict.fromkeys(_split(text))
    for word in [word for word in once if not word.isascii()]:
        del once[word]
        once |= dict.fromkeys(_parts(word))
    found = dict.fromkeys(map(_term, once))
    found.pop("", None)
    return found


def _split(text: str) -> list[str]:
    """The words of a text in small letters; what is not ASCII is left on them to be folded."""
    low = text.replace("’", "'").replace("'s ", " ").lower()
    return low.encode("utf-8", "replace").translate(_BLANKS).decode().split()


def _parts(word: str) -> Sequence[str]:
    """A word folded, which may part it further: ``well–done`` is two."""
    return (word,) if word.isascii() else _WORD.findall(fold(word))


@lru_cache(maxsize=32768)
def _term(word: str) -> str:
    """A folded word's stem; nothing of a word that doesn't count."""
    return stem(word) if len(word) > 1 and word not in STOP and not word.isdecimal() else ""
