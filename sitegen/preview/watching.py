"""Hear of the author's saves: which files, and when the saving is over.

Most editors write a temporary file and rename it over the old one, others write twice: so folders
are watched, not files. A save is over when nobody has the file open for writing any more and it is
neither gone nor empty; then a few milliseconds without a further event are enough. Many files at
once are waited for longer and taken together; and while git changes the files of a branch, which
it says by a lock of its own, nothing is read.
"""

from __future__ import annotations

import threading
import time
import traceback
from collections.abc import Callable, Sequence
from pathlib import Path

from watchdog.events import FileSystemEvent, FileSystemEventHandler
from watchdog.observers import Observer
from watchdog.observers.api import BaseObserver
from watchdog.observers.polling import PollingObserver

QUIET = 0.003
"""Seconds without a further event, after which a finished save is read."""
UNFINISHED = 0.05
"""The same for a file that is still open, empty or gone: the editor is about to write it."""
MANY = 5
"""Files written at once, beyond which they are no save but a change of the whole folder."""
MANY_QUIET = 0.1
"""Seconds without a further event, after which such a change is over."""
PATIENCE = 0.3
"""Seconds after which a few files are read though events keep coming."""
MANY_PATIENCE = 3.0
"""The same for many."""
GIT_PATIENCE = 30.0
"""Seconds after which git's lock is taken for one that was left behind."""
TOO_MANY = 1000
"""Names beyond which the system may have dropped some: then everything is looked at."""
_WRITES = {"created", "modified", "moved", "deleted", "closed"}
"""Kinds of events that can mean another content; a file's being opened and read is none."""

Changed = Callable[["set[Path] | None"], object]


class Watch:
    """Calls ``changed`` after every save in some folders, from one thread of its own.

    It is told which files may have changed, or None if any may have.
    """

    def __init__(self, folders: Sequence[Path], changed: Changed) -> None:
        self._folders = folders
        self._changed = changed
        self._heard = threading.Condition()
        self._events = 0
        self._names: set[Path] = set()
        self._open: set[Path] = set()
        self._whole = False
        self._ended = False
        self._watched: set[Path] = set()
        self._observer: BaseObserver = Observer()
        self._thread = threading.Thread(target=self._run, name="watch", daemon=True)

    def start(self) -> None:
        """Begin; falls back on looking every second where the system has no watches to give."""
        try:
            self._watch_new_folders()
            self._observer.start()
        except OSError:
            self._watched.clear()
            self._observer = PollingObserver(timeout=1)
            self._watch_new_folders()
            self._observer.start()
        self._thread.start()

    def stop(self) -> None:
        """End, and wait for the thread."""
        with self._heard:
            self._ended = True
            self._heard.notify_all()
        self._observer.stop()
        self._observer.join()
        self._thread.join()

    def hear(self, event: FileSystemEvent) -> None:
        """Take an event of the system's in."""
        if event.event_type not in _WRITES:
            return
        paths = {Path(str(p)) for p in (event.src_path, event.dest_path) if p}
        with self._heard:
            self._events += 1
            if event.is_directory:
                # A folder is "modified" by each file in it, which has an event of its own.
                self._whole |= event.event_type != "modified"
            else:
                self._names |= paths
            if event.event_type == "modified" and not event.is_directory:
                self._open |= paths
            elif event.event_type != "created":
                self._open -= paths
            self._heard.notify_all()

    def _watch_new_folders(self) -> None:
        """Watch every folder that is there; of one that is not, the folder that would hold it."""
        for folder in self._folders:
            there = folder.is_dir()
            watched = folder if there else folder.parent
            if watched.is_dir() and watched not in self._watched:
                self._watched.add(watched)
                self._observer.schedule(_Ear(self.hear), str(watched), recursive=there)

    def _run(self) -> None:
        while True:
            with self._heard:
                self._heard.wait_for(lambda: self._ended or self._events)
                self._wait_for_the_end()
                if self._ended:
                    return
                whole = self._whole or len(self._names) > TOO_MANY
                names = None if whole else self._names
                self._names, self._open = set(), set()
                self._events, self._whole = 0, False
            self._watch_new_folders()
            try:
                self._changed(names)
            except Exception:  # a fault of ours must not end the watch
                traceback.print_exc()

    def _wait_for_the_end(self) -> None:
        began = time.monotonic()
        while not self._ended:
            many = self._whole or len(self._names) > MANY
            patience = MANY_PATIENCE if many else PATIENCE
            if git_writes(self._folders):
                patience = GIT_PATIENCE
            if time.monotonic() - began > patience:
                return
            quiet = MANY_QUIET if many else UNFINISHED if self._is_unfinished() else QUIET
            before = self._events
            self._heard.wait(quiet)
            finished = many or quiet == UNFINISHED or not self._is_unfinished()
            if self._events == before and finished and not git_writes(self._folders):
                return

    def _is_unfinished(self) -> bool:
        return bool(self._open) or any(_is_gone_or_empty(path) for path in self._names)


class _Ear(FileSystemEventHandler):
    def __init__(self, hear: Callable[[FileSystemEvent], None]) -> None:
        self._hear = hear

    def on_any_event(self, event: FileSystemEvent) -> None:
        self._hear(event)


def git_writes(folders: Sequence[Path]) -> bool:
    """Whether git is at work on a repository that one of the folders lies in."""
    for above in {parent for folder in folders for parent in folder.parents}:
        try:
            since = (above / ".git" / "index.lock").stat().st_mtime
        except OSError:
            continue
        if time.time() - since < GIT_PATIENCE:
            return True
    return False


def _is_gone_or_empty(path: Path) -> bool:
    """As an editor leaves a file for a moment; its own hidden and temporary files may go for good."""
    if path.name.startswith(".") or path.suffix not in (".md", ".yaml", ".css", ".html", ".js"):
        return False
    try:
        return path.stat().st_size == 0
    except OSError:
        return True
