"""What a recipe's templates need beside the Dish: geometry, dates in words, links, ordered rows.

Nothing is worked out here that a cook would call a figure; it is only put in the shape that a
template can print without thinking.
"""

from __future__ import annotations

from collections.abc import Container, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cache, lru_cache
from itertools import groupby
from typing import Any

from markupsafe import Markup

from sitegen.dish import Dish, LedgerRow, NutrientFigure, SwapFigures
from sitegen.finding.foods import main_foods
from sitegen.images.photoset import PhotoSet
from sitegen.pages import address
from sitegen.pages.card import card_fit
from sitegen.pages.environment import duration, long_date, sentence
from sitegen.pages.jsonld import script_text
from sitegen.pages.recent import Recent
from sitegen.site import Settings

SCALING_CAUTIONS: Mapping[str, str] = {
    "leavening": "Leavening does not follow the batch exactly: start a little under and test.",
    "salt": "Salt: start with three quarters of the figure, taste, then add.",
    "spice": "Strong spices: start with three quarters of the figure, taste, then add.",
    "gelling": "Gelatine and gums set by depth as well as by amount: make a small test first.",
    "egg": "Part of an egg: beat it, weigh it, and use the share that the weight says.",
}
"""Said when a recipe is scaled beyond double or below half. Common practice."""

USUAL_TINS: tuple[tuple[str, str, tuple[Fraction, ...]], ...] = (
    *((f"{d} cm round", "round", (Fraction(d),)) for d in (15, 18, 20, 23, 25, 28)),
    *((f"{d} cm square", "square", (Fraction(d),)) for d in (18, 20, 23)),
    *(
        (f"{a} × {b} cm oblong", "oblong", (Fraction(a), Fraction(b)))
        for a, b in ((18, 28), (20, 30), (23, 33), (25, 38))
    ),
)
"""Tins that shops sell, as text, shape and sides in cm. Common practice."""


@dataclass(frozen=True, slots=True)
class Bar:
    """One piece of a bar a hundred units long."""

    key: str
    label: str
    x: str
    width: str
    percent: str


@dataclass(frozen=True, slots=True)
class NutrientRow:
    """One row of the nutrition table, both columns printed."""

    label: str
    serving: str
    daily: str
    hundred: str
    indent: bool


@dataclass(frozen=True, slots=True)
class Item:
    """A link with its words."""

    label: str
    href: str


@dataclass(frozen=True, slots=True)
class RecipeView:
    """Everything that the templates of a recipe print beside the Dish itself."""

    author: str
    author_href: str
    published: str
    updated: str
    bar: tuple[Bar, ...]
    total: str
    """All times together, where there is more than one."""
    last_time: str
    """The field that it stands after."""
    nutrients: tuple[NutrientRow, ...]
    has_100g: bool
    has_daily: bool
    at_least: bool
    energy: tuple[Bar, ...]
    covers: str
    not_covered: tuple[str, ...]
    ranges: tuple[str, ...]
    """The main figures at both ends of the amounts that are given as ranges."""
    swaps: tuple[str, ...]
    """``With haddock fillet instead of cod fillet: energy 506 kcal, …``"""
    reckoned: tuple[str, ...]
    missing: tuple[str, ...]
    reference_links: Mapping[str, str]
    section_ids: tuple[str, ...]
    filed: tuple[Item, ...]
    """The lists that it stands in, as its author filed it."""
    more_with: tuple[Item, ...]
    """The lists of its main ingredients."""
    tins: bool
    tins_json: Markup
    scaling_cautions: tuple[tuple[str, str], ...]
    card_sizes: str
    """Classes that set the card's type for each paper."""
    card_sides: int
    """Sides of a 6 × 4 in index card that the recipe takes."""


def recipe_view(dish: Dish, settings: Settings, here: str, known: Container[str]) -> RecipeView:
    """The view of a dish on the page ``here``; ``known`` is the slugs that have pages."""
    recipe = dish.recipe
    author = settings.authors.get(recipe.author)
    foods, said = _own(dish, settings)
    return RecipeView(
        author=author.name if author else recipe.author,
        author_href=address.relative(here, address.author(recipe.author)) if author else "",
        reference_links={
            slug: address.relative(here, address.recipe(slug))
            for slug in dish.uses
            if slug in known
        },
        filed=tuple(_filed(dish, here)),
        more_with=tuple(
            Item(name, address.relative(here, address.ingredient(name))) for name in foods
        ),
        **said,
    )


