"""What a rule of the read-through is, and what it may look at."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from functools import cached_property, wraps
from typing import Any, TypeVar

from sitegen.dish import Dish, LedgerRow
from sitegen.larder.food import Food
from sitegen.larder.larder import Larder
from sitegen.problems import Severity
from sitegen.reading.naming import tokens
from sitegen.reading.recipe import Mention, Recipe
from sitegen.reading.sentences import Sentence, sentences_of
from sitegen.reading.source import Place, Source
from sitegen.readthrough.words import EVERYTHING
from sitegen.site import Settings


@dataclass(frozen=True, slots=True)
class Finding:
    """What a rule saw, and where."""

    place: Place
    message: str
    """What is wrong, with the figures."""
    hint: str
    """What to write instead."""
    length: int = 1
    line: int = -1
    """The ingredient's number, where it is about one: a silence may name it."""


T = TypeVar("T")


@dataclass
class Reading:
    """One dish as its readers will find it, with what several rules ask of it worked out once."""

    dish: Dish
    source: Source
    settings: Settings
    larder: Larder
    known: dict[Any, Any] = field(default_factory=dict, repr=False, compare=False)
    """What functions marked `shared` have answered."""

    @cached_property
    def recipe(self) -> Recipe:
        """The recipe that the dish was worked out from."""
        return self.dish.recipe

    @cached_property
    def rows(self) -> tuple[LedgerRow, ...]:
        """The ingredients, in the order of the list."""
        return self.dish.rows

    @cached_property
    def foods(self) -> tuple[Food | None, ...]:
        """The larder's food of each ingredient; None where it has none."""
        get = self.larder.get
        return tuple(get(row.larder_name) if row.larder_name else None for row in self.rows)

    @cached_property
    def sentences(self) -> tuple[Sentence, ...]:
        """The method's sentences."""
        return sentences_of(self.recipe)

    @cached_property
    def part_names(self) -> tuple[str, ...]:
        """The names of the parts, of the list's and then of the method's."""
        recipe = self.recipe
        return (*(p.name for p in recipe.parts), *(p.name for p in recipe.method))

    @cached_property
    def method(self) -> str:
        """The whole method in lower case."""
        return "\n".join(s.low for s in self.sentences)

    @cached_property
    def words(self) -> frozenset[str]:
        """The stems of all words of the method."""
        return frozenset().union(*[tokens(s.low) for s in self.sentences])

    @cached_property
    def takes_everything(self) -> bool:
        """Whether the method takes whole lists at once: "mix all the dry ingredients"."""
        method = self.method
        if "ingredients" not in method and "everything" not in method:
            return False
        return EVERYTHING.search(method) is not None

    @cached_property
    def listed(self) -> frozenset[str]:
        """The stems of all words of the list, with its choices, swaps and names for the method."""
        found: set[str] = set()
        for row in self.rows:
            line = row.line
            for one in (line, *line.alternatives, *((line.swap,) if line.swap else ())):
                found.update(tokens(one.text))
                if one.called:
                    found.update(tokens(one.called))
        return frozenset(found)

    @cached_property
    def mentions(self) -> dict[int, list[tuple[int, Mention]]]:
        """Ingredient number → (step number, mention), in order."""
        found: dict[int, list[tuple[int, Mention]]] = {}
        for sentence in self.sentences:
            for mention in sentence.mentions:
                if mention.line >= 0:
                    found.setdefault(mention.line, []).append((sentence.step.number, mention))
        return found

    @cached_property
    def body(self) -> tuple[int, str]:
        """The Markdown after the fields: its first line's number, and the text."""
        end = self.source.text.find("\n---", 3)
        start = self.source.text.find("\n", end + 1) + 1
        return self.source.place(start).line, self.source.text[start:]

    @cached_property
    def body_low(self) -> str:
        """That text in lower case."""
        return self.body[1].lower()

    def field(self, name: str) -> Place:
        """Where a front-matter field stands; the file's first line if it has none."""
        return self.recipe.places.get(name, Place(1, 1))

    def place_in(self, sentence: Sentence, words: str) -> Place:
        """Where ``words`` of a sentence stand in the file; the step's place if not to be found."""
        text = self.source.text
        begin = self.source.offset(sentence.step.place.line)
        opening = sentence.text.strip()[:12]
        at = text.find(opening, begin)
        found = text.find(words, at if at >= 0 else begin)
        return self.source.place(found) if found >= 0 else sentence.step.place

    def about_line(self, index: int, message: str, hint: str) -> Finding:
        """A finding about an ingredient line, with the caret under its food."""
        line = self.rows[index].line
        offset = line.text.find(line.food.split(" ")[0]) if line.food else 0
        place = Place(line.place.line, line.place.column + max(0, offset))
        return Finding(place, message, hint, max(1, len(line.food)), index)

    def about_field(self, name: str, message: str, hint: str) -> Finding:
        """A finding about a front-matter field."""
        return about_field_of(self.recipe, name, message, hint)

    def about_words(self, sentence: Sentence, words: str, message: str, hint: str) -> Finding:
        """A finding about words of the method."""
        return Finding(self.place_in(sentence, words), message, hint, max(1, len(words)))


Check = Callable[[Reading], Iterator[Finding]]
SiteCheck = Callable[[Sequence[Dish]], Iterator[tuple[Dish, Finding]]]
"""Looks at all dishes of a site, by file; each finding is about one of them."""


def in_no_dish(_: Reading) -> Iterator[Finding]:
    """The check of a rule that is only seen when dishes are set side by side."""
    yield from ()


def about_field_of(recipe: Recipe, name: str, message: str, hint: str) -> Finding:
    """A finding about a front-matter field; at the file's first line if it has none."""
    return Finding(recipe.places.get(name, Place(1, 1)), message, hint, len(name))


def shared(work: Callable[[Reading], T]) -> Callable[[Reading], T]:
    """A function of a reading that several rules ask: it works once for each reading."""

    @wraps(work)
    def asked(reading: Reading) -> T:
        if work not in reading.known:
            reading.known[work] = work(reading)
        answer: T = reading.known[work]
        return answer

    return asked


@dataclass(frozen=True, slots=True)
class Rule:
    """One row of the read-through's table."""

    name: str
    """Plain and stable for ever: what a silence names."""
    severity: Severity
    check: Check
    why: str
    """Why it matters, in one line, to someone who has not read the code."""
    group: str
    """What it is about: ``ingredients``, ``ovens and tins``."""
    of_batch: bool = False
    """Whether it judges the whole batch, and can't while a recipe among its ingredients is not known."""
    over_site: SiteCheck | None = None
    """What it finds when all dishes are set side by side."""

    @property
    def doc(self) -> str:
        """What it catches, and how to mend it: the module's own words."""
        return sys.modules[(self.over_site or self.check).__module__].__doc__ or ""
