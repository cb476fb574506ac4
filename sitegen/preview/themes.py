"""The theme, loaded anew only when a file of it is: compiling templates takes long."""

from __future__ import annotations

import threading
from collections.abc import Collection
from pathlib import Path

from sitegen.pages.theme import Theme, load_theme, program_themes
from sitegen.problems import Problem
from sitegen.site import Site


class Themes:
    """Keeps the theme of one site."""

    def __init__(self, folder: Path) -> None:
        self._folders = (program_themes(), folder / "themes")
        self._lock = threading.Lock()
        self._heard = True
        self._theme: tuple[object, tuple[Theme | None, list[Problem]]] | None = None
        self._stamps: list[list[tuple[str, int, int]]] = []

    def hear(self, changed: Collection[Path] | None) -> None:
        """These files may be others now; None: any may."""
        if changed is None or _touches(self._folders, changed):
            self._heard = True

    def of(self, site: Site) -> tuple[Theme | None, list[Problem]]:
        """The theme and what is wrong in it."""
        with self._lock:
            if self._heard:
                self._heard = False  # before it is looked at: what is heard meanwhile holds
                self._stamps = [_stamps(folder) for folder in self._folders]
            stamp = (site.settings, self._stamps)
            if self._theme is None or self._theme[0] != stamp:
                self._theme = (stamp, load_theme(site))
            return self._theme[1]


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


def _touches(folders: Collection[Path], changed: Collection[Path]) -> bool:
    return any(path.is_relative_to(folder) for path in changed for folder in folders)
