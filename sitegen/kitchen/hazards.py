"""Ways of cooking that need a caution whatever the food: fermenting, deep-frying, pressure.

Each question is asked of the recipe and of the method in lower case, and is first asked by a plain
word, so that a recipe without it costs nothing.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from sitegen.kitchen.rows import Worked
from sitegen.reading.recipe import Recipe

_FERMENTED = re.compile(
    r"\b(?:ferment(?!ed black)\w*|sauerkraut|kraut|kimchi|lacto\w*|until (?:it|they) sours?)\b"
)
_FERMENTED_WORDS = ("ferment", "kraut", "kimchi", "lacto", "sour")
"""One of them stands in all that the expression finds."""
_A_DAY = 24 * 60  # minutes
_DEEP = re.compile(r"\bdeep(?:[- ]fat)?[- ]fr(?:y|ie[ds]|ying|yer)\b")
_FRIES = re.compile(r"\bfr(?:y|ie[ds]|ying)\b")
_A_POT_OF_OIL = 450
"""Grams of oil and more are a bath, not a film: about half a litre."""
_PRESSURE = re.compile(
    r"\bpressure[- ](?:cook\w*|canner)|\b(?:high|low|full) pressure\b|\bup to pressure\b"
)


def ferments(recipe: Recipe, worked: Sequence[Worked], method: str) -> bool:
    """Whether vegetables or fruit sour in salt for a day or more. Bread's own ferment is baked."""
    said = "\n".join((recipe.title, recipe.summary, *recipe.tags, recipe.intro)).lower()
    said = f"{said}\n{method}"
    if not any(word in said for word in _FERMENTED_WORDS) or not _FERMENTED.search(said):
        return False
    foods = [w.found.food for w in worked if w.found.food is not None]
    if not any("salt" in f.name for f in foods) or any("raw-flour" in f.traits for f in foods):
        return False
    rest = recipe.times.rest or 0
    return rest >= _A_DAY or bool(
        re.search(r"\b(?:\d+|two|three|several|few|a) (?:days|weeks?)\b", method)
    )


def hot_oil(worked: Sequence[Worked], method: str) -> bool:
    """Whether food is fried in a pot of oil."""
    if "fr" not in method:
        return False
    if "deep" in method and _DEEP.search(method):
        return True
    for w in worked:
        food, grams = w.found.food, w.row.grams
        if food is None or not food.name.endswith((" oil", "lard", "dripping")):
            continue
        if any(_DEEP.search(r.lower()) for r in w.row.line.remarks):
            return True
        if grams is not None and float(grams) >= _A_POT_OF_OIL and _FRIES.search(method):
            return True
    return False


def pressure_cooks(recipe: Recipe, method: str) -> bool:
    """Whether a pressure cooker is used."""
    if "pressure" in method and _PRESSURE.search(method):
        return True
    return any("pressure cooker" in tool.lower() for tool in recipe.tools)
