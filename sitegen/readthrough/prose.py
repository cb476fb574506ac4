"""The sections beside the method, searched sentence by sentence."""

from __future__ import annotations

import re
from typing import NamedTuple

from sitegen.reading.courses import kind_of
from sitegen.reading.source import Place
from sitegen.readthrough.core_too_low import all_traits
from sitegen.readthrough.rule import Reading, shared

_ANIMAL = frozenset(
    "raw-poultry raw-mince raw-game raw-offal raw-cut raw-fish raw-shellfish raw-egg".split()
)
_FLESH = frozenset("meat poultry fish shellfish".split())
_LEFTOVERS = ("main", "soup", "breakfast", "starter", "side", "baby", "lunch", "dinner", "supper")
NUMBER = r"(?P<n>\d+|an?|one|two|three|four|five|six|seven|eight|nine|ten|twelve)"
_VALUES = {
    w: i for i, w in enumerate("one two three four five six seven eight nine ten".split(), 1)
}


class Said(NamedTuple):
    """A sentence of the file's text outside the fields, with where it begins."""

    text: str
    low: str
    offset: int

    def place(self, reading: Reading, start: int) -> Place:
        """Where a word of it stands in the file."""
        return reading.source.place(self.offset + start)


_SENTENCE = re.compile(r"(?:[^.;\n]+|\.(?!\s|$))+")


@shared
def said(reading: Reading) -> tuple[Said, ...]:
    """Every sentence of the Markdown, method and sections alike."""
    _, text = reading.body
    base = len(reading.source.text) - len(text)
    sentences = []
    for found in _SENTENCE.finditer(text):
        words = found.group()
        if not words.isspace():
            sentences.append(Said(words, words.lower(), base + found.start()))
    return tuple(sentences)


def number(text: str) -> int:
    """``3``, ``three`` or ``a``."""
    return int(text) if text.isdigit() else _VALUES.get(text, 12 if text == "twelve" else 1)


@shared
def perishable(reading: Reading) -> bool:
    """Whether leftovers of this spoil within days: cooked dishes, and all with meat, fish or egg.

    What is baked dry with an egg in it, a cake or a biscuit, is not among them.
    """
    course = kind_of(reading.recipe.course)
    found = all_traits(reading) & _ANIMAL
    flesh = reading.dish.contents.classes & _FLESH
    if course in ("baking", "bread", "cake", "biscuits", "preserve"):
        found -= {"raw-egg"}
    return bool(found or flesh or course in _LEFTOVERS)
