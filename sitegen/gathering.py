"""A site's folder → its :class:`Collection`, and every problem of every file in one run.

A file that can't be understood never stops another. A :class:`Gatherer` remembers what it made of
each file by its content, so that after an edit only what changed is read and worked out again; the
result is the same as a fresh one's.
"""

from __future__ import annotations

import time
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from sitegen import faults
from sitegen.addresses import address_problems, stray_files
from sitegen.collection import Collection, PlainPage, title_order
from sitegen.dish import Dish
from sitegen.kitchen.work_out import work_out
from sitegen.larder.larder import Larder
from sitegen.memory import Memory, Same, mark, stamp
from sitegen.plain_pages import read_page
from sitegen.problems import Problem, in_order
from sitegen.reading.pictures import beside
from sitegen.reading.read import read_recipe, slug_of
from sitegen.reading.recipe import Photo, Recipe
from sitegen.reading.source import Source
from sitegen.readthrough import read_through
from sitegen.readthrough.site_wide import site_problems
from sitegen.references import (
    Reference,
    dependency_order,
    dish_references,
    link_problems,
    links,
)
from sitegen.settings import FILE as SETTINGS_FILE
from sitegen.settings import read_settings
from sitegen.site import Settings, Site
from sitegen.stores import LARDER, read_larder
from sitegen.textfile import decode, list_files, read_bytes
from sitegen.workroom import Workroom

if TYPE_CHECKING:
    from sitegen.building.leaf import Leaf
    from sitegen.images.film import Film
    from sitegen.images.photos import Photograph
    from sitegen.trials.log import Log

RECIPES = "content/recipes"
PAGES = "content/pages"
LOGS = "test logs"
LOG_ENDING = ".trials.yaml"

FRESH = 2_000_000_000
"""Nanoseconds after which a file's time tells it apart from one written since."""

Progress = Callable[[str, int, int], None]
"""Told what is being done, how much of it has been done, and how much there is."""


MakeLeaves = Callable[[Site, Larder, tuple[PlainPage, ...], Sequence[str]], "Mapping[str, Leaf]"]
"""Given the site, its foods, its plain pages and its recipe files, makes each file's leaf."""


@dataclass(frozen=True, slots=True)
class Gathered:
    """A site, read."""

    collection: Collection
    problems: tuple[Problem, ...]
    """All of them, by file and line."""
    blocking: tuple[Problem, ...]
    """The errors that keep the site from being built: all but those of drafts."""
    photographs: Mapping[str, Photograph] = field(default_factory=dict)
    """By the recipe's slug; a picture inside a text by its file."""
    all_photographs: tuple[Photograph, ...] = ()
    """Drafts' too."""
    unserved: Mapping[str, str] = field(default_factory=dict)
    """Slug → file of the recipes that have no dish, since something is wrong with them."""
    drafts: int = 0
    """How many recipes are drafts."""
    logs: Mapping[str, Log] = field(default_factory=dict)
    """Test logs by the recipe's slug. Private: only the preview and the commands see them."""
    larder: Larder | None = None

    @property
    def site(self) -> Site:
        """The site with its settings."""
        return self.collection.site


@dataclass(frozen=True, slots=True)
class _Read:
    """One recipe file and what came of it."""

    file: str
    source: Source | None
    recipe: Recipe | None
    problems: tuple[Problem, ...]
    uses: tuple[Reference, ...] = ()
    """The recipes in it."""
    links: tuple[Reference, ...] = ()
    """The links in its text."""

    @property
    def slug(self) -> str:
        return slug_of(self.file)

    @property
    def draft(self) -> bool:
        """Whether it is surely a draft: understood as one, or with front matter that has no date."""
        if self.recipe is not None:
            return self.recipe.draft
        if self.source is None or not self.source.text.startswith("---\n"):
            return False
        matter, ends, _ = self.source.text[4:].partition("\n---")
        return bool(ends) and not any(line.startswith("published:") for line in matter.split("\n"))


