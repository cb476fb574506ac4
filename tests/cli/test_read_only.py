"""A site whose folder can't be written: build and preview say so, and break nothing."""

from __future__ import annotations

import encodings.idna  # noqa: F401 - nobody may be unable to read it later
import os
import shutil
import sys
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
from click.testing import CliRunner

import sitegen.preview.desk
import sitegen.preview.serving
import sitegen.preview.watching  # noqa: F401
from sitegen.cli import main
from sitegen.preview.desk import Desk
from tests.sites import write_site

NOBODY = 65534


@contextmanager
def as_one_who_must_ask() -> Iterator[None]:
    """Root may write anywhere; so for a while this is not root."""
    if os.geteuid():
        yield
        return
    os.seteuid(NOBODY)
    try:
        yield
    finally:
        os.seteuid(0)


@pytest.fixture
def site() -> Iterator[Path]:
    """A site that everybody may read and nobody may write."""
    outer = Path(tempfile.mkdtemp())
    folder = write_site(outer / "site")
    assert CliRunner().invoke(main, ["build", "--site", str(folder)]).exit_code == 0
    Desk(folder)  # whatever is imported only when it is needed has been
    shutil.rmtree(folder / "output")
    shutil.rmtree(folder / ".sitegen")
    for path in (outer, folder, *folder.rglob("*")):
        path.chmod(0o555 if path.is_dir() else 0o444)
    yield folder
    for path in (outer, folder, *folder.rglob("*")):
        if path.is_dir():
            path.chmod(0o755)
    shutil.rmtree(outer)


@pytest.mark.skipif(sys.platform == "win32", reason="permissions of another kind")
@pytest.mark.parametrize("command", ["build", "preview"])
def test_a_folder_that_cannot_be_written_is_named(site: Path, command: str) -> None:
    with as_one_who_must_ask():
        with pytest.raises(PermissionError):
            (site / "probe").touch()
        done = CliRunner().invoke(main, [command, "--site", str(site)])
    assert done.exit_code == 1
    assert isinstance(done.exception, SystemExit)  # told, not thrown
    assert str(site) in done.output
    assert "written" in done.output
    assert "ermission denied" in done.output
    assert {path.name for path in site.iterdir()} == {"content"}
