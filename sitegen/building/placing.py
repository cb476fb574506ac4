"""Put a finished site in place, file by file, touching only files that this program wrote.

    staged folder ──▶ journal ──▶ new files, then changed pages, then removals ──▶ record

* Nothing in the output changes until every page has been staged beside it.
* The order keeps the site whole at every moment: what pages need (assets, photos) arrives before
  the pages, and what nothing needs any more goes last.
* A build that is killed while it puts files in place leaves a journal; the next build carries it
  out before anything else.
* The record says what was written and with which content. A file that the record does not know is
  never overwritten, and one that somebody has changed since is set aside, not lost.
"""

from __future__ import annotations

import os
import shutil
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from hashlib import sha256
from pathlib import Path
from stat import S_ISDIR, S_ISLNK

from sitegen.workroom import Workroom, read_json, write_json

_ORDER = ("assets/", "photos/")
"""What goes first. Then everything else, with the home page and the feeds at the end."""
_LAST = ("index.html", "feed.xml", "feed.json", "sitemap.xml")


class InTheWay(Exception):
    """Files that the program did not write stand where it would have to write."""

    def __init__(self, paths: list[str]) -> None:
        super().__init__(", ".join(paths))
        self.paths = paths


@dataclass(frozen=True, slots=True)
class Placed:
    """What putting a site in place has done."""

    written: tuple[str, ...] = ()
    unchanged: int = 0
    removed: tuple[str, ...] = ()
    set_aside: tuple[str, ...] = ()
    """Files that somebody had changed by hand, moved to ``.sitegen/set-aside/``."""


@dataclass(slots=True)
class Staging:
    """A folder beside the output that fills up with the new site.

    Files whose content the output already has are only noted, not written.
    """

    output: Path
    workroom: Workroom
    folder: Path = field(init=False)
    digests: dict[str, str] = field(default_factory=dict)
    """Every path of the new site and the SHA-256 of its content."""
    _before: Mapping[str, str] = field(init=False)
    _seen: Mapping[str, Sequence[int]] = field(init=False)
    _fresh: list[str] = field(default_factory=list)
    _made: set[str] = field(default_factory=set)

    def __post_init__(self) -> None:
        self.folder = _staging_folder(self.output)
        self._before = record(self.workroom, self.output)
        self._seen = seen(self.workroom, self.output)

    def add(self, path: str, content: bytes) -> None:
        """Stage one file."""
        self.note(path, self.write(path, content))

    def write(self, path: str, content: bytes) -> str:
        """Put a file's content by, unless the output has it, and say its SHA-256.

        Another process may do so; a file counts only once it is noted.
        """
        digest = sha256(content).hexdigest()
        if not self.has(path, digest):
            target = f"{self.folder}/{path}"
            folder = os.path.dirname(target)
            if folder not in self._made:
                os.makedirs(folder, exist_ok=True)
                self._made.add(folder)
            Path(target).write_bytes(content)
        return digest

    def note(self, path: str, digest: str) -> None:
        """A file of the new site, which has been written here or which the output has."""
        if path in self.digests:
            raise ValueError(f"two pages are to be written to {path}")
        self.digests[path] = digest
        if not self.has(path, digest):
            self._fresh.append(path)

    def has(self, path: str, digest: str) -> bool:
        """Whether the output holds this very file, written by an earlier build.

        Size and time tell that it has not been touched since; where they differ, its content does.
        """
        if self._before.get(path) != digest:
            return False
        target = self.output / path
        known = self._seen.get(path)
        return (known is not None and _stat(str(target)) == known) or _digest(target) == digest

    def discard(self) -> None:
        """Throw the staged files away."""
        shutil.rmtree(self.folder, ignore_errors=True)

    def put_in_place(self) -> Placed:
        """Make the output hold the staged site; raises :class:`InTheWay` before any change."""
        _refuse_foreign(self.output, self.digests, self._before)
        stale = sorted(set(self._before) - set(self.digests))
        journal = {
            "staged": str(self.folder),
            "output": str(self.output),
            "put": sorted(self._fresh, key=_placing_order),
            "remove": [p for p in stale if (self.output / p).is_file()],
            "before": dict(self._before),
            "after": self.digests,
        }
        write_json(_journal(self.workroom), journal)
        set_aside = _carry_out(self.workroom)
        return Placed(
            written=tuple(sorted(self._fresh)),
            unchanged=len(self.digests) - len(self._fresh),
            removed=tuple(stale),
            set_aside=tuple(set_aside),
        )


def finish_interrupted(workroom: Workroom) -> bool:
    """Carry out what a killed build had begun to put in place; whether there was anything."""
    if not _journal(workroom).exists():
        return False
    _carry_out(workroom)
    return True


def as_written(workroom: Workroom, output: Path) -> dict[str, str] | None:
    """The record of ``output``, if not one of its files has been touched since; else None."""
    data = read_json(_record(workroom, output)) or {}
    files, known = data.get("files"), data.get("seen")
    if not isinstance(files, dict) or not isinstance(known, dict):
        return None
    where = str(output)
    untouched = all(known.get(path) == _stat(f"{where}/{path}") for path in files)
    return files if files and untouched else None


