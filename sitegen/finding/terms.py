"""What finds a dish, and how well: its terms by the place that they stand in."""

from __future__ import annotations

from collections.abc import Iterator
from html import unescape
from re import sub
from typing import Final

from sitegen.dish import Dish
from sitegen.finding.foods import main_foods
from sitegen.finding.names import other_names
from sitegen.finding.words import different_terms
from sitegen.late import noted

PLACES: Final = ("title", "ingredient", "filing", "text")
"""Where a term can stand, what counts most first. Filing: tags, course, cuisine, diets, author."""


@noted(Dish)
def terms_of(dish: Dish) -> dict[str, int]:
    """The dish's terms, each with the number of the best place that it stands in."""
    found: dict[str, int] = {}
    for place, name in enumerate(PLACES):
        for term in different_terms(_TEXTS[name](dish)):
            found.setdefault(term, place)
    return found


def _title(dish: Dish) -> Iterator[str]:
    yield dish.recipe.title


def _ingredients(dish: Dish) -> Iterator[str]:
    yield from main_foods(dish)
    for row in dish.rows:
        yield row.line.food
        yield row.larder_name
        yield " ".join(other_names().get(row.larder_name, ()))
        yield from (other.line.food for other in row.alternatives)
        if row.swap:
            yield row.swap.line.food


def _filing(dish: Dish) -> Iterator[str]:
    recipe = dish.recipe
    yield from (recipe.course, recipe.cuisine, *recipe.tags, *dish.diets)


def _text(dish: Dish) -> Iterator[str]:
    recipe = dish.recipe
    yield recipe.summary
    yield plain_text(recipe.intro)
    for part in dish.method:
        yield part.name
        yield from (step.text for step in part.steps)
    for section in dish.sections:
        yield section.name
        yield plain_text(section.html)


_TEXTS: Final = {"title": _title, "ingredient": _ingredients, "filing": _filing, "text": _text}


def plain_text(html: str) -> str:
    """The words of the author's HTML."""
    return unescape(sub(r"<[^>]*>", " ", html))
