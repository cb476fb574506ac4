"""Laying out one page at a time, and noting every question that it asks of the rest of the site.

What a page depends on is not declared anywhere, where it could be forgotten, but heard: a page is
laid out over a collection that writes down what it is asked and what it answers. The page is stale
when what it is about is another, or when the site would now answer one of its questions otherwise.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, fields, is_dataclass, replace
from functools import cached_property, partial
from hashlib import sha256
from typing import Any, Generic, TypeVar, cast

from sitegen.collection import Collection, PlainPage
from sitegen.dish import Dish
from sitegen.finding.related import Relations
from sitegen.images.photoset import PhotoSet
from sitegen.pages import address
from sitegen.pages.common import markdown_pages
from sitegen.pages.groups import Group
from sitegen.pages.layout import Layout
from sitegen.pages.menu import Target, targets
from sitegen.pages.page import Page
from sitegen.pages.paging import Sheet
from sitegen.pages.recipe_pages import RELATED
from sitegen.pages.theme import Theme
from sitegen.pages.view import listing

Question = tuple[str, ...]
T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Laid:
    """What came of laying out one entry of the plan, without the bytes."""

    about: str
    """Marks what the entry itself is about: its dish, the dishes of its list."""
    heard: tuple[tuple[Question, str], ...]
    """Every question and its answer."""
    files: tuple[tuple[str, str, str], ...]
    """Path, SHA-256 and kind of each file that was made."""
    gap: str = ""
    """The slug of the recipe whose frame this is, with its related recipes still to be put in."""


class Facts:
    """A site as it answers the questions of its pages.

    ``keys`` marks each dish by its slug: another recipe, settings or foods, another mark.
    """

    def __init__(
        self,
        collection: Collection,
        theme: Theme,
        photos: Mapping[str, PhotoSet],
        keys: Mapping[str, str],
        *,
        preview: bool = False,
        early: bool = False,
    ) -> None:
        """``early``: the whole site is not known yet, so that recipes are laid out with a gap."""
        self.collection, self.theme, self.photos, self.keys = collection, theme, photos, keys
        self.preview, self.early = preview, early
        self.layout = Layout(collection, theme, photos, preview)
        self._known: dict[Question, str] = {}

    @cached_property
    def pages(self) -> Mapping[str, str]:
        """The site's Markdown files and the pages that are made of them."""
        return markdown_pages(self.collection)

    @cached_property
    def menu(self) -> tuple[Target, ...]:
        """The links of every page's head."""
        return tuple(targets(self.collection.site.settings, self.pages))

    @cached_property
    def plain_titles(self) -> Sequence[tuple[str, str]]:
        """The links of every page's foot."""
        return [(address.plain(p.slug), p.title) for p in self.collection.plain_pages]

    @cached_property
    def relations(self) -> Relations:
        """Which recipes are alike: looked up once for all pages."""
        return Relations(self.collection.dishes)

    def answer(self, question: Question) -> str:
        """What the site answers, as a mark to compare."""
        if question not in self._known:
            self._known[question] = _ANSWERS[question[0]](self, *question[1:])
        return self._known[question]

    def forget(self, slug: str) -> None:
        """Answer anew about one dish, of which more is known now."""
        for kind in ("dish", "photo", "listed"):
            self._known.pop((kind, slug), None)

    def still(self, laid: Laid, about: str) -> bool:
        """Whether laying the entry out again would give the same files."""
        return laid.about == about and all(self.answer(q) == a for q, a in laid.heard)

    def about(self, make: Callable[[], Iterable[Page]]) -> str:
        """The mark of what an entry of the plan is about."""
        assert isinstance(make, partial) or hasattr(make, "__name__")
        if not isinstance(make, partial):
            return ""
        of = make.args[1:]
        return self._mark(self._of_list(*of) if of and isinstance(of[0], Group) else of)

    def _of_list(self, group: Group, sheet: Sheet) -> list[object]:
        """What a page of a list shows, which is little of each of its dishes and none of the others'."""
        shown = group.dishes[sheet.start : sheet.stop]
        slugs = [dish.recipe.slug for dish in shown]
        listed = [self.answer((kind, slug)) for slug in slugs for kind in ("listed", "photo")]
        return [replace(group, dishes=()), len(group.dishes), sheet, listed]

    def plan(self) -> Iterator[tuple[str, Callable[[], Iterable[Page]]]]:
        """The entries of the whole site, each with a name of its own."""
        for path, make in self.layout.plan():
            yield path or f"*{getattr(make, '__name__', '')}", make

    def lay_out(self, make: Callable[[], Iterable[Page]], keep: Callable[[Page], str]) -> Laid:
        """Carry one entry out; ``keep`` is given each page and says its SHA-256."""
        heard: dict[Question, str] = {}

        def ask(question: Question) -> None:
            heard[question] = self.answer(question)

        layout = _Asking(self, ask)
        pages = _rebound(make, layout)()
        files = tuple((page.path, keep(page), page.kind) for page in pages)
        return Laid(self.about(make), tuple(heard.items()), files, layout.gap)

    def fill(self, laid: Laid, content: bytes, keep: Callable[[Page], str]) -> Laid:
        """Put the related recipes into the frame that was ``laid``; ``content`` is its bytes."""
        heard = dict(laid.heard)

        def ask(question: Question) -> None:
            heard[question] = self.answer(question)

        ((path, _, kind),) = laid.files
        page = _Asking(self, ask).filled(
            Page(path, content, kind), self.collection.dishes[laid.gap]
        )
        return Laid(laid.about, tuple(heard.items()), ((path, keep(page), kind),))

    def _mark(self, thing: object) -> str:
        if isinstance(thing, Dish):
            return self.keys.get(thing.recipe.slug, "?")
        if isinstance(thing, tuple | list):
            whole = sha256()
            for part in thing:
                whole.update(f"{self._mark(part)};".encode())
            return whole.hexdigest()
        if thing is None or isinstance(thing, str | int | PlainPage):
            return sha256(repr(thing).encode()).hexdigest()
        if is_dataclass(thing):
            return self._mark([getattr(thing, field.name) for field in fields(thing)])
        raise TypeError(f"a page is about {type(thing).__name__}, which has no mark")

    # --- the answers ---------------------------------------------------------------------------

    def _dish(self, slug: str) -> str:
        return self.keys.get(slug, "?") if slug in self.collection.dishes else ""

    def _brief(self, slug: str) -> str:
        dish = self.collection.dishes.get(slug)
        return repr((dish.recipe.title, dish.recipe.file)) if dish else ""

    def _all(self) -> str:
        return self._mark([(slug, self._dish(slug)) for slug in self.collection.dishes])

    def _users(self, slug: str) -> str:
        return ",".join(self.collection.used_in.get(slug, ()))

    def _tested(self, slug: str) -> str:
        return str(self.collection.tested.get(slug, ""))

    def _photo(self, slug: str) -> str:
        return sha256(repr(self.photos.get(slug)).encode()).hexdigest()

    def _film(self, slug: str) -> str:
        return repr(self.collection.films.get(slug))

    def _related(self, slug: str, *but: str) -> str:
        near = self.relations.of(slug, but=frozenset(but))
        return ",".join(dish.recipe.slug for dish in near)

    def _listed(self, slug: str) -> str:
        """What a list shows of a dish, its photo apart: less than all that the dish is."""
        dish = self.collection.dishes.get(slug)
        return repr(listing(dish, {}, address.HOME)) if dish else ""

    def _page(self, file: str) -> str:
        return self.pages.get(file, "")

    def _every(self, kind: str) -> str:
        mapping: Mapping[str, Any] = {
            "users": self.collection.used_in,
            "tested": self.collection.tested,
            "photo": self.photos,
            "film": self.collection.films,
            "page": self.pages,
        }.get(kind, {})
        return self._all() if kind in ("dish", "brief") else self._mark(repr(list(mapping.items())))

    def _plain(self) -> str:
        return self._mark(self.collection.plain_pages)

    def _menu(self) -> str:
        return repr(self.menu)

    def _titles(self) -> str:
        return repr(self.plain_titles)


