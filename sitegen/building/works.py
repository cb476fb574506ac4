"""The work of one build: which leaves and pages of the last one still hold, and making the others."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Mapping, Sequence
from functools import partial
from hashlib import sha256
from pathlib import Path

from sitegen import faults
from sitegen.building.hands import done
from sitegen.building.leaf import ABSENT, Bench, Leaf, key_of
from sitegen.building.placing import Staging
from sitegen.building.program import program_mark
from sitegen.building.report import Changes
from sitegen.building.shelf import Shelf, put, take
from sitegen.building.told import renew
from sitegen.collection import PlainPage
from sitegen.gathering import Gathered, Progress
from sitegen.larder.larder import Larder
from sitegen.late import bind
from sitegen.memory import mark
from sitegen.pages.asking import Facts, Laid
from sitegen.pages.page import Page
from sitegen.pages.theme import Theme, load_theme
from sitegen.problems import Problem
from sitegen.site import Site
from sitegen.stores import LARDER
from sitegen.textfile import list_files, read_bytes
from sitegen.workroom import Workroom

Make = Callable[[], Iterable[Page]]


class Works:
    """Makes what one build needs, and keeps it for the next."""

    def __init__(
        self, folder: Path, workroom: Workroom, staging: Staging, progress: Progress
    ) -> None:
        self.folder, self.staging, self.progress = folder, staging, progress
        self.theme: tuple[Theme | None, list[Problem]] | None = None
        self._workroom = workroom
        self._file = workroom.folder / "kept" / "site"
        self._old = take(self._file, program_mark())
        self._new = Shelf()

    def leaves(
        self, site: Site, larder: Larder, pages: tuple[PlainPage, ...], files: Sequence[str]
    ) -> Mapping[str, Leaf]:
        """Every recipe's leaf: the last build's, or made now."""
        self.theme = load_theme(site)
        base = base_of(site)
        theme = self.theme[0]
        self._new.pages_of = _marked(base, _theme_mark(site, theme))
        if self._old.pages_of != self._new.pages_of:
            self._old = Shelf()  # every page is to be made anew, and needs its whole dish
        raws = {file: read_bytes(self.folder, file) for file in files}
        bench = Bench(site, base, raws, larder, theme, pages, self._put_by)
        kept = still_good(self._old.leaves, bench.marks, base, files)
        wanted = [file for file in files if file not in kept]
        bench.guess  # noqa: B018 - once, before there are several processes
        made = done(
            wanted,
            bench.leaf,
            self.staging.folder,
            lambda count: self.progress("recipes", count, len(wanted)),
        )
        leaves = kept | {leaf.file: leaf for leaf in made}
        self._new.leaves = {file: leaves[file] for file in files}
        for leaf in self._new.leaves.values():
            bind_leaf(leaf, bench)
        return self._new.leaves

    def add_pages(self, gathered: Gathered, theme: Theme, kinds: Counter[str]) -> Problem | None:
        """Stage every page of the site; the problem of the first that can't be laid out."""
        keys = {
            slug: self._new.leaves[dish.recipe.file].key
            for slug, dish in gathered.collection.dishes.items()
        }
        sets = {slug: photo.photo_set for slug, photo in gathered.photographs.items()}
        facts = Facts(gathered.collection, theme, sets, keys)
        plan = dict(facts.plan())
        fresh = {n: laid for leaf in self._new.leaves.values() for n, laid in leaf.laid.items()}
        stale, gaps = [], []
        for name, make in plan.items():
            laid = fresh.get(name) or self._old.laid.get(name)
            there = name in fresh or (laid is not None and self._has(laid))
            if laid is None or not there or not facts.still(laid, facts.about(make)):
                stale.append(name)
            elif laid.gap:
                gaps.append(name)
            else:
                self._new.laid[name] = laid
        jobs = _in_turn(stale, gaps)

        def lay_out(names: tuple[str, ...]) -> list[Laid | Problem]:
            return [
                self._filled(facts, name, fresh[name])
                if name in filling
                else self._laid(facts, name, plan[name])
                for name in names
            ]

        filling = set(gaps)
        results = done(
            jobs,
            lay_out,
            self.staging.folder,
            lambda count: self.progress("pages", count, len(jobs)),
            fewest=8,
        )
        for names, made in zip(jobs, results, strict=True):
            for name, one in zip(names, made, strict=True):
                if isinstance(one, Problem):
                    return one
                self._new.laid[name] = one
        for name in plan:
            for path, digest, kind in self._new.laid[name].files:
                self.staging.note(path, digest)
                kinds[kind] += 1
        return None

    def keep(self) -> None:
        """Leave everything to the next build."""
        from dataclasses import replace

        leaves = {f: replace(leaf, laid={}) for f, leaf in self._new.leaves.items()}
        put(self._file, program_mark(), Shelf(leaves, self._new.pages_of, self._new.laid))

    def changes(self, gathered: Gathered) -> Changes:
        """What is told otherwise than by the last build; what this one tells is kept for the next."""
        dishes = list(gathered.collection.dishes.values())
        return renew(self._workroom, self._new.leaves, dishes)

    def _filled(self, facts: Facts, name: str, frame: Laid) -> Laid | Problem:
        """A recipe's page that was laid out but for its related recipes."""
        content = (self.staging.folder / frame.files[0][0]).read_bytes()
        try:
            return facts.fill(frame, content, self._put_by)
        except OSError:
            raise
        except Exception as error:  # a site's own template may raise anything
            return faults.of_page(name, error, self.folder)

    def _laid(self, facts: Facts, name: str, make: Make) -> Laid | Problem:
        try:
            return facts.lay_out(make, self._put_by)
        except OSError:
            raise
        except Exception as error:  # a site's own template may raise anything
            return faults.of_page(name, error, self.folder)

    def _put_by(self, page: Page) -> str:
        return self.staging.write(page.path, page.content)

    def _has(self, laid: Laid) -> bool:
        """Whether the output has every file."""
        return all(self.staging.has(path, digest) for path, digest, _ in laid.files)


