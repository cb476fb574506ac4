"""The corpus of ingredient lines: its notation, read apart from the program's own reader.

``lines.txt`` holds one line a row, ``WORDS => AMOUNT | FOOD | field=value | …``; a row that begins
with ``or =>`` says what the alternative of the row above is. Every field that a row does not name is
expected to be empty. ``broken.txt`` holds lines that must be problems, each with a caret under the
place and the rule's name after it.

An amount is ``~2..3 tbsp``: ``~`` for about, ``..`` for a range; ``+`` joins terms, ``@`` gives the
size of one packet, ``<large>`` the size of a counted thing, ``-`` stands for none.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from fractions import Fraction
from pathlib import Path

from sitegen.reading.recipe import Amount, IngredientLine, Measure

HERE = Path(__file__).parent

SPACES = {"{nbsp}": "\u00a0", "{thin}": "\u2009", "{nnbsp}": "\u202f", "{tab}": "\t"}

Said = tuple[object, ...]
"""A measure without its text: terms, each, about, size, apiece."""


@dataclass(frozen=True)
class Row:
    """One line and what a cook means by it."""

    number: int
    words: str
    amount: Said | None
    food: str
    fields: dict[str, str]
    alternatives: list[Row] = field(default_factory=list)


def _amount(text: str) -> Amount:
    number, _, unit = text.strip().partition(" ")
    low, _, high = number.partition("..")
    return Amount(Fraction(low), unit.strip(), Fraction(high) if high else None)


def measure(text: str) -> Said | None:
    """A measure in the corpus's notation."""
    text = text.strip()
    if text == "-":
        return None
    about = text.startswith("~")
    text = text.removeprefix("~")
    apiece = text.endswith(" each")
    text = text.removesuffix(" each")
    sized = re.search(r"<([^>]+)>", text)
    size = sized[1] if sized else ""
    text = re.sub(r"\s*<[^>]+>", "", text)
    terms, _, each = text.partition("@")
    return (
        tuple(_amount(t) for t in terms.split(" + ")),
        _amount(each) if each else None,
        about,
        size,
        apiece,
    )


def said(found: Measure | None) -> Said | None:
    """What a measure that was read says, in the same form."""
    if found is None:
        return None
    return (found.terms, found.each, found.about, found.size, found.apiece)


def rows() -> list[Row]:
    """Every row of ``lines.txt``."""
    found: list[Row] = []
    for number, text in enumerate((HERE / "lines.txt").read_text("utf-8").splitlines(), 1):
        if not text.strip() or text.startswith("#"):
            continue
        words, _, rest = text.partition("=>")
        amount, food, *fields = (piece.strip() for piece in rest.split(" | "))
        for name, char in SPACES.items():
            words = words.replace(name, char)
        row = Row(
            number,
            words.rstrip(" "),
            measure(amount),
            food,
            dict(piece.split("=", 1) for piece in fields),
        )
        if words.strip() == "or":
            found[-1].alternatives.append(row)
        else:
            found.append(row)
    return found


def expected(row: Row) -> dict[str, object]:
    """Every field of the line that ``row`` asks for."""
    fields = dict(row.fields)

    def listed(name: str) -> list[str]:
        return [x.strip() for x in fields.pop(name, "").split(";") if x.strip()]

    wanted: dict[str, object] = {
        "amount": row.amount,
        "food": row.food,
        "preparation": fields.pop("prep", ""),
        "remarks": listed("rem"),
        "measures": [measure(m) for m in listed("also")],
        "states": sorted(fields.pop("st", "").split()),
        "reference": fields.pop("ref", ""),
        "part_of": fields.pop("part", ""),
        "whole": fields.pop("whole", ""),
        "alternatives": [expected(other) for other in row.alternatives],
    }
    assert not fields, f"lines.txt:{row.number}: what is {fields}?"
    return wanted


def actual(line: IngredientLine) -> dict[str, object]:
    """The same fields of a line that was read."""
    return {
        "amount": said(line.amount),
        "food": line.food,
        "preparation": line.preparation,
        "remarks": list(line.remarks),
        "measures": [said(m) for m in line.measures],
        "states": sorted(line.states),
        "reference": line.reference,
        "part_of": line.part_of,
        "whole": line.whole,
        "alternatives": [actual(other) for other in line.alternatives],
    }


@dataclass(frozen=True)
class Broken:
    """A line that can't be understood: the rule, and the column from 1."""

    number: int
    words: str
    column: int
    rule: str


def broken() -> list[Broken]:
    """Every row of ``broken.txt``; a line's text begins at the first column after ``| ``."""
    found: list[Broken] = []
    words = ""
    for number, text in enumerate((HERE / "broken.txt").read_text("utf-8").splitlines(), 1):
        if text.startswith("| "):
            words = text[2:]
        elif "^" in text:
            rule = text.rpartition("^")[2].strip()
            found.append(Broken(number, words, text.index("^") - 1, rule))
    return found
