"""Links that an author writes between Markdown files, turned into links between pages."""

from __future__ import annotations

import posixpath
import re
from collections.abc import Callable, Mapping
from html import escape, unescape

from markupsafe import Markup

from sitegen.pages.address import relative
from sitegen.pages.figures import held

_HREF = re.compile(r'(<a\b[^>]*?\bhref=")([^"]*)(")')


def link_writer(
    file: str, here: str, pages: Mapping[str, str], *, root: Callable[[str], str] | None = None
) -> Callable[[str], Markup]:
    """What turns the trusted HTML of ``file`` into HTML for the page ``here``.

    ``pages`` maps the site's Markdown files to their pages. A link to a Markdown file that is none
    of them is left as it is: the read-through reports it.
    """
    folder = posixpath.dirname(file)

    def there(match: re.Match[str]) -> str:
        address = unescape(match[2])
        path, mark, rest = re.match(r"([^?#]*)([?#]?)(.*)", address, re.S).groups()  # type: ignore[union-attr]
        if not path.endswith(".md") or "://" in path:
            return match[0]
        target = pages.get(posixpath.normpath(posixpath.join(folder, path)))
        if target is None:
            return match[0]
        named = (root or (lambda p: relative(here, p)))(target)
        return match[1] + escape(named + mark + rest, quote=True) + match[3]

    def linked(html: str) -> Markup:
        return Markup(held(_HREF.sub(there, html) if ".md" in html else html))

    return linked
