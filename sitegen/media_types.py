"""What each file of a site is, in the words of HTTP.

The system's own table is not asked: it differs from machine to machine. Sources: the IANA registry of
media types; RFC 9239 (JavaScript), RFC 4287 (Atom), the JSON Feed 1.1 text, the W3C's Web Application
Manifest.
"""

from __future__ import annotations

TYPES = {
    "html": "text/html; charset=utf-8",
    "css": "text/css; charset=utf-8",
    "js": "text/javascript; charset=utf-8",
    "json": "application/json",
    "webmanifest": "application/manifest+json",
    "xml": "application/xml",
    "txt": "text/plain; charset=utf-8",
    "svg": "image/svg+xml",
    "png": "image/png",
    "jpg": "image/jpeg",
    "jpeg": "image/jpeg",
    "gif": "image/gif",
    "webp": "image/webp",
    "avif": "image/avif",
    "webm": "video/webm",
    "mp4": "video/mp4",
    "vtt": "text/vtt; charset=utf-8",
    "ico": "image/x-icon",
    "pdf": "application/pdf",
    "woff2": "font/woff2",
}
"""By ending."""

BY_NAME = {
    "feed.xml": "application/atom+xml",
    "feed.json": "application/feed+json",
}
"""Files whose ending does not say what they are."""


def media_type(path: str) -> str:
    """The type of a file, by its path in the site.

    >>> media_type("recipes/rye-loaf.html"), media_type("feed.xml")
    ('text/html; charset=utf-8', 'application/atom+xml')
    """
    name = path.rpartition("/")[2]
    ending = name.rpartition(".")[2].lower()
    return BY_NAME.get(path) or TYPES.get(ending, "application/octet-stream")
