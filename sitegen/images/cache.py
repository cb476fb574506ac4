"""Made pictures and facts about photos, kept by content so that they are made once.

The cache lies outside the output and may be deleted at any time. Every entry begins with the
SHA-256 of what follows; an entry that does not match is ignored and made anew.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from contextlib import suppress
from hashlib import sha256
from pathlib import Path

from sitegen.wholefile import put_whole


class Cache:
    """Bytes by key, in a folder."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder

    def get(self, key: str) -> bytes | None:
        """The bytes kept under ``key``, or None if there are none or they are damaged."""
        try:
            raw = self._path(key).read_bytes()
        except OSError:
            return None
        digest, kept = raw[:32], raw[32:]
        return kept if sha256(kept).digest() == digest else None

    def put(self, key: str, content: bytes) -> None:
        """Keep bytes; a cache that can't be written is no reason to fail."""
        with suppress(OSError):
            path = self._path(key)
            path.parent.mkdir(parents=True, exist_ok=True)
            put_whole(path, sha256(content).digest() + content)

    def prune(self, keys: Iterable[str]) -> int:
        """Remove every entry but those of ``keys``; how many went. Other files are left alone."""
        used = {self._path(key) for key in keys}
        gone = 0
        for path in self.folder.glob("??/*"):
            ours = re.fullmatch(r"[0-9a-f]{2}/[0-9a-f]{62}", f"{path.parent.name}/{path.name}")
            if ours and path not in used:
                path.unlink(missing_ok=True)
                gone += 1
        return gone

    def _path(self, key: str) -> Path:
        name = sha256(key.encode()).hexdigest()
        return self.folder / name[:2] / name[2:]
