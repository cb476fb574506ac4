"""What "plus extra for greasing" is for: a naming that takes none of the line's amount."""

from __future__ import annotations

import re

from sitegen.reading.recipe import IngredientLine

# The tin, the worktop: what "plus extra for greasing" is for.
_GREASES = re.compile(r"(?:grease|line|dust)\b", re.IGNORECASE)
_GREASED_WITH = re.compile(
    r"\b(?:greas|butter|oil|brush|dust|flour|lin)(?:e|ed|ing)?\s+(?:[\w’'-]+\s+){0,6}with"
    r"(?:\s+(?:a\s+little|some|the|more|extra))*\s+$",
    re.IGNORECASE,
)
_VERB_TOO = re.compile(r"butter|oil|flour", re.IGNORECASE)
_A_TIN = re.compile(r"\s+(?:and\s+line\s+)?(?:the|a|an|your|two|both)\s")


def is_extra(line: IngredientLine, words: str, before: str, after: str) -> bool:
    """``[Grease][butter] the tin``, of "225 g butter, plus extra for greasing": none of the 225 g.

    ``before`` and ``after`` are the step's text on both sides of the bracket.
    """
    if not any(r.startswith("plus") for r in line.remarks):
        return False
    return bool(
        _GREASES.match(words)
        or _GREASED_WITH.search(before)
        or (_VERB_TOO.fullmatch(words) and not before.strip() and _A_TIN.match(after))
    )
