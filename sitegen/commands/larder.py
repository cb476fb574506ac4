"""``sitegen larder find`` and ``sitegen larder show``: look a food up, as a recipe would."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from sitegen.commands.shared import MARK, find_site, site_option

if TYPE_CHECKING:
    from sitegen.larder.food import Food
    from sitegen.larder.larder import Larder


@click.group(short_help="Look a food up in the larder.")
def larder() -> None:
    """Look a food up in the larder."""


@larder.command()
@click.argument("words", nargs=-1, required=True)
@site_option
def find(words: tuple[str, ...], site_folder: Path | None) -> None:
    """Say which food the WORDS of an ingredient line are taken for, and what is near."""
    asked = " ".join(words)
    match = _larder(site_folder).find(asked)
    if match.food is None:
        click.echo(f"Nothing in the larder is sure to be {asked!r}.")
    elif match.sure:
        click.echo(f"{asked!r} is taken for: {match.food.name}  ({match.food.source})")
    else:
        click.echo(f"{asked!r} may be: {match.food.name}  ({match.food.source}) – not sure")
    others = [food for food in match.candidates if food is not match.food]
    if others:
        click.echo("Near it:")
        for food in others:
            click.echo(f"  {food.name}")
    if match.food is None:
        click.echo(
            "Pin one with 'food: NAME' in the recipe, or add your own in content/larder/NAME.yaml."
        )
        raise SystemExit(1)


@larder.command()
@click.argument("food", nargs=-1, required=True)
@site_option
def show(food: tuple[str, ...], site_folder: Path | None) -> None:
    """Print what the larder knows of a FOOD: figures, measures, allergens, sources."""
    name = " ".join(food)
    stores = _larder(site_folder)
    found = stores.get(name)
    if found is None:
        near = ", ".join(f.name for f in stores.find(name).candidates)
        hint = f" Near it: {near}." if near else ""
        raise click.ClickException(f"the larder has no food named {name!r}.{hint}")
    click.echo("\n".join(_sheet(found)))


def _larder(site_folder: Path | None) -> Larder:
    """The site's larder; the program's own when there is no site here."""
    from sitegen.larder.larder import Larder

    here = Path.cwd()
    named = site_folder or click.get_current_context().find_object(Path)
    if named is None and not any((f / MARK).is_file() for f in (here, *here.parents)):
        return Larder.load()
    from sitegen.reporting import as_text
    from sitegen.stores import read_larder

    folder = find_site(site_folder)
    stores, problems = read_larder(folder)
    if problems:
        click.echo(as_text(problems, folder) + "\n", err=True)
    return stores


def _sheet(food: Food) -> list[str]:
    """One food, a line a fact."""
    lines = [food.name, "=" * len(food.name)]
    facts = {
        "also": "; ".join(food.also),
        "source": food.source,
        "described as": food.description,
        "aisle": food.aisle,
        "not eaten": f"{float(food.refuse) * 100:.0f} % of the bought weight"
        if food.refuse
        else "",
        "contains": _list(food.contains),
        "may contain": _list(food.may_contain),
        "is": _list(food.classes),
        "may be": _list(food.unsure_classes),
        "traits": _list(food.traits),
    }
    lines += [f"{label + ':':<14}{text}" for label, text in facts.items() if text]
    lines += ["", "measures:"] if food.measures else []
    for measure in food.measures:
        what = " ".join(filter(None, (str(measure.amount), measure.unit.replace("_", " "))))
        state = f", {measure.state}" if measure.state else ""
        lines.append(f"  {what + state:<28}{float(measure.grams):>9.4g} g   {measure.source}")
    lines += ["", "in 100 g:"]
    for key, value in food.nutrients.items():
        nutrient, _, unit = key.rpartition("_")
        shown = {"ug": "µg", "iu": "IU"}.get(unit, unit)
        lines.append(f"  {nutrient.replace('_', ' '):<28}{value:>9.4g} {shown}")
    return lines


def _list(words: frozenset[str]) -> str:
    return ", ".join(sorted(words))
