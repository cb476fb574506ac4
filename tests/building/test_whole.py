"""Whole or not at all: killed anywhere, a full disk, a folder that can't be written, a lost file.

``SITEGEN_KILLS=200`` kills that many builds; the suite kills a few.
"""

from __future__ import annotations

import errno
import os
import signal
import subprocess
import sys
from pathlib import Path
from random import Random

import pytest

from sitegen.building.build import build
from tests.building.test_incremental import held
from tests.sites import SITE, SOUP, recipe, write, write_site

KILLS = int(os.environ.get("SITEGEN_KILLS", "8"))

_KILLED_AT = """
import os, pathlib, signal, sys
allowed = int(sys.argv[2])
count = 0
def heard(event, arguments):
    # every opening, renaming, removing and making of a file is a moment to be killed at
    global count
    if event in ("open", "os.rename", "os.remove", "os.mkdir", "os.rmdir"):
        if event == "open" and not (isinstance(arguments[0], str) and sys.argv[1] in arguments[0]):
            return
        count += 1
        if count == allowed:
            os.kill(os.getpid(), signal.SIGKILL)
from sitegen.building.build import build
sys.addaudithook(heard)
build(pathlib.Path(sys.argv[1]))
print(count)
"""


def killed_at(folder: Path, moment: int) -> subprocess.CompletedProcess[str]:
    """A build that kills itself at its n-th dealing with a file of the site."""
    command = [sys.executable, "-c", _KILLED_AT, str(folder), str(moment)]
    return subprocess.run(command, check=False, capture_output=True, text=True)


def site_of_a_few(folder: Path) -> Path:
    more = {f"content/recipes/r{n}.md": recipe(f"Dish {n}") for n in range(3)}
    return write_site(folder, dict(more))


def test_a_build_killed_at_any_moment_leaves_pages_whole_and_the_next_mends_all(
    tmp_path: Path,
) -> None:
    draw = Random(KILLS)
    folder = site_of_a_few(tmp_path / "site")
    build(folder)
    settings = [SITE.replace("test kitchen", f"kitchen {n}") for n in range(2)]
    write(folder / "content/site.yaml", settings[0])
    build(folder)
    old = held(folder / "output")
    write(folder / "content/site.yaml", settings[1])
    moments = int(killed_at(folder, 0).stdout)
    new = held(folder / "output")
    assert old != new
    assert moments > 50
    editions = [old, new]
    for kill in range(KILLS):
        write(folder / "content/site.yaml", settings[kill % 2])
        ended = killed_at(folder, draw.randrange(1, moments))
        assert ended.returncode in (-signal.SIGKILL, 0, 1), ended.stderr  # 1: a process of its own
        found = held(folder / "output")
        for path, content in found.items():  # each file is the old one or the new one, never half
            assert content in (editions[0].get(path), editions[1].get(path)), path
        names = {path for path in found if path.endswith(".html")}
        assert names >= {path for path in old if path.endswith(".html")}
        assert build(folder).done
        assert held(folder / "output") == editions[kill % 2]
        assert not list(folder.glob(".output*"))


def test_a_disk_that_fills_up_leaves_the_last_site(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = site_of_a_few(tmp_path)
    build(folder)
    before = held(folder / "output")
    write(folder / "content/site.yaml", SITE.replace("test kitchen", "other kitchen"))
    real = Path.write_bytes
    left = 0

    def write_bytes(path: Path, content: bytes) -> int:
        nonlocal left
        left -= 1
        if left < 0:
            real(path, content[: len(content) // 2])
            raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC), str(path))
        return real(path, content)

    for room in (0, 1, 5):
        left = room
        with monkeypatch.context() as patch:
            patch.setattr(Path, "write_bytes", write_bytes)
            with pytest.raises(OSError, match="No space"):
                build(folder)
        assert held(folder / "output") == before
    assert build(folder).done
    assert held(folder / "output") != before


@pytest.mark.skipif(sys.platform != "linux", reason="needs tmpfs")
def test_a_disk_that_is_really_full(tmp_path: Path) -> None:
    small = tmp_path / "small"
    small.mkdir()
    mounted = subprocess.run(
        ["mount", "-t", "tmpfs", "-o", "size=1200k", "tmpfs", str(small)],
        check=False,
        capture_output=True,
    )
    if mounted.returncode:
        pytest.skip("file systems can't be mounted here")
    try:
        folder = write_site(small / "site")
        assert build(folder).done
        before = held(folder / "output")
        filler = small / "filler"
        room = os.statvfs(small).f_bavail * os.statvfs(small).f_frsize
        filler.write_bytes(b"x" * (room - 20_000))
        write(folder / "content/site.yaml", SITE.replace("test kitchen", "other kitchen"))
        with pytest.raises(OSError, match="No space"):
            build(folder)
        assert held(folder / "output") == before
        filler.unlink()
        assert build(folder).done
        assert held(folder / "output") != before
    finally:
        subprocess.run(["umount", str(small)], check=True)


def test_a_recipe_that_vanishes_under_the_build_stops_it_and_nothing_else(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    from sitegen.building import works

    folder = site_of_a_few(tmp_path)
    build(folder)
    before = held(folder / "output")
    real = works.read_bytes

    def read_bytes(site: Path, file: str) -> object:
        if file == SOUP:
            (site / SOUP).unlink(missing_ok=True)
        return real(site, file)

    with monkeypatch.context() as patch:
        patch.setattr(works, "read_bytes", read_bytes)
        failed = build(folder)
    assert not failed.done
    assert [p.rule for p in failed.blocking] == ["file-unreadable"]
    assert held(folder / "output") == before
    assert build(folder).done
    assert "recipes/lentil-soup.html" not in held(folder / "output")


def test_the_order_of_files_on_the_disk_is_nothing_to_the_site(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = site_of_a_few(tmp_path / "one")
    first = held(build(folder).folder)
    draw = Random(5)
    real = os.scandir

    class Shuffled:
        def __init__(self, *of: str) -> None:
            self.entries = list(real(*of))
            draw.shuffle(self.entries)

        def __enter__(self) -> Shuffled:
            return self

        def __exit__(self, *_: object) -> None:
            return None

        def close(self) -> None:
            return None

        def __iter__(self) -> Shuffled:
            return self

        def __next__(self) -> os.DirEntry[str]:
            if not self.entries:
                raise StopIteration
            return self.entries.pop()

    monkeypatch.setattr(os, "scandir", Shuffled)
    assert held(build(site_of_a_few(tmp_path / "other")).folder) == first


def test_many_processes_make_what_one_makes(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    from sitegen.building import hands

    more: dict[str, str | bytes] = {
        f"content/recipes/r{n}.md": recipe(f"Dish {n}") for n in range(60)
    }
    monkeypatch.setattr(hands, "cores", lambda: 1)
    alone = build(write_site(tmp_path / "one", more))
    monkeypatch.setattr(hands, "cores", lambda: 3 if sys.platform == "linux" else 1)
    together = build(write_site(tmp_path / "other", more))
    assert held(alone.folder) == held(together.folder)
    assert alone.problems == together.problems
