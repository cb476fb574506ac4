"""Reading the larder's hand-made pipe tables: rows with their place, and every mistake found.

A food table has one food a line, ``#`` for comments::

    name | ndb | also | contains | is | aisle | traits
    plain flour | 20081 | flour; all-purpose flour | wheat | gluten | baking | spooned raw-flour

`ndb` is the number in USDA SR28, `also` are synonyms split by ``;``, the other cells are words of
the lists in `vocabulary`, split by blanks; ``?milk`` says that it depends on the maker. A name or
synonym belongs to one food over all tables. A word that cooks use for two foods that differ
(cream, chickpeas, kidney beans) is given to neither, so that the look-up asks.
"""

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from difflib import get_close_matches
from pathlib import Path
from typing import Final

from sitegen.larder.vocabulary import AISLES, ALLERGEN_ALIASES, ALLERGENS, CLASSES, TRAITS

_FOOD_CELLS: Final = 7
_MEASURE_CELLS: Final = 4


@dataclass(frozen=True, slots=True)
class Place:
    """A line of a table, as the author of it sees it."""

    file: str
    line: int

    def __str__(self) -> str:
        return f"{self.file}:{self.line}"


@dataclass(frozen=True, slots=True)
class Mistake:
    """Something wrong in a table, and how to mend it."""

    place: Place
    message: str

    def __str__(self) -> str:
        return f"{self.place}: {self.message}"


@dataclass(frozen=True, slots=True)
class Row:
    """One food as the table has it; words that start with ? are in the `may`/`unsure` sets."""

    place: Place
    name: str
    number: str
    also: tuple[str, ...]
    contains: frozenset[str]
    may_contain: frozenset[str]
    classes: frozenset[str]
    unsure_classes: frozenset[str]
    aisle: str
    traits: frozenset[str]


@dataclass(frozen=True, slots=True)
class MeasureRow:
    """One household measure that SR28 lacks."""

    place: Place
    name: str
    amount: str
    unit: str
    state: str
    grams: str
    source: str


def lines(path: Path) -> Iterator[tuple[Place, list[str]]]:
    """The rows of a pipe table, cells trimmed, comments and blank lines left out."""
    for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), start=1):
        text = line.strip()
        if text and not text.startswith("#"):
            yield Place(path.name, number), [cell.strip() for cell in text.split("|")]


def unknown_word(word: str, kind: str, known: Iterable[str]) -> str:
    """A message about a word that is not in its list, with the nearest one that is."""
    close = get_close_matches(word, sorted(known), n=1, cutoff=0.6)
    hint = f"; did you mean {close[0]!r}?" if close else f"; known: {' '.join(sorted(known))}"
    return f"unknown {kind} {word!r}{hint}"


def words_of(
    cell: str, kind: str, known: frozenset[str], problems: list[str]
) -> tuple[frozenset[str], frozenset[str]]:
    """The sure words of a cell and those marked with "?"."""
    sure: set[str] = set()
    unsure: set[str] = set()
    for word in cell.split():
        bare = word.removeprefix("?")
        bare = ALLERGEN_ALIASES.get(bare, bare) if kind == "allergen" else bare
        if bare not in known:
            problems.append(unknown_word(bare, kind, known))
        elif word.startswith("?"):
            unsure.add(bare)
        else:
            sure.add(bare)
    for word in sorted(sure & unsure):
        problems.append(f"{kind} {word!r} is there both as sure and as unsure")
    return frozenset(sure), frozenset(unsure)


def read_foods(path: Path, mistakes: list[Mistake]) -> list[Row]:
    """The rows of one food table; what is wrong with them is added to `mistakes`."""
    rows = []
    for place, cells in lines(path):
        problems: list[str] = []
        if len(cells) != _FOOD_CELLS:
            mistakes.append(
                Mistake(
                    place,
                    f"{len(cells)} cells; expected {_FOOD_CELLS}: "
                    "name | ndb | also | contains | is | aisle | traits",
                )
            )
            continue
        name, number, also, contains, classes, aisle, traits = cells
        if not name:
            problems.append("the name is empty")
        if not re.fullmatch(r"\d{5}", number):
            problems.append(f"ndb {number!r} is not a 5-digit SR28 number")
        if aisle not in AISLES:
            problems.append(unknown_word(aisle, "aisle", AISLES))
        sure, may = words_of(contains, "allergen", ALLERGENS, problems)
        is_, is_unsure = words_of(classes, "class", CLASSES, problems)
        trait_words, odd = words_of(traits, "trait", TRAITS, problems)
        if odd:
            problems.append(f"a trait cannot be unsure: {' '.join(sorted(odd))}")
        if "liquid" in trait_words and "weighed" not in trait_words:
            trait_words |= {"spooned"}
        if len(trait_words & {"spooned", "weighed"}) != 1:
            problems.append("exactly one of the traits 'spooned' and 'weighed' is needed")
        mistakes.extend(Mistake(place, message) for message in problems)
        synonyms = tuple(dict.fromkeys(s.strip() for s in also.split(";") if s.strip()))
        rows.append(
            Row(place, name, number, synonyms, sure, may, is_, is_unsure, aisle, trait_words)
        )
    return rows


_MEASURE: Final = re.compile(
    r"(?P<amount>\d+(?:[./]\d+)?)\s*(?P<unit>[^,]*?)\s*(?:,\s*(?P<state>.+))?"
)


def read_measures(path: Path, mistakes: list[Mistake]) -> list[MeasureRow]:
    """The rows of measures.txt: ``name | amount unit[, state] | grams | source``.

    A "-" for the grams leaves out a measure of SR28 that belongs to another kind (the medium
    tomato of a row that is about cherry tomatoes).
    """
    rows = []
    for place, cells in lines(path):
        if len(cells) != _MEASURE_CELLS:
            message = f"{len(cells)} cells; expected 4: name | amount unit, state | grams | source"
            mistakes.append(Mistake(place, message))
            continue
        name, measure, grams, source = cells
        match = _MEASURE.fullmatch(measure)
        if match is None:
            mistakes.append(Mistake(place, f"{measure!r} is not 'amount unit, state'"))
        elif not re.fullmatch(r"\d+(\.\d+)?|-", grams):
            mistakes.append(Mistake(place, f"{grams!r} is not a number of grams"))
        elif not source:
            mistakes.append(Mistake(place, "the source is empty"))
        else:
            unit, state = match["unit"], match["state"] or ""
            rows.append(MeasureRow(place, name, match["amount"], unit, state, grams, source))
    return rows
