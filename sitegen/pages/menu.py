"""The links in the site's head: what the entries of ``site.yaml`` mean."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from sitegen.pages import address
from sitegen.site import MenuItem, Settings


@dataclass(frozen=True, slots=True)
class Target:
    """One entry: its words, and the file of the site or the address outside that it leads to."""

    label: str
    path: str
    outside: bool


def targets(settings: Settings, pages: Mapping[str, str]) -> Iterator[Target]:
    """The author's entries in order, and search after them where they have not named it."""
    searched = False
    for item in settings.menu or (MenuItem("Recipes", address.ALL_RECIPES),):
        outside = "://" in item.to or item.to.startswith(("mailto:", "#"))
        path = item.to if outside else menu_path(item.to, pages)
        searched = searched or path == address.SEARCH
        yield Target(item.label, path, outside)
    if not searched:
        yield Target("Search", address.SEARCH, False)


def menu_path(where: str, pages: Mapping[str, str]) -> str:
    """The file that a menu entry of ``site.yaml`` means: a page's name, file or address.

    >>> menu_path("recipes", {})
    'recipes/index.html'
    >>> menu_path("tags/winter", {})
    'tags/winter.html'
    """
    path = where.strip().lstrip("/")
    for file, page in pages.items():
        if path in (file, file.removeprefix("content/")):
            return page
    if path in ("", "home"):
        return address.HOME
    if path.rstrip("/") == "recipes":
        return address.ALL_RECIPES
    last = path.rsplit("/", 1)[-1]
    return path if "." in last else path.rstrip("/") + ".html"
