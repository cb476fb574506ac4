"""The words around a food: remarks, states, sizes, modifiers, and what stands in for an amount."""

from __future__ import annotations

import re

from sitegen.kitchen.units import UNITS

# A length of time after "for" belongs to a preparation: "soaked for 8 hours".
_TIME = r"[^,;()]*\b(?:minutes?|mins?|hours?|hrs?|days?|nights?|weeks?|months?|moments?)\b"

# Of the same food: "plus 1 tbsp for the tin". "Plus 2 eggs for the glaze" is a second ingredient.
_UNIT_WORDS = "|".join(
    sorted((re.escape(f) for unit in UNITS.values() for f in unit.forms), key=len, reverse=True)
)

REMARK = re.compile(
    r"(?:^|(?<=[\s,;]))(?P<remark>"
    r"(?:or (?:more )?)?to taste"
    r"|(?:enough )?to (?:serve|garnish|finish|decorate|dust|glaze|cover|scatter|brush|coat|top"
    r"|drizzle|sprinkle)\b[^,;]*"
    r"|optional|divided"
    r"|(?:or )?as (?:needed|required)|if (?:needed|required|liked|you like|using|wanted)"
    r"|plus (?:a (?:little|bit) |some )?(?:extra|more)\b[^,;]*"
    rf"|plus (?:about )?(?:an? |some |[\d¼-¾⅐-⅞./ ]+)(?:(?:{_UNIT_WORDS}) )?for\b[^,;]*"
    rf"|for (?!\d)(?!{_TIME})[^,;]+"
    r")(?!\w)",
    re.IGNORECASE,
)
"""What may stand after the food: each begins a remark that runs to the end of its phrase."""

_STATES = (
    "chopped sliced diced minced grated packed sifted melted drained undrained whole ground crushed "
    "shredded mashed cubed halved quartered cooked raw dry peeled pitted stoned crumbled flaked "
    "toasted softened cold loose unsifted julienned"
)
STATE = re.compile(r"\b(" + "|".join(_STATES.split()) + r")\b", re.IGNORECASE)
"""Words that may choose a food's measure."""

_WORD = re.compile(r"\w+")
_STATE_WORDS = frozenset(_STATES.split())


def states_in(text: str) -> list[str]:
    """The words of ``text`` that :data:`STATE` finds, in small letters.

    >>> states_in("onions, finely chopped and well-drained")
    ['chopped', 'drained']
    """
    # Looking words up is many times faster than trying them all at every letter.
    if not text.isascii():
        return [word.lower() for word in STATE.findall(text)]
    return [word for word in _WORD.findall(text.lower()) if word in _STATE_WORDS]


SIZE = re.compile(
    r"(?P<size>extra[- ]large|large|medium(?:[- ]sized)?|small|jumbo),?\s+(?=\w)", re.IGNORECASE
)

_MODIFIERS = (
    "boneless skinless seedless large small medium big ripe firm fresh hot cold warm good best floury "
    "waxy thick thin young tender sweet sour crisp soft long short unsalted salted raw lean dry "
    "unwaxed organic plump juicy mild mature sharp strong unsweetened lukewarm leftover plain "
    "free-range skin-on bone-in day-old low-fat full-fat very not too fairly and but"
)
MODIFIERS_ONLY = re.compile(
    r"\s*(?:\b(?:" + "|".join(_MODIFIERS.split()) + r")\b[\s-]*)+", re.IGNORECASE
)
"""Words that are no food by themselves: the comma after them belongs to the name."""

PART_OF = re.compile(
    r"(?:the )?(?P<what>(?:finely |coarsely )?(?:grated )?"
    r"(?:juice and zest|zest and juice|juice|zest|rind|peel|leaves|yolks?|whites?))\s+"
    r"(?:of|from)\s+(?=\S)",
    re.IGNORECASE,
)
"""``juice of 1 lemon``: a part, measured in whole ones."""

EITHER = re.compile(
    r"\s+or\s+(?=(?:about\s+|~\s*)?(?:\d|[¼½¾⅓⅔⅛]|half\s|an?\s(?!few\b|little\b|bit\b|mix(?:ture)?\b|combination\b|blend\b)"
    r"|(?:one|two|three|four|five|six)\s))",
    re.IGNORECASE,
)
"""``or`` before another amount: what follows is a choice of its own."""

DASH = re.compile(r"\s+[-–—]\s+(?=[^\W\d])")
"""A dash between words does the work of a comma."""


def singular(word: str) -> str:
    """The singular of a food's last word, well enough for citrus and eggs.

    >>> [singular(w) for w in ("cherries", "tomatoes", "lemons", "cress")]
    ['cherry', 'tomato', 'lemon', 'cress']
    """
    word = word.strip()
    if word.endswith("ies"):
        return word[:-3] + "y"
    if word.endswith(("oes", "shes", "ches")):
        return word[:-2]
    if word.endswith("s") and not word.endswith("ss"):
        return word[:-1]
    return word
