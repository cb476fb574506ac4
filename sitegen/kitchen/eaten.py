"""What of an ingredient's weight is eaten: bones, peel and shells off, frying oil left in the pan."""

from __future__ import annotations

import re
from typing import Final

from sitegen.kitchen.rows import Worked
from sitegen.larder.food import Food
from sitegen.reading.recipe import Mention, Recipe

# What is bought without its bones has no refuse, whatever the table's own sample had.
_BONED: Final = re.compile(
    r"\b(?:boneless|boned|fillets?|filleted|shelled|minced?|mince)\b", re.IGNORECASE
)
# Said before the food, these are how it was when it was weighed: "300 g peeled carrots". Said after
# it they are work still to do, and the refuse is in the weight: "300 g carrots, peeled".
_TRIMMED: Final = re.compile(
    r"\b(?:peeled|pitted|stoned|trimmed|prepared|cored|hulled|podded|cleaned|shelled|chopped|sliced"
    r"|diced|grated|shredded|cooked|leaves)\b",
    re.IGNORECASE,
)
_IN_SKIN: Final = re.compile(
    r"\b(?:unpeeled|scrubbed|skins? on|in (?:their|its) skins?|whole, with peel)\b", re.IGNORECASE
)
_IN_SHELL: Final = re.compile(r"\b(?:in (?:the|their|its) shells?|unshelled)\b", re.IGNORECASE)
# Refuse of these is the parings (USDA SR28, refuse description of 11352), but kitchens often leave
# the skin on: it is taken off only where the recipe says "peel".
_PEEL_OPTIONAL: Final = re.compile(r"\bpotato(?:es)?\b", re.IGNORECASE)
_PEEL: Final = re.compile(r"\b(?<!un)peel(?:ed|ing)?\b", re.IGNORECASE)


def edible(worked: Worked, food: Food, recipe: Recipe) -> tuple[float, list[str]]:
    """The share of the weight that is eaten, and what was taken off, in words."""
    notes: list[str] = []
    share = 1.0
    eaten = worked.row.line.eaten
    if worked.weighed.as_bought and food.refuse and _has_refuse(worked, food, recipe):
        share *= float(1 - food.refuse)
        notes.append(f"{float(food.refuse):.0%} refuse taken off")
    if eaten.numerator != eaten.denominator:
        share *= float(eaten)
        notes.append(f"{float(eaten):.0%} eaten (the author's figure)")
    return share, notes


def _has_refuse(worked: Worked, food: Food, recipe: Recipe) -> bool:
    line = worked.row.line
    if "egg" in food.traits or _BONED.search(f"{line.text} {food.name}"):
        return False
    if food.aisle in ("nuts", "herbs") and not _IN_SHELL.search(line.text):
        return False  # recipes weigh kernels and picked leaves: common practice
    if _TRIMMED.search(line.food) or _IN_SKIN.search(line.text):
        return False
    return not _PEEL_OPTIONAL.search(food.name) or _is_peeled(worked, recipe)


def _is_peeled(worked: Worked, recipe: Recipe) -> bool:
    named = (
        step.text
        for step in recipe.steps
        if any(isinstance(p, Mention) and p.line == worked.row.index for p in step.pieces)
    )
    return any(_PEEL.search(text) for text in (worked.row.line.text, *named))
