"""What several commands share: finding the site, and ending with the right exit code."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeVar

import click

if TYPE_CHECKING:
    from sitegen.dish import Dish
    from sitegen.larder.larder import Larder
    from sitegen.site import Settings

MARK = Path("content") / "site.yaml"
"""The file that makes a folder a site."""

F = TypeVar("F", bound=Callable[..., Any])


def site_option(function: F) -> F:
    """Give a command ``--site DIR``; it may also stand before the command's name."""
    return click.option(
        "--site",
        "site_folder",
        type=click.Path(path_type=Path),
        help="The site's folder, if it is not the one you are in.",
    )(function)


def format_option(*more: str) -> Callable[[F], F]:
    """Give a command ``--format``: ``text``, ``json`` and what else it can print."""
    return click.option(
        "--format",
        "form",
        type=click.Choice(["text", "json", *more]),
        default="text",
        help=f"text to read (as it is without this), or {' or '.join(['json', *more])}.",
    )


def find_site(given: Path | None) -> Path:
    """The site's folder, absolute: the one named, or the nearest one upwards.

    Raises :class:`click.UsageError` (exit code 2) when there is none.
    """
    given = given if given is not None else click.get_current_context().find_object(Path)
    if given is not None:
        folder = given.absolute()
        if (folder / MARK).is_file():
            return folder
        raise click.UsageError(
            f"there is no site in {given}: it has no {MARK.as_posix()}. "
            f"'sitegen start {given}' lays down a new site."
        )
    here = Path.cwd()
    for folder in (here, *here.parents):
        if (folder / MARK).is_file():
            return folder
    raise click.UsageError(
        f"there is no site here: neither this folder nor any above it has {MARK.as_posix()}. "
        "Name one with --site DIR, or lay down a new one with 'sitegen start DIR'."
    )


def site_or_plain(site_folder: Path | None) -> tuple[Settings, Larder]:
    """The settings and the larder of the site that one is in; the program's own outside a site."""
    from sitegen.larder.larder import Larder
    from sitegen.site import Settings

    named = site_folder or click.get_current_context().find_object(Path)
    here = Path.cwd()
    if named is None and not any((f / MARK).is_file() for f in (here, *here.parents)):
        return Settings(), Larder.load()
    folder = find_site(site_folder)
    from sitegen.reporting import as_text
    from sitegen.settings import load_site
    from sitegen.stores import read_larder

    site, problems = load_site(folder)
    larder, more = read_larder(folder)
    if problems or more:
        click.echo(as_text([*problems, *more], folder, colours) + "\n", err=True)
    return site.settings, larder


def one_dish(recipe: str, site_folder: Path | None) -> tuple[Dish, Settings, Larder]:
    """The dish that a command names, by its file or by its name in the site.

    Raises :class:`click.ClickException` when it has mistakes, UsageError when there is none.
    """
    folder = find_site(site_folder)
    from sitegen.gathering import Gatherer
    from sitegen.problems import did_you_mean
    from sitegen.reading.read import slug_of
    from sitegen.reporting import as_text
    from sitegen.stores import read_larder

    gathered = Gatherer(folder).gather(drafts=True)
    slug = slug_of(recipe)
    dish = gathered.collection.dishes.get(slug)
    if dish is None and slug in gathered.unserved:
        file = gathered.unserved[slug]
        wrong = [p for p in gathered.problems if p.file == file]
        click.echo(as_text(wrong, folder, colours) + "\n", err=True)
        raise click.ClickException(f"{file} has mistakes to mend first.")
    if dish is None:
        hint = did_you_mean(slug, gathered.collection.dishes)
        raise click.UsageError(f"there is no recipe {recipe!r} in this site; {hint}".rstrip("; "))
    return dish, gathered.site.settings, read_larder(folder)[0]


def recipe_file(recipe: str, folder: Path) -> str:
    """The file that a command means by a recipe's file or its name in the site; it need not be sound.

    Raises :class:`click.UsageError` when there is none, or more than one.
    """
    from sitegen.problems import did_you_mean
    from sitegen.reading.read import slug_of
    from sitegen.textfile import list_files

    files = list_files(folder, "content/recipes", ".md")
    for path in (Path(recipe).absolute(), folder / recipe):
        for file in files:
            if path == folder / file:
                return file
    named = [file for file in files if slug_of(file) == slug_of(recipe)]
    if len(named) == 1:
        return named[0]
    if named:
        raise click.UsageError(f"{recipe!r} could be {' or '.join(named)}; give the file.")
    hint = did_you_mean(slug_of(recipe), map(slug_of, files))
    raise click.UsageError(f"there is no recipe {recipe!r} in this site; {hint}".rstrip("; "))


_COLOURS = {
    "place": {"bold": True},
    "error": {"fg": "red", "bold": True},
    "advice": {"fg": "yellow", "bold": True},
    "caret": {"fg": "red"},
    "hint": {"fg": "green"},
}


def colours(text: str, part: str) -> str:
    """The style of problems on a terminal; :func:`click.echo` takes it off for a pipe or a file."""
    return click.style(text, **_COLOURS.get(part, {}))  # type: ignore[arg-type]
