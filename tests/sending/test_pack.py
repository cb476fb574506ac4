"""One archive: the same bytes for the same site, and nothing of the author's replaced."""

from __future__ import annotations

import os
import subprocess
import sys
import tarfile
import zipfile
from pathlib import Path

import pytest

from sitegen.sending.errors import NotSent
from sitegen.sending.pack import pack
from tests.sending.sites import SITE, built

ENDINGS = pytest.mark.parametrize("ending", [".zip", ".tar.gz"])


def unpacked(file: Path, folder: Path) -> dict[str, bytes]:
    """By the standard library's readers."""
    if file.name.endswith(".zip"):
        with zipfile.ZipFile(file) as archive:
            assert archive.testzip() is None
            archive.extractall(folder)
    else:
        with tarfile.open(file) as archive:
            archive.extractall(folder, filter="data")
    files = (each for each in folder.rglob("*") if each.is_file())
    return {each.relative_to(folder).as_posix(): each.read_bytes() for each in files}


@ENDINGS
def test_everything_is_in_it(tmp_path: Path, ending: str) -> None:
    file = tmp_path / f"site{ending}"
    assert pack(built(tmp_path), file) == file.stat().st_size
    assert unpacked(file, tmp_path / "out") == SITE


@ENDINGS
def test_the_same_site_gives_the_same_bytes(
    tmp_path: Path, ending: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    first, second = tmp_path / f"one{ending}", tmp_path / f"another{ending}"
    pack(built(tmp_path / "a"), first)
    monkeypatch.setenv("TZ", "Pacific/Auckland")
    mask = os.umask(0o077)
    try:
        site = built(tmp_path / "b", dict(reversed(SITE.items())))
        for file in site.folder.rglob("*"):
            os.utime(file, (1, 1))
        pack(site, second)
    finally:
        os.umask(mask)
    assert first.read_bytes() == second.read_bytes()


def test_no_date_of_packing_is_in_it(tmp_path: Path) -> None:
    """Zip: APPNOTE 4.4.6; gzip: RFC 1952, 2.3.1, MTIME in bytes 4 to 7, and no name (FLG in 3)."""
    pack(built(tmp_path), tmp_path / "site.zip")
    pack(built(tmp_path), tmp_path / "site.tar.gz")
    with zipfile.ZipFile(tmp_path / "site.zip") as archive:
        assert {entry.date_time for entry in archive.infolist()} == {(1980, 1, 1, 0, 0, 0)}
    with tarfile.open(tmp_path / "site.tar.gz") as tar:
        told = {(e.mtime, e.uid, e.gid, e.uname, e.gname, e.mode) for e in tar.getmembers()}
        assert told == {(0, 0, 0, "", "", 0o644)}
    assert (tmp_path / "site.tar.gz").read_bytes()[3:8] == bytes(5)


@ENDINGS
def test_the_bytes_do_not_hang_on_the_hash_seed(tmp_path: Path, ending: str) -> None:
    built(tmp_path)
    program = (
        "import sys; from pathlib import Path; from sitegen.sending.pack import pack\n"
        "from tests.sending.sites import built\n"
        "pack(built(Path(sys.argv[1])), Path(sys.argv[2]))"
    )
    found = set()
    for seed in ("1", "2"):
        file = tmp_path / f"site{seed}{ending}"
        subprocess.run(
            [sys.executable, "-c", program, str(tmp_path), str(file)],
            check=True,
            cwd=Path(__file__).resolve().parents[2],
            env={**os.environ, "PYTHONHASHSEED": seed},
        )
        found.add(file.read_bytes())
    assert len(found) == 1


def test_a_file_that_is_no_archive_is_never_replaced(tmp_path: Path) -> None:
    notes = tmp_path / "notes.zip"
    notes.write_text("Not an archive at all.")
    with pytest.raises(NotSent, match="no archive"):
        pack(built(tmp_path), notes)
    assert notes.read_text() == "Not an archive at all."


def test_an_older_archive_is_replaced(tmp_path: Path) -> None:
    file = tmp_path / "site.zip"
    pack(built(tmp_path / "a", {"index.html": b"old"}), file)
    pack(built(tmp_path / "b"), file)
    assert unpacked(file, tmp_path / "out") == SITE
    assert [each.name for each in tmp_path.glob(".*")] == []


def test_a_site_that_changes_under_the_packing_makes_no_archive(tmp_path: Path) -> None:
    site = built(tmp_path)
    (site.folder / "index.html").write_bytes(b"changed")
    with pytest.raises(NotSent, match="changed while"):
        pack(site, tmp_path / "site.zip")
    assert not (tmp_path / "site.zip").exists()
