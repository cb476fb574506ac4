"""What sending asks of a target, whatever it is: list, read, put, remove.

Two kinds of target answer: folders of files (here or over SFTP), where a file is written beside its
place and renamed over it, and buckets of objects, where a put is whole or not at all and carries the
headers that the object is served with.
"""

from __future__ import annotations

from contextlib import suppress
from dataclasses import dataclass
from typing import Any, Protocol

from sitegen.sending.errors import told
from sitegen.sending.headers import Headers

PART = ".sitegen-part"
"""The ending of a file that is being written."""
_DEEPEST = 40
"""Folders within folders that a listing follows: a link that leads in a circle ends here."""


@dataclass(frozen=True, slots=True)
class Seen:
    """A file at the target, as a listing shows it."""

    size: int
    mark: str
    """Changes whenever the file does: size and time, or size and ETag."""
    etag: str = ""


class Store(Protocol):
    """A target that is open."""

    place: str
    """The target as it may be printed."""
    takes_headers: bool
    senders: int
    """How many files may be sent at once."""

    def listing(self) -> dict[str, Seen]:
        """Every file there, by its path in the site."""

    def read(self, path: str) -> bytes | None:
        """A file's content; None if there is none."""

    def put(self, path: str, content: bytes, headers: Headers) -> Seen:
        """Put a file in place, whole or not at all."""

    def remove(self, path: str) -> None:
        """Remove a file, and the folders that this leaves empty."""

    def close(self) -> None:
        """Let go of the connection."""


class Files:
    """A folder, through any fsspec file system that can rename."""

    takes_headers = False

    def __init__(self, fs: Any, root: str, place: str, senders: int = 1) -> None:
        self._fs = fs
        self._root = root.rstrip("/")
        self.place = place
        self.senders = senders
        self._folders: set[str] = set()

    def listing(self) -> dict[str, Seen]:
        """Every file under the root; none if the root does not exist yet."""
        found: dict[str, Seen] = {}
        with told(self.place, "looking at what is there"):
            if self._fs.exists(self._root or "/"):
                self._list("", found, _DEEPEST)
        return found

    def _list(self, folder: str, found: dict[str, Seen], depth: int) -> None:
        self._folders.add(folder)
        entries = self._fs.ls(self._at(folder), detail=True)
        for entry in sorted(entries, key=lambda each: str(each["name"])):
            name = str(entry["name"]).rstrip("/").rpartition("/")[2]
            path = f"{folder}/{name}" if folder else name
            if entry["type"] == "link":
                with suppress(OSError):  # a link to nothing counts as a file of its own
                    entry = self._fs.info(self._at(path))
            if entry["type"] == "directory":
                if depth:
                    self._list(path, found, depth - 1)
            else:
                found[path] = _seen(entry)

    def read(self, path: str) -> bytes | None:
        """A file's content; None if there is none."""
        with told(self.place, f"reading {path}"):
            try:
                return bytes(self._fs.cat_file(self._at(path)))
            except FileNotFoundError:
                return None

    def put(self, path: str, content: bytes, headers: Headers) -> Seen:
        """Write beside the place, then rename over it."""
        folder, _, name = path.rpartition("/")
        part = f"{folder}/.{name}{PART}".lstrip("/")
        with told(self.place, f"sending {path}"):
            self._make(folder)
            try:
                self._fs.pipe_file(self._at(part), content)
                self._fs.mv(self._at(part), self._at(path))
            except BaseException:
                with suppress(Exception):
                    self._fs.rm_file(self._at(part))
                raise
            return _seen(self._fs.info(self._at(path)))

    def remove(self, path: str) -> None:
        """Remove a file, and the folders that this leaves empty."""
        with told(self.place, f"removing {path}"), suppress(FileNotFoundError):
            self._fs.rm_file(self._at(path))
        folder = path.rpartition("/")[0]
        while folder:
            try:
                self._fs.rmdir(self._at(folder))
            except OSError:  # not empty
                return
            self._folders.discard(folder)
            folder = folder.rpartition("/")[0]

    def close(self) -> None:
        """Let go of the connection."""
        close = getattr(self._fs, "close", None)
        if close is not None:
            close()

    def _make(self, folder: str) -> None:
        """Make a folder and those above it within the root, and the root itself, but nothing above."""
        if folder in self._folders:
            return
        if folder:
            self._make(folder.rpartition("/")[0])
        if not self._fs.exists(self._at(folder)):
            # Two senders may both have seen that it is missing.
            try:
                self._fs.mkdir(self._at(folder), create_parents=False)
            except OSError:
                if not self._fs.isdir(self._at(folder)):
                    raise
        self._folders.add(folder)

    def _at(self, path: str) -> str:
        return f"{self._root}/{path}" if path else self._root or "/"


def _seen(entry: dict[str, Any]) -> Seen:
    time = entry.get("mtime", 0)
    stamp = time.timestamp() if hasattr(time, "timestamp") else time
    size = int(entry.get("size") or 0)
    return Seen(size, f"{size}-{stamp}")


class Objects:
    """A bucket, or what lies under a prefix in it, through s3fs."""

    takes_headers = True

    def __init__(self, fs: Any, root: str, place: str, senders: int = 8) -> None:
        self._fs = fs
        self._root = root.strip("/")
        self.place = place
        self.senders = senders

    def listing(self) -> dict[str, Seen]:
        """Every object under the prefix."""
        with told(self.place, "looking at what is there"):
            bucket = self._root.partition("/")[0]
            # A prefix that holds nothing yet and a bucket that is missing look alike in a listing.
            self._fs.call_s3("list_objects_v2", Bucket=bucket, MaxKeys=1)
            found = self._fs.find(self._root, detail=True)
        start = len(self._root) + 1
        return {
            str(name)[start:]: _object(entry)
            for name, entry in sorted(found.items())
            if entry["type"] == "file" and not str(name).endswith("/")
        }

    def read(self, path: str) -> bytes | None:
        """An object's content; None if there is none."""
        with told(self.place, f"reading {path}"):
            try:
                return bytes(self._fs.cat_file(f"{self._root}/{path}"))
            except FileNotFoundError:
                return None

    def put(self, path: str, content: bytes, headers: Headers) -> Seen:
        """Put an object with its headers."""
        where = f"{self._root}/{path}"
        with told(self.place, f"sending {path}"):
            answer = self._fs.pipe_file(
                where,
                content,
                ContentType=headers.content_type,
                CacheControl=headers.cache_control,
            )
            if isinstance(answer, dict) and "ETag" in answer:
                return _object({"size": len(content), "ETag": answer["ETag"]})
            return _object(self._fs.info(where, refresh=True))

    def remove(self, path: str) -> None:
        """Remove an object."""
        with told(self.place, f"removing {path}"):
            self._fs.rm_file(f"{self._root}/{path}")

    def close(self) -> None:
        """Nothing is held open."""


def _object(entry: dict[str, Any]) -> Seen:
    size, etag = int(entry["size"]), str(entry.get("ETag", "")).strip('"')
    return Seen(size, f"{size}-{etag}", etag)
