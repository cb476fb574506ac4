"""Reads one site, again and again: the parts, each kept up with, and put together."""

from __future__ import annotations

from collections.abc import Collection as Names
from collections.abc import Iterable, Iterator, Mapping, Sequence
from functools import partial
from operator import is_
from pathlib import Path
from typing import TYPE_CHECKING

from sitegen.addresses import address_problems, stray_files
from sitegen.collection import Collection, PlainPage, title_order
from sitegen.dish import Dish
from sitegen.gathering.dishes import Dishes, Worked
from sitegen.gathering.files import LOG_ENDING, PAGES, SiteFiles, among, companion
from sitegen.gathering.gathered import Gathered, MakeLeaves, Progress
from sitegen.gathering.logs import Logs
from sitegen.gathering.pictures import Pictures, seen
from sitegen.gathering.reads import Reads
from sitegen.larder.larder import Larder
from sitegen.memory import Memory, mark, stamp
from sitegen.plain_pages import read_page
from sitegen.problems import Problem, in_order
from sitegen.readthrough import read_across
from sitegen.readthrough.site_wide import site_problems
from sitegen.references import Reference, link_problems, links, page_links
from sitegen.settings import FILE as SETTINGS_FILE
from sitegen.settings import read_settings
from sitegen.site import Settings, Site
from sitegen.stores import LARDER, read_larder
from sitegen.textfile import decode, list_files, read_bytes

if TYPE_CHECKING:
    from sitegen.reading.source import Source

_TEXT = (".md", ".yaml")
"""How the names of files end that are no picture and no film."""


