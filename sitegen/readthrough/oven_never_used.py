"""A step heats the oven, and nothing goes into it afterwards.

Take the sentence out, or say in the method what is baked or roasted.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from sitegen.readthrough.rule import Finding, Reading
from sitegen.readthrough.words import heats_oven, into_oven

_OTHER_USES = (
    "toast",
    "warm",
    "keep",
    "dry",
    "bake",
    "roast",
    "oven",
    "grill",
    "rack",
    "shelf",
    "tray",
)


_IN_ALREADY = re.compile(
    r"\b(?:jars?|bottles?|pot|pan|dish|stone|steel|tins?|trays?|plates?|casserole|skillet|them|it)\b"
    r"[^.;]{0,30}\bin the oven\b"
)
"""Jars, a baking stone: what is heated stands in the oven."""


def check(reading: Reading) -> Iterator[Finding]:
    """An oven heated for nothing."""
    heated = None
    for sentence in reading.sentences:
        heats = "oven" in sentence.low and heats_oven(sentence.low)
        rest = sentence.low
        if heats:
            heated = heated or sentence
            rest = sentence.low[heats.end() :]
            if _IN_ALREADY.search(sentence.low):
                return
        if heated and (into_oven(rest) or any(map(rest.__contains__, _OTHER_USES))):
            return
        if heated and heated is not sentence and any(h.use == "oven" for h in sentence.heats):
            return  # "turn up to 200 °C": something stands in it
    if heated is not None:
        found = heats_oven(heated.low)
        assert found is not None
        words = heated.text[found.start() : found.end()]
        yield reading.about_words(
            heated,
            words,
            f"step {heated.step.number} heats the oven, and no step puts anything into it",
            "take the sentence out, or say what is baked",
        )
