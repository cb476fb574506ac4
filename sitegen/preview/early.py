"""Pages of a site that is still being read: a recipe's from its own file and those that it uses.

They are what they will be but for what other recipes add: those that are related, those that it goes
into. Every other page that tells of recipes must wait, or stays as it was before the settings changed.
"""

from __future__ import annotations

import re
import threading
from dataclasses import replace
from pathlib import Path

from sitegen.gathering import PAGES, RECIPES, Gathered, Gatherer
from sitegen.images.cache import Cache
from sitegen.pages import address
from sitegen.preview.edition import Edition
from sitegen.preview.themes import Themes
from sitegen.problems import in_order
from sitegen.reading.read import slug_of
from sitegen.settings import FILE as SETTINGS_FILE
from sitegen.stores import LARDER
from sitegen.textfile import list_files

LATEST = 12
"""As many recipes are named on a page that must wait: its author wants one of them, most likely."""

_SHARED = (PAGES, SETTINGS_FILE, LARDER)
"""What is read whatever page is asked for; it is little."""
_OF_RECIPE = re.compile(r"(?:recipes|-/trials)/(?P<slug>[^/]+?)(?:/[^/]+)?\.html")


class Early:
    """Lays out what it can, each recipe by itself, and again whenever a file has been written."""

    def __init__(
        self, folder: Path, cache: Cache, themes: Themes, before: Edition | None = None
    ) -> None:
        """``before`` is the site under its former settings and foods."""
        self.before = before
        self._folder, self._cache, self._themes = folder, cache, themes
        self._lock = threading.RLock()
        self._gatherer = Gatherer(folder)
        then = before.gathered if before is not None else None
        self._photographs = dict(then.photographs) if then else {}
        self._films = dict(then.collection.films) if then else {}
        self.forget()

    def forget(self) -> None:
        """A file has been written."""
        with self._lock:
            self._recipes: dict[str, str] | None = None
            self._latest: tuple[str, ...] | None = None
            self._editions: dict[str, Edition] = {}

    def at(self, path: str) -> Edition:
        """What answers an address: an edition that has its page, or in which it is yet to come."""
        with self._lock:
            shared = self._edition("")
            name = shared.name_of(path)
            if file := self._file_of(name):
                return self._edition(file)
            if name.startswith(("photos/", "films/")):
                return self._with_pictures(shared)
            if name in shared.assets or (shared.ready and name in shared.ready):
                return shared
            return self.before if self.before is not None else shared

    @property
    def latest(self) -> tuple[str, ...]:
        """The recipe files that were written last, the last first."""
        with self._lock:
            if self._latest is None:
                files = self._known().values()
                self._latest = tuple(sorted(files, key=self._written, reverse=True)[:LATEST])
            return self._latest

    def _written(self, file: str) -> tuple[int, str]:
        try:
            return (self._folder / file).stat().st_mtime_ns, file
        except OSError:
            return 0, file

    def _known(self) -> dict[str, str]:
        """Each recipe's file by its slug; of two with one slug, the first."""
        if self._recipes is None:
            files = list_files(self._folder, RECIPES, ".md")
            self._recipes = {slug_of(file): file for file in reversed(files)}
        return self._recipes

    def _file_of(self, name: str) -> str:
        found = _OF_RECIPE.fullmatch(name)
        if not found:
            return ""
        known, slug = self._known(), found["slug"]
        return known.get(slug) or known.get(slug.removesuffix("-card"), "")

    def _edition(self, file: str) -> Edition:
        """What can be told from one recipe's file, or from none."""
        if file not in self._editions:
            self._editions[file] = self._read(file)
        return self._editions[file]

    def _read(self, file: str) -> Edition:
        only = [file, *_SHARED] if file else list(_SHARED)
        gathered = self._gatherer.gather(drafts=True, only=only)
        self._photographs |= gathered.photographs
        self._films |= gathered.collection.films
        theme, theme_problems = self._themes.of(gathered.site)
        problems = tuple(in_order((*gathered.problems, *theme_problems)))
        plain = {page.file: address.plain(page.slug) for page in gathered.collection.plain_pages}
        slug = slug_of(file) if file else ""
        own = {address.recipe(slug), address.card(slug)} if file else set()
        return Edition(
            0,
            self._among_others(gathered),
            theme,
            problems,
            self._cache,
            self.before.relations if self.before is not None else None,
            frozenset({*own, *plain.values()}),
            {f: address.recipe(s) for s, f in self._known().items()} | plain,
        )

    def _among_others(self, gathered: Gathered) -> Gathered:
        """With the other recipes as they were before, of which a page tells little."""
        if self.before is None:
            return gathered
        then, now = self.before.gathered, gathered.collection
        broken = gathered.unserved
        dishes = {s: d for s, d in then.collection.dishes.items() if s not in broken}
        return replace(
            gathered,
            collection=replace(
                now,
                dishes={**dishes, **now.dishes},
                used_in=then.collection.used_in,
                films={**then.collection.films, **now.films},
            ),
            photographs={**then.photographs, **gathered.photographs},
        )

    def _with_pictures(self, shared: Edition) -> Edition:
        """What has every picture and film that an open page may show, though its file is another now."""
        collection = replace(shared.gathered.collection, films=self._films)
        gathered = replace(shared.gathered, collection=collection, photographs=self._photographs)
        return replace(shared, gathered=gathered)