def _made_of(dish: Dish, settings: Settings) -> tuple[tuple[str, ...], dict[str, Any]]:
    """A dish's main ingredients, and what its view says on any page: all but the links."""
    recipe, label, rows = dish.recipe, dish.label, tuple(_rows(dish))
    nutrients = tuple(_nutrients(dish))
    bar = tuple(_time_bar(dish))
    card_sizes, card_sides = card_fit(dish)
    cautions = {key for row in dish.rows for key in row.cautions}
    said: dict[str, Any] = {
        "published": long_date(recipe.published, settings.language) if recipe.published else "",
        "updated": long_date(recipe.updated, settings.language) if recipe.updated else "",
        "bar": bar if len(bar) > 1 else (),
        "total": duration(recipe.times.total) if len(bar) > 1 and recipe.times.total else "",
        "last_time": bar[-1].key if bar else "",
        "nutrients": nutrients,
        "has_100g": any(row.hundred for row in nutrients),
        "has_daily": any(row.daily for row in nutrients),
        "at_least": any(row.serving.startswith("at ") for row in nutrients),
        "energy": tuple(_shares(label.energy_split)),
        "covers": f"{int(label.covers * 100 + 0.5)} %" if label.covers < 1 else "all",
        "not_covered": tuple(
            line.text for line in label.lines if line.grams is None or not line.per_serving
        ),
        "ranges": tuple(f"{BRIEF[key]} {low} to {high}" for key, low, high in label.ranges),
        "swaps": tuple(_swapped(swap) for swap in label.swaps),
        "reckoned": tuple(dict.fromkeys(_reckoned(dish, rows))),
        "missing": tuple(dict.fromkeys(_missing(rows))),
        "section_ids": tuple(_section_ids(dish)),
        "tins": bool(dish.tins),
        "tins_json": _tins_json(dish),
        "scaling_cautions": tuple(
            (key, words) for key, words in SCALING_CAUTIONS.items() if key in cautions
        ),
        "card_sizes": card_sizes,
        "card_sides": card_sides,
    }
    return main_foods(dish), said


_own = Recent(_made_of, most=32)
"""A recipe's page and card are laid out one after the other."""


BRIEF = {
    "energy_kcal": "energy",
    "fat_g": "fat",
    "carbohydrate_g": "carbohydrate",
    "available_carbohydrate_g": "carbohydrate",
    "protein_g": "protein",
}


def _swapped(swap: SwapFigures) -> str:
    figures = [f"{BRIEF[f.key]} {printed(f)}" for f in swap.per_serving if f.key in BRIEF]
    return f"With {swap.use} instead of {swap.instead_of}: {', '.join(figures)}."


def _time_bar(dish: Dish) -> Iterator[Bar]:
    times = dish.recipe.times
    said = [
        (key, minutes)
        for key, minutes in (("prep", times.prep), ("cook", times.cook), ("rest", times.rest))
        if minutes
    ]
    total = sum(minutes for _, minutes in said)
    return _shares(tuple((key, minutes / total) for key, minutes in said))


def _shares(shares: tuple[tuple[str, float], ...]) -> Iterator[Bar]:
    """Pieces side by side with a gap of one unit, in hundredths."""
    at = 0.0
    for key, share in shares:
        wide = share * 100
        percent = f"{int(wide + 0.5)} %"
        drawn = max(wide - (1 if at + wide < 99.5 else 0), 0.5)
        yield Bar(key, sentence(key), f"{at:.2f}", f"{drawn:.2f}", percent)
        at += wide


def _nutrients(dish: Dish) -> Iterator[NutrientRow]:
    """Figures of one label stand in one row, as energy in kJ and kcal does by law."""
    hundred = {figure.key: printed(figure) for figure in dish.label.per_100g}
    for label, group in groupby(dish.label.per_serving, key=lambda figure: figure.label):
        figures = list(group)
        yield NutrientRow(
            label,
            " / ".join(printed(figure) for figure in figures),
            "".join(figure.daily for figure in figures),
            " / ".join(hundred[figure.key] for figure in figures if figure.key in hundred),
            figures[0].indent,
        )


def printed(figure: NutrientFigure) -> str:
    """A nutrient as the page says it; one that is not complete says so.

    What is not known is said to be not known.
    """
    if figure.value is None:
        return figure.printed or "not known"
    if figure.complete or figure.printed.startswith("at "):
        return figure.printed
    return f"at least {figure.printed}"


