"""What several commands share: finding the site, and ending with the right exit code."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any, TypeVar

import click

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
