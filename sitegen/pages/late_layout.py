"""A site's pages, each laid out only when it is asked for."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from functools import cached_property
from typing import TYPE_CHECKING

from sitegen.finding.related import Relations
from sitegen.images.photoset import PhotoSet
from sitegen.pages.layout import Layout
from sitegen.pages.page import Page
from sitegen.pages.theme import Theme

if TYPE_CHECKING:
    from sitegen.collection import Collection
    from sitegen.dish import Dish


class _Early(Layout):
    """A recipe's pages while little is known of other recipes: none is said to be related."""

    def near(self, dish: Dish) -> tuple[Dish, ...]:
        """What was related before; rather nothing than the few that happen to be known."""
        return super().near(dish) if self.earlier is not None else ()


class LateLayout:
    """The same pages, each laid out only when it is asked for: what a preview needs."""

    def __init__(
        self,
        collection: Collection,
        theme: Theme,
        photos: Mapping[str, PhotoSet],
        earlier: Relations | None = None,
        files: Mapping[str, str] | None = None,
    ) -> None:
        """``files`` is the page of each Markdown file, while most recipes have not been read yet."""
        kind = Layout if files is None else _Early
        self._layout = kind(collection, theme, photos, preview=True)
        self._layout.earlier = earlier
        if files is not None:
            self._layout.markdown_pages = files
        self._made: dict[str, Page] = {}

    @cached_property
    def _known(self) -> dict[str, Callable[[], Iterable[Page]]]:
        return {path: make for path, make in self._layout.plan() if path}

    @cached_property
    def _sets(self) -> list[Callable[[], Iterable[Page]]]:
        return [make for path, make in self._layout.plan() if not path]

    def find(self, path: str) -> Page | None:
        """The page at ``path``, or None if the site has none. Made once."""
        if path in self._made:
            return self._made[path]
        slug = path.removeprefix("recipes/").removesuffix(".html").removesuffix("-card")
        dish = self._layout.collection.dishes.get(slug)
        for its, make in self._layout.of_dish(dish) if dish else ():  # without planning all
            if its == path:
                self._keep(make())
                return self._made[path]
        if path in self._known:
            self._keep(self._known[path]())
        while path not in self._made and path not in self._known and self._sets:
            self._keep(self._sets[0]())
            del self._sets[0]  # only now: a set that fails is tried again and fails again
        return self._made.get(path)

    @property
    def relations(self) -> Relations | None:
        """Which recipes are alike, if a page has asked; else what was known before."""
        known: Relations | None = vars(self._layout).get("relations", self._layout.earlier)
        return known

    def _keep(self, pages: Iterable[Page]) -> None:
        self._made |= {page.path: page for page in pages}