_ANSWERS: Mapping[str, Callable[..., str]] = {
    "dish": Facts._dish,
    "brief": Facts._brief,
    "all": Facts._all,
    "users": Facts._users,
    "tested": Facts._tested,
    "photo": Facts._photo,
    "film": Facts._film,
    "related": Facts._related,
    "listed": Facts._listed,
    "page": Facts._page,
    "every": Facts._every,
    "plain": Facts._plain,
    "menu": Facts._menu,
    "titles": Facts._titles,
}

Ask = Callable[[Question], None]


class _Asking(Layout):
    """A layout whose every question is heard. One for each page, so that nothing is remembered."""

    def __init__(self, facts: Facts, ask: Ask) -> None:
        self.facts, self.ask = facts, ask
        collection = cast("Collection", _AskedCollection(facts.collection, ask))
        photos = _Asked("photo", facts.photos, ask)
        super().__init__(collection, facts.theme, photos, facts.preview)
        self.gap = ""

    def recipe(self, dish: Dish) -> Page:
        """A recipe's page, or its frame as long as the whole site is not known."""
        frame = self.frame(dish)
        if not self.facts.early:
            return self.filled(frame, dish)
        if RELATED.encode() in frame.content:
            self.gap = dish.recipe.slug
        return frame

    def list_page(self, group: Group, sheet: Sheet) -> Page:
        """A page of a list; the photos that it shows are in its mark, with all else of its dishes."""
        self.photos = self.facts.photos
        return super().list_page(group, sheet)

    @cached_property
    def markdown_pages(self) -> Mapping[str, str]:
        return _Asked("page", self.facts.pages, self.ask)

    @cached_property
    def menu_targets(self) -> tuple[Target, ...]:
        self.ask(("menu",))
        return self.facts.menu

    @cached_property
    def plain_titles(self) -> Sequence[tuple[str, str]]:
        self.ask(("titles",))
        return self.facts.plain_titles

    @cached_property
    def dishes(self) -> tuple[Dish, ...]:
        self.ask(("all",))
        return self.facts.layout.dishes

    @cached_property
    def relations(self) -> Relations:
        return _AskedRelations(self.facts, self.ask)

    @cached_property
    def newest(self) -> tuple[Dish, ...]:
        self.ask(("all",))
        return self.facts.layout.newest


