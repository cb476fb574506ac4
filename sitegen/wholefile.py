"""Writing a file so that nobody ever reads half of it."""

from __future__ import annotations

import os
from pathlib import Path
from threading import get_ident


def put_whole(path: Path, content: bytes, *, lasting: bool = False) -> None:
    """Write ``content`` beside ``path`` and put it in its place in one step.

    A reader, and whoever comes after a kill, finds the old file or the new one. ``lasting`` waits
    until the disk has it. Raises OSError, and leaves nothing behind.
    """
    partial = path.with_name(f"{path.name}.{os.getpid()}-{get_ident()}.part")
    try:
        with partial.open("wb") as file:
            file.write(content)
            if lasting:
                file.flush()
                os.fsync(file.fileno())
        partial.replace(path)
    except OSError:
        partial.unlink(missing_ok=True)
        raise
