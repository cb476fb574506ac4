"""All of a site's dishes and plain pages together: what the pages are laid out from.

A Collection is made by :mod:`sitegen.gathering`. It reads nothing itself.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from functools import lru_cache
from typing import TYPE_CHECKING

from sitegen.dish import Dish
from sitegen.reading.recipe import Photo
from sitegen.site import Site

if TYPE_CHECKING:
    from sitegen.images.film import Film


@dataclass(frozen=True, slots=True)
class PlainPage:
    """A page of the author's own words: ``content/pages/about.md``."""

    slug: str
    title: str
    summary: str
    html: str
    file: str
    """The path relative to the site's folder, with ``/``."""
    pictures: tuple[Photo, ...] = ()
    """The pictures in its text, in order."""


@dataclass(frozen=True, slots=True)
class Collection:
    """Everything that is published, or, for the preview, everything that is written."""

    site: Site
    dishes: Mapping[str, Dish] = field(default_factory=dict)
    """By slug, in title order."""
    plain_pages: tuple[PlainPage, ...] = ()
    """In order of slug."""
    used_in: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    """Slug → slugs of the dishes that have it among their ingredients, in title order."""
    films: Mapping[str, Film] = field(default_factory=dict)
    """By the recipe's slug."""
    tested: Mapping[str, int] = field(default_factory=dict)
    """Slug → how often the recipe was tested, where the site tells; nothing else of a test log."""

    def by_course(self) -> Mapping[str, tuple[Dish, ...]]:
        """Dishes by course, in order of the course's name; those without one are left out."""
        return self._grouped(lambda dish: (dish.recipe.course,))

    def by_cuisine(self) -> Mapping[str, tuple[Dish, ...]]:
        """Dishes by cuisine, in order of its name; those without one are left out."""
        return self._grouped(lambda dish: (dish.recipe.cuisine,))

    def by_tag(self) -> Mapping[str, tuple[Dish, ...]]:
        """Dishes by tag, in order of the tag's name."""
        return self._grouped(lambda dish: dish.recipe.tags)

    def by_author(self) -> Mapping[str, tuple[Dish, ...]]:
        """Dishes by their author's key."""
        return self._grouped(lambda dish: (dish.recipe.author,))

    def _grouped(self, names: Callable[[Dish], Iterable[str]]) -> Mapping[str, tuple[Dish, ...]]:
        groups: dict[str, list[Dish]] = {}
        for dish in self.dishes.values():
            for name in dict.fromkeys(names(dish)):
                if name:
                    groups.setdefault(name, []).append(dish)
        return {name: tuple(groups[name]) for name in sorted(groups, key=title_order)}


@lru_cache(maxsize=65536)
def title_order(title: str) -> tuple[str, str]:
    """A key that sorts titles as an index does: without regard to capitals and accents.

    >>> sorted(["Zest", "éclair", "Apple"], key=title_order)
    ['Apple', 'éclair', 'Zest']
    """
    from unicodedata import combining, normalize

    bare = "".join(c for c in normalize("NFKD", title) if not combining(c))
    return bare.casefold(), title
