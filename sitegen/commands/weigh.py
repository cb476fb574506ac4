"""``sitegen weigh``: what the program makes of one ingredient line."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path

import click

from sitegen.commands.shared import format_option, site_option, site_or_plain


@click.command(short_help="Read one ingredient line and say what it comes to.")
@click.argument("line")
@format_option()
@click.option(
    "--region",
    type=click.Choice(["us", "uk", "eu", "au", "ca"]),
    help="Whose cups and spoons are meant, if not the site's.",
)
@site_option
def weigh(line: str, form: str, region: str | None, site_folder: Path | None) -> None:
    """Read one ingredient LINE: its amount, food, grams, and both unit systems.

    Ends with 1 when the line can't be read.
    """
    from sitegen.kitchen.weigh_line import as_json, as_text, weigh_line
    from sitegen.problems import has_errors

    settings, larder = site_or_plain(site_folder)
    if region:
        settings = replace(settings, region=region)  # type: ignore[arg-type]
    row, problems = weigh_line(line, larder, settings)
    if form == "json":
        told = as_json(line, row, problems, settings.region)
        click.echo(json.dumps(told, ensure_ascii=False, indent=2))
    else:
        if row is not None:
            click.echo("\n".join(as_text(line, row, settings.region)))
        for problem in problems:
            click.echo(f"{problem.severity}: {problem.message}", err=True)
            if problem.severity == "error":
                click.echo(
                    f"  {line}\n  {' ' * (problem.column - 1)}{'^' * problem.length}", err=True
                )
            if problem.hint:
                click.echo(f"  {problem.hint}", err=True)
    if has_errors(problems):
        raise SystemExit(1)
