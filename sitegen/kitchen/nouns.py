"""One and many of a food's name: ``leek`` and ``leeks``."""

from __future__ import annotations

from functools import lru_cache

from sitegen.reading.naming import stem

_UNCHANGING = (
    "anise",
    "thyme",
    "fish",
    "trout",
    "salmon",
    "squid",
    "cod",
    "sheep",
    "grouse",
    "asparagus",
    "octopus",
)
_IN_ES = ("potato", "tomato", "mango", "torpedo")


@lru_cache(maxsize=4096)
def both_forms(word: str) -> tuple[str, str]:
    """The singular and the plural of a word that is one of them.

    A word with a capital is a name and stays as it is.

    >>> both_forms("leaves"), both_forms("potato"), both_forms("fish"), both_forms("Bramleys")
    (('leaf', 'leaves'), ('potato', 'potatoes'), ('fish', 'fish'), ('Bramleys', 'Bramleys'))
    """
    if not word[:1].islower() or word.endswith(_UNCHANGING):
        return word, word
    singular = stem(word)
    return singular, word if singular != word else plural(word)


def plural(word: str) -> str:
    """The plural of a singular."""
    if word.endswith(("ch", "sh", "ss", "x")) or word in _IN_ES:
        return f"{word}es"
    if word.endswith("y") and word[-2:-1] not in "aeiou":
        return f"{word[:-1]}ies"
    if word.endswith("af"):
        return f"{word[:-1]}ves"
    return f"{word}s"
