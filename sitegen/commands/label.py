"""``sitegen label``: a recipe's nutrition with its working, ingredient by ingredient."""

from __future__ import annotations

import json
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from sitegen.commands.shared import one_dish, site_option

if TYPE_CHECKING:
    from sitegen.dish import Dish


@click.command(short_help="Print a recipe's nutrition and how it was worked out.")
@click.argument("recipe")
@click.option(
    "--format",
    "form",
    type=click.Choice(["text", "json"]),
    default="text",
    help="text to read (as it is without this), or json.",
)
@site_option
def label(recipe: str, form: str, site_folder: Path | None) -> None:
    """Print the working of RECIPE's label (its file, or its name in the site), with sources."""
    dish, _, _ = one_dish(recipe, site_folder)
    if form == "json":
        click.echo(json.dumps(_as_json(dish), ensure_ascii=False, indent=2))
    else:
        click.echo("\n".join(_as_text(dish)))


def _figures(dish: Dish, per_serving: bool) -> dict[str, Any]:
    """Every nutrient that is known at all; ``printed`` where the region's label has a rule."""
    shown = dish.label.per_serving if per_serving else dish.label.per_100g
    values = dish.label.per_serving_values if per_serving else dish.label.per_100g_values
    printed = {figure.key: figure for figure in shown}
    found: dict[str, Any] = {}
    for key, value in values.items():
        figure = printed.get(key)
        found[key] = {
            "value": round(value, 4),
            "printed": figure.printed if figure else None,
            "complete": figure.complete if figure else not dish.contents.incomplete(key),
        }
    for key, figure in printed.items():
        if key not in found:
            found[key] = {
                "value": None if figure.value is None else round(figure.value, 4),
                "printed": figure.printed,
                "complete": figure.complete,
            }
    return found


def _as_json(dish: Dish) -> dict[str, Any]:
    label = dish.label
    return {
        "recipe": dish.recipe.slug,
        "title": dish.recipe.title,
        "form": label.form,
        "serves": label.serves,
        "batch_grams": label.batch_grams,
        "per_serving": _figures(dish, True),
        "per_100g": _figures(dish, False),
        "covers": label.covers,
        "ingredients": [
            {
                "line": line.text,
                "food": line.larder_name or None,
                "source": line.source or None,
                "grams": line.grams,
                "eaten_grams": line.eaten_grams,
                "per_serving": {k: round(v, 4) for k, v in line.per_serving.items()},
                "note": line.note,
            }
            for line in label.lines
        ],
        "allergens": {
            "law": dish.allergens.law,
            "contains": list(dish.allergens.contains),
            "check_packet": list(dish.allergens.check_packet),
            "unsure": list(dish.allergens.unsure),
        },
        "diets": list(dish.diets),
        "net_carbohydrate_g": label.net_carbohydrate_g,
    }


_SHOWN = (
    ("energy_kcal", "kcal"),
    ("protein_g", "protein g"),
    ("fat_g", "fat g"),
    ("carbohydrate_g", "carb. g"),
)


def _as_text(dish: Dish) -> list[str]:
    label = dish.label
    lines = [dish.recipe.title, f"A serving is {label.serving}.", ""]
    head = f"{'as eaten, per serving':<44}{'g':>9}" + "".join(f"{name:>11}" for _, name in _SHOWN)
    lines += [head, "-" * len(head)]
    for line in label.lines:
        grams = "?" if line.eaten_grams is None else f"{line.eaten_grams / label.serves:.1f}"
        cells = "".join(
            f"{line.per_serving[key]:>11.1f}" if key in line.per_serving else f"{'?':>11}"
            for key, _ in _SHOWN
        )
        lines.append(f"{line.text[:43]:<44}{grams:>9}{cells}")
        source = f"{line.larder_name}, {line.source}" if line.source else "not in the larder"
        lines.append(f"    {source}" + (f"; {line.note}" if line.note else ""))
    totals = "".join(f"{label.per_serving_values.get(key, 0):>11.1f}" for key, _ in _SHOWN)
    lines += ["-" * len(head), f"{'together':<53}{totals}", ""]
    hundred = {figure.key: figure.printed for figure in label.per_100g}
    lines.append(f"{'':<28}{'a serving':>20}{'100 g':>20}")
    for figure in label.per_serving:
        name = f"  {figure.label}" if figure.indent else figure.label
        lines.append(f"{name:<28}{figure.printed:>20}{hundred.get(figure.key, '–'):>20}")
    if label.net_carbohydrate_g is not None:
        lines.append(f"{'Net carbohydrate':<28}{f'{label.net_carbohydrate_g:.1f} g':>20}")
    lines += ["", f"The figures cover {label.covers:.0%} of the weight."]
    lines.append(f"Contains: {', '.join(dish.allergens.contains) or 'none of those listed'}.")
    if dish.allergens.check_packet:
        lines.append(f"Read the packet for: {', '.join(dish.allergens.check_packet)}.")
    if dish.allergens.unsure:
        lines.append(f"May be incomplete: not known of {', '.join(dish.allergens.unsure)}.")
    lines.append(f"By {dish.allergens.law}.")
    if dish.diets:
        lines.append(f"Its ingredients allow: {', '.join(dish.diets)}.")
    return lines