def _whole(
    file: str, source: Source | None, recipe: Recipe | None, problems: tuple[Problem, ...]
) -> _Read:
    """With what the file names of others looked up once."""
    uses = dish_references(recipe) if recipe is not None else ()
    return _Read(file, source, recipe, problems, uses, links(source) if source else ())


class Gatherer:
    """Reads one site, again and again."""

    def __init__(self, folder: Path, leaves: MakeLeaves | None = None) -> None:
        """``leaves`` makes every recipe's leaf, if they are not to be worked out here."""
        self.folder = folder
        self._make_leaves = leaves
        self._leaves: Mapping[str, Leaf] = {}
        self._memory = Memory()
        self._glanced: dict[str, tuple[tuple[int, ...], Settings, _Read]] = {}
        self._remembers = False
        self._files: dict[str, list[str]] = {}
        self._progress: Progress = lambda *_: None

    def gather(
        self,
        *,
        drafts: bool,
        only: Sequence[str] | None = None,
        progress: Progress = lambda *_: None,
    ) -> Gathered:
        """Read the site.

        ``drafts``: whether drafts, and dishes with errors, are among the dishes: for the preview.
        ``only``: files and folders (relative to the site's) whose problems are wanted; what they
        need is read too, and nothing else.
        """
        self._files = {f: list_files(self.folder, f, ".md") for f in (RECIPES, PAGES)}
        self._files[LOGS] = list_files(self.folder, RECIPES, LOG_ENDING)
        only = None if only is None else [*only, *filter(None, map(_companion, only))]
        self._progress = progress
        self._remembers = bool(self._memory)  # the first time there is nothing to remember by
        site, problems = self._site()
        larder, larder_problems = self._larder(site)
        problems += larder_problems
        pages, page_problems, page_sources = self._pages(only)
        problems += page_problems
        if self._make_leaves is not None:
            self._leaves = self._make_leaves(site, larder, pages, self._files[RECIPES])
        reads = self._recipes(site.settings, only)
        problems += address_problems(self._files[RECIPES], self._files[PAGES])
        problems += self._stray_files()
        dishes, worked = self._dishes(reads, larder, site.settings)
        problems += worked
        if only is None:
            problems += site_problems(site.settings, dishes)
        problems += self._link_problems(reads, page_sources, site.settings)
        photographs, photo_problems = self._photographs(reads, pages)
        problems += photo_problems
        films, film_problems = self._films(reads)
        problems += film_problems
        logs, log_problems = self._logs(reads, site.settings, only)
        problems += log_problems
        drafts_known = {read.file for read in reads.values() if read.draft}
        if only is not None:
            problems = [p for p in problems if _among(p.file, only)]
        found = in_order(problems)
        wrong = {p.file for p in found if p.severity == "error"}
        shown = {
            slug: dish
            for slug, dish in dishes.items()
            if drafts or not (dish.recipe.draft or dish.recipe.file in wrong)
        }
        return Gathered(
            collection=replace(
                _collection(site, shown, pages, logs),
                films={slug: films[slug] for slug in shown if slug in films},
            ),
            problems=tuple(found),
            blocking=tuple(
                p
                for p in found
                if p.severity == "error"
                and p.file not in drafts_known
                and not p.file.endswith(LOG_ENDING)  # a slip in private notes stops no page
            ),
            photographs={key: photographs[key] for key in _seen(shown, pages, photographs)},
            all_photographs=tuple(photographs.values()),
            unserved={read.slug: read.file for read in reads.values() if read.slug not in dishes},
            drafts=len(drafts_known),
            logs={slug_of(file): log for file, log in logs.items()},
            larder=larder,
        )

    # --- the parts of a site -------------------------------------------------------------------

    def _site(self) -> tuple[Site, list[Problem]]:
        raw = read_bytes(self.folder, SETTINGS_FILE)
        if isinstance(raw, Problem):
            return Site(self.folder, Settings()), [raw]

        def read() -> tuple[Settings, list[Problem]]:
            source = decode(raw, SETTINGS_FILE)
            if isinstance(source, Problem):
                return Settings(), [source] if source.rule != "file-empty" else []
            return read_settings(source)

        settings, problems = self._memory.recall(SETTINGS_FILE, (mark(raw),), read)
        return Site(self.folder, settings), list(problems)

    def _recipes(self, settings: Settings, only: Sequence[str] | None) -> dict[str, _Read]:
        """The recipes by file; with ``only``, those and the recipes that they refer to."""
        files = self._files[RECIPES]
        waiting = [file for file in files if only is None or _among(file, only)]
        known, reads = set(files), {}
        while waiting:
            file = waiting.pop()
            if file in reads:
                continue
            reads[file] = read = self._recipe(file, settings)
            self._progress("reading", len(reads), len(reads) + len(waiting))
            if read.recipe is not None:
                waiting += [r.file for r in read.uses if r.file in known]
        return dict(sorted(reads.items()))

    def _recipe(self, file: str, settings: Settings) -> _Read:
        leaf = self._leaves.get(file)
        if leaf is not None:
            return _whole(file, leaf.source, leaf.recipe, leaf.problems)
        known = self._glanced.get(file)
        seen = stamp(self.folder / file) if self._remembers else ()
        if known is not None and seen and known[0] == seen and known[1] is settings:
            return known[2]
        raw = read_bytes(self.folder, file)
        if isinstance(raw, Problem):
            return _Read(file, None, None, (raw,))

        def read() -> _Read:
            source = decode(raw, file)
            if isinstance(source, Problem):
                return _Read(file, None, None, (source,))
            try:
                recipe, problems = read_recipe(source, settings)
            except Exception as error:  # ours; the other recipes must not suffer for it
                return _whole(file, source, None, (faults.of_file(file, error),))
            return _whole(file, source, recipe, tuple(problems))

        found = self._memory.recall(f"recipe {file}", (mark(raw), Same(settings)), read)
        if seen and time.time_ns() - seen[0] > FRESH:
            self._glanced[file] = (seen, settings, found)
        return found

    def _stray_files(self) -> Iterator[Problem]:
        read = {SETTINGS_FILE, *self._files[RECIPES], *self._files[PAGES]}
        read |= {*list_files(self.folder, LARDER, ".yaml"), *self._files[LOGS]}
        return stray_files(list_files(self.folder, "content", ""), read)

    def _larder(self, site: Site) -> tuple[Larder, list[Problem]]:
        files = list(list_files(site.folder, LARDER, ".yaml"))
        marks = tuple((file, stamp(site.folder / file)) for file in files)
        return self._memory.recall("larder", marks, lambda: read_larder(site.folder))

    def _dishes(
        self, reads: Mapping[str, _Read], larder: Larder, settings: Settings
    ) -> tuple[dict[str, Dish], list[Problem]]:
        """Work every recipe out, those that others use first."""
        problems = [p for read in reads.values() for p in read.problems]
        recipes: dict[str, Recipe] = {}
        slugs: set[str] = set()
        for file, read in reads.items():
            if read.recipe is not None and read.slug not in slugs:
                slugs.add(read.slug)
                recipes[file] = read.recipe
        uses = {file: reads[file].uses for file in recipes}
        order, wrong = dependency_order(recipes, set(self._files[RECIPES]), uses)
        problems += wrong
        dishes: dict[str, Dish] = {}
        for count, file in enumerate(order, start=1):
            recipe = recipes[file]
            used = {r.slug for r in reads[file].uses}
            others = {slug: dishes[slug] for slug in sorted(used) if slug in dishes}
            source = reads[file].source
            assert source is not None
            dish, found = self._dish(recipe, source, larder, settings, others)
            if dish is not None:
                dishes[recipe.slug] = dish
            self._progress("working out", count, len(order))
            problems += _references_said_once(found, wrong)
        return dishes, problems

    def _dish(
        self,
        recipe: Recipe,
        source: Source,
        larder: Larder,
        settings: Settings,
        others: Mapping[str, Dish],
    ) -> tuple[Dish | None, list[Problem]]:
        """One recipe worked out and read through."""
        leaf = self._leaves.get(recipe.file)
        if leaf is not None:
            return leaf.dish, list(leaf.found)

        def work() -> tuple[Dish | None, list[Problem]]:
            try:
                dish, problems = work_out(recipe, larder, settings, others)
                return dish, [*problems, *read_through(dish, source, settings, larder)]
            except Exception as error:  # ours; the other recipes must not suffer for it
                return None, [faults.of_file(recipe.file, error)]

        # Recipes, dishes and larders are remembered objects themselves, so identity tells.
        inputs = (recipe, larder, settings, *others.values())
        return self._memory.recall(f"dish {recipe.file}", tuple(map(Same, inputs)), work)

    def _pages(
        self, only: Sequence[str] | None
    ) -> tuple[tuple[PlainPage, ...], list[Problem], list[Source]]:
        pages, problems, sources = [], [], []
        for file in self._files[PAGES]:
            if only is not None and not _among(file, only):
                continue
            raw = read_bytes(self.folder, file)
            if isinstance(raw, Problem):
                problems.append(raw)
                continue
            source = decode(raw, file)
            if isinstance(source, Problem):
                problems.append(source)
                continue
            page, found = self._memory.recall(
                f"page {file}", (mark(raw),), partial(read_page, source)
            )
            problems += found
            sources.append(source)
            if page is not None:
                pages.append(page)
        return tuple(sorted(pages, key=lambda page: page.slug)), problems, sources

    def _link_problems(
        self, reads: Mapping[str, _Read], pages: Iterable[Source], settings: Settings
    ) -> list[Problem]:
        known = {f for folder in (RECIPES, PAGES) for f in self._files[folder]}

        def is_draft(file: str) -> bool:
            if file.startswith(f"{PAGES}/"):
                return False
            return (reads.get(file) or self._recipe(file, settings)).draft

        problems: list[Problem] = []
        for read in reads.values():
            if read.links:
                problems += link_problems(read.file, read.links, known, is_draft, read.draft)
        for source in pages:
            problems += link_problems(source.file, links(source), known, is_draft, draft=False)
        return problems

    def _logs(
        self, reads: Mapping[str, _Read], settings: Settings, only: Sequence[str] | None
    ) -> tuple[dict[str, Log], list[Problem]]:
        files = [f for f in self._files[LOGS] if only is None or _among(f, only)]
        if not files and not settings.trials_needed:
            return {}, []
        from sitegen.trials.shelf import read_logs, said_of_recipes

        logs, problems = read_logs(self.folder, files, self._memory)
        recipes = [(r.recipe, r.source) for r in reads.values() if r.recipe and r.source]
        problems += said_of_recipes(recipes, logs, settings, self._memory)
        return logs, problems

    def _photographs(
        self, reads: Mapping[str, _Read], pages: Iterable[PlainPage]
    ) -> tuple[dict[str, Photograph], list[Problem]]:
        recipes: list[Recipe] = [r.recipe for r in reads.values() if r.recipe is not None]
        wanted = [recipe for recipe in recipes if recipe.photo]
        texts = [text for text in _texts(recipes, pages) if _pictures(text)]
        if not wanted and not texts:
            return {}, []
        from sitegen.images.cache import Cache
        from sitegen.images.photos import photograph, picture_in_text

        cache = Cache(Workroom(self.folder).cache)
        photographs: dict[str, Photograph] = {}
        problems: list[Problem] = []
        for recipe in wanted:
            assert recipe.photo is not None
            path = (self.folder / recipe.file).parent / recipe.photo.file
            found, wrong = self._memory.recall(
                f"photo {recipe.file}",
                (Same(recipe), stamp(path)),
                partial(photograph, recipe, self.folder, cache),
            )
            problems += wrong
            if found is not None:
                photographs.setdefault(recipe.slug, found)
        for text in texts:
            for picture in _pictures(text):
                key = beside(text.file, picture.file)
                found, wrong = self._memory.recall(
                    f"picture {text.file} {picture.place}",
                    (picture, stamp(self.folder / key)),
                    partial(picture_in_text, picture, text.file, self.folder, cache),
                )
                problems += wrong
                if found is not None:
                    photographs.setdefault(key, found)
        return photographs, problems

    def _films(self, reads: Mapping[str, _Read]) -> tuple[dict[str, Film], list[Problem]]:
        filmed = [r.recipe for r in reads.values() if r.recipe is not None and r.recipe.video]
        if not filmed:
            return {}, []
        from sitegen.images.film import film

        films: dict[str, Film] = {}
        problems: list[Problem] = []
        for recipe in filmed:
            assert recipe.video is not None
            names = filter(None, (recipe.video.file, recipe.video.captions))
            stamps = tuple(stamp(self.folder / beside(recipe.file, name)) for name in names)
            found, wrong = self._memory.recall(
                f"film {recipe.file}", (Same(recipe), *stamps), partial(film, recipe, self.folder)
            )
            problems += wrong
            if found is not None:
                films.setdefault(recipe.slug, found)
        return films, problems


