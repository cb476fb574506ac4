"""Putting a site in place: whole or not at all, and never at the cost of somebody's file."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import textwrap
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sitegen.building import placing
from sitegen.building.lock import Busy, only_one
from sitegen.building.placing import InTheWay, Placed, Staging, finish_interrupted, sweep
from sitegen.workroom import Workroom


def put(folder: Path, files: dict[str, str]) -> Placed:
    workroom = Workroom(folder)
    workroom.ready()
    staging = Staging(folder / "output", workroom)
    try:
        for path, text in files.items():
            staging.add(path, text.encode())
        return staging.put_in_place()
    finally:
        staging.discard()


def held(folder: Path) -> dict[str, str]:
    output = folder / "output"
    return {
        p.relative_to(output).as_posix(): p.read_text() for p in output.rglob("*") if p.is_file()
    }


OLD = {"index.html": "old home", "recipes/a.html": "old a", "recipes/b.html": "b", "x/y.css": "old"}
NEW = {"index.html": "new home", "recipes/a.html": "new a", "recipes/b.html": "b", "z/y.css": "new"}


def test_a_site_is_put_in_place_and_what_it_no_longer_has_is_removed(tmp_path: Path) -> None:
    put(tmp_path, OLD)
    placed = put(tmp_path, NEW)
    assert held(tmp_path) == NEW
    assert placed.written == ("index.html", "recipes/a.html", "z/y.css")
    assert placed.unchanged == 1
    assert placed.removed == ("x/y.css",)
    assert not (tmp_path / "output" / "x").exists()


def test_what_others_put_in_the_folder_stays(tmp_path: Path) -> None:
    (tmp_path / "output" / "recipes").mkdir(parents=True)
    (tmp_path / "output" / "README.md").write_text("mine")
    (tmp_path / "output" / "recipes" / "notes.txt").write_text("mine too")
    put(tmp_path, OLD)
    put(tmp_path, {"index.html": "only this"})
    assert held(tmp_path) == {
        "README.md": "mine",
        "recipes/notes.txt": "mine too",
        "index.html": "only this",
    }


def test_a_foreign_file_in_the_way_stops_the_build_before_any_change(tmp_path: Path) -> None:
    put(tmp_path, OLD)
    (tmp_path / "output" / "z").mkdir()
    (tmp_path / "output" / "z" / "y.css").write_text("mine")
    before = held(tmp_path)
    with pytest.raises(InTheWay) as caught:
        put(tmp_path, NEW)
    assert caught.value.paths == ["z/y.css"]
    assert held(tmp_path) == before


@pytest.mark.parametrize("kind", ["file for a folder", "link for a folder", "folder for a file"])
def test_other_things_in_the_way_stop_it_too(tmp_path: Path, kind: str) -> None:
    output = tmp_path / "output"
    output.mkdir()
    elsewhere = tmp_path / "elsewhere"
    elsewhere.mkdir()
    if kind == "file for a folder":
        (output / "recipes").write_text("mine")
    elif kind == "link for a folder":
        (output / "recipes").symlink_to(elsewhere)
    else:
        (output / "recipes" / "a.html").mkdir(parents=True)
    with pytest.raises(InTheWay):
        put(tmp_path, OLD)
    assert not list(elsewhere.iterdir())
    assert not (output / "index.html").exists()


def test_a_file_of_the_same_content_is_adopted(tmp_path: Path) -> None:
    put(tmp_path, OLD)
    record = next((tmp_path / ".sitegen" / "written").iterdir())
    record.unlink()  # the workroom was deleted
    put(tmp_path, OLD)
    put(tmp_path, {"index.html": "new"})
    assert held(tmp_path) == {"index.html": "new"}


def test_a_page_changed_by_hand_is_set_aside_and_not_lost(tmp_path: Path) -> None:
    put(tmp_path, OLD)
    (tmp_path / "output" / "index.html").write_text("changed by hand")
    (tmp_path / "output" / "x" / "y.css").write_text("changed too")
    placed = put(tmp_path, NEW)
    assert sorted(placed.set_aside) == ["index.html", "x/y.css"]
    assert held(tmp_path) == NEW
    kept = {p.read_text() for p in (tmp_path / ".sitegen" / "set-aside").rglob("*") if p.is_file()}
    assert kept == {"changed by hand", "changed too"}


def test_a_build_that_stops_while_staging_leaves_the_last_site_whole(tmp_path: Path) -> None:
    put(tmp_path, OLD)
    staging = Staging(tmp_path / "output", Workroom(tmp_path))
    staging.add("index.html", b"half a site")
    assert held(tmp_path) == OLD  # nothing else ever happens to this staging
    sweep(tmp_path / "output")
    assert {p.name for p in tmp_path.iterdir()} == {"output", ".sitegen"}


_KILLED = """
import os, pathlib, signal, sys
from sitegen.building import placing
from sitegen.building.placing import Staging
from sitegen.workroom import Workroom
folder, allowed = pathlib.Path(sys.argv[1]), int(sys.argv[2])
real, count = os.replace, 0
def replace(source, target):
    global count
    if not str(source).endswith(".part"):
        if count == allowed:
            os.kill(os.getpid(), signal.SIGKILL)
        count += 1
    return real(source, target)
