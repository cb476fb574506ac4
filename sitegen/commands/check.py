"""``sitegen check``: every problem of the site, or of some files, in one run."""

from __future__ import annotations

import gc
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import click

from sitegen.commands.shared import colours, find_site, site_option


@click.command(short_help="Find the mistakes in the site's files.")
@click.argument("paths", nargs=-1, type=click.Path(path_type=Path))
@click.option(
    "--format",
    "form",
    type=click.Choice(["text", "json", "sarif"]),
    default="text",
    help="text to read (as it is without this), json for a script, or sarif (SARIF 2.1.0) for "
    "editors and code hosts.",
)
@site_option
def check(paths: tuple[Path, ...], form: str, site_folder: Path | None) -> None:
    """Find the mistakes in the site's files, or in the files and folders named as PATHS.

    Ends with 0 when there are none, or advice only; with 1 when there are errors; with 2 when the
    command itself was misused.
    """
    folder = find_site(site_folder if site_folder or not paths else _site_of(paths[0]))
    wanted = [_within(path, folder) for path in paths]
    with _seldom_collecting():
        from sitegen.gathering import Gatherer, is_read
        from sitegen.problems import has_errors
        from sitegen.reporting import as_json, as_text, summary

        for name, path in zip(wanted, paths, strict=True):
            if not is_read(name, folder):
                raise click.UsageError(f"{path} is no file that a site is read from.")
        gathered = Gatherer(folder).gather(drafts=True, only=wanted or None)
    problems = list(gathered.problems)
    settings = gathered.site.settings
    if not wanted and (settings.theme != "sheet" or settings.colours):
        # what would stop a build is said here, too; the program's own theme need not be loaded
        from sitegen.pages.theme import load_theme
        from sitegen.problems import in_order

        problems = in_order((*problems, *load_theme(gathered.site)[1]))
    if form == "json":
        click.echo(as_json(problems))
    elif form == "sarif":
        from sitegen.readthrough import RULES
        from sitegen.reporting import SourceLines
        from sitegen.sarif import as_sarif

        why = {rule.name: rule.why for rule in RULES}
        click.echo(as_sarif(problems, SourceLines(folder).line, why))
    else:
        if problems:
            click.echo(as_text(problems, folder, colours) + "\n")
        click.echo(summary(problems))
    if has_errors(problems):
        raise SystemExit(1)


@contextmanager
def _seldom_collecting() -> Iterator[None]:
    """Garbage is looked for a hundred times less often: a start makes next to none.

    An editor that checks a file at each save waits for the start above all.
    """
    usual = gc.get_threshold()
    gc.set_threshold(usual[0] * 100, *usual[1:])
    try:
        yield
    finally:
        gc.set_threshold(*usual)


def _site_of(path: Path) -> Path | None:
    """The site that a path lies in, so that ``check`` can be run from anywhere; else None."""
    from sitegen.commands.shared import MARK

    if click.get_current_context().find_object(Path) is not None:
        return None
    whole = path.absolute()
    return next((f for f in (whole, *whole.parents) if (f / MARK).is_file()), None)


def _within(path: Path, folder: Path) -> str:
    """A path as the site names it: ``content/recipes/soup.md``."""
    for whole in (path.absolute(), folder / path):
        if whole.exists():
            try:
                return whole.resolve().relative_to(folder.resolve()).as_posix()
            except ValueError:
                raise click.UsageError(f"{path} does not belong to the site {folder}") from None
    raise click.UsageError(f"there is no file or folder {path}")
