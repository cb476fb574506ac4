"""The site as it stands at this moment, kept up with by the author's saves.

While everything is being read, at the start or since settings or foods have changed, pages come from
early editions (:mod:`sitegen.preview.early`); the first full edition after it puts them right.
"""

from __future__ import annotations

import gc
import threading
import traceback
from collections.abc import Collection, Iterable
from pathlib import Path

from sitegen.gathering import Gatherer, Progress
from sitegen.images.cache import Cache
from sitegen.preview.early import Early
from sitegen.preview.edition import Edition
from sitegen.preview.start import Overtaken, Start
from sitegen.preview.themes import Themes
from sitegen.problems import in_order
from sitegen.settings import FILE as SETTINGS_FILE
from sitegen.stores import LARDER
from sitegen.workroom import Workroom

_INPUTS = (SETTINGS_FILE, LARDER)
"""What every recipe is worked out with."""
_GRACE = 5.0
"""Seconds that the end of the preview waits for what is being read to end."""


class Desk:
    """Keeps the newest edition, and tells those who wait when there is another."""

    def __init__(self, folder: Path, *, at_once: bool = False) -> None:
        """Reads the site, unless it is to be there ``at_once``; then :meth:`begin` does.

        Raises OSError if the site's folder can't be written, where made pictures are kept.
        """
        self.folder = folder
        self._progress: Progress = lambda *_: None
        self._start = Start(folder, self._told)
        self._gatherer = Gatherer(folder, self._start.leaves)
        self._changed = threading.Condition()
        self._reading = threading.Lock()
        self._closed = False
        self._themes = Themes(folder)
        workroom = Workroom(folder)
        workroom.ready()
        self._cache = Cache(workroom.cache)
        self._number = 0
        self._edition: Edition | None = None
        self._early: Early | None = None
        self._waiting: list[Collection[Path] | None] = []
        """Saves that are to be read as soon as everything has been."""
        self._reader: threading.Thread | None = None
        self._how_far = (0, 0)
        self._failed = False
        if at_once:
            self._early = Early(folder, self._cache, self._themes)
        else:
            self._publish(self._read(None))
            _tidy()

    @property
    def edition(self) -> Edition:
        """The newest edition of the whole site; RuntimeError if it has not been read yet."""
        if self._edition is None:
            raise RuntimeError("the site has not been read yet")
        return self._edition

    @property
    def number(self) -> int:
        """Rises whenever any page may be another."""
        return self._number

    @property
    def is_reading(self) -> bool:
        """Whether everything is being read."""
        return self._early is not None

    def at(self, path: str) -> Edition:
        """The edition that answers an address now."""
        early = self._early
        return early.at(path) if early is not None else self.edition

    def note(self, edition: Edition) -> str:
        """What a page of an edition must say as long as everything is being read; else nothing."""
        early = self._early
        if early is None:
            return ""
        if self._failed:
            return "The site could not be read; the terminal says why. The next save tries again."
        done, whole = self._how_far
        count = f": {done:,} of {whole:,} recipes" if whole else ""
        rest = (
            "What other recipes add here follows by itself."
            if edition is not early.before
            else "This page is as it was before, and follows by itself."
        )
        return f"Reading the site{count}. {rest}"

    def latest(self) -> tuple[str, ...]:
        """While everything is being read: the recipe files that were written last."""
        early = self._early
        return early.latest if early is not None else ()

    def begin(self, progress: Progress = lambda *_: None) -> None:
        """Read everything, in a thread of its own; pages are answered meanwhile."""
        self._progress = progress
        with self._changed:
            self._ensure_reader()

    def follow(self, changed: Collection[Path] | None = None) -> None:
        """Take in that files were written, and come back soon; pages are told when they are others.

        ``changed`` are the files that may be others now; None means that any may.
        """
        if self._early is None and self._is_settled():
            self.refresh(changed)
            return
        self._themes.hear(changed)
        with self._changed:
            if self._early is None:
                self._early = Early(self.folder, self._cache, self._themes, self._edition)
                self._how_far = (0, 0)
            early = self._early
            self._waiting.append(changed)
            if changed is not None and _names_any(changed, self.folder, _INPUTS):
                self._start.stop()
        early.forget()
        with self._changed:
            self._failed = False
            self._number += 1
            self._changed.notify_all()
            self._ensure_reader()

    def refresh(self, changed: Collection[Path] | None = None) -> bool:
        """Read what has changed, and wait until it is read; whether anything is different now.

        ``changed`` as in :meth:`follow`.
        """
        if self._early is not None:
            self.follow(changed)
            with self._changed:
                self._changed.wait_for(lambda: not self._early or self._failed or self._closed)
            return True
        self._themes.hear(changed)
        with self._reading:
            fresh = self._read(changed)
            if fresh.same_as(self.edition):
                return False
            self._publish(fresh)
            return True

    def wait_after(self, number: int, seconds: float) -> Edition | None:
        """The whole site's edition that follows ``number``; None if the time is over or the desk closed."""
        with self._changed:
            self._changed.wait_for(
                lambda: self._closed or self._number_of_whole > number, timeout=seconds
            )
            return self._edition if self._number_of_whole > number and not self._closed else None

    def wait_for_news(self, number: int, seconds: float) -> bool:
        """Whether any page may be another than at ``number``, or the desk has closed, in that time."""
        with self._changed:
            return self._changed.wait_for(
                lambda: self._closed or self._number > number, timeout=seconds
            )

    @property
    def closed(self) -> bool:
        """Whether the preview is ending."""
        return self._closed

    def close(self) -> None:
        """Let everyone who waits go, and end what is being read."""
        with self._changed:
            self._closed = True
            self._start.stop()
            self._changed.notify_all()
            reader = self._reader
        if reader is not None:
            reader.join(_GRACE)

    # --- reading ---------------------------------------------------------------------------------

    @property
    def _number_of_whole(self) -> int:
        return self._edition.number if self._edition is not None else 0

    def _is_settled(self) -> bool:
        with self._reading:
            return self._gatherer.is_settled()

    def _ensure_reader(self) -> None:
        if self._reader is None and not self._closed:
            self._reader = threading.Thread(target=self._catch_up, name="read", daemon=True)
            self._reader.start()

    def _catch_up(self) -> None:
        """Read everything, and then what was written meanwhile, until nothing is left."""
        fresh: Edition | None = None
        while True:
            with self._changed:
                if self._closed or (fresh is not None and not self._waiting):
                    if fresh is not None:
                        self._publish(fresh)
                    self._reader = None
                    break
                names = _together(self._waiting)
                self._waiting = []
                self._start.again()
            try:
                with self._reading:
                    fresh = self._read(names)
            except Overtaken:
                fresh = None
                with self._changed:
                    self._waiting.append(None)
            except Exception:  # a fault of ours must not end the preview
                traceback.print_exc()
                with self._changed:
                    self._waiting.append(None)
                    self._failed = True
                    self._reader = None
                    self._number += 1
                    self._changed.notify_all()
                return
        _tidy()

    def _read(self, changed: Collection[Path] | None) -> Edition:
        names = None if changed is None else _names(changed, self.folder)
        gathered = self._gatherer.gather(drafts=True, changed=names)
        theme, theme_problems = self._themes.of(gathered.site)
        problems = gathered.problems
        if theme_problems:
            problems = tuple(in_order((*problems, *theme_problems)))
        earlier = self._edition.relations if self._edition is not None else None
        return Edition(0, gathered, theme, problems, self._cache, earlier)

    def _publish(self, fresh: Edition) -> None:
        with self._changed:
            self._number += 1
            fresh.number = self._number
            self._edition = fresh
            self._early = None
            self._changed.notify_all()

    def _told(self, what: str, done: int, whole: int) -> None:
        self._how_far = (done, whole)
        self._progress(what, done, whole)


def _tidy() -> None:
    """Thousands of dishes are looked through for garbage now, and not again at each save."""
    gc.unfreeze()
    gc.collect()
    gc.freeze()


def _together(waiting: Iterable[Collection[Path] | None]) -> set[Path] | None:
    """All files of some saves; None if any may have been written."""
    found: set[Path] = set()
    for changed in waiting:
        if changed is None:
            return None
        found.update(changed)
    return found


def _names(changed: Collection[Path], folder: Path) -> set[str]:
    """The files of a site among those that changed, as the site names them."""
    return {path.relative_to(folder).as_posix() for path in changed if path.is_relative_to(folder)}


def _names_any(changed: Collection[Path], folder: Path, places: Collection[str]) -> bool:
    """Whether one of the files is, or lies in, one of those places of the site."""
    return any(path.is_relative_to(folder / place) for path in changed for place in places)