class _AskedRelations(Relations):
    """One page's question after its relations, of each of whom it shows what a list does."""

    def __init__(self, facts: Facts, ask: Ask) -> None:
        self._facts, self._ask = facts, ask

    def of(self, slug: str, *, but: frozenset[str] = frozenset()) -> tuple[Dish, ...]:
        question = ("related", slug, *sorted(but))
        self._ask(question)
        near = [other for other in self._facts.answer(question).split(",") if other]
        for other in near:
            self._ask(("listed", other))
        return tuple(self._facts.collection.dishes[other] for other in near)


class _AskedCollection:
    """Answers as a :class:`Collection` does, and tells of every question."""

    def __init__(self, real: Collection, ask: Ask) -> None:
        self.real, self.ask = real, ask
        self.site = real.site
        kind = getattr(real.dishes, "kind", "dish")
        self.dishes = _Asked(kind, real.dishes, ask)
        self.used_in = _Asked("users", real.used_in, ask)
        self.tested = _Asked("tested", real.tested, ask)
        self.films = _Asked("film", real.films, ask)

    @property
    def plain_pages(self) -> tuple[PlainPage, ...]:
        self.ask(("plain",))
        return self.real.plain_pages

    def __getattr__(self, name: str) -> Any:
        self.ask(("all",))  # whatever else there is to ask of a collection is about all of it
        return getattr(self.real, name)


class _Asked(Mapping[str, T], Generic[T]):
    def __init__(self, kind: str, real: Mapping[str, T], ask: Ask) -> None:
        self.kind, self.real, self.ask = kind, real, ask

    def __getitem__(self, key: str) -> T:
        self.ask((self.kind, key))
        return self.real[key]

    def __contains__(self, key: object) -> bool:
        self.ask((self.kind, str(key)))
        return key in self.real

    def __iter__(self) -> Iterator[str]:
        self.ask(("every", self.kind))
        return iter(self.real)

    def __len__(self) -> int:
        self.ask(("every", self.kind))
        return len(self.real)


def _rebound(make: Callable[[], Iterable[Page]], layout: Layout) -> Callable[[], Iterable[Page]]:
    """The same entry of the plan, carried out by another layout."""
    if isinstance(make, partial):
        method, *rest = make.args
        return partial(make.func, getattr(layout, method.__name__), *rest, **make.keywords)
    return cast("Callable[[], Iterable[Page]]", getattr(layout, make.__name__))
