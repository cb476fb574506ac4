"""A recipe meant for babies has honey in it.

Leave the honey out, or say in the recipe that it is for children over 12 months. Honey can hold the
spores of infant botulism, which cooking in a kitchen does not kill (CDC; UK NHS).
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from sitegen.readthrough.core_too_low import all_traits, traits
from sitegen.readthrough.rule import Finding, Reading

_BABIES = re.compile(
    r"\b(?:babies|weaning|infants?|baby(?:'s|’s)? (?:food|pur[ée]e|porridge|cereal|snacks?|led)"
    r"|baby-led|for (?:a |your |the )?baby|first (?:foods?|tastes?|spoonfuls?))\b"
)
_OLDER = re.compile(
    r"\b(?:over|after|from|above)\b[^.]{0,20}\b(?:12 months|twelve months|(?:one|1|a) year|first birthday)\b"
    r"|\b(?:12|18|24) months (?:and|or) (?:over|older|up)\b|\btoddlers?\b"
)


def check(reading: Reading) -> Iterator[Finding]:
    """Honey under a year of age."""
    if "honey" not in all_traits(reading):
        return
    recipe = reading.recipe
    words = {recipe.course.lower(), *(tag.lower() for tag in recipe.tags)}
    said = f"{recipe.title}\n{recipe.summary}\n{recipe.intro}".lower()
    if not words & {"baby", "babies", "weaning", "infant", "infants"} and not _BABIES.search(said):
        return
    if _OLDER.search(said) or _OLDER.search(reading.body_low):
        return
    for index, found in traits(reading).items():
        if "honey" in found:
            yield reading.about_line(
                index,
                "honey is not for children under 12 months, and this recipe is meant for babies",
                "leave it out, or write that the dish is for children over 12 months",
            )
