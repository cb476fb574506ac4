"""Hear of the author's saves.

Most editors write a temporary file and rename it over the old one, others write twice: so folders
are watched, not files; what happens within a few milliseconds is taken together; and what counts
is whether the content is different, which the desk finds out.
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

QUIET = 0.012
"""Seconds without a further event, after which the folders are read."""
PATIENCE = 0.5
"""Seconds after which they are read though events keep coming."""
_WRITES = {"created", "modified", "moved", "deleted", "closed"}
"""Kinds of events that can mean another content; a file's being opened and read is none."""


class Watch:
    """Calls ``changed`` after every burst of writes in some folders, from one thread of its own."""

    def __init__(self, folders: Sequence[Path], changed: Callable[[], object]) -> None:
        self._folders = folders
        self._changed = changed
        self._heard = threading.Event()
        self._ended = threading.Event()
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
        self._ended.set()
        self._heard.set()
        self._observer.stop()
        self._observer.join()
        self._thread.join()

    def _watch_new_folders(self) -> None:
        """Watch every folder that is there; of one that is not, the folder that would hold it."""
        for folder in self._folders:
            there = folder.is_dir()
            watched = folder if there else folder.parent
            if watched.is_dir() and watched not in self._watched:
                self._watched.add(watched)
                self._observer.schedule(_Ear(self._hear), str(watched), recursive=there)

    def _hear(self) -> None:
        self._last = time.monotonic()
        self._heard.set()

    def _run(self) -> None:
        while True:
            self._heard.wait()
            if self._ended.is_set():
                return
            first = time.monotonic()
            while True:
                self._heard.clear()
                if not self._heard.wait(QUIET) or time.monotonic() - first > PATIENCE:
                    break
            if self._ended.is_set():
                return
            self._heard.clear()
            self._watch_new_folders()
            try:
                self._changed()
            except Exception:  # a fault of ours must not end the watch
                traceback.print_exc()


class _Ear(FileSystemEventHandler):
    def __init__(self, hear: Callable[[], None]) -> None:
        self._hear = hear

    def on_any_event(self, event: FileSystemEvent) -> None:
        if event.event_type in _WRITES:
            self._hear()
