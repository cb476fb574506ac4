"""The site after one reading of its files, laid out page by page as pages are asked for."""

from __future__ import annotations

import posixpath
import threading
from collections.abc import Mapping
from dataclasses import dataclass, field
from hashlib import sha256
from urllib.parse import urlsplit

from sitegen.finding.related import Relations
from sitegen.gathering import Gathered
from sitegen.images.cache import Cache
from sitegen.pages.late_layout import LateLayout
from sitegen.pages.theme import Theme
from sitegen.problems import Problem

ASSET = "asset"
"""The stamp of a theme's file, whose address changes with its content."""


@dataclass(frozen=True, slots=True)
class Shown:
    """What an address gives: bytes, and which of the author's files they come from."""

    content: bytes
    stamp: str
    """Another content, another stamp."""
    inputs: tuple[str, ...] = ()


@dataclass(slots=True)
class Edition:
    """The site after one reading of its files; nothing in it changes but what is laid out late."""

    number: int
    gathered: Gathered
    theme: Theme | None
    problems: tuple[Problem, ...]
    cache: Cache
    earlier: Relations | None = None
    """Which recipes were alike in the edition before."""
    ready: frozenset[str] | None = None
    """While the site is being read: the pages that can be laid out already. None: it has been read."""
    files: Mapping[str, str] | None = None
    """While the site is being read: every Markdown file, and where its page will be."""
    _pages: LateLayout | None = None
    _assets: Mapping[str, bytes] | None = None
    _lock: threading.RLock = field(default_factory=threading.RLock)
    _shown: dict[str, Shown] = field(default_factory=dict)

    def find(self, path: str) -> Shown | None:
        """The file at ``path`` (as in the output folder), or None if the site has none, or none yet."""
        with self._lock:
            if path not in self._shown:
                found = self._find(path)
                if found is None:
                    return None
                self._shown[path] = found
            return self._shown[path]

    def photo(self, path: str) -> bytes | None:
        """A picture, made now if it has never been, or a film."""
        for film in self.gathered.collection.films.values():
            for name, source in film.files():
                if name == path:
                    return source.read_bytes()
        for photograph in self.gathered.photographs.values():
            content = photograph.make_one(path, self.cache)
            if content is not None:
                return content
        return None

    def file_of(self, path: str) -> str:
        """The recipe that should stand at ``path`` but can't, since something is wrong with it."""
        for slug, file in self.gathered.unserved.items():
            if path in (f"recipes/{slug}.html", f"recipes/{slug}-card.html"):
                return file
        return ""

    def name_of(self, path: str) -> str:
        """An address's path as a file of the output: no step upwards ever leaves it."""
        base = self.base_path
        if base and path.startswith(f"{base}/"):
            path = path[len(base) :]
        name = posixpath.normpath("/" + path.lstrip("/")).lstrip("/")
        return f"{name}/index.html".lstrip("/") if path.endswith("/") or not name else name

    @property
    def is_early(self) -> bool:
        """Whether the site is still being read, so that what is not here may yet come."""
        return self.ready is not None

    @property
    def base_path(self) -> str:
        """The path of the site's address, which links of the 404 page begin with."""
        return urlsplit(self.gathered.site.settings.address).path.rstrip("/")

    @property
    def relations(self) -> Relations | None:
        """Which recipes are alike, as far as a page has asked."""
        return self._pages.relations if self._pages is not None else self.earlier

    @property
    def assets(self) -> Mapping[str, bytes]:
        """The theme's files by their addresses."""
        if self._assets is None:
            self._assets = self.theme.assets() if self.theme is not None else {}
        return self._assets

    def same_as(self, other: Edition) -> bool:
        """Whether every page and problem is the same."""
        ours, theirs = self.gathered, other.gathered
        return (
            self.problems == other.problems
            and ours.collection == theirs.collection
            and ours.photographs == theirs.photographs
            and ours.logs == theirs.logs
            and self.theme is other.theme
        )

    def _find(self, path: str) -> Shown | None:
        if path.startswith("-/"):
            return self._of_log(path)
        if self.theme is None:
            return None
        if path in self.assets:
            return Shown(self.assets[path], ASSET)
        if self.ready is not None and path not in self.ready:
            return None
        if self._pages is None:
            sets = {s: photo.photo_set for s, photo in self.gathered.photographs.items()}
            self._pages = LateLayout(
                self.gathered.collection, self.theme, sets, self.earlier, self.files
            )
        page = self._pages.find(path)
        if page is None:
            return None
        return self._with_log(path, page.content, page.inputs)

    def _of_log(self, path: str) -> Shown | None:
        """A page of a test log, which is private: the theme and the builder know nothing of it."""
        from sitegen.preview.testlog import log_page

        if self.is_early and path.endswith("/index.html"):
            return None  # there may be more logs than are known
        found = log_page(path, self.gathered)
        return shown(*found) if found else None

    def _with_log(self, path: str, content: bytes, inputs: tuple[str, ...]) -> Shown:
        """A recipe's page with the way to its test log, if it has one."""
        slug = path.removeprefix("recipes/").removesuffix(".html")
        log = self.gathered.logs.get(slug)
        if log is None or path != f"recipes/{slug}.html":
            return shown(content, inputs)
        from sitegen.preview.testlog import with_link

        return shown(with_link(content, slug, log), (*inputs, log.file))


def shown(content: bytes, inputs: tuple[str, ...]) -> Shown:
    """A page, with the stamp of its content."""
    return Shown(content, sha256(content).hexdigest()[:16], inputs)
