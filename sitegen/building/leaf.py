"""One recipe's part of a build: read, worked out, read through and laid out, then let go.

What stays is a :class:`Leaf`: the little that the rest of the site asks, and marks of what it was
made from. Pages are laid out at once, while the dish is in memory, over a guess at the rest of the
site; every answer that was guessed is noted, and a page for which one proves wrong is made again.
"""

from __future__ import annotations

import posixpath
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from hashlib import sha256
from typing import Any

from sitegen import faults
from sitegen.collection import Collection, PlainPage, title_order
from sitegen.dish import Dish
from sitegen.images.photoset import PhotoSet
from sitegen.kitchen.work_out import work_out
from sitegen.larder.larder import Larder
from sitegen.late import LateDish, LateRecipe, LateSource, late_dish, late_recipe, late_source
from sitegen.memory import mark
from sitegen.pages import feeds
from sitegen.pages.asking import Facts, Laid
from sitegen.pages.page import Page
from sitegen.pages.theme import Theme
from sitegen.problems import Problem
from sitegen.reading.pictures import beside
from sitegen.reading.read import read_recipe, slug_of
from sitegen.reading.recipe import Recipe
from sitegen.reading.source import Source
from sitegen.readthrough import read_through
from sitegen.references import dish_references
from sitegen.site import Site
from sitegen.textfile import decode

ABSENT = "absent"


@dataclass(frozen=True, slots=True)
class Leaf:
    """What the site knows of one recipe file."""

    file: str
    mark: str
    """Of the file's bytes."""
    key: str
    """Of all that the dish was made from: the file, the recipes in it, settings, foods, program."""
    source: LateSource | None
    recipe: LateRecipe | None
    problems: tuple[Problem, ...]
    """Of reading it."""
    dish: LateDish | None
    found: tuple[Problem, ...]
    """Of working it out and reading it through."""
    laid: Mapping[str, Laid] = field(default_factory=dict)
    """Its pages, by their names in the plan."""

    @property
    def uses(self) -> tuple[str, ...]:
        """The files of the recipes in it."""
        if self.recipe is None:
            return ()
        return tuple(dict.fromkeys(r.file for r in dish_references(self.recipe)))


def key_of(base: str, mark: str, uses: Mapping[str, str]) -> str:
    """The key of a recipe; ``uses`` is the keys of the recipes in it, by file."""
    whole = ";".join((base, mark, *(f"{file}={key}" for file, key in sorted(uses.items()))))
    return sha256(whole.encode()).hexdigest()


class NotGuessed(Exception):
    """A page asked for something that can be known only when the whole site has been read."""


