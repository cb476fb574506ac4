"""Words that several rules look for: the trade's verbs and signs, in one place."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import Final

UNTAKEN = re.compile(
    r"^(?:to (?:serve|garnish|finish|decorate|scatter)|optional|if |or )", re.IGNORECASE
)
"""Remarks on a line that the method need not name."""

EVERYTHING = re.compile(
    r"\b(?:all (?:of )?the (?:other |remaining |dry |wet )?ingredients"
    r"|(?:mix|whisk|put|combine|stir|blend|shake|whizz|place|layer) everything"
    r"|(?:the )?(?:remaining|other|dry|wet|rest of the) ingredients"
    r"|the (?:filling|topping|dressing|marinade|sauce|base|spice) ingredients)\b"
)
"""Words that take whole lists at once."""

COOKING = re.compile(
    r"\b(?:bake|roast|simmer|fry|cook|boil|grill|steam|braise|poach|stew|saut[ée]|brown|sear|toast"
    r"|griddle|bubble|reduce|sweat|soften|barbecue)\b"
)
"""Imperatives that put something in heat."""

SIGN = re.compile(
    r"\b(?:until|till|when|once|so that|as soon as|by which time|should (?:be|have|look|feel)"
    r"|(?:is|are) (?:done|ready|cooked)|tender|golden|opaque|crisp|soft|translucent|thick(?:ened)?"
    r"|browned|set|firm|reach(?:es|ed)?|to the (?:soft|hard)[- ]ball|al dente|with a (?:little )?bite)\b"
)
"""How a cook sees that something is done."""

WAITING = re.compile(
    r"\b(?:soak|rest|chill|prove|proof|rise|marinate|stand|cool|leave|set aside|refrigerate|freeze"
    r"|infuse|steep|cure|drain|ferment)\b"
)
"""Imperatives of time without heat."""

_ASIDE = re.compile(
    r"\b(?:meanwhile|at the same time|in the meantime|while (?:the|it|they|that))\b"
)
AHEAD = re.compile(r"^\s+(?:before|ahead|earlier|in advance|apart)\b")
"""After a time: it says when, not for how long."""

_INTO_OVEN = re.compile(
    r"(?:^\W*|[,;]\s*|\b(?:and|then|uncovered|covered)\s+)(?:bake|roast)\b(?! the spices)"
    r"|\b(?:in|into|to) the (?:hot |heated |preheated )?oven\b|\b(?:bake|roast)\s+(?:for|until)\b"
)
_HEAT_OVEN = re.compile(
    r"\b(?:pre-?heat|heat|turn on|light|set|turn)\b[^.]{0,40}(?<!dutch )\boven\b"
    r"|(?<!dutch )\boven\b[^.]{0,20}\b(?:to|at)\s+\d|\bpre-?heat\b"
    r"|\b(?:turn|raise|lower|reduce)\b[^.]{0,40}(?<!dutch )\b(?:oven|heat to)\b"
)


LOOSE: Final = frozenset({"heaped", "heaping", "rounded", "generous", "scant", "piled"})
"""What a measure is that is not level."""


@lru_cache(maxsize=512)  # several rules ask the same of one sentence
def into_oven(low: str) -> re.Match[str] | None:
    """Where words in lower case say that something goes into the oven."""
    if "oven" not in low and "bake" not in low and "roast" not in low:
        return None
    return _INTO_OVEN.search(low)


@lru_cache(maxsize=512)
def heats_oven(low: str) -> re.Match[str] | None:
    """Where they say that the oven is lit, or set anew; a Dutch oven is a pot."""
    return _HEAT_OVEN.search(low) if "oven" in low or "heat" in low else None


@lru_cache(maxsize=512)
def cooks(low: str) -> re.Match[str] | None:
    """Where they put something in heat."""
    return COOKING.search(low) or into_oven(low)


@lru_cache(maxsize=512)
def waits(low: str) -> bool:
    """Whether they let something stand or rise."""
    return WAITING.search(low) is not None


def aside(low: str) -> bool:
    """Whether they are of what goes on beside something else, which adds nothing to the whole."""
    return ("while" in low or "time" in low) and _ASIDE.search(low) is not None


TIN_WORD = re.compile(
    r"\b(?:cake tin|cake pan|loaf tin|loaf pan|tart tin|flan tin|pie dish|pie tin|pie plate|brownie tin"
    r"|traybake tin|springform(?: tin| pan)?|baking dish|gratin dish|sandwich tins?|square tin"
    r"|round tin|ring mould|ring tin|bundt tin|tube pan|baking tin)\b",
    re.IGNORECASE,
)
"""Vessels whose size decides whether the dish works."""


def listed(words: list[str], most: int = 4) -> str:
    """``a, b and c``; the rest is counted.

    >>> listed(["flour", "salt", "oil"])
    'flour, salt and oil'
    """
    if len(words) > most:
        words = [*words[: most - 1], f"{len(words) - most + 1} more"]
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"


def minutes(seconds: float) -> str:
    """Seconds as a cook says them.

    >>> minutes(5400), minutes(600)
    ('1 h 30 min', '10 min')
    """
    whole = round(seconds / 60)
    hours, rest = divmod(whole, 60)
    if not hours:
        return f"{rest} min"
    return f"{hours} h {rest} min" if rest else f"{hours} h"


def near(value: float) -> str:
    """A figure to three digits at most, without a tail of noughts.

    >>> near(87.64), near(1240.0), near(2.5)
    ('88', '1240', '2.5')
    """
    return f"{value:.0f}" if value >= 20 else f"{value:.2g}"
