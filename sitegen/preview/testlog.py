"""The private page of a recipe's test log: scores, what was changed, two trials side by side.

It has an address under ``/-/``, where only the preview answers; no build makes it.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from html import escape
from pathlib import Path

from sitegen.gathering import Gathered
from sitegen.reporting import counted
from sitegen.trials.chart import chart
from sitegen.trials.compare import Comparison, Row
from sitegen.trials.log import Log
from sitegen.trials.story import NOW, NotComparable, Told, compared, story

PLACE = "-/trials/"
SHEET = "-/testlog.css"
_PAGE = re.compile(r"-/trials/(?P<slug>[^/]+?)(?:/(?P<a>\d+|now)-(?P<b>\d+|now))?\.html")


def log_page(path: str, gathered: Gathered) -> tuple[bytes, tuple[str, ...]] | None:
    """The file at ``path``, and the author's files it comes from; None if it is not one of these."""
    if path == SHEET:
        return Path(__file__).with_name("testlog.css").read_bytes(), ()
    if path == f"{PLACE}index.html":
        return _all_logs(gathered), ()
    match = _PAGE.fullmatch(path)
    log = gathered.logs.get(match["slug"]) if match else None
    if match is None or log is None:
        return None
    return _page(match["slug"], log, gathered, match["a"], match["b"]), (log.file, log.recipe_file)


def with_link(content: bytes, slug: str, log: Log) -> bytes:
    """A recipe's page with the way to its log, in a tree of its own that no theme's rule reaches."""
    link = (
        '<div id="sitegen-testlog"><template shadowrootmode="open">'
        f'<link rel="stylesheet" href="/{SHEET}"><a class="way" href="/{PLACE}{escape(slug)}.html">'
        f"Test log: {_trials(log)}</a></template></div>"
    ).encode()
    head, end, tail = content.rpartition(b"</body>")
    return head + link + end + tail


def _document(title: str, body: Iterable[str]) -> bytes:
    return (
        '<!doctype html><html lang="en"><head><meta charset="utf-8">'
        '<meta name="viewport" content="width=device-width"><meta name="robots" content="noindex">'
        f'<title>{escape(title)}</title><link rel="stylesheet" href="/{SHEET}"></head>'
        f"<body><main>{''.join(body)}</main></body></html>"
    ).encode()


def _title(slug: str, gathered: Gathered) -> str:
    dish = gathered.collection.dishes.get(slug)
    return dish.recipe.title if dish else slug


def _all_logs(gathered: Gathered) -> bytes:
    rows = [
        f'<tr><th scope="row"><a href="/{PLACE}{escape(slug)}.html">{escape(_title(slug, gathered))}'
        f"</a></th><td>{len(log.trials)}</td><td>{log.passed}</td>"
        f"<td>{log.trials[-1].day.isoformat() if log.trials else ''}</td></tr>"
        for slug, log in sorted(gathered.logs.items(), key=lambda x: _title(x[0], gathered))
    ]
    head = ("Recipe", "Trials", "Passed", "Last")
    table = _table(head, rows, "By recipe") if rows else "<p>No recipe has a test log yet.</p>"
    return _document("Test logs", ["<header>", _PRIVATE, "<h1>Test logs</h1></header>", table])


_PRIVATE = '<p class="private">Private: shown in this preview only, part of no page.</p>'


def _page(slug: str, log: Log, gathered: Gathered, a: str | None, b: str | None) -> bytes:
    title = _title(slug, gathered)
    told = story(log, gathered)
    body = [
        f'<header>{_PRIVATE}<h1>{escape(title)}</h1><p class="count">{_count(log)} '
        f'<a href="/recipes/{escape(slug)}.html">the recipe</a> <a href="/{PLACE}">all logs</a></p>'
        "</header>"
    ]
    if not told:
        body.append("<p>No trial can be read from the log yet.</p>")
        return _document(f"Test log: {title}", body)
    picture = chart(log)
    if picture:
        body.append(f'<figure tabindex="0" aria-label="Scores over trials">{picture}</figure>')
    body.append(_scores(log))
    body += _side_by_side(slug, log, gathered, a, b)
    body.append("<h2>Trial by trial</h2>")
    body += [_one(t, log) for t in reversed(told)]
    return _document(f"Test log: {title}", body)