def _texts(recipes: Iterable[Recipe], pages: Iterable[PlainPage]) -> Iterator[Recipe | PlainPage]:
    yield from recipes
    yield from pages


def _pictures(text: Recipe | PlainPage) -> tuple[Photo, ...]:
    """The pictures of a text, and its film's still."""
    still = (text.video.poster,) if isinstance(text, Recipe) and text.video else ()
    return (*text.pictures, *still)


def _seen(
    dishes: Mapping[str, Dish], pages: Iterable[PlainPage], known: Mapping[str, Photograph]
) -> Iterator[str]:
    """The keys of the pictures that the pages show: no draft's."""
    yield from (slug for slug in dishes if slug in known)
    texts = _texts((dish.recipe for dish in dishes.values()), pages)
    named = (beside(text.file, picture.file) for text in texts for picture in _pictures(text))
    yield from (key for key in named if key in known)


def _companion(name: str) -> str:
    """A recipe's test log, and a log's recipe: each is checked with the other."""
    if name.endswith(LOG_ENDING):
        return name.removesuffix(LOG_ENDING) + ".md"
    return name.removesuffix(".md") + LOG_ENDING if name.endswith(".md") else ""


def is_read(name: str, folder: Path) -> bool:
    """Whether ``name`` (relative to the site's folder) is a file or folder that is read."""
    if (folder / name).is_dir():
        return True
    places = ((RECIPES, ".md"), (RECIPES, LOG_ENDING), (PAGES, ".md"), (LARDER, ".yaml"))
    return name == SETTINGS_FILE or any(name in list_files(folder, *place) for place in places)