def _rows(dish: Dish) -> Iterator[LedgerRow]:
    for row in dish.rows:
        yield row
        yield from row.alternatives
        if row.swap:
            yield row.swap


def _reckoned(dish: Dish, rows: Iterable[LedgerRow]) -> Iterator[str]:
    if dish.unit_meanings:
        yield f"Here {', '.join(dish.unit_meanings)}."
    for row in rows:
        for figure in (row.metric, row.us):
            if figure and figure.worked_out and figure.basis:
                yield f"{sentence(row.line.food)}: {figure.basis}"


def _missing(rows: Iterable[LedgerRow]) -> Iterator[str]:
    for row in rows:
        if row.missing:
            yield f"{sentence(row.line.food)}: {row.missing}"


def _section_ids(dish: Dish) -> Iterator[str]:
    taken = {"main", "ingredients", "method", "allergens", "tools", "nutrition", "cautions"}
    taken |= {"related", "more-with"}
    taken |= {"used-in", "on-paper", "filed", "scale", "serves", "by-have", "by-tin", "tins"}
    for section in dish.sections:
        name = section.slug or address.slug(section.name)
        while name in taken:
            name += "-section"
        taken.add(name)
        yield name


def _filed(dish: Dish, here: str) -> Iterator[Item]:
    recipe = dish.recipe
    if recipe.course:
        yield Item(sentence(recipe.course), address.relative(here, address.course(recipe.course)))
    if recipe.cuisine:
        yield Item(recipe.cuisine, address.relative(here, address.cuisine(recipe.cuisine)))
    for tag in recipe.tags:
        yield Item(tag, address.relative(here, address.tag(tag)))


def _tins_json(dish: Dish) -> Markup:
    if not dish.tins:
        return Markup()
    own = [{"text": tin.text, "area": str(tin.area)} for tin in dish.tins]
    return script_text({"own": own, "usual": _usual_tins()})


@cache
def _usual_tins() -> list[dict[str, str]]:
    return [
        {"text": text, "area": str(tin_area(shape, sides))} for text, shape, sides in USUAL_TINS
    ]


def tin_area(shape: str, sides: tuple[Fraction, ...]) -> Fraction:
    """The base of a tin in cm², π taken as 355/113.

    >>> tin_area("square", (Fraction(20),))
    Fraction(400, 1)
    """
    if shape == "round":
        return sides[0] ** 2 / 4 * Fraction(355, 113)
    return sides[0] * sides[-1]


@dataclass(frozen=True, slots=True)
class Listing:
    """A recipe in a list."""

    slug: str
    title: str
    href: str
    summary: str
    course: str
    serves: int
    time: str
    draft: bool
    photo: PhotoSet | None


def listing(dish: Dish, photos: Mapping[str, PhotoSet], here: str) -> Listing:
    """How the page ``here`` shows a dish in a list.

    Pages that name it in the same way are given the same object.
    """
    return listings((dish,), photos, here)[0]


def listings(dishes: Iterable[Dish], photos: Mapping[str, PhotoSet], here: str) -> list[Listing]:
    """How the page ``here`` shows some dishes."""
    way = _way(here.rpartition("/")[0])
    found = []
    for dish in dishes:
        r = dish.recipe
        total = r.times.total
        shown = _listing(way, r.slug, r.title, r.summary, r.course, r.serves, total, r.draft)
        photo = photos.get(r.slug)
        found.append(shown if photo is None else _pictured(shown, photo))
    return found


@lru_cache(maxsize=4096)
def _way(folder: str) -> str:
    """How pages in a folder name the folder of the recipes."""
    name = address.recipe("_")
    return address.relative(f"{folder}/_" if folder else "_", name).removesuffix("_.html")


@lru_cache(maxsize=16384)  # by words, since a dish, which is large, should not be kept for them
def _listing(
    way: str,
    slug: str,
    title: str,
    summary: str,
    course: str,
    serves: int,
    total: int | None,
    draft: bool,
) -> Listing:
    own = address.recipe(slug)
    href = way + address.relative(own, own)
    time = duration(total) if total else ""
    return Listing(slug, title, href, summary, sentence(course), serves, time, draft, None)


_pictured = Recent(lambda shown, photo: replace(shown, photo=photo), most=16384)
