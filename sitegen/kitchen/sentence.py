"""Where a sentence has got to when an ingredient is named: whether a number may stand there."""

from __future__ import annotations

import re
from typing import NamedTuple

_LAST_WORD = re.compile(r"[^\W\d_]+$")

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


class Lead(NamedTuple):
    """What the words before a mention allow."""

    takes_number: bool
    """A number may follow: ``the``, ``and``, a comma, a verb."""
    counted: bool
    """The words have counted already: ``each``, ``an``, ``two``."""


def is_bracketed(before: str) -> bool:
    """Whether a round bracket is open before a mention."""
    return "(" in before and before.count("(") > before.count(")")


def leading(before: str) -> Lead:
    """What follows from the step's text before a mention.

    Only its end is looked at, so that a long step costs no more than a short one.

    >>> [leading(text).takes_number for text in ("Beat the ", "Beat in the cold ", "Beat ")]
    [True, False, True]
    """
    text = before.rstrip()
    if not text or text[-1] in ".!?":  # "Eggs (3) go in": no sentence begins with a figure
        return Lead(False, False)
    spaced = len(text) < len(before)
    found = _LAST_WORD.search(text.rsplit(None, 1)[-1]) if spaced else None
    word = found[0].lower() if found else ""
    if found:
        takes = word in _TAKES_NUMBER or (_is_first(text, found[0]) and not word.endswith("ed"))
    else:
        takes = (spaced and text[-1] in ",;:–—") or before.endswith(("(", "(\n"))
    counted = word in _ONE_OF or (not found and text[-1].isdigit())
    return Lead(takes and not counted, counted)


def _is_first(text: str, word: str) -> bool:
    """Whether the last word of ``text`` is the first of its sentence: a verb, as a rule."""
    head = text.removesuffix(word)
    before = head.rstrip()
    return not before or (len(before) < len(head) and before[-1] in ".!?:")
