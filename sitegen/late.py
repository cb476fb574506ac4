"""Recipes and dishes of which only the little is at hand that the rest of the site asks of them.

A site of ten thousand recipes does not fit into memory with every step and every figure, and need
not: lists ask for titles, times and tags. A late recipe or dish *is* one; what it was not given it
works out again, in full, when it is asked. So nothing can go wrong by asking; it only takes longer.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import wraps
from typing import Any, TypeVar

from sitegen.dish import Dish
from sitegen.reading.recipe import Recipe
from sitegen.reading.source import Source

_RECIPE = (
    *("file", "slug", "title", "serves", "summary", "published", "updated", "author", "course"),
    *("cuisine", "tags", "times", "photo", "may_contain", "pictures", "video", "disclosure"),
)
_DISH = ("uses", "allergens", "diets")

Notes = Mapping[str, Any]
T = TypeVar("T")
R = TypeVar("R")

Noted = dict[str, Callable[[Any], Any]]

_NOTED: dict[type, Noted] = {Recipe: {}, Dish: {}, Source: {}}
_FOR_NEW: Noted = {}


def noted(kind: type[T], *, of_new: bool = False) -> Callable[[Callable[[T], R]], Callable[[T], R]]:
    """Mark a function of one recipe, dish or source alone, whose result is kept with a late one.

    Use it where something is asked of every recipe of a site and needs all of it; with ``of_new``,
    where it is asked of the newest dishes only.
    """

    def mark(function: Callable[[T], R]) -> Callable[[T], R]:
        name = f"{function.__module__}.{function.__qualname__}"

        @wraps(function)
        def ask(of: T) -> R:
            notes = getattr(of, "notes", None)
            if notes is not None and name in notes:
                return notes[name]  # type: ignore[no-any-return]
            return function(of)

        (_FOR_NEW if of_new else _NOTED[kind])[name] = function
        return ask

    return mark


class _Late:
    """What late things have in common: their notes, and how to get the whole."""

    __slots__ = ()
    notes: Notes
    whole: Callable[[], Any]

    def __getattr__(self, name: str) -> Any:
        if name.startswith("_") and name != "_starts":
            raise AttributeError(name)
        return getattr(object.__getattribute__(self, "whole")(), name)


class LateRecipe(_Late, Recipe):
    """A recipe of which the fields are at hand, but not the lines and steps."""

    __slots__ = ("notes", "whole")

    def __reduce__(self) -> tuple[Any, ...]:
        return _revive, (LateRecipe, _held(self, (*_RECIPE, "places")), self.notes)


class LateDish(_Late, Dish):
    """A dish of which only the recipe's fields and the allergens are at hand."""

    __slots__ = ("notes", "whole")

    def __reduce__(self) -> tuple[Any, ...]:
        return _revive, (LateDish, _held(self, ("recipe", *_DISH)), self.notes)


class LateSource(_Late, Source):
    """A file of which only the name is at hand."""

    __slots__ = ("notes", "whole")

    def __reduce__(self) -> tuple[Any, ...]:
        return _revive, (LateSource, _held(self, ("file",)), self.notes)


def late_recipe(recipe: Recipe) -> LateRecipe:
    """The little of a recipe; the places of its fields too if it has a photo to complain of."""
    names = (*_RECIPE, "places") if recipe.photo is not None else _RECIPE
    made: LateRecipe = _revive(
        LateRecipe, {name: getattr(recipe, name) for name in names}, _notes(Recipe, recipe)
    )
    return made


def late_dish(dish: Dish, recipe: LateRecipe, *, new: bool = False) -> LateDish:
    """The little of a dish; of a ``new`` one, what is asked of the newest too."""
    fields = {"recipe": recipe} | {name: getattr(dish, name) for name in _DISH}
    notes = _notes(Dish, dish)
    if new:
        notes |= {name: function(dish) for name, function in _FOR_NEW.items()}
    made: LateDish = _revive(LateDish, fields, notes)
    return made


def late_source(source: Source) -> LateSource:
    """The little of a source."""
    made: LateSource = _revive(LateSource, {"file": source.file}, _notes(Source, source))
    return made


def bind(thing: LateRecipe | LateDish | LateSource, whole: Callable[[], Any]) -> None:
    """Say where the whole is to be had."""
    object.__setattr__(thing, "whole", whole)


def load_noting_modules() -> None:
    """Import every module that marks functions, so that no note is missed."""
    import sitegen.building.told
    import sitegen.pages.feeds
    import sitegen.pages.search
    import sitegen.references  # noqa: F401


def _notes(kind: type, of: object) -> dict[str, Any]:
    return {name: function(of) for name, function in _NOTED[kind].items()}


def _held(late: object, names: tuple[str, ...]) -> dict[str, Any]:
    held = {}
    for name in names:
        try:
            held[name] = object.__getattribute__(late, name)
        except AttributeError:
            continue
    return held


def _revive(kind: type, fields: Mapping[str, Any], notes: Notes) -> Any:
    made: Any = object.__new__(kind)
    for name, value in fields.items():
        object.__setattr__(made, name, value)
    object.__setattr__(made, "notes", notes)
    return made
