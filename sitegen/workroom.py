"""``.sitegen/``: what the program keeps beside a site, all of it safe to delete between builds."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from sitegen.wholefile import put_whole

NAME = ".sitegen"


class Workroom:
    """The folder ``.sitegen`` of a site. It hides itself from git."""

    def __init__(self, site_folder: Path) -> None:
        self.folder = site_folder / NAME

    @property
    def cache(self) -> Path:
        """Where made pictures are kept."""
        return self.folder / "cache"

    @property
    def lock(self) -> Path:
        """The file that a running build holds."""
        return self.folder / "build.lock"

    def ready(self) -> None:
        """Make the folder, with a line that keeps it out of git."""
        self.folder.mkdir(parents=True, exist_ok=True)
        ignore = self.folder / ".gitignore"
        if not ignore.exists():
            ignore.write_text("*\n", encoding="utf-8")


def read_json(path: Path) -> dict[str, Any] | None:
    """A JSON object, or None if the file is missing or damaged."""
    try:
        data = json.loads(path.read_bytes())
    except (OSError, ValueError):
        return None
    return data if isinstance(data, dict) else None


def write_json(path: Path, data: dict[str, Any]) -> None:
    """Write a JSON object so that a reader sees the old one or the new one, never half of one."""
    whole = json.dumps(data, ensure_ascii=False, sort_keys=True)  # indented is much slower
    path.parent.mkdir(parents=True, exist_ok=True)
    put_whole(path, whole.encode(), lasting=True)
