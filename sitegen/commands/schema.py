"""``sitegen schema``: what an editor needs to complete and check the fields while one types."""

from __future__ import annotations

import json
from pathlib import Path

import click

from sitegen.commands.shared import MARK, find_site, site_option

WHAT = ("recipe", "site", "log")


@click.command(short_help="Write the JSON Schema that editors complete from.")
@click.argument("what", type=click.Choice(WHAT), default="recipe")
@click.option(
    "--to",
    type=click.Path(path_type=Path, dir_okay=False),
    help="The file to write; without it the schema is printed.",
)
@site_option
def schema(what: str, to: Path | None, site_folder: Path | None) -> None:
    """Write the JSON Schema of a recipe's fields, of site.yaml (WHAT is site) or of a test log (log).

    Inside a site, a recipe's 'author' is completed from the site's own authors. An editor with a
    YAML language server finds the schema by a first line such as

        # yaml-language-server: $schema=recipe.schema.json
    """
    from sitegen import schemas

    if what == "site":
        made = schemas.site_schema()
    elif what == "log":
        made = schemas.log_schema()
    else:
        made = schemas.recipe_schema(_authors(site_folder))
    text = json.dumps(made, ensure_ascii=False, indent=2) + "\n"
    if to is None:
        click.echo(text, nl=False)
        return
    if to.exists() and not _is_schema(to):
        raise click.ClickException(f"{to} is there already and is no JSON Schema; name another.")
    try:
        to.write_text(text, encoding="utf-8")
    except OSError as error:
        raise click.ClickException(f"{to} can't be written: {error.strerror}.") from None
    click.echo(f"{to} is written.")


def _authors(site_folder: Path | None) -> list[str]:
    here = Path.cwd()
    asked = site_folder is not None or click.get_current_context().find_object(Path) is not None
    if not asked and not any((f / MARK).is_file() for f in (here, *here.parents)):
        return []
    from sitegen.settings import load_site

    return list(load_site(find_site(site_folder))[0].settings.authors)


def _is_schema(file: Path) -> bool:
    """Whether the file is a schema, which may be written anew; anything else is the author's."""
    try:
        return "$schema" in json.loads(file.read_text(encoding="utf-8"))
    except (OSError, ValueError, TypeError):
        return False
