"""An author's text file, read once: its text, or the problem that keeps it from being read."""

from __future__ import annotations

from pathlib import Path

from sitegen.problems import Problem
from sitegen.reading.source import Source

LARGEST = 1_000_000
"""Bytes. A long recipe has ten thousand; a megabyte of text is a mistake."""

_MARKS = ((b"\xff\xfe", "UTF-16"), (b"\xfe\xff", "UTF-16"))


def read_text(path: Path, file: str) -> Source | Problem:
    """The file's text as a :class:`Source` named ``file``; line ends are made ``\\n``."""
    try:
        size = path.stat().st_size
        if size > LARGEST:
            return _too_large(file, size)
        raw = path.read_bytes()
    except OSError as error:
        return unreadable(file, error)
    return decode(raw, file)


def decode(raw: bytes, file: str) -> Source | Problem:
    """As :func:`read_text`, of bytes that have been read already.

    >>> decode("crème\\r\\n".encode(), "content/recipes/a.md").text
    'crème\\n'
    >>> decode(b"title: Cr\\xe8me", "content/recipes/a.md").column
    10
    """
    if len(raw) > LARGEST:
        return _too_large(file, len(raw))
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


def unreadable(file: str, error: OSError) -> Problem:
    """The problem of a file that the system will not open."""
    why = (error.strerror or str(error)).lower()
    return _of_file(
        "file-unreadable", file, f"this file can't be opened: {why}", "check its permissions"
    )


def _too_large(file: str, size: int) -> Problem:
    return _of_file(
        "file-large",
        file,
        f"this file has {size / 1e6:.1f} MB; the largest that is read has {LARGEST / 1e6:.0f} MB",
        "split it, or move what is not text out of it",
    )


def _of_file(rule: str, file: str, message: str, hint: str) -> Problem:
    return Problem(rule, "error", file, 0, 0, message, hint)
