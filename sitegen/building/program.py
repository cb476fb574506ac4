"""A mark of the program itself: whoever changes a line of it must not be given yesterday's pages."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from functools import cache
from hashlib import sha256
from importlib.metadata import PackageNotFoundError, version
from pathlib import Path

_PACKAGE = Path(__file__).resolve().parents[1]
_LIBRARIES = ("babel", "jinja2", "markdown-it-py", "markupsafe", "mdit-py-plugins", "pyyaml")


@cache
def program_mark() -> str:
    """64 characters that change with any file of the program, its themes, Python or a library."""
    whole = sha256(f"1;{sys.version}".encode())
    for library in _LIBRARIES:
        try:
            whole.update(f";{library}={version(library)}".encode())
        except PackageNotFoundError:
            continue
    for path in sorted(_files()):
        seen = path.stat()
        whole.update(f";{path}:{seen.st_size}:{seen.st_mtime_ns}".encode())
    return whole.hexdigest()


def _files() -> Iterator[Path]:
    inside = _PACKAGE / "themes"
    for folder in (_PACKAGE, *(() if inside.is_dir() else (_PACKAGE.parent / "themes",))):
        for path in folder.rglob("*"):
            if "__pycache__" not in path.parts and path.is_file():
                yield path
