"""The slip at the foot of a previewed page: what is wrong, where, and how to mend it.

It is made here and nowhere else; the script only puts it in. Its own shadow tree and style sheet
keep the theme's rules out of it. It works without a script too.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from hashlib import sha256
from html import escape
from pathlib import Path

from sitegen.problems import Problem
from sitegen.reporting import SourceLines, counted, excerpt

SCRIPT = "/-/live.js"
SHEET = "/-/live.css"
EVENTS = "/-/events"


MOST = 40
"""As many problems of other pages are shown in full, errors first: the slip goes out at each save."""


def panel(problems: Sequence[Problem], here: Collection[str], folder: Path) -> str:
    """The slip's HTML; empty if there is no problem.

    ``here`` are the files that the page comes from: their problems come first and, if there is an
    error among them, the slip is open.
    """
    if not problems:
        return ""
    lines = SourceLines(folder)
    ours = [p for p in problems if p.file in here]
    others = [p for p in problems if p.file not in here]
    is_open = " open" if any(p.severity == "error" for p in ours) else ""
    parts = [f'<details class="slip"{is_open}><summary>{_count(problems)}</summary><div>']
    if ours:
        parts.append("<h2>On this page</h2>")
        parts += [_one(p, lines) for p in ours]
    if others:
        parts.append("<h2>Elsewhere on the site</h2>")
        parts += [_one(p, lines) for p in sorted(others, key=_by_weight)[:MOST]]
    if len(others) > MOST:
        more = len(others) - MOST
        parts.append(f"<p>And {more} more; <code>sitegen check</code> lists them all.</p>")
    parts.append("</div></details>")
    return "".join(parts)


def _by_weight(problem: Problem) -> bool:
    return problem.severity != "error"


def injected(content: bytes, slip: str, stamp: str) -> bytes:
    """A page with the slip and the script that follows changes."""
    addition = (
        f'<div id="sitegen-slip"><template shadowrootmode="open">'
        f'<link rel="stylesheet" href="{SHEET}"><div id="slip" data-mark="{mark(slip)}">{slip}</div>'
        f"</template></div>"
        f'<script src="{SCRIPT}" data-stamp="{escape(stamp)}" defer></script>'
    ).encode()
    head, end, tail = content.rpartition(b"</body>")
    return head + addition + end + tail if end else content + addition


def mark(slip: str) -> str:
    """Tells one slip from another, so that the script leaves one alone that is the same."""
    return sha256(slip.encode()).hexdigest()[:16]


def stand_in(title: str, message: str, problems: Sequence[Problem], folder: Path) -> bytes:
    """What is shown where a page can't be: why, in full."""
    lines = SourceLines(folder)
    listed = "".join(_one(p, lines) for p in problems)
    return (
        '<!doctype html><html lang="en"><head><meta charset="utf-8">'
        '<meta name="viewport" content="width=device-width">'
        f"<title>{escape(title)}</title>"
        f'<link rel="stylesheet" href="{SHEET}"></head>'
        f'<body class="stand-in"><main><h1>{escape(title)}</h1><p>{escape(message)}</p>'
        f"{listed}</main></body></html>"
    ).encode()


def _count(problems: Sequence[Problem]) -> str:
    errors = sum(p.severity == "error" for p in problems)
    advice = len(problems) - errors
    said = [f'<b class="error">{counted(errors, "error")}</b>'] if errors else []
    said += [f"{advice} advice"] if advice else []
    return " · ".join(said)


def _one(problem: Problem, lines: SourceLines) -> str:
    place = f"{problem.file}:{problem.line}:{problem.column}" if problem.line else problem.file
    out = [
        f'<article class="{problem.severity}"><h3>{escape(problem.message)}</h3>',
        f"<p><code>{escape(place)}</code> <small>{problem.severity}, {escape(problem.rule)}"
        "</small></p>",
    ]
    source = lines.shown(problem)
    if problem.line and source.strip():
        shown, column = excerpt(source.rstrip(), problem.column, problem.length)
        at = column - 1
        before, under = shown[:at], shown[at : at + max(problem.length, 1)]
        after = shown[at + len(under) :]
        out.append(
            f"<pre><span>{problem.line}</span> {escape(before)}"
            f"<mark>{escape(under) or ' '}</mark>{escape(after)}</pre>"
        )
    if problem.why:
        out.append(f'<p class="why">Why it matters: {escape(problem.why)}.</p>')
    if problem.hint:
        out.append(f'<p class="hint">{escape(problem.hint)}</p>')
    out.append("</article>")
    return "".join(out)
