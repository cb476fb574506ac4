"""What a preview begins with: what the last build or preview has kept of each recipe.

Of a recipe that is as it was, the little that lists ask is enough; the rest is worked out when its
page is. Where many are new, a process of its own reads them (:mod:`sitegen.preview.reading_ahead`)
and keeps them for the next start too: the server's threads are there already, beside which nothing
may be forked, and whose pages must not wait for thousands of recipes.
"""

from __future__ import annotations

import subprocess
import sys
import threading
from collections.abc import Mapping, Sequence
from json import dumps
from pathlib import Path
from tempfile import TemporaryDirectory

from sitegen.building.leaf import Bench, Leaf
from sitegen.building.program import program_mark
from sitegen.building.shelf import take
from sitegen.building.works import base_of, bind_leaf, still_good
from sitegen.collection import PlainPage
from sitegen.gathering import Progress
from sitegen.larder.larder import Larder
from sitegen.late import load_noting_modules
from sitegen.pages.page import Page
from sitegen.site import Site
from sitegen.textfile import read_bytes
from sitegen.workroom import Workroom

FEW = 24
"""As many recipes are worked out where they are needed, without more ado."""
OWN = "preview"
"""The name of what a preview keeps."""

_CALL = (
    "import json, sys; sys.path[:] = json.loads(sys.argv[1]); "
    "from sitegen.preview.reading_ahead import main; sys.exit(main(sys.argv[2:]))"
)
"""The same program from the same folders, wherever this one was started."""


class Overtaken(Exception):
    """What is being read is no longer wanted: the settings or foods have changed once more."""


class Start:
    """Gets the leaves of one site for its preview."""

    def __init__(self, folder: Path, progress: Progress) -> None:
        self._folder = folder
        self._progress = progress
        self._lock = threading.Lock()
        self._process: subprocess.Popen[bytes] | None = None
        self._stopped = False
        self._begun = False

    def stop(self) -> None:
        """Let whoever waits for leaves go, with :class:`Overtaken`."""
        with self._lock:
            self._stopped = True
            if self._process is not None:
                self._process.terminate()

    def again(self) -> None:
        """Leaves are wanted after all."""
        with self._lock:
            self._stopped = False

    def leaves(
        self, site: Site, larder: Larder, pages: tuple[PlainPage, ...], files: Sequence[str]
    ) -> Mapping[str, Leaf]:
        """The leaves that still hold, and those of the other recipes if they are many."""
        load_noting_modules()
        # With other settings than a moment ago nothing holds, and it isn't worth looking.
        leaves, bench = ({}, None) if self._begun else kept(site, larder, pages, files)
        self._begun = True
        if len(files) - len(leaves) > FEW:
            self._read_ahead(len(files))
            leaves, bench = kept(site, larder, pages, files)
        if bench is not None:
            for leaf in leaves.values():
                bind_leaf(leaf, bench)
        return leaves

    def _read_ahead(self, recipes: int) -> None:
        """Have every recipe's leaf kept; without success, they are worked out here after all."""
        with TemporaryDirectory(ignore_cleanup_errors=True) as room:
            words = [_CALL, dumps(sys.path), str(self._folder.resolve()), room]
            with self._lock:
                if self._stopped:
                    raise Overtaken
                self._process = subprocess.Popen(
                    [sys.executable, "-c", *words],
                    stdin=subprocess.DEVNULL,
                    stdout=subprocess.PIPE,
                )
            with self._process as process:
                assert process.stdout is not None
                try:
                    for line in process.stdout:
                        done, _, whole = line.partition(b" ")
                        self._progress("recipes", int(done), int(whole))
                except BaseException:
                    process.terminate()
                    raise
        with self._lock:
            self._process = None
            if self._stopped:
                raise Overtaken


def kept(
    site: Site, larder: Larder, pages: tuple[PlainPage, ...], files: Sequence[str]
) -> tuple[dict[str, Leaf], Bench]:
    """The leaves that the last build or preview has kept and that still hold; and a bench."""
    program, base = program_mark(), base_of(site)
    raws = {file: read_bytes(site.folder, file) for file in files}
    bench = Bench(site, base, raws, larder, None, pages, _nowhere)
    leaves: dict[str, Leaf] = {}
    for name in ("site", OWN):
        found = take(kept_at(site.folder, name), program).leaves
        leaves |= still_good(found, bench.marks, base, files)
    return leaves, bench


def kept_at(folder: Path, name: str) -> Path:
    """Where a build (``site``) or a preview keeps leaves."""
    return Workroom(folder).folder / "kept" / name


def _nowhere(page: Page) -> str:
    raise AssertionError("a preview lays nothing out before it is asked")
