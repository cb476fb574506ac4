"""The batch does not fit into the tin.

Its weight is taken as its volume, a gram to the millilitre, which is low for batters and right for
liquids; a tin without a depth is taken as 7 cm deep, or 5 cm if it is oblong. Name a larger tin, or
two, and write its depth: "20 cm round tin, 8 cm deep".
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from sitegen.dish import Tin
from sitegen.readthrough.rule import Finding, Reading
from sitegen.readthrough.words import near

_DEPTH = {"oblong": 5.0}
_MANY = re.compile(r"^\W*(?P<n>two|three|four|[2-4]\s*[x×]?)\s(?!cm|mm|in\b)", re.IGNORECASE)
_NUMBERS = {"two": 2, "three": 3, "four": 4}
_SPARE = 1.1


def check(reading: Reading) -> Iterator[Finding]:
    """Batches that would run over."""
    tins = reading.dish.tins
    if not tins or not _baked_in(reading):
        return
    batch = reading.dish.contents.batch_grams
    raw = sum(float(r.grams) for r in reading.rows if r.grams is not None and not r.optional)
    most = max(batch or 0.0, 0.0) if reading.recipe.weighs else raw
    holds = sum(volume(t) for t in tins)
    if not most or most <= holds * _SPARE:
        return
    tin = tins[0]
    depth = "" if tin.depth else f" (taken as {_DEPTH.get(tin.shape, 7.0):g} cm deep)"
    yield reading.about_field(
        "tools",
        f"the batch weighs {near(most)} g, and the {tin.text}{depth} holds {near(holds)} ml to the brim",
        "name a larger tin or a second one, or write its depth",
    )


def volume(tin: Tin) -> float:
    """Millilitres to the brim, of all tins that the words count."""
    depth = float(tin.depth) if tin.depth else _DEPTH.get(tin.shape, 7.0)
    found = _MANY.match(tin.text)
    count = 1
    if found:
        word = found["n"].lower().strip(" x×")
        count = _NUMBERS.get(word) or int(word)
    return float(tin.area) * depth * count


def _baked_in(reading: Reading) -> bool:
    """A tray that dough stands free on holds more than its rim; that is not this rule's matter."""
    return not all(
        re.search(r"\b(?:tray|sheet|roasting)\b", t.text, re.IGNORECASE) for t in reading.dish.tins
    )
