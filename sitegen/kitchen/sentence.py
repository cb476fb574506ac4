"""Where a sentence has got to when an ingredient is named: whether a number may stand there."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache

_WORD = re.compile(r"([^\W\d_]+)\s+$")
_FIRST_WORD = re.compile(r"(?:^|[.!?:]\s)\s*[^\W\d_]+\s+$")
_START = re.compile(r"(?:^|[.!?])\s*$")
_MARK = re.compile(r"(?:[,;:–—]\s+|\()$")

# After these words a number reads well: "with the 3 eggs", "and 2 carrots". After an adjective it
# does not: "the chopped 2 onions".
_TAKES_NUMBER = frozenset(
    "the these those your my our its their all and or then plus with of in into on onto to over for"
    " from under between around among by at without through as after before until including than"
    " add beat whisk mix put place pour crack break use take peel chop slice cook heat warm stir".split()
)
# These say already how many there are of what follows: it stays as it is.
_ONE_OF = frozenset(
    "a an one each every another per either neither no this that both two three four five six seven"
    " eight nine ten eleven twelve half".split()
)


@dataclass(frozen=True, slots=True)
class Lead:
    """What the words before a mention allow."""

    takes_number: bool
    """A number may follow: ``the``, ``and``, a comma, a verb."""
    counted: bool
    """The words have counted already: ``each``, ``an``, ``two``."""
    bracketed: bool
    """A round bracket is open."""


@lru_cache(maxsize=2048)
def leading(before: str) -> Lead:
    """What follows from the step's text before a mention.

    >>> [leading(text).takes_number for text in ("Beat the ", "Beat in the cold ", "Beat ")]
    [True, False, True]
    """
    bracketed = before.count("(") > before.count(")")
    found = _WORD.search(before)
    word = found[1].lower() if found else ""
    if _START.search(before):  # "Eggs (3) go in": no sentence begins with a figure
        return Lead(False, False, bracketed)
    verb = _FIRST_WORD.search(before) is not None and not word.endswith("ed")
    takes = word in _TAKES_NUMBER or _MARK.search(before) is not None or verb
    counted = word in _ONE_OF or (not found and before.rstrip()[-1:].isdigit())
    return Lead(takes and not counted, counted, bracketed)
