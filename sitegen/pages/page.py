"""One file of the site, ready to be written."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Page:
    """A file of the output: where it goes, what is in it, and what it was made from."""

    path: str
    """Relative to the output folder, with ``/``: ``recipes/rye.html``."""
    content: bytes
    kind: str
    """``recipe``, ``card``, ``list``, ``plain``, ``home``, ``search``, ``feed``, ``asset`` …"""
    inputs: tuple[str, ...] = ()
    """Files it was made from, relative to the site's folder: recipes and pages first, then
    ``theme:NAME`` for each template that it could have drawn on."""
