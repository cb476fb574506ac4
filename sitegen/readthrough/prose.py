"""The sections beside the method, searched sentence by sentence."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from sitegen.reading.source import Place
from sitegen.readthrough.core_too_low import traits
from sitegen.readthrough.rule import Reading

_ANIMAL = frozenset("raw-poultry raw-mince raw-cut raw-fish raw-shellfish raw-egg".split())
_FLESH = frozenset("meat poultry fish shellfish".split())
_LEFTOVERS = ("main", "soup", "breakfast", "starter")
NUMBER = r"(?P<n>\d+|an?|one|two|three|four|five|six|seven|eight|nine|ten|twelve)"
_VALUES = {
    w: i for i, w in enumerate("one two three four five six seven eight nine ten".split(), 1)
}


@dataclass(frozen=True, slots=True)
class Said:
    """A sentence of the file's text outside the fields, with where it begins."""

    text: str
    low: str
    offset: int

    def place(self, reading: Reading, start: int) -> Place:
        """Where a word of it stands in the file."""
        return reading.source.place(self.offset + start)


def said(reading: Reading) -> Iterator[Said]:
    """Every sentence of the Markdown, method and sections alike."""
    _, text = reading.body
    base = len(reading.source.text) - len(text)
    for found in re.finditer(r"[^.;\n]*(?:\.(?!\s|$)[^.;\n]*)*", text):
        if found.group().strip():
            yield Said(found.group(), found.group().lower(), base + found.start())


def number(text: str) -> int:
    """``3``, ``three`` or ``a``."""
    return int(text) if text.isdigit() else _VALUES.get(text, 12 if text == "twelve" else 1)


def perishable(reading: Reading) -> bool:
    """Whether leftovers of this spoil within days: cooked dishes, and all with meat, fish or egg.

    What is baked dry with an egg in it, a cake or a biscuit, is not among them.
    """
    course = reading.recipe.course.lower()
    found = frozenset(t for ts in traits(reading).values() for t in ts) & _ANIMAL
    flesh = reading.dish.contents.classes & _FLESH
    if course in ("baking", "bread", "cake", "biscuits", "preserve"):
        found -= {"raw-egg"}
    return bool(found or flesh or course in _LEFTOVERS)
