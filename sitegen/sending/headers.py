"""What is said of each file where it is served: its type, and how long it may be kept."""

from __future__ import annotations

import re
from dataclasses import dataclass

from sitegen.media_types import media_type

FOR_A_YEAR = "public, max-age=31536000, immutable"
"""For a file whose name changes with its content (RFC 9111 max-age; RFC 8246 immutable)."""
ASK_AGAIN = "no-cache"
"""May be kept, but is asked for again before it is shown (RFC 9111, 5.2.2.4)."""

_HASHED = re.compile(r"(assets|photos|films)/.*\.[0-9a-f]{8,64}\.[a-z0-9]+", re.DOTALL)


@dataclass(frozen=True, slots=True)
class Headers:
    """Two of the headers that a page is served with."""

    content_type: str
    cache_control: str

    def __str__(self) -> str:
        return f"{self.content_type} | {self.cache_control}"


def headers(path: str) -> Headers:
    """The headers of a file of the site.

    >>> print(headers("assets/sheet.b48d8a08fe.css"))
    text/css; charset=utf-8 | public, max-age=31536000, immutable
    >>> print(headers("index.html"))
    text/html; charset=utf-8 | no-cache
    """
    return Headers(media_type(path), FOR_A_YEAR if _HASHED.fullmatch(path) else ASK_AGAIN)
