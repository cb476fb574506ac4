"""Recipe files as they were read: one that is as it was is not read again."""

from __future__ import annotations

import time
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from sitegen import faults
from sitegen.memory import Memory, Same, mark, stamp
from sitegen.problems import Problem
from sitegen.reading.read import read_recipe, slug_of
from sitegen.reading.recipe import Recipe
from sitegen.reading.source import Source
from sitegen.references import Reference, dish_references, links, page_links
from sitegen.site import Settings
from sitegen.textfile import decode, read_bytes

if TYPE_CHECKING:
    from sitegen.building.leaf import Leaf

FRESH = 2_000_000_000
"""Nanoseconds after which a file's time tells it apart from one written since."""


@dataclass(frozen=True, slots=True)
class Read:
    """One recipe file and what came of it."""

    file: str
    slug: str
    source: Source | None
    recipe: Recipe | None
    problems: tuple[Problem, ...]
    draft: bool
    """Whether it is surely a draft: understood as one, or with front matter that has no date."""
    uses: tuple[Reference, ...] = ()
    """The recipes in it."""
    links: tuple[Reference, ...] = ()
    """The links in its text to Markdown files."""
    named: tuple[Reference, ...] = ()
    """Those that name a page, or a place in one, by its address."""

    @property
    def shape(self) -> object:
        """What other recipes can tell of it: with the same shape, nothing about them changes."""
        return self.recipe is None, self.draft, tuple(reference.file for reference in self.uses)


def _read(
    file: str, source: Source | None, recipe: Recipe | None, problems: Iterable[Problem]
) -> Read:
    """With what the file names of others looked up once."""
    return Read(
        file,
        slug_of(file),
        source,
        recipe,
        tuple(problems),
        recipe.draft if recipe is not None else _looks_like_a_draft(source),
        dish_references(recipe) if recipe is not None else (),
        links(source) if source is not None else (),
        page_links(source) if source is not None else (),
    )


def _looks_like_a_draft(source: Source | None) -> bool:
    if source is None or not source.text.startswith("---\n"):
        return False
    matter, ends, _ = source.text[4:].partition("\n---")
    return bool(ends) and not any(line.startswith("published:") for line in matter.split("\n"))


class Reads:
    """All recipe files of a site."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder
        self._memory = Memory()
        self._stamps: dict[str, tuple[int, ...]] = {}
        self._settings: Settings | None = None
        self.leaves: dict[str, Leaf] = {}
        """Files that have been read elsewhere; one that changes is dropped."""
        self.by_file: dict[str, Read] = {}
        """Sorted by file."""

    def set_out(self, settings: Settings, leaves: Mapping[str, Leaf]) -> None:
        """Begin anew, since settings mean that every file is to be read otherwise."""
        self._settings, self.leaves = settings, dict(leaves)
        self._stamps.clear()
        self.by_file.clear()

    def renew(self, files: Iterable[str], names: Collection[str] | None) -> dict[str, Read | None]:
        """Read what has changed. ``names`` are the files that may have; None says that any may.

        Gives the files that are otherwise now, with what they were before.
        """
        there = set(files)
        if names is None:
            wanted = [file for file in sorted(there) if not self._same_time(file)]
        else:
            wanted = sorted(there.intersection(names))
        before: dict[str, Read | None] = {}
        for file in wanted:
            old, new = self.by_file.get(file), self.one(file)
            if old is not new and old != new:
                before[file] = old
                self.by_file[file] = new
        if len(self.by_file) != len(there) or None in before.values():
            for file in self.by_file.keys() - there:
                before[file] = self.by_file.pop(file)
                self.leaves.pop(file, None)
            self.by_file = dict(sorted(self.by_file.items()))
        return before

    def one(self, file: str) -> Read:
        """One file, read now or known to be as it was."""
        settings = self._settings
        assert settings is not None
        leaf = self.leaves.get(file)
        if leaf is not None and file not in self.by_file:
            return _read(file, leaf.source, leaf.recipe, leaf.problems)
        seen = stamp(self._folder / file)
        raw = read_bytes(self._folder, file)
        self._stamps.pop(file, None)
        if seen and time.time_ns() - seen[0] > FRESH:
            self._stamps[file] = seen
        if leaf is not None:
            if isinstance(raw, bytes) and leaf.mark == mark(raw):
                return self.by_file[file]
            del self.leaves[file]
        if isinstance(raw, Problem):
            return _read(file, None, None, (raw,))

        def read() -> Read:
            source = decode(raw, file)
            if isinstance(source, Problem):
                return _read(file, None, None, (source,))
            try:
                recipe, problems = read_recipe(source, settings)
            except Exception as error:  # ours; the other recipes must not suffer for it
                return _read(file, source, None, (faults.of_file(file, error),))
            return _read(file, source, recipe, problems)

        return self._memory.recall(f"recipe {file}", (mark(raw), Same(settings)), read)

    def _same_time(self, file: str) -> bool:
        known = self._stamps.get(file)
        return file in self.by_file and known is not None and known == stamp(self._folder / file)
