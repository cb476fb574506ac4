"""The larder of one site: the program's, with the author's own foods laid over it."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from sitegen.larder.food import Food
from sitegen.larder.larder import Larder
from sitegen.nutrition.atwater import disagreement, energy
from sitegen.problems import Problem
from sitegen.reading.yamltree import Tree, read_yaml
from sitegen.textfile import list_files, read_text

LARDER = "content/larder"


def read_larder(folder: Path) -> tuple[Larder, list[Problem]]:
    """The program's larder with the site's own foods over it, from ``content/larder/*.yaml``."""
    larder, problems = Larder.load(), []
    first: dict[str, str] = {}
    for file in list_files(folder, LARDER, ".yaml"):
        from sitegen.larder.site import foods_from_mapping  # few sites have foods of their own

        source = read_text(folder, file)
        if isinstance(source, Problem):
            problems.append(source)
            continue
        tree = read_yaml(source, source.text, problems)
        if tree is None:
            continue

        def problem(
            path: tuple[str | int, ...], message: str, hint: str, tree: Any = tree, file: str = file
        ) -> None:
            place = tree.key_place(path)
            problems.append(
                Problem("larder-food", "error", file, place.line, place.column, message, hint)
            )

        foods = foods_from_mapping(_with_numbers(tree.data), problem, larder)
        problems.extend(_odd_energies(foods, tree, file))
        for food in foods:
            if first.setdefault(food.name, file) != file:
                index = next(i for i, f in enumerate(foods) if f is food)
                hint = "keep one of them, or give it another name"
                problem(("foods", index), f"{food.name!r} stands in {first[food.name]} too", hint)
        larder = larder.with_foods(foods) if foods else larder
    return larder, problems


def _odd_energies(foods: list[Food], tree: Tree, file: str) -> Iterator[Problem]:
    """Advice where the energy that a food's own figures state is not what its parts yield."""
    read = {food.name: food for food in foods}
    items = tree.data.get("foods")
    for index, item in enumerate(items if isinstance(items, list) else ()):
        figures = item.get("per 100 g") if isinstance(item, dict) else None
        food = read.get(" ".join(str(item.get("name", "")).split())) if figures else None
        gap = disagreement(food.nutrients) if food else None
        if food is None or gap is None:
            continue
        stated = food.nutrients["energy_kcal"]
        place = tree.key_place(("foods", index, "per 100 g"))
        message = (
            f"{food.name!r} has {stated:g} kcal in 100 g, but its protein, fat, carbohydrate and so on "
            f"give {energy(food.nutrients):.0f} kcal"
        )
        hint = "check the packet; give fibre_g, polyols_g or alcohol_g too if it has them"
        yield Problem("energy-odd", "advice", file, place.line, place.column, message, hint)


def _with_numbers(data: dict[str, Any]) -> dict[str, Any]:
    """The same with the figures per 100 g as numbers; everything else stays the author's text."""
    foods = data.get("foods")
    if not isinstance(foods, list):
        return data
    return {**data, "foods": [_figures(food) for food in foods]}


def _figures(food: object) -> object:
    figures = food.get("per 100 g") if isinstance(food, dict) else None
    if not isinstance(food, dict) or not isinstance(figures, dict):
        return food
    read = {name: _number(value) for name, value in figures.items()}
    return {**food, "per 100 g": read}


def _number(value: object) -> object:
    plain = isinstance(value, str) and re.fullmatch(r"\d{1,6}(\.\d{1,6})?", value)
    return float(value) if plain else value  # type: ignore[arg-type]
