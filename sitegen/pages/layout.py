"""Every page of a site, laid out in a fixed order: same collection in, same bytes out."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from functools import cached_property, lru_cache, partial
from typing import TYPE_CHECKING, Any

from markupsafe import Markup

from sitegen.dish import Dish
from sitegen.finding.related import Relations
from sitegen.images.photoset import PhotoSet
from sitegen.pages import address, feeds, jsonld, offline, sharing, sitefiles
from sitegen.pages.disclosing import disclosure
from sitegen.pages.environment import sentence
from sitegen.pages.film import film_origin, film_view
from sitegen.pages.groups import ALL, Group, by_kind, groups
from sitegen.pages.links import has_paid, link_writer
from sitegen.pages.menu import Target, targets
from sitegen.pages.page import Page
from sitegen.pages.paging import Sheet, paged, shown_numbers
from sitegen.pages.search import search_files
from sitegen.pages.theme import CARD_SHEET, PAGE_SHEET, Theme
from sitegen.pages.view import Item, Listing, listing, recipe_view

if TYPE_CHECKING:
    from sitegen.collection import Collection, PlainPage
    from sitegen.reading.recipe import Recipe

TEXT_SIZES = "(min-width: 42rem) 38rem, 92vw"
"""How wide a picture inside a text is shown."""
SITE_FILE = "content/site.yaml"
NEWEST = 9
"""How many recipes the home page leads with."""
RELATED = "<\x00related>"
"""Stands in a recipe's frame where its related recipes go; no text of an author's has a NUL.

Like a tag, so that the line's end beside it is seen to be no spare space."""
ALL_BY_TITLE = 120
"""Up to this many, the search page lists every title; beyond, the pages of the list of all."""


def lay_out(
    collection: Collection, theme: Theme, photos: Mapping[str, PhotoSet], *, preview: bool
) -> Iterator[Page]:
    """All pages and data files of a site. ``photos`` is by the slug of the recipe.

    ``preview`` asks search engines to pass every page by; nothing else differs.
    """
    return _Layout(collection, theme, photos, preview).pages()


class LateLayout:
    """The same pages, each laid out only when it is asked for: what a preview needs."""

    def __init__(
        self,
        collection: Collection,
        theme: Theme,
        photos: Mapping[str, PhotoSet],
        earlier: Relations | None = None,
    ) -> None:
        self._layout = _Layout(collection, theme, photos, preview=True)
        self._layout.earlier = earlier
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


POLICY = "; ".join(
    (
        "default-src 'none'",
        "script-src 'self'",
        "style-src 'self'",
        "img-src 'self' data:",
        "media-src 'self'",
        "connect-src 'self'",
        "manifest-src 'self'",
        "worker-src 'self'",
        "base-uri 'none'",
        "form-action 'self'",
    )
)
"""The content security policy of every page; it holds from disk as well."""


@lru_cache(maxsize=64)
def _policy(media_from: str) -> str:
    return POLICY.replace("media-src 'self'", f"media-src 'self' {media_from}".rstrip())


class Later(Sequence[Listing]):
    """A list that is made when a template looks into it."""

    def __init__(self, make: Callable[[], Sequence[Listing]]) -> None:
        self._make = make

    @cached_property
    def _made(self) -> Sequence[Listing]:
        return self._make()

    def __len__(self) -> int:
        return len(self._made)

    def __getitem__(self, which: Any) -> Any:
        return self._made[which]


