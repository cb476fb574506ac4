"""``sitegen build``: the site as files for any static host."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

import click

from sitegen.commands.shared import colours, find_site, site_option

if TYPE_CHECKING:
    from sitegen.building.report import BuildReport, Changes
    from sitegen.gathering import Progress


@click.command(short_help="Build the whole site.")
@click.option(
    "--to",
    type=click.Path(path_type=Path, file_okay=False),
    help="The folder to build into, if not output/ in the site's folder.",
)
@site_option
def build(to: Path | None, site_folder: Path | None) -> None:
    """Build the whole site, or leave the last one as it is if a recipe has errors."""
    folder = find_site(site_folder)
    from sitegen.building.build import Unsuitable
    from sitegen.building.build import build as build_site
    from sitegen.building.lock import Busy
    from sitegen.building.placing import InTheWay

    try:
        with progress_bars() as progress:
            report = build_site(folder, to, progress)
    except Busy as busy:
        who = f" ({busy.holder})" if busy.holder else ""
        raise click.ClickException(f"another build of this site is running{who}.") from None
    except Unsuitable as unsuitable:
        raise click.UsageError(f"{unsuitable}.") from None
    except InTheWay as wrong:
        shown = "\n".join(f"  {path}" for path in wrong.paths[:20])
        more = f"\n  … and {len(wrong.paths) - 20} more" if len(wrong.paths) > 20 else ""
        raise click.ClickException(
            "these stand where pages would go, and sitegen did not write them:\n"
            f"{shown}{more}\nNothing was changed. Move them away, or build elsewhere with --to DIR."
        ) from None
    except OSError as error:
        raise click.ClickException(
            f"the site could not be written: {error}. The last site is as it was."
        ) from None
    _tell(report, folder)
    if not report.done:
        raise SystemExit(1)


def _tell(report: BuildReport, folder: Path) -> None:
    from sitegen.reporting import as_text, counted, summary

    if report.problems:
        click.echo(as_text(report.problems, folder, colours) + "\n", err=True)
        click.echo(summary(report.problems), err=True)
    if report.finished_earlier:
        click.echo("An earlier build had been interrupted; it was finished first.", err=True)
    if not report.done:
        last = (report.folder / "index.html").is_file()
        kept = f" The last site in {report.folder} is as it was." if last else ""
        click.echo(
            f"Nothing was built: {counted(len(report.blocking), 'error')} to mend first.{kept}",
            err=True,
        )
        return
    for path in report.placed.set_aside:
        click.echo(
            f"{path} had been changed by hand; that copy is now in .sitegen/set-aside/.", err=True
        )
    _tell_changes(report.changes, folder)
    placed = report.placed
    parts = [counted(report.recipes, "recipe"), counted(report.photos, "photo")]
    files = sum(report.pages.values())
    changed = f"{len(placed.written)} written, {placed.unchanged} as before"
    if placed.removed:
        changed += f", {len(placed.removed)} removed"
    if report.drafts:
        parts.append(f"{counted(report.drafts, 'draft')} left out")
    click.echo(
        f"{', '.join(parts)}: {counted(files, 'file')} ({changed}) "
        f"in {report.folder}, {report.seconds:.1f} s."
    )


MOST = 12
"""Recipes told otherwise that are shown in full."""


def _tell_changes(changes: Changes, folder: Path) -> None:
    """What readers are told otherwise than by the last build, though its author did not write so."""
    from sitegen.reporting import counted

    if not changes.recipes:
        return
    lines = []
    for one in changes.recipes:
        inside = f" (in it, edited: {', '.join(one.edited)})" if one.edited else ""
        lines.append([f"{one.file}{inside}", *(f"  {said}" for said in (*one.harm, *one.figures))])
    click.echo("Readers are told otherwise than by the last build:", err=True)
    for block in lines[:MOST]:
        click.echo("\n".join(f"  {line}" for line in block), err=True)
    if len(lines) > MOST:
        from sitegen.workroom import NAME

        whole = folder / NAME / "changes.txt"
        whole.write_text("\n".join("\n".join(block) for block in lines) + "\n", encoding="utf-8")
        more = counted(len(lines) - MOST, "more recipe")
        click.echo(f"  … and {more}; all of it is in {NAME}/changes.txt.", err=True)
    if changes.since:
        click.echo(f"Changed since then: {', '.join(changes.since)}.", err=True)


@contextmanager
def progress_bars() -> Iterator[Progress]:
    """A bar on a terminal, nothing elsewhere."""
    if not sys.stderr.isatty():
        yield lambda *_: None
        return
    from rich.console import Console
    from rich.progress import BarColumn, MofNCompleteColumn, TaskID, TextColumn
    from rich.progress import Progress as Bars

    columns = (TextColumn("{task.description:<12}"), BarColumn(), MofNCompleteColumn())
    with Bars(*columns, console=Console(stderr=True), transient=True) as bars:
        tasks: dict[str, TaskID] = {}

        def show(what: str, done: int, whole: int) -> None:
            if what not in tasks:
                tasks[what] = bars.add_task(what, total=whole)
            bars.update(tasks[what], completed=done, total=whole)

        yield show
