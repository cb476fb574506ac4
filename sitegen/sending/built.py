"""The site as it was built: what there is to send, and whether it is whole and up to date."""

from __future__ import annotations

import os
from collections.abc import Mapping
from dataclasses import dataclass
from hashlib import md5, sha256
from pathlib import Path

from sitegen.building.placing import _record, record
from sitegen.sending.errors import NotSent
from sitegen.workroom import Workroom

_LIMIT = 12
"""Paths that a message names before it counts the rest."""


@dataclass(frozen=True, slots=True)
class Item:
    """One file of the site."""

    path: str
    """As in the site, with ``/``."""
    digest: str
    """SHA-256 of its content."""
    etag: str
    """MD5 of its content: what most S3-compatible stores give as an object's ETag."""
    size: int


@dataclass(frozen=True, slots=True)
class Built:
    """A whole site in its folder. Only what a build wrote is in it, never a foreign file."""

    folder: Path
    items: Mapping[str, Item]

    def content(self, path: str) -> bytes:
        """A file's content; raises :class:`NotSent` if it is no longer what was built."""
        try:
            content = (self.folder / path).read_bytes()
        except OSError:
            content = b""
        if sha256(content).hexdigest() != self.items[path].digest:
            raise NotSent(f"{path} changed while the site was being sent; send it again")
        return content


def whole_site(site_folder: Path, output: Path) -> Built:
    """What stands in ``output``, compared file by file with what the last build wrote there.

    Raises :class:`NotSent` if nothing was built, or if a file is missing or was changed.
    """
    workroom = Workroom(site_folder)
    written = record(workroom, output)
    if not written or not output.is_dir():
        raise NotSent(f"there is no built site in {output}; 'sitegen build' makes it")
    items, wrong = {}, []
    for path, digest in sorted(written.items()):
        try:
            content = (output / path).read_bytes()
        except OSError:
            wrong.append(path)
            continue
        if sha256(content).hexdigest() != digest:
            wrong.append(path)
            continue
        etag = md5(content, usedforsecurity=False).hexdigest()
        items[path] = Item(path, digest, etag, len(content))
    if wrong or (workroom.folder / "placing.json").exists():
        named = f": {some(wrong)}" if wrong else ""
        raise NotSent(
            f"the site in {output} is not whole, or was changed after it was built{named}; "
            "'sitegen build' mends it"
        )
    return Built(output, items)


def newer_than_built(site_folder: Path, output: Path) -> str:
    """A file of the site's that was saved after the last build, or an empty string.

    Only dates are compared, so this is no proof: a build is.
    """
    written = _record(Workroom(site_folder), output)
    if not written.exists():
        return ""
    built = written.stat().st_mtime
    for room in ("content", "themes"):
        for here, folders, names in os.walk(site_folder / room):
            folders[:] = sorted(name for name in folders if not name.startswith("."))
            for name in sorted(names):
                file = Path(here, name)
                if not name.startswith(".") and file.exists() and file.stat().st_mtime > built:
                    return file.relative_to(site_folder).as_posix()
    return ""


def some(paths: list[str] | tuple[str, ...]) -> str:
    """The first of many paths, and how many more there are.

    >>> some(["a.html", "b.html"])
    'a.html, b.html'
    """
    more = f" and {len(paths) - _LIMIT} more" if len(paths) > _LIMIT else ""
    return ", ".join(paths[:_LIMIT]) + more