class Bench:
    """Where leaves are made. ``raws`` is every recipe file's bytes, or what bars it."""

    def __init__(
        self,
        site: Site,
        base: str,
        raws: Mapping[str, bytes | Problem],
        larder: Larder,
        theme: Theme | None,
        plain_pages: tuple[PlainPage, ...],
        keep: Callable[[Page], str],
    ) -> None:
        self.site, self.base, self.raws, self.larder = site, base, raws, larder
        self.theme, self.plain_pages, self.keep = theme, plain_pages, keep
        self.marks = {f: mark(raw) for f, raw in raws.items() if isinstance(raw, bytes)}
        self._read: dict[str, tuple[Source | None, Recipe | None, tuple[Problem, ...]]] = {}
        self._worked: dict[str, tuple[Dish | None, tuple[Problem, ...]]] = {}
        self._guess: _Guess | None = None
        self._facts: Facts | None = None
        self._photos: dict[str, PhotoSet] = {}
        self._keys: dict[str, str] = {}

    def leaf(self, file: str) -> Leaf:
        """Make one leaf, and its pages if they can be guessed."""
        source, recipe, problems = self.read(file)
        late = late_recipe(recipe) if recipe is not None else None
        dish, found = self.dish(file)
        laid: Mapping[str, Laid] = {}
        key = self.key(file)
        if dish is not None and self.theme is not None and not dish.recipe.draft:
            laid = self._lay_out(dish, key)
        leaf = Leaf(
            file,
            self.marks.get(file, ABSENT),
            key,
            late_source(source) if source is not None else None,
            late,
            problems,
            late_dish(dish, late, new=file in self.guess.newest)
            if dish is not None and late is not None
            else None,
            found,
            laid,
        )
        if file not in self.guess.used:  # what others use is used again
            self._read.pop(file, None)
            self._worked.pop(file, None)
        return leaf

    def read(self, file: str) -> tuple[Source | None, Recipe | None, tuple[Problem, ...]]:
        """A recipe file, understood as far as it goes."""
        if file not in self._read:
            self._read[file] = self._read_anew(file)
        return self._read[file]

    def _read_anew(self, file: str) -> tuple[Source | None, Recipe | None, tuple[Problem, ...]]:
        raw = self.raws[file]
        if isinstance(raw, Problem):
            return None, None, (raw,)
        source = decode(raw, file)
        if isinstance(source, Problem):
            return None, None, (source,)
        try:
            recipe, problems = read_recipe(source, self.site.settings)
        except Exception as error:  # ours; the other recipes must not suffer for it
            return source, None, (faults.of_file(file, error),)
        return source, recipe, tuple(problems)

    def dish(self, file: str) -> tuple[Dish | None, tuple[Problem, ...]]:
        """A recipe worked out and read through, the recipes in it before."""
        if file not in self._worked:
            self._worked[file] = self._work(file)
        return self._worked[file]

    def _work(self, file: str) -> tuple[Dish | None, tuple[Problem, ...]]:
        source, recipe, _ = self.read(file)
        if source is None or recipe is None or self._needs_itself(file):
            return None, ()
        others = {}
        for used in self._uses(file):
            if used in self.raws and not self._needs_itself(used):
                dish, _ = self.dish(used)
                if dish is not None:
                    others[slug_of(used)] = dish
        settings = self.site.settings
        try:
            dish, problems = work_out(recipe, self.larder, settings, dict(sorted(others.items())))
            problems = [*problems, *read_through(dish, source, settings, self.larder)]
        except Exception as error:  # ours; the other recipes must not suffer for it
            return None, (faults.of_file(file, error),)
        return dish, tuple(problems)

    def key(self, file: str, within: tuple[str, ...] = ()) -> str:
        """The key of a recipe, from those of the recipes in it."""
        if file not in self.raws or file in within:
            return ABSENT
        uses = {used: self.key(used, (*within, file)) for used in self._uses(file)}
        return key_of(self.base, self.marks.get(file, ABSENT), uses)

    def _uses(self, file: str) -> tuple[str, ...]:
        _, recipe, _ = self.read(file)
        if recipe is None:
            return ()
        return tuple(dict.fromkeys(r.file for r in dish_references(recipe)))

    def _needs_itself(self, file: str) -> bool:
        seen: set[str] = set()
        waiting = list(self._uses(file))
        while waiting:
            used = waiting.pop()
            if used == file:
                return True
            if used not in seen and used in self.raws:
                seen.add(used)
                waiting += self._uses(used)
        return False

    # --- pages over a guess --------------------------------------------------------------------

    @property
    def guess(self) -> _Guess:
        """What the bytes of all recipes look like at a glance."""
        if self._guess is None:
            self._guess = _Guess(self.site, self.raws, self.plain_pages)
        return self._guess

    def _lay_out(self, dish: Dish, key: str) -> dict[str, Laid]:
        assert self.theme is not None
        if self._facts is None:
            guess = Collection(self.site, self.guess.dishes, self.plain_pages, self.guess.used_in)
            self._facts = Facts(guess, self.theme, self._photos, self._keys, early=True)
        facts, slug = self._facts, dish.recipe.slug
        self._keys[slug] = key
        self._add_photo(dish)
        facts.forget(slug)
        laid = {}
        for path, make in facts.layout.of_dish(dish):
            try:
                laid[path] = facts.lay_out(make, self.keep)
            except NotGuessed:
                continue
            except Exception:  # a template's: said when the page is made in earnest
                continue
        return laid

    def _add_photo(self, dish: Dish) -> None:
        recipe = dish.recipe
        if self._facts is None or (recipe.photo is None and not recipe.pictures):
            return
        from sitegen.images.cache import Cache
        from sitegen.images.photos import photograph, picture_in_text
        from sitegen.workroom import Workroom

        folder = self.site.folder
        cache = Cache(Workroom(folder).cache)
        found, _ = photograph(recipe, folder, cache)
        if found is not None:
            self._photos[recipe.slug] = found.photo_set
        for picture in recipe.pictures:
            shown, _ = picture_in_text(picture, recipe.file, folder, cache)
            if shown is not None:
                key = beside(recipe.file, picture.file)
                self._photos[key] = shown.photo_set
                self._facts.forget(key)


