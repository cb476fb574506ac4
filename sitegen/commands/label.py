"""``sitegen label``: a recipe's nutrition with its working, ingredient by ingredient."""

from __future__ import annotations

import json
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from sitegen.commands.shared import format_option, one_dish, site_option

if TYPE_CHECKING:
    from sitegen.dish import Dish, NutrientFigure


@click.command(short_help="Print a recipe's nutrition and how it was worked out.")
@click.argument("recipe")
@format_option()
@site_option
def label(recipe: str, form: str, site_folder: Path | None) -> None:
    """Print the working of RECIPE's label (its file, or its name in the site), with sources."""
    dish, _, _ = one_dish(recipe, site_folder)
    if form == "json":
        click.echo(json.dumps(as_json(dish), ensure_ascii=False, indent=2))
    else:
        click.echo("\n".join(as_text(dish)))


def as_json(dish: Dish) -> dict[str, Any]:
    """The label with its working, for other programs.

    ``carbohydrate_g`` is the whole, fibre included; the EU form's line is
    ``available_carbohydrate_g``. Weights are grams of the whole batch, figures of ingredients those
    of a serving.
    """
    label = dish.label
    return {
        "serves": label.serves,
        "batch_grams": label.batch_grams,
        "per_serving": _figures(dish, 1 / label.serves),
        "per_100g": _figures(dish, 100 / label.batch_grams) if label.batch_grams else {},
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
            "contains": list(dish.allergens.contains),
            "unsure": list(dish.allergens.unsure),
        },
        "diets": list(dish.diets),
        "net_carbohydrate_g": _rounded(label.net_carbohydrate_g),
    }


def _figures(dish: Dish, share: float) -> dict[str, dict[str, Any]]:
    """Every nutrient that is known at all, and every line of the label."""
    from sitegen.nutrition.label import figure_of

    contents, label = dish.contents, dish.label
    keys = dict.fromkeys([*(f.key for f in label.per_serving), *contents.totals])
    figures = (figure_of(key, contents, share, label.form) for key in keys)
    return {
        figure.key: {
            "value": _rounded(figure.value),
            "printed": figure.printed,
            "complete": figure.complete,
        }
        for figure in figures
    }


def _rounded(value: float | None) -> float | None:
    return None if value is None else round(value, 4)


_SHOWN = (
    ("energy_kcal", "kcal"),
    ("protein_g", "protein g"),
    ("fat_g", "fat g"),
    ("carbohydrate_g", "carb. g"),
)


def as_text(dish: Dish) -> list[str]:
    """The same to read, with what the page's label cannot hold."""
    label = dish.label
    lines = [dish.recipe.title, f"A serving is {label.serving}.", "", *_working(dish), ""]
    hundred = {figure.key: figure.printed for figure in label.per_100g}
    lines.append(f"{'':<28}{'a serving':>20}{'100 g':>20}")
    for figure in label.per_serving:
        name = f"  {figure.label}" if figure.indent else figure.label
        daily = f"  {figure.daily} of the daily value" if figure.daily else ""
        row = f"{name:<28}{figure.printed:>20}{hundred.get(figure.key, '–'):>20}{daily}"
        lines.append(row.rstrip())
    lines += ["", f"The figures cover {label.covers:.0%} of the weight that is known."]
    lines += [f"Its weight is not known: {text}" for text in dish.contents.unweighed]
    if label.by_factors:
        kcal, kj = label.by_factors
        lines.append(
            f"By the factors of Regulation (EU) 1169/2011, Annex XIV, a serving would be {kj:.0f} kJ, "
            f"{kcal:.0f} kcal."
        )
    if label.ranges:
        lines.append("Amounts given as ranges are taken at their middle. At their two ends:")
        lines += [f"  {_NAMES[key]:<14}{low} to {high}" for key, low, high in label.ranges]
    for swap in label.swaps:
        lines.append(f"With {swap.use} instead of {swap.instead_of}: {_brief(swap.per_serving)}.")
    lines += [label.net_carbohydrate] if label.net_carbohydrate else []
    return [*lines, "", *_statements(dish)]


_NAMES = {
    "energy_kcal": "energy",
    "fat_g": "fat",
    "carbohydrate_g": "carbohydrate",
    "available_carbohydrate_g": "carbohydrate",
    "protein_g": "protein",
}


def _brief(figures: tuple[NutrientFigure, ...]) -> str:
    return ", ".join(f"{_NAMES[f.key]} {f.printed}" for f in figures if f.key in _NAMES)


def _working(dish: Dish) -> list[str]:
    label = dish.label
    head = f"{'as eaten, per serving':<44}{'g':>9}" + "".join(f"{name:>11}" for _, name in _SHOWN)
    lines = [head, "-" * len(head)]
    for line in label.lines:
        grams = "?" if line.eaten_grams is None else f"{line.eaten_grams / label.serves:.1f}"
        cells = "".join(
            f"{line.per_serving[key]:>11.1f}" if key in line.per_serving else f"{'?':>11}"
            for key, _ in _SHOWN
        )
        lines.append(f"{line.text[:43]:<44}{grams:>9}{cells}")
        source = f"{line.larder_name}, {line.source}" if line.source else ""
        lines.append(f"    {'; '.join(filter(None, (source, line.note))) or 'not in the larder'}")
    totals = "".join(f"{label.per_serving_values.get(key, 0):>11.1f}" for key, _ in _SHOWN)
    return [*lines, "-" * len(head), f"{'together, of what is known':<53}{totals}"]


def _statements(dish: Dish) -> list[str]:
    told = dish.allergens
    none = "none that the known ingredients bring" if told.unsure else "none of those listed"
    lines = [f"Contains: {', '.join(told.contains) or none}."]
    lines += [f"  {name}: {', '.join(foods)}" for name, foods in told.because.items()]
    if told.swaps:
        lines.append(f"Of these: {'; '.join(told.swaps)}.")
    if told.author_may_contain:
        lines.append(f"May contain: {', '.join(told.author_may_contain)}.")
    if told.check_packet:
        lines.append(f"Read the packet for: {', '.join(told.check_packet)}.")
    if told.unsure:
        lines.append(f"May be incomplete: not known of {', '.join(told.unsure)}.")
    lines.append(f"By {told.law}.")
    if told.beyond:
        lines.append(f"Besides, which that law does not name: {', '.join(told.beyond)}.")
    if dish.diets:
        lines.append(f"Its ingredients allow: {', '.join(dish.diets)}.")
    return lines
