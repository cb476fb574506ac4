"""The small form of what is written: the same pages, style sheets and scripts without spare space.

Style sheets and scripts are made small by rcssmin and rjsmin, which take out comments and space and
rename nothing. Of a page's text only runs of space become one: HTML's own rule (CSS Text 3, 4.1) draws
them so. What keeps its space (``pre``, ``textarea``) and data (``script``, ``style``) stay as they are.
"""

from __future__ import annotations

import re
from collections.abc import Callable

import rcssmin
import rjsmin

_KEPT = re.compile(r"<(pre|textarea|script|style)\b.*?</\1\s*>", re.DOTALL | re.IGNORECASE)
_SPARE = re.compile(r"[ \t\n\r\f](?:[ \t\n\r\f]+|(?<=[\t\r\f])|(?<=\n)(?<!>\n)|(?<=\n)(?!<))")
"""Space that may have to change: all but a single blank, and a line's end between two tags."""


def small(path: str, content: bytes) -> bytes:
    """The small form of a file; one of another kind is given back as it is."""
    ending = path.rpartition(".")[2]
    make = _MAKERS.get(ending)
    return make(content.decode()).encode() if make else content


def small_page(html: str) -> str:
    """A page whose runs of space are one: a line's end where nothing else stands, else a blank.

    >>> small_page("<p>One  cup,\\\\n two</p>\\\\n\\\\n<pre>a  b</pre>")
    '<p>One cup, two</p>\\\\n<pre>a  b</pre>'
    """
    return small_content(html).decode()


def small_content(html: str) -> bytes:
    """The same as what is written to a file."""
    content = html.encode()
    if _is_small(content):
        return content
    parts: list[str] = []
    done = 0
    for kept in _KEPT.finditer(html):
        parts += _text(html, done, kept.start())
        parts.append(kept[0])
        done = kept.end()
    return "".join((*parts, *_text(html, done, len(html)))).encode()


def _is_small(content: bytes) -> bool:
    """Whether there is nothing to take out: asked of every page, so only of what C code counts.

    The templates are written so that it is true of nearly all.
    """
    if b"\t" in content or b"\r" in content or b"\f" in content or b"  " in content:
        return False
    return content.count(b"\n") == content.count(b">\n<")


def _text(html: str, start: int, end: int) -> list[str]:
    """The pieces of a stretch in which nothing keeps its space but tags."""
    parts: list[str] = []
    done = start
    for spare in _SPARE.finditer(html, start, end):
        first, last = spare.span()
        opened = html.rfind("<", start, first)
        if opened > html.rfind(">", start, first) and html.find(">", last, end) > 0:
            continue  # inside a tag, where a value may need it
        after_tag = first == start or (
            html[first - 1] == ">" and opened > html.rfind(">", start, first - 1)
        )
        before_tag = last == end or (html[last] == "<" and html.find(">", last, end) > 0)
        alone = after_tag and before_tag and "\n" in spare[0]
        parts += (html[done:first], "\n" if alone else " ")
        done = last
    return [*parts, html[done:end]]


_MAKERS: dict[str, Callable[[str], str]] = {
    "css": lambda text: str(rcssmin.cssmin(text)),
    "js": lambda text: str(rjsmin.jsmin(text)),
    "html": small_page,
}
