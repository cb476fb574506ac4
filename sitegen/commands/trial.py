"""``sitegen trial``: a recipe's test log – a new entry, the log so far, two trials side by side."""

from __future__ import annotations

import json
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from sitegen.commands.shared import colours, find_site, recipe_file, site_option

if TYPE_CHECKING:
    from sitegen.gathering import Gathered
    from sitegen.trials.compare import Comparison, Row
    from sitegen.trials.log import Log

NOW = "now"
"""What stands for the recipe as it is, in place of a trial's number."""


@click.command(short_help="Keep a recipe's test log, and compare trials.")
@click.argument("recipe")
@click.option("--list", "listed", is_flag=True, help="Show the log so far; nothing is written.")
@click.option(
    "--compare",
    "pair",
    nargs=2,
    metavar="A B",
    help="Set two trials side by side, by their numbers; 'now' is the recipe as it stands.",
)
@click.option(
    "--date", "day", metavar="DAY", help="The day it was cooked, if not today: 2026-11-02."
)
@click.option(
    "--format",
    "form",
    type=click.Choice(["text", "json"]),
    default="text",
    help="For --list and --compare: text to read (as it is without this), or json.",
)
@site_option
def trial(
    recipe: str,
    listed: bool,
    pair: tuple[str, str] | None,
    day: str | None,
    form: str,
    site_folder: Path | None,
) -> None:
    """Open an entry in the test log of RECIPE (its file, or its name in the site).

    The log stands beside the recipe as NAME.trials.yaml. The recipe is recorded as it is now; who
    tasted, the scores, the remarks and the verdict are for you to write. Nothing that is there
    already is changed. No page is made from a log.
    """
    if listed and pair:
        raise click.UsageError("give --list or --compare, not both.")
    if day is not None and (listed or pair):
        raise click.UsageError("--date goes with a new entry.")
    if form != "text" and not (listed or pair):
        raise click.UsageError("--format goes with --list or --compare.")
    folder = find_site(site_folder)
    file = recipe_file(recipe, folder)
    if listed or pair:
        gathered, log = _gathered(folder, file)
        if pair:
            _compare(gathered, log, pair, form)
        else:
            _list(gathered, log, form)
    else:
        _open(folder, file, day)


# --- a new entry ----------------------------------------------------------------------------------


def _open(folder: Path, file: str, day: str | None) -> None:
    from datetime import date

    from sitegen.problems import Problem
    from sitegen.reading.read import slug_of
    from sitegen.settings import load_site
    from sitegen.textfile import list_files, read_text
    from sitegen.trials.again import read_again, recipes_used
    from sitegen.trials.changes import changes
    from sitegen.trials.log import log_of
    from sitegen.trials.read import read_log
    from sitegen.trials.record import NotRecorded, append, entry, heading

    try:
        cooked = date.fromisoformat(day) if day else date.today()
    except ValueError:
        raise click.UsageError(f"{day!r} is not a date; write it as in 2026-11-02.") from None
    settings = load_site(folder)[0].settings
    source = read_text(folder, file)
    if isinstance(source, Problem):
        raise click.ClickException(f"{file}: {source.message}; {source.hint}.")
    now, wrong = read_again(file, source.text, settings)
    log_file = log_of(file)
    before = None
    if (folder / log_file).exists():
        log_source = read_text(folder, log_file)
        if not isinstance(log_source, Problem):
            before = read_log(log_source)[0]
    last = before.trials[-1] if before and before.trials else None
    if last and last.untouched and last.recipe == source.text and last.day == cooked:
        click.echo(f"{log_file}:{last.place.line}: trial {last.number} is open already, unwritten.")
        return
    texts = {}
    for name in list_files(folder, "content/recipes", ".md"):
        if "](" in source.text or name == file:  # only a recipe that links can use another
            found = read_text(folder, name)
            if not isinstance(found, Problem):
                texts[name] = found.text
    used = recipes_used(file, texts, settings)
    points = before.points if before else ()
    lines = entry(cooked, source.text, used, points, best=before.best if before else 10)
    title = now.title if now else slug_of(file)
    try:
        line = append(folder / log_file, lines, heading(title, slug_of(file)))
    except NotRecorded as why:
        raise click.ClickException(f"{log_file}: {why}.") from None
    number = last.number + 1 if last else 1
    click.echo(f"{log_file}:{line}: trial {number} is open; the recipe is recorded as it stands.")
    if used:
        click.echo(f"Recorded with it: {', '.join(used)}.")
    if now is None:
        click.echo(
            f"{file} has mistakes, so this trial can't be compared with others as it is: "
            f"{wrong[0].message if wrong else 'see sitegen check'}.",
            err=True,
        )
    elif last:
        then, _ = read_again(file, last.recipe, settings)
        if then is not None:
            different = changes(then, now)
            click.echo(f"Since trial {last.number}:" if different else "Nothing was changed since.")
            for change in different:
                click.echo(f"  {_short(change.words())}")


