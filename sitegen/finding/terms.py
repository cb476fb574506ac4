"""What finds a dish, and how well: its terms by the place that they stand in."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import lru_cache
from html import unescape
from typing import Final

from sitegen.dish import Dish
from sitegen.finding.foods import main_foods
from sitegen.finding.names import other_names
from sitegen.finding.words import different_terms
from sitegen.late import noted

PLACES: Final = ("title", "ingredient", "filing", "text")
"""Where a term can stand, what counts most first. Filing: tags, course, cuisine, diets, author."""
_TITLE, _INGREDIENT, _FILING, _TEXT = range(len(PLACES))


@noted(Dish)
def terms_of(dish: Dish) -> dict[str, int]:
    """The dish's terms, each with the number of the best place that it stands in."""
    recipe = dish.recipe
    filing = "\n".join((recipe.course, recipe.cuisine, *recipe.tags, *dish.diets))
    found = dict.fromkeys(different_terms("\n".join(_text(dish))), _TEXT)
    found |= dict.fromkeys(different_terms(filing), _FILING)
    found |= dict.fromkeys(_ingredients(dish), _INGREDIENT)
    found |= dict.fromkeys(different_terms(recipe.title), _TITLE)
    return found


def _ingredients(dish: Dish) -> list[str]:
    found: list[str] = []
    for name in main_foods(dish):
        found += _of_words(name)
    for row in dish.rows:
        found += _of_words(row.line.food)
        found += _of_food(row.larder_name)
        for name in row.also:
            found += _of_words(name)
        for other in row.alternatives:
            found += _of_words(other.line.food)
        if row.swap:
            found += _of_words(row.swap.line.food)
    return found


@lru_cache(maxsize=16384)
def _of_words(words: str) -> tuple[str, ...]:
    """The terms of a few words that stand in many recipes."""
    return tuple(different_terms(words))


@lru_cache(maxsize=8192)
def _of_food(larder_name: str) -> tuple[str, ...]:
    """What finds a food of the larder: its name there, and its other names."""
    others = other_names().get(larder_name, ())
    return tuple(different_terms(" ".join((larder_name, *others))))


def _text(dish: Dish) -> Iterator[str]:
    recipe = dish.recipe
    yield recipe.summary
    yield plain_text(recipe.intro)
    for part in dish.method:
        yield part.name
        for step in part.steps:
            yield step.text
    for section in dish.sections:
        yield section.name
        yield plain_text(section.html)


_TAG: Final = re.compile("<[^>]*>")


def plain_text(html: str) -> str:
    """The words of the author's HTML."""
    return unescape(_TAG.sub(" ", html)) if html else ""