def record(workroom: Workroom, output: Path) -> dict[str, str]:
    """What the last build wrote to ``output``: path → SHA-256."""
    data = read_json(_record(workroom, output)) or {}
    files = data.get("files")
    return {str(k): str(v) for k, v in files.items()} if isinstance(files, dict) else {}


def seen(workroom: Workroom, output: Path) -> dict[str, list[int]]:
    """Size and time of each file when the last build had written it."""
    data = read_json(_record(workroom, output)) or {}
    files = data.get("seen")
    return files if isinstance(files, dict) else {}


def sweep(output: Path) -> None:
    """Remove the staging folders of builds that were killed; call it while holding the lock."""
    for folder in (output.parent, output):
        if folder.is_dir():
            for left in folder.glob(f"{_prefix(output)}*"):
                shutil.rmtree(left, ignore_errors=True)


def _carry_out(workroom: Workroom) -> list[str]:
    """Do what the journal says. Every step may have been done before."""
    journal = read_json(_journal(workroom))
    if journal is None:  # damaged: it was never whole, so nothing had begun
        _journal(workroom).unlink(missing_ok=True)
        return []
    staged, output = Path(journal["staged"]), Path(journal["output"])
    before: dict[str, str] = journal["before"]
    after: dict[str, str] = journal["after"]
    set_aside = []
    files = dict(after)
    made: set[str] = set()
    for path in journal["put"]:
        source, target = f"{staged}/{path}", f"{output}/{path}"
        if not os.path.isfile(source):  # put in place before the interruption, or swept away since
            if _digest(target) != after[path]:
                files.pop(path)
                files |= {path: before[path]} if path in before else {}
            continue
        if os.path.isfile(target) and _digest(target) not in (before.get(path), after[path]):
            _set_aside(workroom, Path(target), path)
            set_aside.append(path)
        folder = os.path.dirname(target)
        if folder not in made:
            os.makedirs(folder, exist_ok=True)
            made.add(folder)
        os.replace(source, target)
    for path in journal["remove"]:
        target = output / path
        if not target.is_file() or target.is_symlink():
            continue
        if _digest(target) != before[path]:
            _set_aside(workroom, target, path)
            set_aside.append(path)
        target.unlink(missing_ok=True)
        _remove_empty_parents(target, output)
    said = {"output": str(output), "files": files}
    write_json(
        _record(workroom, output), said | {"seen": {p: _stat(f"{output}/{p}") for p in files}}
    )
    _journal(workroom).unlink(missing_ok=True)
    shutil.rmtree(staged, ignore_errors=True)
    return set_aside


def _refuse_foreign(output: Path, after: Mapping[str, str], before: Mapping[str, str]) -> None:
    """Raise if a file, folder or link that is not ours stands where a page must go."""
    wrong = set()
    checked = {""}
    for path, digest in after.items():
        folder = path.rpartition("/")[0]
        while folder not in checked:
            checked.add(folder)
            seen = _seen(f"{output}/{folder}")
            if seen is not None and not S_ISDIR(seen.st_mode):
                wrong.add(folder)
            folder = folder.rpartition("/")[0]
        target = f"{output}/{path}"
        seen = _seen(target)
        if seen is None:
            continue
        foreign = path not in before and _digest(target) != digest
        if foreign or S_ISLNK(seen.st_mode) or S_ISDIR(seen.st_mode):
            wrong.add(path)
    if wrong:
        raise InTheWay(sorted(wrong))


def _placing_order(path: str) -> tuple[int, str]:
    if path.startswith(_ORDER):
        return 0, path
    return (2 if path in _LAST else 1), path


def _set_aside(workroom: Workroom, target: Path, path: str) -> None:
    content = target.read_bytes()
    mark = sha256(content).hexdigest()[:10]
    kept = workroom.folder / "set-aside" / f"{path}.{mark}"
    kept.parent.mkdir(parents=True, exist_ok=True)
    kept.write_bytes(content)


def _remove_empty_parents(target: Path, output: Path) -> None:
    for folder in target.parents:
        if folder == output:
            return
        try:
            folder.rmdir()
        except OSError:
            return


def _seen(path: str) -> os.stat_result | None:
    try:
        return os.lstat(path)
    except OSError:
        return None


def _stat(path: str) -> list[int]:
    found = _seen(path)
    return [found.st_size, found.st_mtime_ns, found.st_ino] if found else []


def _digest(path: Path | str) -> str:
    try:
        return sha256(Path(path).read_bytes()).hexdigest()
    except OSError:
        return ""


def _prefix(output: Path) -> str:
    return f".{output.name}.sitegen-"


def _staging_folder(output: Path) -> Path:
    """Beside the output; inside it where the output is a file system of its own."""
    output.parent.mkdir(parents=True, exist_ok=True)
    apart = output.is_dir() and output.stat().st_dev != output.parent.stat().st_dev
    folder = (output if apart else output.parent) / f"{_prefix(output)}{os.getpid()}"
    shutil.rmtree(folder, ignore_errors=True)
    folder.mkdir()
    return folder


def _journal(workroom: Workroom) -> Path:
    return workroom.folder / "placing.json"


def _record(workroom: Workroom, output: Path) -> Path:
    """The record of one output folder, named by where it lies as seen from the site."""
    where = os.path.relpath(output, workroom.folder.parent).replace(os.sep, "/")
    mark = sha256(where.encode()).hexdigest()[:16]
    return workroom.folder / "written" / f"{mark}.json"