def _short(words: str, most: int = 160) -> str:
    return words if len(words) <= most else f"{words[: most - 1]}…"


# --- the log so far -------------------------------------------------------------------------------


def _gathered(folder: Path, file: str) -> tuple[Gathered, Log]:
    from sitegen.gathering import Gatherer
    from sitegen.reading.read import slug_of
    from sitegen.reporting import as_text
    from sitegen.trials.log import log_of

    gathered = Gatherer(folder).gather(drafts=True, only=[file])
    log = gathered.logs.get(slug_of(file))
    wrong = [p for p in gathered.problems if p.file == log_of(file)]
    if wrong:
        click.echo(as_text(wrong, folder, colours) + "\n", err=True)
    if log is None or not log.trials:
        raise click.ClickException(
            f"{file} has no trials yet; 'sitegen trial {slug_of(file)}' opens the first."
        )
    return gathered, log


def _list(gathered: Gathered, log: Log, form: str) -> None:
    from sitegen.trials.story import story

    told = story(log, gathered)
    if form == "json":
        found = [
            {
                "trial": t.trial.number,
                "date": t.trial.day.isoformat(),
                "aim": t.trial.aim,
                "tasters": list(t.trial.tasters),
                "scores": {point: list(marks) for point, marks in t.trial.scores.items()},
                "overall": t.trial.overall,
                "verdict": t.trial.verdict,
                "remarks": t.trial.remarks,
                "changes": [
                    {"kind": c.kind, "what": c.what, "before": c.before, "after": c.after}
                    for c in t.changes
                ],
            }
            for t in told
        ]
        out = {"recipe": log.recipe_file, "out_of": log.best, "passed": log.passed, "trials": found}
        click.echo(json.dumps(out, ensure_ascii=False, indent=2))
        return
    for t in told:
        one = t.trial
        mean = f"{one.overall:.1f} of {log.best}" if one.overall is not None else "no scores"
        head = f"Trial {one.number}, {one.day.isoformat()}: {one.verdict or 'open'}, {mean}"
        click.echo(click.style(head, bold=True))
        marks = [f"{p} {m:.3g}" for p in one.scores if (m := one.mean(p)) is not None]
        for label, words in (
            ("aim", one.aim),
            ("tasted by", ", ".join(one.tasters)),
            ("scores", ", ".join(marks)),
        ):
            if words:
                click.echo(f"  {label}: {words}")
        for words in t.said:
            click.echo(f"  {_short(words)}")
        for row in one.remarks.split("\n") if one.remarks else ():
            click.echo(f"  | {row}")
        click.echo("")
    click.echo(f"{log.tested} judged, {log.passed} passed. {log.file}")


# --- two trials side by side ----------------------------------------------------------------------


def _compare(gathered: Gathered, log: Log, pair: tuple[str, str], form: str) -> None:
    from sitegen.trials.story import NotComparable, compared

    try:
        found = compared(log, gathered, *pair)
    except NotComparable as why:
        raise click.ClickException(f"{why}.") from None
    if form == "json":
        out: dict[str, Any] = {"recipe": log.recipe_file, **found.as_json()}
        click.echo(json.dumps(out, ensure_ascii=False, indent=2))
    else:
        click.echo("\n".join(_side_by_side(found)))


def _side_by_side(found: Comparison) -> list[str]:
    title = found.b.dish.recipe.title
    tables = [(name, list(rows)) for name, rows in found.tables()]
    # a column is as wide as its longest figure, and two columns never touch
    cells = [cell for _, rows in tables for row in rows for cell in (row.before, row.after)]
    wide = max(17, 2 + max(map(len, cells), default=0))
    lines = [title, f"{'':<30}{found.a.label:>{wide}}{found.b.label:>{wide}}"]
    for name, rows in tables:
        lines += ["", click.style(name, bold=True), *(_row(row, wide) for row in rows)]
    lines += ["", click.style("Changed", bold=True)]
    lines += [f"  {_short(change.words())}" for change in found.changes] or ["  nothing"]
    return lines


def _row(row: Row, wide: int) -> str:
    what = row.what if len(row.what) <= 27 else f"{row.what[:26]}…"
    return f"  {what:<28}{row.before:>{wide}}{row.after:>{wide}}{row.change:>11}".rstrip()
