"""An author's text files: which there are, and the text of each or the problem that bars it."""

from __future__ import annotations

import os
from pathlib import Path

from sitegen.problems import Problem
from sitegen.reading.source import Source

LARGEST = 1_000_000
"""Bytes. A long recipe has ten thousand; a megabyte of text is a mistake."""

_MARKS = ((b"\xff\xfe", "UTF-16"), (b"\xfe\xff", "UTF-16"))


def list_files(folder: Path, within: str, ending: str) -> list[str]:
    """The files of that ending under ``folder/within``, sorted, as the site names them.

    Hidden files (an editor's own, mostly) are passed over, and links to folders not followed.
    """
    found = []
    for here, folders, names in os.walk(folder / within):
        folders[:] = [name for name in folders if not name.startswith(".")]
        base = Path(here).relative_to(folder).as_posix()
        found += [f"{base}/{n}" for n in names if n.endswith(ending) and not n.startswith(".")]
    return sorted(found)


def read_bytes(folder: Path, file: str) -> bytes | Problem:
    """A file's content, or why it can't be had. A link out of the site is not followed."""
    path = folder / file
    if path.is_symlink() and not path.resolve().is_relative_to(folder.resolve()):
        return _of_file(
            "file-outside",
            file,
            "this is a link to a file outside the site, which is not followed",
            "copy the file here instead",
        )
    try:
        with path.open("rb") as opened:
            return opened.read(LARGEST + 1)
    except OSError as error:
        why = (error.strerror or str(error)).lower()
        message = f"this file can't be opened: {why}"
        return _of_file("file-unreadable", file, message, "check its permissions")


def read_text(folder: Path, file: str) -> Source | Problem:
    """A file's text as a :class:`Source`."""
    raw = read_bytes(folder, file)
    return raw if isinstance(raw, Problem) else decode(raw, file)


def decode(raw: bytes, file: str) -> Source | Problem:
    """The text of bytes, its line ends made ``\\n``.

    >>> decode("crème\\r\\n".encode(), "content/recipes/a.md").text
    'crème\\n'
    >>> decode(b"title: Cr\\xe8me", "content/recipes/a.md").column
    10
    """
    if len(raw) > LARGEST:
        return _of_file(
            "file-large",
            file,
            f"this file is larger than {LARGEST / 1e6:.0f} MB, the most that is read",
            "split it, or move what is not text out of it",
        )
    for mark, name in _MARKS:
        if raw.startswith(mark):
            return _of_file(
                "file-not-utf-8", file, f"this file is saved as {name}, not as UTF-8", _SAVE_AS
            )
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        before = raw[: error.start]
        line = before.count(b"\n") + 1
        start = before.rfind(b"\n") + 1
        column = len(before[start:].decode("utf-8", "replace").lstrip("\ufeff")) + 1
        return Problem(
            "file-not-utf-8",
            "error",
            file,
            line,
            column,
            f"the byte {raw[error.start]:#04x} here is not UTF-8 text",
            _SAVE_AS,
        )
    if not text.strip():
        return _of_file(
            "file-empty", file, "this file is empty", "write the recipe, or delete the file"
        )
    return Source(file, text.replace("\r\n", "\n").replace("\r", "\n"))


_SAVE_AS = "save the file as UTF-8 (in most editors under Save as … or Encoding)"


def _of_file(rule: str, file: str, message: str, hint: str) -> Problem:
    return Problem(rule, "error", file, 0, 0, message, hint)
