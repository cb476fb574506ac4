"""An ingredient stands in the list, and no step of the method names it, in brackets or in words.

Name it in brackets in the step where it goes in, or take it out of the list. What is listed "to
serve" or "optional" need not be named.
"""

from __future__ import annotations

from collections.abc import Iterator

from sitegen.dish import LedgerRow
from sitegen.reading.naming import tokens
from sitegen.readthrough.rule import Finding, Reading, shared
from sitegen.readthrough.words import UNTAKEN


def check(reading: Reading) -> Iterator[Finding]:
    """Lines that the method forgets."""
    if not reading.sentences or reading.takes_everything:
        return
    said = reading.words
    for row in reading.rows:
        line = row.line
        if row.index in reading.mentions or any(UNTAKEN.match(r) for r in line.remarks):
            continue
        if names_of(row, reading) & said or any(
            _purpose(r) & _openings(reading) for r in line.remarks
        ):
            continue
        name = line.called or line.food
        yield reading.about_line(
            row.index,
            f"{name}: it is in the list, and no step uses it",
            f"write [{name}] in the step where it goes in, or take the line out",
        )


@shared
def _openings(reading: Reading) -> frozenset[str]:
    """The method's words, cut to what "grease" and "greasing" have in common."""
    return frozenset(word[:5] for word in reading.words)


def _purpose(remark: str) -> set[str]:
    """``for greasing`` is met by a step that says "grease"."""
    return {word[:5] for word in tokens(remark)[1:]} if remark.startswith("for ") else set()


def names_of(row: LedgerRow, reading: Reading) -> set[str]:
    """The words by which a cook may mean a line: its nouns, its alternatives', and its kind's."""
    line = row.line
    named: set[str] = set()
    for words in (line.called, line.food, line.whole, *(a.food for a in line.alternatives)):
        found = tokens(words)
        named |= set(found[-1:])
        named |= {w for w in found if w not in _ADJECTIVES and len(w) > 3}
    named |= KINDS.get(row.aisle, frozenset())
    food = reading.foods[row.index]
    for kind in food.classes if food else ():
        named |= KINDS.get(kind, frozenset())
    if named & {"salt", "pepper"}:
        named |= {"season", "seasoning"}
    return named


# What a step may call a food by its aisle or class: "drain the pasta" for the list's spaghetti.
KINDS = {
    "pasta": frozenset({"pasta", "noodle"}),
    "herbs": frozenset({"herb"}),
    "spices": frozenset({"spice", "seasoning"}),
    "nuts": frozenset({"nut", "seed"}),
    "fish": frozenset({"fish", "fillet", "seafood", "shellfish"}),
    "meat": frozenset({"meat", "joint"}),
    "poultry": frozenset({"bird", "meat"}),
    "dairy": frozenset({"cheese"}),
    "vegetables": frozenset({"vegetable", "veg", "leaf", "mushroom"}),
    "fruit": frozenset({"fruit", "berry"}),
    "pulses": frozenset({"bean", "pulse", "lentil"}),
    "grains": frozenset({"grain", "rice"}),
    "baking": frozenset({"pastry", "chocolate"}),
    "bakery": frozenset({"bread", "bun", "roll"}),
    "sweet": frozenset({"syrup"}),
}

_ADJECTIVES = frozenset(
    "fine plain white black brown green yellow light dark large small whole double single fresh dried "
    "ground caster icing golden strong baking sweet sour olive rapeseed sunflower vegetable chicken "
    "beef fish lemon orange lime tomato smoked unsalted salted frozen tinned flat leaf wild hot cold "
    "warm ripe waxy floury cream bean soda pearl rolled extra virgin mature cooking from with and".split()
)