def _count(log: Log) -> str:
    return f"{_trials(log)}, {log.passed} passed."


def _trials(log: Log) -> str:
    return counted(len(log.trials), "trial")


def _scores(log: Log) -> str:
    """Every mark, a column for each trial."""
    head = ("", *(f"Trial {trial.number}" for trial in log.trials))
    rows = [_marks("Verdict", [t.verdict or "open" for t in log.trials])]
    rows += [_marks("Date", [t.day.isoformat() for t in log.trials])]
    for point in log.points:
        rows.append(_marks(point, [_mark(t.mean(point)) for t in log.trials]))
    rows.append(_marks("All points", [_mark(t.overall) for t in log.trials], "total"))
    return _table(head, rows, f"Scores, out of {log.best}")


def _mark(mean: float | None) -> str:
    return "–" if mean is None else f"{mean:.1f}".removesuffix(".0")


def _marks(name: str, cells: Sequence[str], kind: str = "") -> str:
    data = "".join(f"<td>{escape(cell)}</td>" for cell in cells)
    return f'<tr class="{kind}"><th scope="row">{escape(name)}</th>{data}</tr>'


def _one(told: Told, log: Log) -> str:
    trial = told.trial
    parts = [f'<article id="trial-{trial.number}"><h3>Trial {trial.number}']
    parts.append(f" <small>{trial.day.isoformat()}, {trial.verdict or 'open'}</small></h3>")
    if trial.aim:
        parts.append(f"<p><em>{escape(trial.aim)}</em></p>")
    if trial.tasters:
        parts.append(f"<p>Tasted by {escape(', '.join(trial.tasters))}.</p>")
    if told.said:
        listed = "".join(f"<li>{escape(words)}</li>" for words in told.said)
        parts.append(f"<p>Against trial {told.since}:</p><ul>{listed}</ul>")
    for row in re.split(r"\n\s*\n", trial.remarks) if trial.remarks else ():
        parts.append(f'<p class="remark">{escape(row)}</p>')
    return "".join([*parts, "</article>"])


def _side_by_side(
    slug: str, log: Log, gathered: Gathered, a: str | None, b: str | None
) -> Iterator[str]:
    names = [*(str(t.number) for t in log.trials), NOW]
    left, right = a or names[max(0, len(names) - 3)], b or names[-2 if len(names) > 2 else -1]
    yield '<h2 id="side-by-side">Side by side</h2><nav class="pick" aria-label="Which two trials">'
    for label, chosen, other, first in (("This", left, right, True), ("with", right, left, False)):
        yield f"<p>{label} "
        for name in names:
            pair = f"{name}-{other}" if first else f"{other}-{name}"
            here = ' aria-current="true"' if name == chosen else ""
            yield f'<a href="/{PLACE}{escape(slug)}/{pair}.html#side-by-side"{here}>{name}</a> '
        yield "</p>"
    yield "</nav>"
    try:
        found = compared(log, gathered, left, right)
    except NotComparable as why:
        yield f"<p>{escape(str(why))}.</p>"
        return
    yield from _tables(found)


def _tables(found: Comparison) -> Iterator[str]:
    head = ("", found.a.label, found.b.label, "")
    for name, rows in found.tables():
        yield _table(head, [_row(row) for row in rows], name, "wide pair")


def _row(row: Row) -> str:
    kind = "changed" if row.before != row.after else ""
    cells = "".join(f"<td>{escape(cell)}</td>" for cell in (row.before, row.after, row.change))
    return f'<tr class="{kind}"><th scope="row">{escape(row.what)}</th>{cells}</tr>'


def _table(head: Sequence[str], rows: Sequence[str], caption: str, kind: str = "wide") -> str:
    columns = "".join(
        f'<th scope="col">{escape(cell)}</th>' if cell else "<td></td>" for cell in head
    )
    return (
        f'<div class="{kind}" tabindex="0" role="region" aria-label="{escape(caption)}"><table>'
        f"<caption>{escape(caption)}</caption><thead><tr>{columns}</tr></thead>"
        f"<tbody>{''.join(rows)}</tbody></table></div>"
    )
