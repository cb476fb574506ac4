"""What an author's Markdown names, turned into what a page names: other pages, pictures, paid links."""

from __future__ import annotations

import posixpath
import re
from collections.abc import Callable, Iterable, Iterator, Mapping
from html import escape, unescape
from urllib.parse import urlsplit

from markupsafe import Markup

from sitegen.images.photoset import PhotoSet
from sitegen.pages.address import relative
from sitegen.pages.figures import held
from sitegen.reading.pictures import beside

_LINK = re.compile(r'<a href="(?P<href>[^"]*)"(?: title="(?P<title>[^"]*)")?>')
_PICTURE = re.compile(
    r'(?P<alone><p>)?<img src="(?P<src>[^"]*)" alt="(?P<alt>[^"]*)"(?: title="(?P<title>[^"]*)")?'
    r" />(?(alone)(?P<end></p>)?)"
)
_MARK = re.compile(r"paid\b[:,;.]?\s*", re.IGNORECASE)

Drawer = Callable[[PhotoSet, str], str]
"""A picture and its alt text as HTML."""


def link_writer(
    file: str,
    here: str,
    pages: Mapping[str, str],
    *,
    root: Callable[[str], str] | None = None,
    paying: Iterable[str] = (),
    photos: Mapping[str, PhotoSet] | None = None,
    draw: Drawer | None = None,
) -> Callable[[str], Markup]:
    """What turns the trusted HTML of ``file`` into HTML for the page ``here``.

    ``pages`` maps the site's Markdown files to their pages. A link to a Markdown file that is none
    of them is left as it is: the read-through reports it. Links to the hosts ``paying``, and those
    whose title is ``paid``, say so and carry ``rel="sponsored"``. ``photos`` are pictures by their
    file; without ``draw`` a text's pictures are left out, as on paper.
    """
    folder = posixpath.dirname(file)
    hosts = tuple(paying)
    named = root or (lambda path: relative(here, path))

    def link(match: re.Match[str]) -> str:
        address, title = unescape(match["href"]), match["title"] or ""
        path, mark, rest = re.match(r"([^?#]*)([?#]?)(.*)", address, re.S).groups()  # type: ignore[union-attr]
        if path.endswith(".md") and "://" not in path:
            target = pages.get(posixpath.normpath(posixpath.join(folder, path)))
            if target is not None:
                address = named(target) + mark + rest
        paid = is_paid(address, title, hosts)
        if paid:
            title = _MARK.sub("", title, count=1) if _MARK.match(title) else title
        said = f' title="{title}"' if title else ""
        kind = ' rel="sponsored"' if paid else ""
        word = '<small class="paid">paid link:</small> ' if paid else ""
        return f'<a href="{escape(address, quote=True)}"{said}{kind}>{word}'

    def picture(match: re.Match[str]) -> str:
        shown = None if photos is None else photos.get(beside(file, unescape(match["src"])))
        alone = match["alone"] and match["end"]
        before, after = (match["alone"] or "", "") if not alone else ("", "")
        if shown is None or draw is None:
            return before + after
        drawn = draw(shown, unescape(match["alt"]))
        if not alone:
            return before + drawn
        caption = f"<figcaption>{match['title']}</figcaption>" if match["title"] else ""
        return f'<figure class="shot">{drawn}{caption}</figure>'

    def linked(html: str) -> Markup:
        if "<img " in html:
            html = _PICTURE.sub(picture, html)
        return Markup(held(_LINK.sub(link, html) if "<a " in html else html))

    return linked


def is_paid(address: str, title: str, paying: Iterable[str]) -> bool:
    """Whether a link is paid for: its host, or its title, says so.

    >>> is_paid("https://www.shop.example/tin", "", ["shop.example"])
    True
    """
    if re.fullmatch(r"paid\b.*", title, re.IGNORECASE | re.S):
        return True
    if not re.match(r"https?://", address):
        return False
    host = (urlsplit(address).hostname or "").lower()
    return any(host == payer or host.endswith("." + payer) for payer in paying)


def has_paid(html: str, paying: Iterable[str]) -> bool:
    """Whether one of the links in the HTML is paid for."""
    hosts = tuple(paying)
    return any(is_paid(href, title, hosts) for href, title in links_in(html))


def links_in(html: str) -> Iterator[tuple[str, str]]:
    """Address and title of every link in the HTML."""
    if "<a" in html:
        for found in _LINK.finditer(html):
            yield unescape(found["href"]), found["title"] or ""
