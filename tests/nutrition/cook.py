"""Recipes worked out from their text, by the path that a build takes."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from sitegen.dish import Dish
from sitegen.kitchen.work_out import work_out
from sitegen.larder import Larder
from sitegen.reading.read import read_recipe
from sitegen.reading.source import Source
from sitegen.site import Settings


def settings(region: str = "uk", **more: Any) -> Settings:
    return Settings(region=region, **more)  # type: ignore[arg-type]


def cook(
    lines: Sequence[str],
    method: str = "1. Put everything in a bowl.",
    *,
    serves: int = 1,
    more: str = "",
    name: str = "dish",
    region: str = "uk",
    others: Mapping[str, Dish] | None = None,
    larder: Larder | None = None,
    net: tuple[str, ...] = (),
) -> Dish:
    """A dish of ``lines`` (YAML: a line, or a mapping with ``line:``); advice is let pass."""
    listed = "\n".join(f"  - {line}" for line in lines)
    front = f"title: A {name}\nserves: {serves}\n{more}\ningredients:\n{listed}"
    text = f"---\n{front}\n---\n\n## Method\n\n{method}\n"
    chosen = settings(region, net_carbohydrate=net)
    recipe, problems = read_recipe(Source(f"content/recipes/{name}.md", text), chosen)
    said = [p for p in problems if p.severity == "error" and p.rule not in _NOT_WANTED]
    assert recipe is not None
    assert not said, problems
    dish, found = work_out(recipe, larder or Larder.load(), chosen, others or {})
    assert not [p for p in found if p.severity == "error"], found
    return dish


# What a page must have, and a test of sums needs not.
_NOT_WANTED = {"field-missing", "ingredient-unused", "unused-ingredient"}


def figure(dish: Dish, key: str, per: str = "serving") -> str:
    """What the label prints for ``key``."""
    figures = dish.label.per_serving if per == "serving" else dish.label.per_100g
    return next(f.printed for f in figures if f.key == key)
