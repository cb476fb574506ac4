"""A step adds a food that the list of ingredients does not have.

Add a line to the list, with its amount, and name it in brackets. Water straight from the tap, and
names of what earlier steps made (dough, sauce, mixture), are left alone.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from sitegen.reading.naming import tokens
from sitegen.reading.recipe import Mention
from sitegen.readthrough.rule import Finding, Reading, shared

_ADDS = re.compile(
    r"\b(?:add|stir in|fold in|beat in|whisk in|pour in|mix in|tip in|rub in|melt|scatter over"
    r"|scatter with|sprinkle with|sprinkle over|drizzle with|season with|top with|brush with|dust with"
    r"|grease with|crumble over|dot with)\s+(?P<what>[^,.;:()]{3,60})"
)
_LINKS = ("add", " in", "over", "with", "melt")  # one is in every phrase that the pattern knows
_SPLIT = re.compile(r"\s+(?:and|with|then|to|into|in|on|over|for|until|from|at|or|plus)\b\s*")
_LEAD = re.compile(
    r"^(?:(?:the|a|an|some|more|plenty of|a little|a splash of|a pinch of|a knob of|a handful of"
    r"|half|remaining|rest of|chopped|grated|sliced|melted|beaten|warm|cold|hot|fresh|crushed|soft"
    r"|finely|roughly|freshly|ground)\s+)+"
)
# Names of what a kitchen makes on the way, or of whole kinds of food, say nothing of a list.
_GENERAL = frozenset(
    "water ice salt dough batter sauce mixture stock broth soup filling dressing custard pastry bread "
    "cream icing syrup gravy pasta noodle rice bean pea lentil meat fish cheese herb spice nut seed "
    "fruit vegetable mushroom berry oil fat sugar flour liquid juice zest yolk white egg leaf stem "
    "stalk crumb crust topping marinade paste puree purée mash cake sponge base jam brine pickle "
    "seasoning pepper cooking glaze butter potato onion salad wine vinegar milk".split()
)
_STILL_A_FOOD = frozenset(
    "butter milk cream egg sugar flour onion potato vinegar wine cheese oil".split()
)


def check(reading: Reading) -> Iterator[Finding]:
    """Foods that steps add and the list lacks."""
    told: set[str] = set()
    for sentence in reading.sentences:
        if not any(map(sentence.low.__contains__, _LINKS)):
            continue
        marked: list[tuple[int, int]] | None = None
        for found in _ADDS.finditer(sentence.low):
            at = found.start("what")
            if marked is None:
                marked = [(p.start, p.start + len(p.piece.words)) for p in sentence.pieces
                          if isinstance(p.piece, Mention)]  # fmt: skip
            for raw in _SPLIT.split(found["what"]):
                start = sentence.low.find(raw, at)
                at = max(at, start)
                words = _LEAD.sub("", raw).strip()
                if not words or any(a < start + len(raw) and start < b for a, b in marked):
                    continue
                stems = tokens(words)
                if not stems or len(stems) > 3 or not reading.listed.isdisjoint(stems):
                    continue
                if stems[-1] in _GENERAL and stems[-1] not in _STILL_A_FOOD:
                    continue
                if words in told or reading.larder.get(words) is None:
                    continue
                if not _known(reading).isdisjoint(stems):
                    continue
                told.add(words)
                yield reading.about_words(
                    sentence,
                    sentence.text[start : start + len(raw)].strip(),
                    f"step {sentence.step.number} adds {words}, which the list does not have",
                    f"add a line for it to the ingredients, and write [{words}] here",
                )


@shared
def _known(reading: Reading) -> set[str]:
    """Every word by which the list, its recipes and the parts may be meant."""
    words = set(reading.listed)
    for row, food in zip(reading.rows, reading.foods, strict=True):
        words.update(tokens(row.larder_name))
        for also in food.also if food else ():
            words.update(tokens(also))
    for name in reading.part_names:
        words.update(tokens(name))
    words.update(tokens(reading.recipe.title))
    if reading.recipe.makes:
        words.update(tokens(reading.recipe.makes.noun))
    return words