_TITLE = re.compile(rb"^title:[ \t]*(.*?)[ \t]*$", re.MULTILINE)
_PUBLISHED = re.compile(rb"^published:[ \t]*(\S*)", re.MULTILINE)
_USED = re.compile(rb"\]\(([^()\s<>:?#]+\.md)")


class _Guess:
    """Titles, drafts and uses, as they look without being read."""

    def __init__(
        self, site: Site, raws: Mapping[str, bytes | Problem], plain_pages: tuple[PlainPage, ...]
    ) -> None:
        self.site, self.plain_pages = site, plain_pages
        self.used: set[str] = set()
        dishes: dict[str, Dish] = {}
        uses: dict[str, list[str]] = {}
        days: list[tuple[bytes, str]] = []
        for file, raw in raws.items():
            if isinstance(raw, Problem):
                continue
            front = raw[: raw.find(b"\n---", 3) + 1]
            for target in _USED.findall(front):
                path = target.decode("utf-8", "replace")
                used = posixpath.normpath(posixpath.join(posixpath.dirname(file), path))
                self.used.add(used)
                uses.setdefault(slug_of(used), []).append(slug_of(file))
            if published := _PUBLISHED.search(front):
                days.append((published[1], file))
                title = _TITLE.search(front)
                said = title[1].decode("utf-8", "replace") if title else ""
                if said[:1] in "\"'" and said[:1] == said[-1:]:
                    said = said[1:-1]
                dishes[slug_of(file)] = _guessed_dish(file, said)
        days.sort(reverse=True)
        oldest = days[: feeds.LATEST][-1][0] if days else b""
        self.newest = {file for day, file in days if day >= oldest}
        """The files that the feeds tell of, and all others of the same day as the last of them."""
        order = sorted(dishes.items(), key=lambda item: title_order(item[1].recipe.title))
        self.dishes = _Guessed(order)
        rank = {slug: number for number, slug in enumerate(self.dishes)}
        self.used_in = {
            slug: tuple(sorted((u for u in set(users) if u in rank), key=rank.__getitem__))
            for slug, users in uses.items()
        }


class _Guessed(dict[str, Dish]):
    """Dishes of which no more than the brief answer is known."""

    kind = "brief"


def _guessed_dish(file: str, title: str) -> Dish:
    recipe = object.__new__(LateRecipe)
    for name, value in (("file", file), ("slug", slug_of(file)), ("title", title)):
        object.__setattr__(recipe, name, value)
    dish = object.__new__(LateDish)
    object.__setattr__(dish, "recipe", recipe)
    for thing in (recipe, dish):
        object.__setattr__(thing, "notes", {})
        object.__setattr__(thing, "whole", _unknown)
    return dish


def _unknown() -> Any:
    raise NotGuessed