class Gatherer:
    """Reads one site, again and again."""

    def __init__(self, folder: Path, leaves: MakeLeaves | None = None) -> None:
        """``leaves`` makes every recipe's leaf, if they are not to be worked out here."""
        self.folder = folder
        self._make_leaves = leaves
        self._memory = Memory()
        self._begin()

    def _begin(self) -> None:
        self._files = SiteFiles(self.folder)
        self._inputs: tuple[Settings, Larder] | None = None
        self._reads = Reads(self.folder)
        self._dishes = Dishes()
        self._pictures = Pictures(self.folder)
        self._logs = Logs(self.folder)
        self._said: dict[str, tuple[Problem, ...]] = {}
        self._named: dict[str, tuple[Reference, ...]] = {}
        self._of_names: list[Problem] = []
        self._order: tuple[object, dict[str, Dish], Mapping[str, tuple[str, ...]]] | None = None

    def gather(
        self,
        *,
        drafts: bool,
        only: Sequence[str] | None = None,
        changed: Names[str] | None = None,
        progress: Progress = lambda *_: None,
    ) -> Gathered:
        """Read the site.

        ``drafts``: whether drafts, and dishes with errors, are among the dishes: for the preview.
        ``only``: files and folders (relative to the site's) whose problems are wanted; what they
        need is read too, and nothing else.
        ``changed``: the files that may have changed since the last time, if they are known; what
        it takes follows how many they are, not how large the site is. Otherwise all are looked at.
        """
        if only is not None:
            self._begin()
            only = [*only, *filter(None, map(companion, only))]
        listed = self._files.follow(changed) if changed is not None else None
        names = changed if listed is not None else None
        came = self._files.look() if listed is None else listed
        site, problems = self._site()
        larder, larder_problems = self._larder(site)
        problems += larder_problems
        pages, page_problems, page_sources = self._pages(only)
        problems += page_problems
        anew = self._renew_inputs(site, larder, pages)
        names = None if anew else names
        before = self._reads.renew(self._wanted(site.settings, only), names)
        reads = self._reads.by_file

        def from_leaf(file: str) -> Worked | None:
            leaf = self._reads.leaves.get(file) if anew else self._reads.leaves.pop(file, None)
            return (leaf.dish, leaf.found) if leaf is not None and anew else None

        again = self._dishes.renew(
            reads,
            before,
            self._files.recipes,
            (site.settings, larder),
            from_leaf,
            partial(progress, "working out"),
        )
        again = again.union(reads, self._said) if came or anew else again
        if came or anew:
            self._of_names = [
                *address_problems(self._files.recipes, self._files.pages),
                *stray_files(self._files.all, self._files.read()),
            ]
        shown_again = again if names is not None else set(reads)
        if names is not None and not all(name.endswith(_TEXT) for name in names):
            shown_again = again | self._pictures.showing
        self._pictures.renew(reads, shown_again, pages)
        self._pictures.keep_only((*reads, *(page.file for page in pages)))
        log_files = [f for f in self._files.logs if among(f, only)]
        told = None if names is None or came else names
        self._logs.renew(reads, again, log_files, told, site.settings)
        self._say(again, page_sources, site.settings)
        problems += self._of_names
        problems += self._dishes.wrong
        if only is None:
            problems += site_problems(site.settings, self._dishes.by_slug)
            if site.settings.menu:
                from sitegen.pages.menu import dead_ends

                problems += dead_ends(site.settings, self._dishes.by_slug, pages)
        if only is None or all(among(file, only) for file in self._files.recipes):
            problems += read_across(self._dishes.by_slug.values(), site.settings)
        if self._named:
            problems += self._dead_links(site.settings, all_lists=only is None)
        for kept in (self._pictures.problems, self._logs.problems, self._said):
            for some in kept.values():
                problems += some
        if only is not None:
            problems = [p for p in problems if among(p.file, only)]
        return self._gathered(site, larder, pages, in_order(problems), drafts=drafts)

    def outset(self) -> tuple[Site, Larder, tuple[PlainPage, ...], list[str]]:
        """What every recipe is worked out with, and the recipe files: what leaves are made from."""
        self._files.look()
        site, _ = self._site()
        return site, self._larder(site)[0], self._pages(None)[0], self._files.recipes

    def is_settled(self) -> bool:
        """Whether settings and foods are still those of the last time; else every dish is another."""
        site, _ = self._site()
        inputs = (site.settings, self._larder(site)[0])
        return self._inputs is not None and all(map(is_, self._inputs, inputs))

    # --- the parts of a site -------------------------------------------------------------------

    def _site(self) -> tuple[Site, list[Problem]]:
        raw = read_bytes(self.folder, SETTINGS_FILE)
        if isinstance(raw, Problem):
            settings = self._memory.recall("no settings", (), Settings)
            return Site(self.folder, settings), [raw]

        def read() -> tuple[Settings, list[Problem]]:
            source = decode(raw, SETTINGS_FILE)
            if isinstance(source, Problem):
                return Settings(), [source] if source.rule != "file-empty" else []
            return read_settings(source)

        settings, problems = self._memory.recall(SETTINGS_FILE, (mark(raw),), read)
        return Site(self.folder, settings), list(problems)

    def _larder(self, site: Site) -> tuple[Larder, list[Problem]]:
        files = list(list_files(site.folder, LARDER, ".yaml"))
        marks = tuple((file, stamp(site.folder / file)) for file in files)
        return self._memory.recall("larder", marks, lambda: read_larder(site.folder))

    def _pages(
        self, only: Sequence[str] | None
    ) -> tuple[tuple[PlainPage, ...], list[Problem], list[Source]]:
        pages, problems, sources = [], [], []
        for file in self._files.pages:
            if not among(file, only):
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

    def _renew_inputs(self, site: Site, larder: Larder, pages: tuple[PlainPage, ...]) -> bool:
        """Whether every recipe is another now, since the settings or the foods are."""
        inputs = (site.settings, larder)
        known = self._inputs
        if known is not None and all(map(is_, known, inputs)):
            return False
        self._inputs = None  # should the making of leaves fail, it is tried again
        make = self._make_leaves
        leaves = make(site, larder, pages, self._files.recipes) if make else {}
        if known is None or known[0] is not inputs[0] or leaves:
            self._reads.set_out(site.settings, leaves)
        self._inputs = inputs
        return True

    def _wanted(self, settings: Settings, only: Sequence[str] | None) -> list[str]:
        """The recipe files; with ``only``, those and the recipes that they refer to."""
        files = self._files.recipes
        if only is None:
            return files
        known, wanted = set(files), set[str]()
        waiting = [file for file in files if among(file, only)]
        while waiting:
            file = waiting.pop()
            if file not in wanted:
                wanted.add(file)
                waiting += [r.file for r in self._reads.one(file).uses if r.file in known]
        return sorted(wanted)

    def _say(self, again: Iterable[str], pages: Iterable[Source], settings: Settings) -> None:
        """Renew what there is to say of each recipe and of each page's links."""
        reads = self._reads.by_file
        known = {*self._files.recipes, *self._files.pages}

        def is_draft(file: str) -> bool:
            if file.startswith(f"{PAGES}/"):
                return False
            return (reads.get(file) or self._reads.one(file)).draft

        for file in again:
            read = reads.get(file)
            self._names(file, read.named if read is not None else ())
            said: list[Problem] = []
            if read is not None:
                said += read.problems
                said += self._dishes.problems(file)
                said += link_problems(file, read.links, known, is_draft, read.draft)
            if said:
                self._said[file] = tuple(said)
            else:
                self._said.pop(file, None)
        for file in [file for file in self._said if file.startswith(f"{PAGES}/")]:
            del self._said[file]
        for file in [file for file in self._named if file.startswith(f"{PAGES}/")]:
            del self._named[file]
        for source in pages:
            self._names(source.file, page_links(source))
            found = tuple(link_problems(source.file, links(source), known, is_draft, draft=False))
            if found:
                self._said[source.file] = found

    def _names(self, file: str, named: tuple[Reference, ...]) -> None:
        """Keep what pages a file names by their addresses: hardly any does."""
        if named:
            self._named[file] = named
        else:
            self._named.pop(file, None)

    def _dead_links(self, settings: Settings, *, all_lists: bool) -> Iterator[Problem]:
        """Links to pages, and places in pages, that there are not; asked anew each time."""
        from sitegen.pages.dead_links import Addresses, dead_links

        reads = self._reads.by_file

        def text_of(file: str) -> str | None:
            read = reads.get(file)
            return read.source.text if read is not None and read.source is not None else None

        def is_draft(file: str) -> bool:
            return (reads.get(file) or self._reads.one(file)).draft

        there = Addresses(
            settings,
            frozenset(self._files.recipes),
            frozenset(self._files.pages),
            self._dishes.by_slug if all_lists else None,
            text_of,
            is_draft,
        )
        for file, named in sorted(self._named.items()):
            yield from dead_links(file, named, there)

    # --- put together --------------------------------------------------------------------------

    def _gathered(
        self,
        site: Site,
        larder: Larder,
        pages: tuple[PlainPage, ...],
        found: list[Problem],
        *,
        drafts: bool,
    ) -> Gathered:
        reads = self._reads.by_file
        dishes: Mapping[str, Dish] = self._dishes.by_slug
        drafts_known = {read.file for read in reads.values() if read.draft}
        if not drafts:
            wrong = {p.file for p in found if p.severity == "error"} | drafts_known
            dishes = {s: dish for s, dish in dishes.items() if dish.recipe.file not in wrong}
        photographs, films = self._pictures.photographs(reads), self._pictures.films(reads)
        ordered, used_in = self._in_order(dishes)
        logs = self._logs.by_slug(reads)
        collection = Collection(
            site=site,
            dishes=ordered,
            plain_pages=pages,
            used_in=used_in,
            films={slug: films[slug] for slug in ordered if slug in films} if films else {},
            tested={slug: logs[slug].tested for slug in ordered if slug in logs}
            if site.settings.trials_shown
            else {},
        )
        return Gathered(
            collection=collection,
            problems=tuple(found),
            blocking=tuple(
                p
                for p in found
                if p.severity == "error"
                and p.file not in drafts_known
                and not p.file.endswith(LOG_ENDING)  # a slip in private notes stops no page
            ),
            photographs={key: photographs[key] for key in seen(ordered, pages, photographs)},
            all_photographs=tuple(photographs.values()),
            unserved={
                read.slug: read.file
                for read in reads.values()
                if read.slug not in self._dishes.by_slug
            },
            drafts=len(drafts_known),
            logs=logs,
            larder=larder,
        )

    def _in_order(
        self, dishes: Mapping[str, Dish]
    ) -> tuple[dict[str, Dish], Mapping[str, tuple[str, ...]]]:
        """Dishes by title, and which is in which; as the last time where that can't be otherwise."""
        key = [(s, d.recipe.title, d.uses) for s, d in dishes.items()]
        key.sort()
        if self._order is not None and self._order[0] == key:
            ordered = {slug: dishes[slug] for slug in self._order[1]}
            used_in = self._order[2]
        else:
            ordered = dict(sorted(dishes.items(), key=_by_title))
            used_in = _used_in(ordered)
        self._order = (key, ordered, used_in)
        return ordered, used_in


def _by_title(item: tuple[str, Dish]) -> tuple[tuple[str, str], str]:
    slug, dish = item
    return title_order(dish.recipe.title), slug


def _used_in(ordered: Mapping[str, Dish]) -> dict[str, tuple[str, ...]]:
    found: dict[str, list[str]] = {}
    for slug, dish in ordered.items():
        for used in dish.uses:
            found.setdefault(used, []).append(slug)
    return {slug: tuple(users) for slug, users in sorted(found.items())}
