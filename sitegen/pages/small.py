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

_KEPT = re.compile(r"(<(pre|textarea|script|style)\b.*?</\2\s*>)", re.DOTALL | re.IGNORECASE)
_TAG = re.compile(r"(<[^>]*>)")


def small(path: str, content: bytes) -> bytes:
    """The small form of a file; one of another kind is given back as it is."""
    ending = path.rpartition(".")[2]
    make = _MAKERS.get(ending)
    return make(content.decode()).encode() if make else content


def small_page(html: str) -> str:
    """A page whose runs of space are one.

    >>> small_page("<p>One  cup,\\\\n two</p>\\\\n\\\\n<pre>a  b</pre>")
    '<p>One cup, two</p>\\\\n<pre>a  b</pre>'
    """
    parts = _KEPT.split(html)  # text, kept, its name, text, …
    return "".join(_text(part) if n % 3 == 0 else part for n, part in enumerate(parts) if n % 3 < 2)


def _text(html: str) -> str:
    """Between tags a run of space is one: a line's end where nothing else stands, else a blank."""
    pieces = _TAG.split(html)  # text, tag, text, …
    return "".join(_run(piece) if n % 2 == 0 else piece for n, piece in enumerate(pieces))


def _run(text: str) -> str:
    if text and not text.strip(" \t\n\r\f"):
        return "\n" if "\n" in text else " "
    return re.sub(r"[ \t\n\r\f]+", " ", text)


_MAKERS: dict[str, Callable[[str], str]] = {
    "css": lambda text: str(rcssmin.cssmin(text)),
    "js": lambda text: str(rjsmin.jsmin(text)),
    "html": small_page,
}
