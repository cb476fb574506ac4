"""A dish of a few lines, read and worked out as the program does it."""

from __future__ import annotations

from collections.abc import Sequence

from sitegen.dish import Dish
from sitegen.kitchen.work_out import work_out
from sitegen.larder import Larder
from sitegen.reading.read import read_recipe
from sitegen.reading.source import Source
from sitegen.site import Settings


def cooked(
    matter: str,
    ingredients: Sequence[str],
    settings: Settings | None = None,
    name: str = "dish",
    step: str = "Cook everything.",
    larder: Larder | None = None,
) -> Dish:
    """The dish of front matter, ingredient lines and one step."""
    settings = settings or Settings()
    listed = "\n".join(f"  - {line}" for line in ingredients)
    text = (
        f"---\n{matter}\nsummary: A dish.\nserves: 4\npublished: 2026-01-01\n"
        f"ingredients:\n{listed}\n---\n\n## Method\n\n1. {step}\n"
    )
    recipe, problems = read_recipe(Source(f"content/recipes/{name}.md", text), settings)
    assert recipe is not None, problems
    dish, _ = work_out(recipe, larder or Larder.load(), settings, {})
    return dish