def base_of(site: Site) -> str:
    """The mark of what every dish of a site is made from: the program, its settings, its foods."""
    larder = [
        f"{file}={mark(raw) if isinstance(raw, bytes) else raw!r}"
        for file in list_files(site.folder, LARDER, ".yaml")
        for raw in (read_bytes(site.folder, file),)
    ]
    return _marked(program_mark(), repr(site.settings), *larder)


def _in_turn(stale: Sequence[str], gaps: Sequence[str]) -> list[tuple[str, ...]]:
    """Jobs, the long ones first: what is made of the whole site, then dishes' pages, then gaps.

    Two pages of a dish lie together, so that the dish is worked out once for both.
    """
    whole = [(name,) for name in stale if name.startswith("*")]
    others = [name for name in stale if not name.startswith("*")]
    pairs = [tuple(others[n : n + 2]) for n in range(0, len(others), 2)]
    return [*whole, *pairs, *(tuple(gaps[n : n + 8]) for n in range(0, len(gaps), 8))]


def still_good(
    old: Mapping[str, Leaf], marks: Mapping[str, str], base: str, files: Sequence[str]
) -> dict[str, Leaf]:
    """The leaves whose file, and the files of all recipes in them, are as they were."""
    known = set(files)
    keys: dict[str, str | None] = {}

    def key(file: str, within: tuple[str, ...] = ()) -> str | None:
        if file not in known or file in within:
            return ABSENT
        if not within and file in keys:
            return keys[file]
        leaf = old.get(file)
        if leaf is None or leaf.mark != marks.get(file, ABSENT):
            return None
        uses = {}
        for used in leaf.uses:
            found = key(used, (*within, file))
            if found is None:
                return None
            uses[used] = found
        return key_of(base, leaf.mark, uses)

    good = {}
    for file in files:
        keys[file] = key(file)
        leaf = old.get(file)
        if leaf is not None and keys[file] == leaf.key and leaf.mark != ABSENT:
            good[file] = leaf
    return good


def bind_leaf(leaf: Leaf, bench: Bench) -> None:
    """Where the whole of a leaf's source, recipe and dish is to be had."""
    file = leaf.file
    if leaf.source is not None:
        bind(leaf.source, partial(_nth, bench.read, file, 0))
    if leaf.recipe is not None:
        bind(leaf.recipe, partial(_nth, bench.read, file, 1))
    if leaf.dish is not None:
        bind(leaf.dish, partial(_nth, bench.dish, file, 0))
        if isinstance(leaf.dish.recipe, type(leaf.recipe)):
            bind(leaf.dish.recipe, partial(_nth, bench.read, file, 1))


def _nth(ask: Callable[[str], tuple[object, ...]], file: str, number: int) -> object:
    return ask(file)[number]


def _theme_mark(site: Site, theme: Theme | None) -> str:
    """Of the site's own templates and of every asset; the program's mark is of its own."""
    if theme is None:
        return ""
    parts = [theme.name, repr(sorted(theme.addresses.items())), repr(sorted(theme.colours.items()))]
    own = site.themes / site.settings.theme
    for path in sorted(own.rglob("*")):
        if path.is_file():
            parts.append(f"{path.relative_to(own).as_posix()}={mark(path.read_bytes())}")
    return _marked(*parts)


def _marked(*parts: str) -> str:
    whole = sha256()
    for part in parts:
        whole.update(f"{len(part)}:{part};".encode())
    return whole.hexdigest()
