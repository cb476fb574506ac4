"""Every list of a site: by main ingredient, course, cuisine, tag, author, diet and allergen."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Final

from sitegen.collection import Collection, title_order
from sitegen.dish import Dish
from sitegen.finding.foods import main_foods
from sitegen.finding.free import all_diets, avoided, free_of
from sitegen.nutrition.allergens import DIETS
from sitegen.pages import address
from sitegen.site import Author

AUTHOR: Final = "author"
DIET: Final = "diet"
INGREDIENT: Final = "ingredient"
WITHOUT: Final = "without"


@dataclass(frozen=True, slots=True)
class Kind:
    """One way of sorting recipes."""

    key: str
    heading: str
    """Over the lists of this kind in the index: ``By course``."""
    sort: str
    """Over a list's own title: ``Course``."""


KINDS: Final = (
    Kind(INGREDIENT, "By main ingredient", "Recipes with"),
    Kind("course", "By course", "Course"),
    Kind("cuisine", "By cuisine", "Cuisine"),
    Kind("tag", "By tag", "Tag"),
    Kind(AUTHOR, "By cook", "Recipes by"),
    Kind(DIET, "By diet", "Diet"),
    Kind(WITHOUT, "Without an allergen", "Allergens"),
)
ALL: Final = Kind("", "", "")
"""The one list of everything."""
_KINDS: Final = {kind.key: kind for kind in KINDS}


@dataclass(frozen=True, slots=True)
class Group:
    """One list."""

    kind: Kind
    name: str
    """``leeks``, ``main``, ``milk``: as authors or the law say it."""
    title: str
    path: str
    """Of its first page."""
    dishes: tuple[Dish, ...]
    about: str = ""
    author: Author | None = None
    """Whose recipes these are, if it is an author's list."""
    caution: tuple[str, ...] = ()
    """Paragraphs that stand beside it."""


def groups(collection: Collection) -> tuple[Group, ...]:
    """All lists that have something in them, kind by kind, each kind in the order of an index.

    Names that come to one address (``One pot`` and ``one-pot``) are one list.
    """
    merged: dict[str, Group] = {}
    for group in _all(collection):
        known = merged.get(group.path)
        if known is None:
            merged[group.path] = group
        else:
            both = {dish.recipe.slug for dish in (*known.dishes, *group.dishes)}
            dishes = tuple(d for slug, d in collection.dishes.items() if slug in both)
            merged[group.path] = replace(known, dishes=dishes)
    return tuple(merged.values())


def by_kind(found: Sequence[Group]) -> Iterator[tuple[Kind, tuple[Group, ...]]]:
    """The lists of each kind that has any."""
    for kind in KINDS:
        lists = tuple(group for group in found if group.kind == kind)
        if lists:
            yield kind, lists


def _all(collection: Collection) -> Iterator[Group]:
    settings = collection.site.settings
    by_food = _by(collection.dishes.values(), main_foods)
    for name in sorted(by_food, key=title_order):
        yield _group(INGREDIENT, name, address.ingredient(name), by_food[name])
    for key, found, path in (
        ("course", collection.by_course(), address.course),
        ("cuisine", collection.by_cuisine(), address.cuisine),
        ("tag", collection.by_tag(), address.tag),
    ):
        for name, dishes in found.items():
            yield _group(key, name, path(name), dishes)
    for key, dishes in collection.by_author().items():
        author = settings.authors.get(key)
        if author:
            yield Group(_KINDS[AUTHOR], key, author.name, address.author(key), dishes, author.about)
    by_diet = _by(collection.dishes.values(), lambda dish: all_diets(dish.diets))
    for name in (name for name in DIETS if name in by_diet):
        group = _group(DIET, name, address.diet(name), by_diet[name])
        yield replace(group, caution=(_KNOWN_DIET, settings.caution))
    names = avoided(settings.region)
    free = _by(collection.dishes.values(), lambda dish: free_of(dish, names))
    for name in (name for name in names if name in free):
        group = _group(WITHOUT, name, address.without(name), free[name])
        caution = (_KNOWN_FREE.format(name), settings.caution)
        yield replace(group, title=f"Without {name}", caution=caution)


_KNOWN_DIET: Final = (
    "Listed are only recipes of which every ingredient, swaps and choices included, is known to "
    "allow it."
)
_KNOWN_FREE: Final = (
    "Listed are only recipes of which every ingredient is known, and none, nor any swap or choice "
    "in them, contains or may contain {}. A recipe that is not listed may still do without. Traces "
    "from other food in a kitchen or a factory can’t be seen from a recipe."
)


def _group(key: str, name: str, path: str, dishes: Sequence[Dish]) -> Group:
    return Group(_KINDS[key], name, name[:1].upper() + name[1:], path, tuple(dishes))


def _by(
    dishes: Iterable[Dish], names: Callable[[Dish], Iterable[str]]
) -> Mapping[str, tuple[Dish, ...]]:
    found: dict[str, list[Dish]] = {}
    for dish in dishes:
        for name in names(dish):
            found.setdefault(name, []).append(dish)
    return {name: tuple(found[name]) for name in found}
