"""Work a recorded recipe out again, by today's larder and settings."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, replace

from sitegen.dish import Dish
from sitegen.kitchen.work_out import work_out
from sitegen.larder.larder import Larder
from sitegen.problems import Problem
from sitegen.reading.read import read_recipe
from sitegen.reading.recipe import Recipe
from sitegen.reading.source import Source
from sitegen.references import dependency_order, dish_references
from sitegen.site import Author, Settings


@dataclass(frozen=True, slots=True)
class Kitchen:
    """What working out needs beside the recorded texts."""

    settings: Settings
    larder: Larder
    dishes: Mapping[str, Dish]
    """The site's dishes as they stand, for recipes whose text a trial did not record."""


def read_again(file: str, text: str, settings: Settings) -> tuple[Recipe | None, list[Problem]]:
    """A recorded text as a recipe; its author may have left the site since."""
    named = re.search(r"(?m)^author:[ ]*[\"']?([^\"'#\n]+)", text.partition("\n---")[0])
    if named:
        key = named[1].strip()
        settings = replace(settings, authors={key: Author(key, key), **settings.authors})
    return read_recipe(Source(file, text), settings)


def cook_again(
    file: str, text: str, used: Mapping[str, str], kitchen: Kitchen
) -> tuple[Dish | None, list[Problem]]:
    """The dish of a recorded recipe; None, with the problems, if it can't be understood any more."""
    recipes: dict[str, Recipe] = {}
    for name, words in {**used, file: text}.items():
        recipe, problems = read_again(name, words, kitchen.settings)
        if recipe is None:
            return None, problems
        recipes[name] = recipe
    order, _ = dependency_order(recipes, set(recipes))
    dishes = dict(kitchen.dishes)
    for name in order:
        dish, problems = work_out(recipes[name], kitchen.larder, kitchen.settings, dishes)
        if name == file:
            wrong = [p for p in problems if p.severity == "error"]
            return (None, wrong) if wrong else (dish, [])
        dishes[recipes[name].slug] = dish
    return None, [
        Problem(
            "reference-round", "error", file, 1, 1, "this recipe needs itself", "look at its uses"
        )
    ]


def recipes_used(file: str, texts: Mapping[str, str], settings: Settings) -> dict[str, str]:
    """File → text of every recipe among a recipe's ingredients, and among theirs.

    ``texts`` are the site's recipes; what is not there, or can't be read, is left out.
    """
    found: dict[str, str] = {}
    waiting = [file]
    while waiting:
        recipe, _ = read_again(waiting[0], texts[waiting.pop(0)], settings)
        for reference in dish_references(recipe) if recipe else ():
            if reference.file in texts and reference.file not in found and reference.file != file:
                found[reference.file] = texts[reference.file]
                waiting.append(reference.file)
    return dict(sorted(found.items()))
