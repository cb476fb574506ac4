"""Every page of a site, laid out in a fixed order: same collection in, same bytes out."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from functools import cached_property, partial
from typing import TYPE_CHECKING, Any

from sitegen.dish import Dish
from sitegen.images.photoset import PhotoSet
from sitegen.pages import address, feeds, jsonld, offline, sitefiles
from sitegen.pages.common import SITE_FILE
from sitegen.pages.environment import sentence
from sitegen.pages.groups import ALL, Group, by_kind, groups
from sitegen.pages.links import has_paid
from sitegen.pages.page import Page
from sitegen.pages.paging import Sheet, paged, shown_numbers
from sitegen.pages.recipe_pages import RecipePages
from sitegen.pages.search import search_files
from sitegen.pages.theme import Theme
from sitegen.pages.view import Item, listing, listings

if TYPE_CHECKING:
    from sitegen.collection import Collection, PlainPage

NEWEST = 9
"""How many recipes the home page leads with."""
ALL_BY_TITLE = 120
"""Up to this many, the search page lists every title; beyond, the pages of the list of all."""


def lay_out(
    collection: Collection, theme: Theme, photos: Mapping[str, PhotoSet], *, preview: bool
) -> Iterator[Page]:
    """All pages and data files of a site. ``photos`` is by the slug of the recipe.

    ``preview`` asks search engines to pass every page by; nothing else differs.
    """
    return Layout(collection, theme, photos, preview).pages()


class Layout(RecipePages):
    """Every page of a site."""

    @cached_property
    def newest(self) -> tuple[Dish, ...]:
        """The newest first, drafts before all, titles breaking a tie."""

        def age(dish: Dish) -> tuple[int, str]:
            day = dish.recipe.published
            return (-day.toordinal() if day else -(10**9), dish.recipe.title)

        return tuple(sorted(self.dishes, key=age))

    @cached_property
    def public(self) -> tuple[Dish, ...]:
        """What feeds and the sitemap name: no drafts."""
        return tuple(dish for dish in self.newest if not dish.recipe.draft)

    def pages(self) -> Iterator[Page]:
        """All of them, in order."""
        for _, make in self.plan():
            yield from make()

    def plan(self) -> Iterator[tuple[str, Callable[[], Iterable[Page]]]]:
        """What makes the pages, in order; with the path where it makes one whose path is known."""
        yield address.HOME, partial(_one, self.home)
        for dish in self.dishes:
            yield from self.of_dish(dish)
        yield from self.lists()
        for plain in self.collection.plain_pages:
            yield address.plain(plain.slug), partial(_one, self.plain, plain)
        yield "", self.search
        yield address.NOT_FOUND, partial(_one, self.not_found)
        yield "", self.offline
        yield "", self.files

    def of_dish(self, dish: Dish) -> Iterator[tuple[str, Callable[[], Iterable[Page]]]]:
        """A dish's own pages."""
        yield address.recipe(dish.recipe.slug), partial(_one, self.recipe, dish)
        yield address.card(dish.recipe.slug), partial(_one, self.card, dish)

    def files(self) -> Iterator[Page]:
        """Sitemap, manifest and robots.txt, and the feeds."""
        inputs = self.all_files()
        for path, content, kind in sitefiles.site_files(self.collection, self.theme, self.photos):
            yield Page(path, content, kind, inputs)
        for path, content in feeds.feeds(
            self.settings, self.public, self.markdown_pages, self.photos
        ):
            yield Page(path, content, "feed", inputs)

    def home(self) -> Page:
        """The first page."""
        courses = [
            (sentence(name), address.relative(address.HOME, address.course(name)), len(dishes))
            for name, dishes in self.collection.by_course().items()
        ]
        lead, rest = self.newest[:1], self.newest[1:NEWEST]
        return self.render(
            "home.html",
            address.HOME,
            "home",
            self.settings.title,
            self.settings.description,
            nodes=[jsonld.site_node(self.settings)],
            inputs=self.all_files(),
            shows=self.first_photo(self.newest),
            lead=listings(lead, self.photos, address.HOME),
            newest=listings(rest, self.photos, address.HOME),
            count=len(self.dishes),
            courses=courses,
        )

    @cached_property
    def groups(self) -> tuple[Group, ...]:
        """Every list but that of all recipes."""
        return groups(self.collection)

    def lists(self) -> Iterator[tuple[str, Callable[[], Iterable[Page]]]]:
        """What makes the pages of lists, and the list of them all."""
        everything = Group(ALL, "", "All recipes", address.ALL_RECIPES, self.dishes)
        for group in (everything, *self.groups):
            sheets = paged(group.path, len(group.dishes), self.settings.list_length)
            for sheet in sheets:
                yield sheet.path, partial(_one, self.list_page, group, sheet)
        yield address.INDEX, partial(_one, self.index)

    def list_page(self, group: Group, sheet: Sheet) -> Page:
        """One page of a list."""
        here = sheet.path
        dishes = group.dishes[sheet.start : sheet.stop]
        title = (
            f"{group.title}, page {sheet.number} of {sheet.last}"
            if sheet.number > 1
            else group.title
        )
        base = self.settings.address
        first = sheet.number == 1
        nodes = [jsonld.profile_node(group.author, base)] if group.author and first else []
        if base:
            trail = [("Recipes", address.ALL_RECIPES)]
            if here != address.ALL_RECIPES:
                trail.append((title, here))
            nodes += [
                jsonld.list_node(title, dishes, base, sheet.start + 1),
                jsonld.crumbs_node(trail, base),
            ]
        count = f"{len(group.dishes)} recipe{'' if len(group.dishes) == 1 else 's'}"
        return self.render(
            "list.html",
            here,
            "list",
            title,
            group.about or f"{title}: {count}",
            nodes=nodes,
            inputs=(SITE_FILE, *(dish.recipe.file for dish in dishes)),
            shows=self.first_photo(dishes),
            list=replace(group, dishes=()),  # what a page shows of them is in the entries
            count=count,
            sheet=sheet,
            numbers=list(shown_numbers(sheet.number, sheet.last)),
            turn=lambda number: address.relative(here, address.page_of(group.path, number)),
            entries=listings(dishes, self.photos, here),
        )

    def index(self) -> Page:
        """The list of all lists."""
        here = address.INDEX
        shown = [
            (kind, [(g.title, address.relative(here, g.path), len(g.dishes)) for g in found])
            for kind, found in by_kind(self.groups)
        ]
        return self.render(
            "index.html",
            here,
            "index",
            "Index",
            "Every recipe by what goes in, course, cuisine, tag, cook, diet and allergen.",
            inputs=self.all_files(),
            shown=shown,
            count=len(self.dishes),
        )

    def plain(self, page: PlainPage) -> Page:
        """A page that the author wrote as one."""
        here = address.plain(page.slug)
        return self.render(
            "plain.html",
            here,
            "plain",
            page.title,
            page.summary,
            inputs=(SITE_FILE, page.file),
            html=self.writer(page.file, here)(page.html),
            disclosure=self.settings.disclosure
            if has_paid(page.html, self.settings.paid_hosts)
            else "",
        )

    def search(self) -> Iterator[Page]:
        """The search page and its index."""
        here = address.SEARCH
        authors = self.settings.authors
        found = search_files(
            [
                (
                    dish,
                    authors[dish.recipe.author].name if dish.recipe.author in authors else "",
                    listing(dish, {}, here),
                )
                for dish in self.dishes
            ]
        )
        inputs = self.all_files()
        for path, content in found.files.items():
            yield Page(path, content, "asset", inputs)
        length = self.settings.list_length
        yield self.render(
            "search.html",
            here,
            "search",
            "Search",
            "",
            inputs=inputs,
            terms_path=address.relative(here, found.terms),
            count=len(self.dishes),
            titles=[
                Item(dish.recipe.title, address.relative(here, address.recipe(dish.recipe.slug)))
                for dish in self.dishes[:ALL_BY_TITLE]
            ]
            if len(self.dishes) <= ALL_BY_TITLE
            else [],
            spans=[
                (
                    self.dishes[sheet.start].recipe.title,
                    self.dishes[sheet.stop - 1].recipe.title,
                    address.relative(here, sheet.path),
                )
                for sheet in paged(address.ALL_RECIPES, len(self.dishes), length)
                if sheet.stop > sheet.start
            ],
        )

    def offline(self) -> Iterator[Page]:
        """What is shown without a network, and the worker that shows it."""
        page = self.render(
            "offline.html",
            address.OFFLINE,
            "plain",
            "No network",
            "",
            inputs=(SITE_FILE,),
            hidden=True,
        )
        yield page
        content = offline.worker(self.theme.addresses, page.content)
        yield Page(address.WORKER, content, "worker", page.inputs)

    def not_found(self) -> Page:
        """What a host shows for an address that there is not."""
        return self.render(
            "404.html",
            address.NOT_FOUND,
            "plain",
            "Page not found",
            "",
            inputs=(SITE_FILE,),
            hidden=True,
            rooted=True,
        )

    def first_photo(self, dishes: Sequence[Dish]) -> PhotoSet | None:
        """The first photo of a few dishes."""
        found = (self.photos.get(dish.recipe.slug) for dish in dishes[:NEWEST])
        return next((photo for photo in found if photo is not None), None)


def _one(make: Callable[..., Page], *of: Any) -> tuple[Page]:
    return (make(*of),)
