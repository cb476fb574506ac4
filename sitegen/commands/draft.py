"""``sitegen draft``: a new recipe file, with every field explained in place."""

from __future__ import annotations

import re
import unicodedata
from pathlib import Path

import click

from sitegen.commands.shared import colours, find_site, recipe_file, site_option

_MODEL = Path(__file__).with_name("draft.md")


@click.command(short_help="Begin a recipe.")
@click.argument("title")
@click.option("--like", metavar="RECIPE", help="Begin with all that this recipe says.")
@site_option
def draft(title: str, like: str | None, site_folder: Path | None) -> None:
    """Begin a recipe named TITLE in content/recipes/.

    With --like, a variation: it stands beside RECIPE (a file, or a name in the site), says in its
    first line what it came from, and is a draft without a photo and without trials.
    """
    folder = find_site(site_folder)
    title = " ".join(title.split())
    name = file_name(title)
    if not name:
        raise click.UsageError("the title has no letter or figure in it; give the dish's name.")
    original = recipe_file(like, folder) if like is not None else None
    beside = (folder / original).parent if original else folder / "content" / "recipes"
    file = beside / f"{name}.md"
    twin = _twin(folder, name)
    if twin is not None:
        raise click.ClickException(
            f"{twin} is there already and is left as it is; choose another title, or edit that file."
        )
    text = _like(folder, original, title) if original else _blank(title)
    file.parent.mkdir(parents=True, exist_ok=True)
    try:
        with file.open(
            "x", encoding="utf-8", newline=""
        ) as new:  # "x": never over an existing file
            new.write(text)
    except FileExistsError:
        raise click.ClickException(f"{file} is there already and is left as it is.") from None
    told = f", with all that {original} says" if original else ""
    click.echo(f"{file.relative_to(folder).as_posix()} is ready to be written{told}.")


def _twin(folder: Path, name: str) -> str | None:
    """A recipe whose page has the address that one of this name would have."""
    from sitegen.reading.read import slug_of
    from sitegen.textfile import list_files

    files = list_files(folder, "content/recipes", ".md")
    return next((file for file in files if slug_of(file) == name), None)


def _blank(title: str) -> str:
    return _MODEL.read_text(encoding="utf-8").replace("TITLE", _quoted(title))


def _like(folder: Path, original: str, title: str) -> str:
    from datetime import date

    from sitegen.problems import Problem
    from sitegen.reporting import as_text
    from sitegen.textfile import read_text
    from sitegen.variation import variation

    source = read_text(folder, original)
    if isinstance(source, Problem):
        text, problems = None, [source]
    else:
        text, problems = variation(source, _quoted(title), original, date.today())
    if text is None:
        click.echo(as_text(problems, folder, colours) + "\n", err=True)
        raise click.ClickException(f"{original} has mistakes to mend first; nothing was written.")
    return text


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
