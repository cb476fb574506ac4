"""The process that reads a whole site ahead for its preview: what it keeps, and how it ends."""

from __future__ import annotations

import json
import re
import subprocess
import sys
import threading
from pathlib import Path
from urllib.request import urlopen

import pytest

from sitegen.building.leaf import Bench
from sitegen.gathering import Gatherer
from sitegen.preview import start
from sitegen.preview.desk import Desk
from sitegen.preview.reading_ahead import read_ahead
from tests.preview.test_preview import PATIENCE
from tests.sites import SOUP, recipe, write, write_site


def many(folder: Path) -> Path:
    return write_site(folder, {f"content/recipes/r{n}.md": recipe(f"R {n}") for n in range(60)})


def test_all_is_kept_by_a_process_of_its_own(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = many(tmp_path)
    before = contents_of(Gatherer(folder))
    monkeypatch.setattr(Bench, "leaf", lambda *_: pytest.fail("not here"))
    far: list[tuple[int, int]] = []
    begun = start.Start(folder, lambda _, done, whole: far.append((done, whole)))
    leaves = begun.leaves(*Gatherer(folder).outset())
    assert len(leaves) == 61
    assert far[0] == (0, 61)
    assert far[-1] == (61, 61)
    assert contents_of(Gatherer(folder, lambda *_: leaves)) == before


def contents_of(gatherer: Gatherer) -> object:
    gathered = gatherer.gather(drafts=True)
    dishes = gathered.collection.dishes
    return gathered.problems, [(s, d.recipe.title, d.allergens) for s, d in dishes.items()]


def test_it_keeps_what_holds_and_makes_the_rest(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    folder, room = many(tmp_path / "site"), tmp_path / "room"
    room.mkdir()
    for words in ("0 61", "0 0", "0 1"):
        read_ahead(folder, room)
        assert words in capsys.readouterr().out.splitlines()
        if words == "0 0":
            write(folder / SOUP, recipe("Another soup"))


@pytest.mark.parametrize("call", ["import sys; sys.exit(3)", "print('1 2'); raise OSError"])
def test_without_it_all_is_worked_out_here(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, call: str
) -> None:
    monkeypatch.setattr(start, "_CALL", call)
    desk = Desk(many(tmp_path))
    assert len(desk.edition.gathered.collection.dishes) == 61


def test_it_ends_with_the_preview(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A process that would read for ever is gone when the preview is."""
    monkeypatch.setattr(start, "_CALL", "import time; print('0 9', flush=True); time.sleep(600)")
    told, begun = threading.Event(), start.Start(tmp_path, lambda *_: told.set())
    files = [f"{n}.md" for n in range(60)]
    ended: list[str] = []

    def ask() -> None:
        try:
            begun.leaves(*Gatherer(many(tmp_path)).outset()[:3], files)
        except start.Overtaken:
            ended.append("overtaken")

    asking = threading.Thread(target=ask, daemon=True)
    asking.start()
    assert told.wait(PATIENCE)
    begun.stop()
    asking.join(PATIENCE)
    assert ended == ["overtaken"]
    with pytest.raises(start.Overtaken):
        begun._read_ahead(60)


@pytest.mark.skipif(sys.platform == "win32", reason="signals of another kind")
@pytest.mark.parametrize("wait", [False, True])
def test_the_command_answers_at_once_and_ends_when_it_is_told(tmp_path: Path, wait: bool) -> None:
    process = subprocess.Popen(
        [sys.executable, "-m", "sitegen", "preview", "--port", "0", "--site", many(tmp_path)],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
    )
    assert process.stdout is not None
    try:
        address = re.search(r"http://127\.0\.0\.1:\d+/", process.stdout.readline())
        assert address
        with urlopen(f"{address[0]}recipes/r7.html", timeout=PATIENCE) as answer:
            assert b"R 7" in answer.read()
        if wait:
            assert process.stdout.readline().strip()  # what is to be said of the whole site
    finally:
        process.terminate()
        out, err = process.communicate(timeout=PATIENCE)  # nobody else holds the pipes any more
    assert (process.returncode, err) == (0, "")
    assert "Traceback" not in out


def test_it_ends_when_nobody_listens(tmp_path: Path) -> None:
    room = tmp_path / "room"
    room.mkdir()
    process = subprocess.Popen(
        [sys.executable, "-c", start._CALL, json.dumps(sys.path), many(tmp_path / "site"), room],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
    )
    assert process.stdout is not None
    assert process.stderr is not None
    process.stdout.close()
    assert process.wait(PATIENCE) == 1
    assert process.stderr.read() == b""
    process.stderr.close()
