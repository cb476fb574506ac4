"""Nothing has changed since the last build: the shortest way to know.

A build leaves a note of what it looked at: size, times and number of every file in ``content/`` and
``themes/``. If all of them are as they were, and the output too, there is nothing to do. No program
can set a file's change time (``st_ctime``), so an old date does not deceive; a file that was written
in the moments before a build may be written once more within the same tick of the clock, so such a
build leaves no note. Whatever is in doubt is left to a build in full.
"""

from __future__ import annotations

import os
from collections.abc import Iterator
from dataclasses import asdict
from pathlib import Path
from typing import Any

from sitegen.building.placing import Placed, as_written
from sitegen.building.program import program_mark
from sitegen.building.report import BuildReport
from sitegen.problems import Problem
from sitegen.workroom import Workroom, read_json, write_json

FOLDERS = ("content", "themes")
MOMENTS = 1_000_000_000
"""Nanoseconds before a build in which a file may have changed and change again unseen."""

Look = dict[str, list[int]]
"""Path → what the file system says of the file."""


def look(site_folder: Path) -> Look | None:
    """All that a site is made of, at a glance; None if there are links, which lead elsewhere."""
    try:
        return dict(_looked(site_folder, FOLDERS))
    except _Link:
        return None


def nothing_to_do(
    workroom: Workroom, output: Path, looked: Look | None, seconds: float
) -> BuildReport | None:
    """The last build's report if another would give the same files, else None."""
    note = read_json(_note(workroom)) if looked is not None else None
    if (
        note is None
        or note.get("looked") != looked
        or note.get("output") != str(output)
        or note.get("program") != program_mark()
    ):
        return None
    files = as_written(workroom, output)
    if files is None:
        return None
    said = note["report"]
    problems = tuple(Problem(**problem) for problem in said.pop("problems"))
    placed = Placed(unchanged=len(files))
    return BuildReport(output, problems, placed=placed, seconds=seconds, **said)


def note_down(workroom: Workroom, looked: Look | None, report: BuildReport, began: int) -> None:
    """Leave a note for the next build; ``began`` is when this one did, by ``time.time_ns``."""
    note = _note(workroom)
    newest = max((changed for _, _, changed, _ in looked.values()), default=0) if looked else began
    if looked is None or newest > began - MOMENTS or not report.done:
        note.unlink(missing_ok=True)
        return
    said: dict[str, Any] = {
        "problems": [asdict(problem) for problem in report.problems],
        "recipes": report.recipes,
        "photos": report.photos,
        "drafts": report.drafts,
        "pages": dict(report.pages),
    }
    content = {"looked": looked, "output": str(report.folder), "report": said}
    try:
        write_json(note, content | {"program": program_mark()})
    except OSError:  # no reason to fail
        note.unlink(missing_ok=True)


class _Link(Exception):
    """There is a symbolic link."""


def _looked(folder: Path, names: tuple[str, ...]) -> Iterator[tuple[str, list[int]]]:
    waiting = [(name, folder / name) for name in names]
    while waiting:
        path, there = waiting.pop()
        try:
            entries = sorted(os.scandir(there), key=lambda entry: entry.name)
        except OSError:
            continue
        for entry in entries:
            name = f"{path}/{entry.name}"
            if entry.is_symlink():
                raise _Link
            if entry.is_dir():
                yield name, [0, 0, 0, 0]
                waiting.append((name, there / entry.name))
            else:
                seen = entry.stat()
                yield name, [seen.st_size, seen.st_mtime_ns, seen.st_ctime_ns, seen.st_ino]


def _note(workroom: Workroom) -> Path:
    return workroom.folder / "kept" / "note.json"
