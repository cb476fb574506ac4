"""One build at a time.

The operating system holds the lock and lets it go when the process ends in whatever way, so a file
left behind by a build that was killed locks nobody out.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path


class Busy(Exception):
    """Another build of this site is running."""

    def __init__(self, holder: str) -> None:
        super().__init__(holder)
        self.holder = holder
        """The other process, as it wrote itself down: ``process 4711``; may be empty."""


@contextmanager
def only_one(path: Path) -> Iterator[None]:
    """Hold the lock at ``path`` for the length of the block; raises :class:`Busy`."""
    path.parent.mkdir(parents=True, exist_ok=True)
    handle = os.open(path, os.O_RDWR | os.O_CREAT, 0o644)
    try:
        if not _take(handle):
            raise Busy(os.pread(handle, 200, 0).decode("utf-8", "replace").strip("\0 \n"))
        os.ftruncate(handle, 0)
        os.write(handle, f"process {os.getpid()}\n".encode())
        yield
    finally:
        os.close(handle)


if sys.platform == "win32":  # pragma: no cover
    import msvcrt

    _FAR = 1 << 30  # a byte far behind the text, so that others can read who holds the lock

    def _take(handle: int) -> bool:
        os.lseek(handle, _FAR, os.SEEK_SET)
        try:
            msvcrt.locking(handle, msvcrt.LK_NBLCK, 1)
        except OSError:
            return False
        os.lseek(handle, 0, os.SEEK_SET)
        return True

else:
    import fcntl

    def _take(handle: int) -> bool:
        try:
            fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except OSError:
            return False
        return True
