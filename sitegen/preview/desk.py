"""The site as it stands at this moment, laid out page by page as pages are asked for."""

from __future__ import annotations

import gc
import threading
from collections.abc import Collection, Mapping
from dataclasses import dataclass, field
from hashlib import sha256
from pathlib import Path
from urllib.parse import urlsplit

from sitegen.finding.related import Relations
from sitegen.gathering import Gathered, Gatherer, Progress
from sitegen.images.cache import Cache
from sitegen.pages.late_layout import LateLayout
from sitegen.pages.theme import Theme, load_theme, program_themes
from sitegen.preview.start import Start
from sitegen.problems import Problem, in_order
from sitegen.site import Site
from sitegen.workroom import Workroom

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
    _pages: LateLayout | None = None
    _assets: Mapping[str, bytes] = field(default_factory=dict)
    _lock: threading.RLock = field(default_factory=threading.RLock)
    _shown: dict[str, Shown] = field(default_factory=dict)

    def find(self, path: str) -> Shown | None:
        """The file at ``path`` (as in the output folder), or None if the site has none."""
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

    @property
    def base_path(self) -> str:
        """The path of the site's address, which links of the 404 page begin with."""
        return urlsplit(self.gathered.site.settings.address).path.rstrip("/")

    @property
    def relations(self) -> Relations | None:
        """Which recipes are alike, as far as a page has asked."""
        return self._pages.relations if self._pages is not None else self.earlier

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
        if self._pages is None:
            sets = {s: photo.photo_set for s, photo in self.gathered.photographs.items()}
            self._pages = LateLayout(self.gathered.collection, self.theme, sets, self.earlier)
            self._assets = self.theme.assets()
        if path in self._assets:
            return Shown(self._assets[path], ASSET)
        page = self._pages.find(path)
        if page is None:
            return None
        return self._with_log(path, page.content, page.inputs)

    def _of_log(self, path: str) -> Shown | None:
        """A page of a test log, which is private: the theme and the builder know nothing of it."""
        from sitegen.preview.testlog import log_page

        found = log_page(path, self.gathered)
        return _shown(*found) if found else None

    def _with_log(self, path: str, content: bytes, inputs: tuple[str, ...]) -> Shown:
        """A recipe's page with the way to its test log, if it has one."""
        slug = path.removeprefix("recipes/").removesuffix(".html")
        log = self.gathered.logs.get(slug)
        if log is None or path != f"recipes/{slug}.html":
            return _shown(content, inputs)
        from sitegen.preview.testlog import with_link

        return _shown(with_link(content, slug, log), (*inputs, log.file))


class Desk:
    """Keeps the newest edition, and tells those who wait when there is another."""

    def __init__(self, folder: Path, progress: Progress = lambda *_: None) -> None:
        """Raises OSError if the site's folder can't be written, where made pictures are kept."""
        self.folder = folder
        self._gatherer = Gatherer(folder, Start(folder, progress).leaves)
        self._changed = threading.Condition()
        self._reading = threading.Lock()
        self._closed = False
        self._theme: tuple[object, tuple[Theme | None, list[Problem]]] | None = None
        self._stamps: list[list[tuple[str, int, int]]] = []
        workroom = Workroom(folder)
        workroom.ready()
        self._cache = Cache(workroom.cache)
        self._edition = self._read(1)
        gc.collect()
        gc.freeze()  # a site of thousands of dishes is not looked through for garbage at each save

    @property
    def edition(self) -> Edition:
        """The newest edition."""
        return self._edition

    def refresh(self, changed: Collection[Path] | None = None) -> bool:
        """Read what has changed; whether anything is different now.

        ``changed`` are the files that may have; None means that any may.
        """
        with self._reading:
            fresh = self._read(self._edition.number + 1, changed)
            if fresh.same_as(self._edition):
                return False
            with self._changed:
                self._edition = fresh
                self._changed.notify_all()
            return True

    def wait_after(self, number: int, seconds: float) -> Edition | None:
        """The edition that follows ``number``, or None when the time is over or the desk closed."""
        with self._changed:
            self._changed.wait_for(
                lambda: self._closed or self._edition.number > number, timeout=seconds
            )
            return self._edition if self._edition.number > number and not self._closed else None

    @property
    def closed(self) -> bool:
        """Whether the preview is ending."""
        return self._closed

    def close(self) -> None:
        """Let everyone who waits go."""
        with self._changed:
            self._closed = True
            self._changed.notify_all()

    def _read(self, number: int, changed: Collection[Path] | None = None) -> Edition:
        names = None if changed is None else _names(changed, self.folder)
        gathered = self._gatherer.gather(drafts=True, changed=names)
        theme, theme_problems = self._themes(gathered.site, changed)
        problems = gathered.problems
        if theme_problems:
            problems = tuple(in_order((*problems, *theme_problems)))
        earlier = self._edition.relations if number > 1 else None
        return Edition(number, gathered, theme, problems, self._cache, earlier)

    def _themes(
        self, site: Site, changed: Collection[Path] | None
    ) -> tuple[Theme | None, list[Problem]]:
        """The theme, loaded anew only when a file of it is: compiling templates takes long."""
        folders = (program_themes(), site.themes)
        if self._theme is None or changed is None or _touches(folders, changed):
            self._stamps = [_stamps(folder) for folder in folders]
        stamp = (site.settings, self._stamps)
        if self._theme is None or self._theme[0] != stamp:
            self._theme = (stamp, load_theme(site))
        return self._theme[1]


def _shown(content: bytes, inputs: tuple[str, ...]) -> Shown:
    return Shown(content, sha256(content).hexdigest()[:16], inputs)


def _stamps(folder: Path) -> list[tuple[str, int, int]]:
    """What changes in a folder when a file in it is written."""
    found = []
    for path in sorted(folder.rglob("*")):
        try:
            seen = path.stat()
        except OSError:
            continue
        if path.is_file():
            found.append((str(path), seen.st_mtime_ns, seen.st_size))
    return found


def _names(changed: Collection[Path], folder: Path) -> set[str]:
    """The files of a site among those that changed, as the site names them."""
    return {path.relative_to(folder).as_posix() for path in changed if path.is_relative_to(folder)}


def _touches(folders: Collection[Path], changed: Collection[Path]) -> bool:
    return any(path.is_relative_to(folder) for path in changed for folder in folders)
