"""Which files a site is read from; listed once, then kept up with by the names of what changed."""

from __future__ import annotations

from bisect import bisect_left, insort
from collections.abc import Collection, Iterable
from pathlib import Path

from sitegen.settings import FILE as SETTINGS_FILE
from sitegen.stores import LARDER
from sitegen.textfile import list_files

RECIPES = "content/recipes"
PAGES = "content/pages"
LOG_ENDING = ".trials.yaml"

_KINDS = {
    "recipes": (RECIPES, ".md"),
    "pages": (PAGES, ".md"),
    "logs": (RECIPES, LOG_ENDING),
    "larder": (LARDER, ".yaml"),
    "all": ("content", ""),
}
"""Folder and ending of the files of each kind."""


class SiteFiles:
    """The files of one site by kind, each sorted."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder
        self._lists: dict[str, list[str]] = {}

    @property
    def recipes(self) -> list[str]:
        """Recipes."""
        return self._lists["recipes"]

    @property
    def pages(self) -> list[str]:
        """The author's own pages."""
        return self._lists["pages"]

    @property
    def logs(self) -> list[str]:
        """Test logs."""
        return self._lists["logs"]

    @property
    def all(self) -> list[str]:
        """Everything in ``content/`` that is not hidden."""
        return self._lists["all"]

    def read(self) -> set[str]:
        """Every file that is read."""
        kinds = ("recipes", "pages", "logs", "larder")
        return {SETTINGS_FILE}.union(*(self._lists[kind] for kind in kinds))

    def look(self) -> bool:
        """List everything anew; whether a file has come or gone since."""
        before = self._lists
        self._lists = {k: list_files(self._folder, *place) for k, place in _KINDS.items()}
        return before != self._lists

    def follow(self, names: Iterable[str]) -> bool | None:
        """Take in that files of these names were written, moved or removed.

        Says whether a file has come or gone; None if only :meth:`look` can tell, since one of the
        names is a folder's, or nothing has been listed yet.
        """
        if not self._lists:
            return None
        changed = False
        for name in names:
            path = self._folder / name
            if path.is_dir() or self._was_folder(name):
                return None
            if not _listed(name):
                continue
            there = path.exists() or path.is_symlink()
            for kind, (within, ending) in _KINDS.items():
                if name.startswith(f"{within}/") and name.endswith(ending):
                    changed |= _put(self._lists[kind], name, there)
        return changed

    def _was_folder(self, name: str) -> bool:
        at = bisect_left(self.all, f"{name}/")
        return at < len(self.all) and self.all[at].startswith(f"{name}/")


def _listed(name: str) -> bool:
    """Whether a file of this name is listed if it is there: no part of its name is hidden."""
    return not any(part.startswith(".") for part in name.split("/"))


def _put(files: list[str], name: str, there: bool) -> bool:
    at = bisect_left(files, name)
    known = at < len(files) and files[at] == name
    if there and not known:
        insort(files, name)
    elif known and not there:
        del files[at]
    return known != there


def is_read(name: str, folder: Path) -> bool:
    """Whether ``name`` (relative to the site's folder) is a file or folder that is read."""
    if (folder / name).is_dir():
        return True
    places = (place for kind, place in _KINDS.items() if kind != "all")
    return name == SETTINGS_FILE or any(name in list_files(folder, *place) for place in places)


def companion(name: str) -> str:
    """A recipe's test log, and a log's recipe: each is checked with the other."""
    if name.endswith(LOG_ENDING):
        return name.removesuffix(LOG_ENDING) + ".md"
    return name.removesuffix(".md") + LOG_ENDING if name.endswith(".md") else ""


def among(file: str, only: Collection[str] | None) -> bool:
    """Whether a file is one of those that are wanted, or in a wanted folder; None wants all."""
    if only is None:
        return True
    return any(file == name or name == "." or file.startswith(f"{name}/") for name in only)
