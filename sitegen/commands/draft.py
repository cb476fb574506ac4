"""``sitegen draft``: a new recipe file, with every field explained in place."""

from __future__ import annotations

import re
import unicodedata
from pathlib import Path

import click

from sitegen.commands.shared import find_site, site_option

_MODEL = Path(__file__).with_name("draft.md")


@click.command(short_help="Begin a recipe.")
@click.argument("title")
@site_option
def draft(title: str, site_folder: Path | None) -> None:
    """Begin a recipe named TITLE in content/recipes/."""
    folder = find_site(site_folder)
    title = " ".join(title.split())
    name = file_name(title)
    if not name:
        raise click.UsageError("the title has no letter or figure in it; give the dish's name.")
    file = folder / "content" / "recipes" / f"{name}.md"
    twin = next((folder / "content" / "recipes").rglob(f"{name}.md"), None)
    if twin is not None:
        raise click.ClickException(
            f"{twin.relative_to(folder).as_posix()} is there already and is left as it is; "
            "choose another title, or edit that file."
        )
    file.parent.mkdir(parents=True, exist_ok=True)
    text = _MODEL.read_text(encoding="utf-8").replace("TITLE", _quoted(title))
    try:
        with file.open("x", encoding="utf-8") as new:  # "x": never over an existing file
            new.write(text)
    except FileExistsError:
        raise click.ClickException(f"{file} is there already and is left as it is.") from None
    click.echo(f"{file.relative_to(folder).as_posix()} is ready to be written.")


def file_name(title: str) -> str:
    """A title as a file's name, which becomes the last part of the page's address.

    >>> file_name("Crème brûlée & tea")
    'creme-brulee-tea'
    """
    plain = unicodedata.normalize("NFKD", title.casefold())
    plain = "".join(c for c in plain if not unicodedata.combining(c)).replace("'", "")
    return re.sub(r"[\W_]+", "-", plain.replace("’", "")).strip("-")[:80].rstrip("-")


def _quoted(title: str) -> str:
    """A title as YAML: in quotes where a plain one would be misread."""
    if re.fullmatch(r"[A-Za-z][\w ,()'’éèêàçöäüßñ-]*", title):
        return title
    escaped = title.replace("\\", "\\\\").replace('"', '\\"')
    return f'"{escaped}"'
