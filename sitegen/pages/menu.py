"""The links in the site's head: what the entries of ``site.yaml`` mean."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from sitegen.pages import address
from sitegen.problems import Problem, did_you_mean
from sitegen.site import MenuItem, Settings

if TYPE_CHECKING:
    from sitegen.collection import PlainPage
    from sitegen.dish import Dish


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
        outside = _outside(item.to)
        path = item.to if outside else menu_path(item.to, pages)
        searched = searched or path == address.SEARCH
        yield Target(item.label, path, outside)
    if not searched:
        yield Target("Search", address.SEARCH, False)


def dead_ends(
    settings: Settings, dishes: Mapping[str, Dish], pages: Iterable[PlainPage]
) -> Iterator[Problem]:
    """Entries that lead to no page of the site; ``dishes`` is by slug.

    Lists by ingredient, diet and allergen follow from the figures and are not looked up here.
    """
    files = {page.file: address.plain(page.slug) for page in pages}
    known = {address.HOME, address.ALL_RECIPES, address.INDEX, address.SEARCH, *files.values()}
    known |= {address.ATOM, address.JSON_FEED} if settings.address else set()
    for item in settings.menu:
        if _outside(item.to) or _leads(item.to, files, known, dishes):
            continue
        yield Problem(
            "menu-dead-end",
            "advice",
            "content/site.yaml",
            item.line,
            item.column,
            f"'{item.label}' in the menu leads to '{item.to}', and the site has no such page",
            did_you_mean(item.to, [*known, *map(address.recipe, dishes)])
            or "name a page's file, as in 'pages/about.md', or a list, as in 'tags/winter'",
            len(item.to),
        )


def _leads(
    to: str, files: Mapping[str, str], known: Collection[str], dishes: Mapping[str, Dish]
) -> bool:
    if to.endswith(".md"):
        dish = dishes.get(to.rsplit("/", 1)[-1].removesuffix(".md"))
        if dish is not None and dish.recipe.file in (to.lstrip("/"), f"content/{to.lstrip('/')}"):
            return True
    path = menu_path(to, files).partition("#")[0].partition("?")[0]
    if path in known or path.startswith(NOT_LOOKED_UP):
        return True
    folder, _, name = path.partition("/")
    if folder == "recipes":
        slug = name.removesuffix(".html")
        return slug in dishes or slug.removesuffix("-card") in dishes
    return path in list_paths(folder, dishes.values())


def list_paths(folder: str, dishes: Iterable[Dish]) -> set[str]:
    """The lists in a folder such as ``tags``; none of folders whose lists follow from figures."""
    if folder not in _NAMES:
        return set()
    return {_ADDRESSES[folder](words) for dish in dishes for words in _NAMES[folder](dish) if words}


_ADDRESSES: Mapping[str, Callable[[str], str]] = {
    "tags": address.tag,
    "courses": address.course,
    "cuisines": address.cuisine,
    "authors": address.author,
}
_NAMES: Mapping[str, Callable[[Dish], Iterable[str]]] = {
    "tags": lambda dish: dish.recipe.tags,
    "courses": lambda dish: (dish.recipe.course,),
    "cuisines": lambda dish: (dish.recipe.cuisine,),
    "authors": lambda dish: (dish.recipe.author,),
}
NOT_LOOKED_UP = ("ingredients/", "diets/", "without/")


def _outside(to: str) -> bool:
    return "://" in to or to.startswith(("mailto:", "#"))


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