class _Layout:
    earlier: Relations | None = None
    """What was known of the site's relations before its last change."""

    def __init__(
        self,
        collection: Collection,
        theme: Theme,
        photos: Mapping[str, PhotoSet],
        preview: bool,
    ) -> None:
        self.collection, self.theme, self.photos = collection, theme, photos
        self.settings = collection.site.settings
        self.preview = preview
        self.known = collection.dishes.keys()

    @cached_property
    def markdown_pages(self) -> Mapping[str, str]:
        """The site's Markdown files and the pages that are made of them."""
        return markdown_pages(self.collection)

    @cached_property
    def plain_titles(self) -> Sequence[tuple[str, str]]:
        """Path and title of each plain page."""
        return [(address.plain(p.slug), p.title) for p in self.collection.plain_pages]

    @cached_property
    def dishes(self) -> tuple[Dish, ...]:
        """In title order, as the collection keeps them."""
        return tuple(self.collection.dishes.values())

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
        inputs = self.all_files()
        for path, content, kind in sitefiles.site_files(self.collection, self.theme, self.photos):
            yield Page(path, content, kind, inputs)
        for path, content in feeds.feeds(
            self.settings, self.public, self.markdown_pages, self.photos
        ):
            yield Page(path, content, "feed", inputs)

    # Each kind of page

    def home(self) -> Page:
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
            lead=[listing(dish, self.photos, address.HOME) for dish in lead],
            newest=[listing(dish, self.photos, address.HOME) for dish in rest],
            count=len(self.dishes),
            courses=courses,
        )

    @cached_property
    def relations(self) -> Relations:
        """Which recipes are alike."""
        return Relations.after(self.collection.dishes, self.earlier)

    def recipe(self, dish: Dish) -> Page:
        """A recipe's page, whole."""
        return self.filled(self.frame(dish), dish)

    def frame(self, dish: Dish) -> Page:
        """A recipe's page but for its related recipes, which the whole site must be known for."""
        recipe = dish.recipe
        here = address.recipe(recipe.slug)
        trail = [("Recipes", address.ALL_RECIPES)]
        if recipe.course:
            trail.append((sentence(recipe.course), address.course(recipe.course)))
        trail.append((recipe.title, here))
        photo = self.photos.get(recipe.slug)
        film = self.collection.films.get(recipe.slug)
        nodes = [jsonld.recipe_node(dish, self.settings, photo, self.photos, film)]
        if self.settings.address:
            nodes.append(jsonld.crumbs_node(trail, self.settings.address))
        users = self.users(dish)
        return self.render(
            "recipe.html",
            here,
            "recipe",
            recipe.title,
            recipe.summary,
            nodes=nodes,
            inputs=self.recipe_files(dish, users),
            hidden=recipe.draft,
            shares=recipe,
            shows=photo,
            skip_to="recipe",
            tested=self.collection.tested.get(recipe.slug, 0),
            crumbs=[
                Item(words, "" if path == here else address.relative(here, path))
                for words, path in trail
            ],
            used_in=[
                Item(d.recipe.title, address.relative(here, address.recipe(d.recipe.slug)))
                for d in users
            ],
            related=Later(partial(self.related, dish)),
            related_part=Markup(RELATED),
            **self.recipe_context(dish, here),
        )

    def filled(self, frame: Page, dish: Dish) -> Page:
        """A recipe's frame with its related recipes put in."""
        gap = RELATED.encode()
        if gap not in frame.content:
            return frame
        near = self.near(dish)
        part = (
            self.theme.environment.get_template("parts/related.html")
            .render(
                related=[listing(other, self.photos, frame.path) for other in near],
                to=partial(address.relative, frame.path),
            )
            .strip()
        )
        if self.settings.minify:
            from sitegen.pages.small import small_page

            part = small_page(part)
        files = tuple(other.recipe.file for other in near)
        content = frame.content if part else frame.content.replace(gap + b"\n", b"")
        content = content.replace(gap, part.encode())
        return replace(frame, content=content, inputs=(*frame.inputs, *files))

    def users(self, dish: Dish) -> list[Dish]:
        """The dishes that a dish goes into."""
        slugs = self.collection.used_in.get(dish.recipe.slug, ())
        return [self.collection.dishes[slug] for slug in slugs if slug in self.known]

    def near(self, dish: Dish) -> tuple[Dish, ...]:
        """The dishes that are related to one, but for those that it goes into."""
        users = frozenset(user.recipe.slug for user in self.users(dish))
        return self.relations.of(dish.recipe.slug, but=users)

    def related(self, dish: Dish) -> list[Listing]:
        """What a template that draws the related recipes itself is given."""
        here = address.recipe(dish.recipe.slug)
        return [listing(other, self.photos, here) for other in self.near(dish)]

    def card(self, dish: Dish) -> Page:
        recipe = dish.recipe
        here = address.card(recipe.slug)
        shown = address.absolute(self.settings.address, address.recipe(recipe.slug))
        return self.render(
            "card.html",
            here,
            "card",
            f"{recipe.title}, card",
            recipe.summary,
            inputs=self.recipe_files(dish, ()),
            hidden=True,
            canonical_of=address.recipe(recipe.slug),
            sheets=[CARD_SHEET],
            shown_address=shown.split("://", 1)[-1] if self.settings.address else "",
            **self.recipe_context(dish, here, pictures=False),
        )

    def recipe_context(self, dish: Dish, here: str, *, pictures: bool = True) -> dict[str, Any]:
        found = self.collection.films.get(dish.recipe.slug) if pictures else None
        film = film_view(dish, found, self.photos, here)
        return {
            "dish": dish,
            "recipe": dish.recipe,
            "view": recipe_view(dish, self.settings, here, self.known),
            "photo": self.photos.get(dish.recipe.slug),
            "us_first": self.settings.units == "us",
            "linked": self.writer(dish.recipe.file, here, pictures=pictures),
            "disclosure": disclosure(dish, self.settings),
            "film": film,
            "media_from": film_origin(film),
        }

    def writer(self, file: str, here: str, *, pictures: bool = True) -> Callable[[str], Markup]:
        """What turns the HTML of ``file`` into HTML for the page ``here``."""

        def draw(photo: PhotoSet, alt: str) -> str:
            shown = replace(photo, alt=alt)
            return str(self.picture(shown, partial(address.relative, here), TEXT_SIZES))

        return link_writer(
            file,
            here,
            self.markdown_pages,
            paying=self.settings.paid_hosts,
            photos=self.photos,
            draw=draw if pictures else None,
        )

    @cached_property
    def picture(self) -> Callable[..., str]:
        """The theme's macro that draws a picture in every format."""
        module = self.theme.environment.get_template("parts/photo.html").module
        macro: Callable[..., str] = module.picture  # type: ignore[attr-defined]
        return macro

    @cached_property
    def groups(self) -> tuple[Group, ...]:
        """Every list but that of all recipes."""
        return groups(self.collection)

    def lists(self) -> Iterator[tuple[str, Callable[[], Iterable[Page]]]]:
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
            entries=[listing(dish, self.photos, here) for dish in dishes],
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

    # What all pages share

    def render(
        self,
        template: str,
        here: str,
        kind: str,
        title: str,
        description: str,
        *,
        nodes: Sequence[jsonld.Node] = (),
        inputs: tuple[str, ...],
        hidden: bool = False,
        rooted: bool = False,
        canonical_of: str = "",
        shares: Recipe | None = None,
        shows: PhotoSet | None = None,
        **more: Any,
    ) -> Page:
        base = self.settings.address

        to = partial(address.from_root, base) if rooted else address.namer(here)
        addresses = self.theme.addresses

        def asset(name: str) -> str:
            return to(addresses[name])

        canonical = address.absolute(base, canonical_of or here) if base else ""
        context: dict[str, Any] = {
            "site": self.settings,
            "policy": _policy(more.pop("media_from", "")),
            "here": here,
            "to": to,
            "asset": asset,
            "addresses": address,
            "page_title": title,
            "page_description": description,
            "canonical": canonical,
            "hidden": hidden or self.preview,
            "share": ()
            if hidden or self.preview
            else sharing.properties(
                self.settings,
                title,
                description,
                canonical,
                recipe=shares,
                photo=shows,
                icon=self.theme.asset(sharing.ICON) if self.theme.has(sharing.ICON) else "",
            ),
            "worker": "" if self.preview or rooted else to(address.WORKER),
            "sheets": [PAGE_SHEET],
            "theme_colours": {
                "light": self.theme.colours.get("paper", "#ffffff"),
                "dark": self.theme.colours.get("dark-paper", "#000000"),
            },
            "has_feeds": bool(base),
            "structured": jsonld.script_text(jsonld.graph(nodes)) if nodes else "",
            "body_class": f"page-{kind}",
            "menu": self.menu(here, to),
            "plain_links": [Item(title, to(path)) for path, title in self.plain_titles],
        }
        html = self.theme.environment.get_template(template).render(context | more)
        if self.settings.minify:
            from sitegen.pages.small import small_page

            html = small_page(html)
        return Page(here, html.encode(), kind, (*inputs, *self.theme.references(template)))

    @cached_property
    def menu_targets(self) -> tuple[Target, ...]:
        return tuple(targets(self.settings, self.markdown_pages))

    def menu(self, here: str, to: Callable[[str], str]) -> list[dict[str, Any]]:
        return [
            {
                "label": target.label,
                "href": target.path if target.outside else to(target.path),
                "current": target.path == here,
            }
            for target in self.menu_targets
        ]

    def first_photo(self, dishes: Sequence[Dish]) -> PhotoSet | None:
        """The first photo of a few dishes."""
        found = (self.photos.get(dish.recipe.slug) for dish in dishes[:NEWEST])
        return next((photo for photo in found if photo is not None), None)

    def recipe_files(self, dish: Dish, users: Sequence[Dish]) -> tuple[str, ...]:
        used = [self.collection.dishes[s] for s in dish.uses if s in self.known]
        return (SITE_FILE, dish.recipe.file, *(d.recipe.file for d in (*used, *users)))

    def all_files(self) -> tuple[str, ...]:
        plain = (page.file for page in self.collection.plain_pages)
        return (SITE_FILE, *(dish.recipe.file for dish in self.dishes), *plain)


def markdown_pages(collection: Collection) -> dict[str, str]:
    """The site's Markdown files and the pages that are made of them."""
    return {dish.recipe.file: address.recipe(slug) for slug, dish in collection.dishes.items()} | {
        page.file: address.plain(page.slug) for page in collection.plain_pages
    }


def _one(make: Callable[..., Page], *of: Any) -> tuple[Page]:
    return (make(*of),)
