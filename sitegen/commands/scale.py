"""``sitegen scale``: a recipe at another size, in the terminal."""

from __future__ import annotations

import json
from fractions import Fraction
from pathlib import Path
from typing import TYPE_CHECKING

import click

from sitegen.commands.shared import format_option, one_dish, site_option

if TYPE_CHECKING:
    from sitegen.kitchen.scaling import Scaled


@click.command(short_help="Print a recipe at another size.")
@click.argument("recipe")
@click.option("--serves", type=click.IntRange(1, 2000), help="How many portions.")
@click.option("--times", help="A factor: 2, 1.5, 1/2.")
@click.option("--have", help="What you have of one ingredient: '300 g flour'.")
@click.option("--tin", help="The tin you have: '23 cm square', '20 x 30 cm', '900 g loaf'.")
@format_option()
@site_option
def scale(
    recipe: str,
    serves: int | None,
    times: str | None,
    have: str | None,
    tin: str | None,
    form: str,
    site_folder: Path | None,
) -> None:
    """Print RECIPE (its file, or its name in the site) at another size.

    Give one of --serves, --times, --have and --tin. Times, oven settings and tins do not scale.
    """
    asked = [x for x in (serves, times, have, tin) if x is not None]
    if len(asked) != 1:
        raise click.UsageError("give one of --serves, --times, --have and --tin.")
    from sitegen.kitchen import scaling

    dish, settings, larder = one_dish(recipe, site_folder)
    try:
        if serves is not None:
            factor = scaling.by_serves(dish, Fraction(serves))
        elif times is not None:
            factor = scaling.by_factor(times)
        elif have is not None:
            factor = scaling.by_have(dish, have, larder, settings.region)
        else:
            factor = scaling.by_tin(dish, tin or "")
    except scaling.NotScalable as why:
        raise click.UsageError(f"{why}.") from None
    scaled = scaling.scale(dish, factor)
    if form == "json":
        click.echo(json.dumps(_as_json(scaled, settings.units), ensure_ascii=False, indent=2))
    else:
        click.echo("\n".join(_as_text(scaled, settings.units)))


def _as_json(scaled: Scaled, units: str) -> dict[str, object]:
    from sitegen.kitchen.words import row_words, step_words

    dish = scaled.dish
    return {
        "recipe": dish.recipe.slug,
        "title": dish.recipe.title,
        "factor": str(scaled.factor),
        "serves": float(dish.recipe.serves * scaled.factor),
        "ingredients": [
            {
                "part": part.name,
                "food": row.line.food,
                "lead": row.lead.text if row.lead else None,
                "metric": row.metric.text if row.metric else None,
                "us": row.us.text if row.us else None,
                "grams": float(row.grams) if row.grams is not None else None,
                "text": row_words(row, units),
            }
            for part in dish.ledger
            for row in part.rows
        ],
        "steps": [step_words(s.pieces, units) for part in dish.method for s in part.steps],
        "notes": list(scaled.notes),
    }


def _as_text(scaled: Scaled, units: str) -> list[str]:
    from sitegen.kitchen.printing import print_figure
    from sitegen.kitchen.words import row_words, step_words

    dish = scaled.dish
    portions = print_figure("count", dish.recipe.serves * scaled.factor)
    lines = [dish.recipe.title, f"for {portions}, {float(scaled.factor):.4g} times the recipe", ""]
    for part in dish.ledger:
        if part.name:
            lines.append(f"{part.name}:")
        lines.extend(f"  {row_words(row, units)}" for row in part.rows)
    lines.append("")
    for view in dish.method:
        if view.name:
            lines.append(f"{view.name}:")
        lines.extend(f"  {s.number}. {step_words(s.pieces, units)}" for s in view.steps)
    lines.extend(["", *scaled.notes] if scaled.notes else [])
    return lines
