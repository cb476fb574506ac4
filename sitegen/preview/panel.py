"""The slip at the foot of a previewed page: what is wrong, where, and how to mend it.

It is made here and nowhere else; the script only puts it in. Its own shadow tree and style sheet
keep the theme's rules out of it. It works without a script too.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Sequence
from hashlib import sha256
from html import escape
from pathlib import Path
from urllib.parse import quote

from sitegen.pages import address
from sitegen.problems import Problem
from sitegen.reading.read import slug_of
from sitegen.reporting import SourceLines, counted, excerpt
from sitegen.textfile import read_bytes

SCRIPT = "/-/live.js"
SHEET = "/-/live.css"
EVENTS = "/-/events"


MOST = 40
"""As many problems of other pages are shown in full, errors first: the slip goes out at each save."""


AGAIN = b'<noscript><meta http-equiv="refresh" content="3"></noscript>'


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


def injected(content: bytes, slip: str, stamp: str, note: str = "") -> bytes:
    """A page with the slip and the script that follows changes.

    ``note`` says that the site is still being read; without a script, such a page asks again.
    """
    addition = (
        f'<div id="sitegen-slip"><template shadowrootmode="open">'
        f'<link rel="stylesheet" href="{SHEET}">'
        f'<aside id="note" aria-label="Preview"{"" if note else " hidden"}>{escape(note)}</aside>'
        f'<div id="slip" data-mark="{mark(slip)}">{slip}</div>'
        f"</template></div>"
        f'<script src="{SCRIPT}" data-stamp="{escape(stamp)}" defer></script>'
    ).encode()
    if note:
        content = content.replace(b"</head>", AGAIN + b"</head>", 1)
    head, end, tail = content.rpartition(b"</body>")
    return head + addition + end + tail if end else content + addition


def mark(slip: str) -> str:
    """Tells one slip from another, so that the script leaves one alone that is the same."""
    return sha256(slip.encode()).hexdigest()[:16]


def stand_in(title: str, message: str, problems: Sequence[Problem], folder: Path) -> bytes:
    """What is shown where a page can't be: why, in full."""
    lines = SourceLines(folder)
    return _document(title, message, "".join(_one(p, lines) for p in problems))


def waiting(latest: Sequence[str], folder: Path) -> bytes:
    """What is shown where a page tells of the whole site, which is still being read.

    It leads to the recipes that were written last (``latest``, by their files), which needn't wait.
    """
    items = [
        f'<li><a href="/{quote(address.recipe(slug_of(file)))}">'
        f"{escape(glance(folder, file))}</a> <code>{escape(file)}</code></li>"
        for file in latest
    ]
    listed = f"<h2>Written last</h2><ul>{''.join(items)}</ul>" if items else ""
    message = "This page tells of all recipes. It comes by itself as soon as they have been read."
    if items:
        message += " A recipe's own page is there at once."
    return _document("The site is being read", message, listed)


def _document(title: str, message: str, more: str) -> bytes:
    return (
        '<!doctype html><html lang="en"><head><meta charset="utf-8">'
        '<meta name="viewport" content="width=device-width">'
        f"<title>{escape(title)}</title>"
        f'<link rel="stylesheet" href="{SHEET}"></head>'
        f'<body class="stand-in"><main><h1>{escape(title)}</h1><p>{escape(message)}</p>'
        f"{more}</main></body></html>"
    ).encode()


_TITLE = re.compile(r"^title:[ \t]*(?P<quote>[\"']?)(?P<words>.+?)(?P=quote)[ \t]*$", re.MULTILINE)


def glance(folder: Path, file: str) -> str:
    """A recipe's title as it looks without being read, or the name of its file."""
    raw = read_bytes(folder, file)
    found = _TITLE.search(raw.decode("utf-8", "replace")) if isinstance(raw, bytes) else None
    return found["words"] if found else file.rsplit("/", 1)[-1]


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
