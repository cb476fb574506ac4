"""Recipes for the read-through's tests: sound bases, and one change to each."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from sitegen.dish import Dish
from sitegen.kitchen.work_out import work_out
from sitegen.larder.larder import Larder
from sitegen.problems import Problem, in_order
from sitegen.reading.read import read_recipe
from sitegen.reading.source import Source
from sitegen.readthrough import read_through
from sitegen.site import Settings

HERE = Path(__file__).parent
TRAP = "trap"


@dataclass(frozen=True)
class Case:
    """A base recipe, what is changed in it, and what must be said of it."""

    rule: str
    """The rule that must speak, or ``trap``: nothing may be said."""
    name: str
    base: str
    changes: tuple[tuple[str, str], ...]
    at: str = ""
    """Words of the line that the finding must name."""
    region: str = "uk"
    also: str = ""
    """A second rule that has to speak of the same mistake, on the line with ``also_at``."""
    also_at: str = ""

    @property
    def text(self) -> str:
        """The recipe as changed."""
        text = base_text(self.base)
        for old, new in self.changes:
            assert old in text, f"{self.name}: {old!r} is not in {self.base}"
            text = text.replace(old, new, 1)
        return text

    @property
    def wanted(self) -> list[tuple[str, int]]:
        """The rules that must speak, each with its line."""
        if self.rule == TRAP:
            return []
        both = [(self.rule, self._line_of(self.at))]
        if self.also:
            both.append((self.also, self._line_of(self.also_at)))
        return sorted(both, key=lambda one: one[1])

    def _line_of(self, words: str) -> int:
        found = [i for i, line in enumerate(self.text.split("\n"), 1) if words in line]
        assert found, f"{self.name}: no line holds {words!r}"
        return found[0]


@cache
def base_text(name: str) -> str:
    """A sound recipe."""
    return (HERE / "bases" / f"{name}.md").read_text(encoding="utf-8")


@cache
def larder() -> Larder:
    """The program's own larder."""
    return Larder.load()


def said_of(text: str, settings: Settings | None = None) -> tuple[Dish | None, list[Problem]]:
    """The dish, and everything that the program says of a recipe's text."""
    settings = settings or Settings()
    source = Source("content/recipes/one.md", text)
    recipe, problems = read_recipe(source, settings)
    if recipe is None:
        return None, problems
    dish, more = work_out(recipe, larder(), settings, {})
    found = read_through(dish, source, settings, larder())
    return dish, in_order([*problems, *more, *found])


def cases(file: Path) -> list[Case]:
    """The cases of a file: ``[rule] name``, ``base:``, ``<`` old, ``>`` new, ``at:``, ``also:``.

    A block may have several changes. ``\\n`` in a change is a line break.
    """
    found: list[Case] = []
    for block in re.split(r"\n\s*\n", file.read_text(encoding="utf-8")):
        lines = [x for x in block.split("\n") if x.strip() and not x.startswith("#")]
        if not lines:
            continue
        head = re.fullmatch(r"\[([a-z-]+)\] (.+)", lines[0])
        assert head, f"{file.name}: {lines[0]!r}"
        values = {"base": "", "at": "", "region": "uk", "also": ""}
        old: list[str] = []
        new: list[str] = []
        for line in lines[1:]:
            key, _, value = line.partition(" ")
            if key in ("<", ">"):
                (old if key == "<" else new).append(value.replace("\\n", "\n"))
            else:
                values[key.removesuffix(":")] = value
        changes = tuple(zip(old, new, strict=True))
        also, _, also_at = values["also"].partition(" ")
        rest = (values["base"], changes, values["at"], values["region"], also, also_at)
        found.append(Case(head[1], head[2], *rest))
    return found