os.replace = replace
staging = Staging(folder / "output", Workroom(folder))
for path, text in {new!r}.items():
    staging.add(path, text.encode())
staging.put_in_place()
"""


@pytest.mark.parametrize("allowed", [0, 1, 2])
def test_a_build_killed_while_placing_is_finished_by_the_next(tmp_path: Path, allowed: int) -> None:
    put(tmp_path, OLD)
    program = textwrap.dedent(_KILLED).replace("{new!r}", repr(NEW))
    done = subprocess.run([sys.executable, "-c", program, str(tmp_path), str(allowed)], check=False)
    assert done.returncode == -signal.SIGKILL
    # What pages need comes before them, and nothing that an old page needs has gone.
    assert (tmp_path / "output" / "x" / "y.css").exists()
    assert finish_interrupted(Workroom(tmp_path))
    sweep(tmp_path / "output")
    assert held(tmp_path) == NEW
    assert put(tmp_path, NEW).written == ()
    assert {p.name for p in tmp_path.iterdir()} == {"output", ".sitegen"}


def test_an_unfinished_journal_whose_files_are_gone_leaves_a_true_record(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    put(tmp_path, OLD)
    workroom = Workroom(tmp_path)
    staging = Staging(tmp_path / "output", workroom)
    for path, text in NEW.items():
        staging.add(path, text.encode())
    with monkeypatch.context() as patched:
        patched.setattr(placing, "_carry_out", lambda workroom: [])  # killed here
        staging.put_in_place()
    staging.discard()
    finish_interrupted(workroom)
    put(tmp_path, NEW)
    assert held(tmp_path) == NEW


def test_two_pages_for_one_file_are_refused(tmp_path: Path) -> None:
    staging = Staging(tmp_path / "output", Workroom(tmp_path))
    staging.add("a.html", b"1")
    with pytest.raises(ValueError, match=r"a\.html"):
        staging.add("a.html", b"2")


names = st.sampled_from(["index.html", "a/b.html", "a/c.html", "assets/s.css", "d/e/f.html"])
sites = st.dictionaries(names, st.text("ab", max_size=3), max_size=5)


@given(st.lists(sites, min_size=1, max_size=5))
@settings(max_examples=40, deadline=None)
def test_after_any_sequence_of_builds_the_folder_holds_the_last_site(
    tmp_path_factory: pytest.TempPathFactory, sequence: list[dict[str, str]]
) -> None:
    folder = tmp_path_factory.mktemp("site")
    (folder / "output").mkdir()
    (folder / "output" / "README.md").write_text("mine")
    for site in sequence:
        put(folder, site)
        assert held(folder) == {**site, "README.md": "mine"}


def test_a_second_build_is_kept_out_and_told_who_holds_the_lock(tmp_path: Path) -> None:
    lock = tmp_path / "build.lock"
    with only_one(lock), pytest.raises(Busy) as caught, only_one(lock):
        pass
    assert caught.value.holder == f"process {os.getpid()}"
    with only_one(lock):
        pass


def test_a_lock_left_by_a_killed_build_locks_nobody_out(tmp_path: Path) -> None:
    lock = tmp_path / "build.lock"
    program = (
        "import os, pathlib, signal, sys\n"
        "from sitegen.building.lock import only_one\n"
        "with only_one(pathlib.Path(sys.argv[1])):\n"
        "    os.kill(os.getpid(), signal.SIGKILL)\n"
    )
    subprocess.run([sys.executable, "-c", program, str(lock)], check=False)
    assert lock.exists()
    with only_one(lock):
        pass