def _collection(
    site: Site,
    dishes: Mapping[str, Dish],
    pages: tuple[PlainPage, ...],
    logs: Mapping[str, Log],
) -> Collection:
    ordered = dict(sorted(dishes.items(), key=lambda item: title_order(item[1].recipe.title)))
    used_in: dict[str, list[str]] = {}
    for slug, dish in ordered.items():
        for used in dish.uses:
            used_in.setdefault(used, []).append(slug)
    return Collection(
        site=site,
        dishes=ordered,
        plain_pages=pages,
        used_in={slug: tuple(users) for slug, users in sorted(used_in.items())},
        tested={
            slug: logs[dish.recipe.file].tested
            for slug, dish in ordered.items()
            if site.settings.trials_shown and dish.recipe.file in logs
        },
    )


def _references_said_once(found: Iterable[Problem], said: Sequence[Problem]) -> Iterator[Problem]:
    """A dish's problems, without those of references that have been told of in ``said``.

    What is left of them are references to a recipe that is there and has errors of its own.
    """
    places = {(p.file, p.line) for p in said}
    for problem in found:
        if problem.rule != "reference-missing":
            yield problem
        elif (problem.file, problem.line) not in places:
            yield replace(
                problem,
                rule="reference-broken",
                message="the recipe used here has errors, so this one can't be worked out",
                hint="mend that recipe first",
            )


def _among(file: str, only: Iterable[str]) -> bool:
    return any(file == name or name == "." or file.startswith(f"{name}/") for name in only)
