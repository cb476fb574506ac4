"""Words as searching compares them: the page's script does the same to what a reader types.

The tables here are handed to the script with the index, so that the two can't part; a test runs both
over the same words.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable
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


@lru_cache(maxsize=32768)
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
    return [stem(word) for word in _words(text) if _counts(word)]


def different_terms(texts: Iterable[str]) -> list[str]:
    """The stems of all words of some texts, each word looked at once, in order."""
    once = dict.fromkeys(_words("\n".join(texts)))
    return [stem(word) for word in once if _counts(word)]


def _words(text: str) -> list[str]:
    return _WORD.findall(fold(text.replace("’", "'").replace("'s ", " ")))


def _counts(word: str) -> bool:
    return len(word) > 1 and word not in STOP and not word.isdecimal()
