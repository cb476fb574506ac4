"""What a preview begins with: what the last build or preview has kept of each recipe.

Of a recipe that is as it was, the little that lists ask is enough; the rest is worked out when its
page is. What is new is made in several processes, before the server's threads are there, and kept
for the next start.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from pathlib import Path
from tempfile import TemporaryDirectory

from sitegen.building.hands import done
from sitegen.building.leaf import Bench, Leaf
from sitegen.building.program import program_mark
from sitegen.building.shelf import Shelf, put, take
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


class Start:
    """Makes and keeps the leaves of one site for its preview."""

    def __init__(self, folder: Path, progress: Progress) -> None:
        self._kept = Workroom(folder).folder / "kept"
        self._progress = progress

    def leaves(
        self, site: Site, larder: Larder, pages: tuple[PlainPage, ...], files: Sequence[str]
    ) -> Mapping[str, Leaf]:
        """The leaves that still hold, and those of the other recipes if they are many."""
        load_noting_modules()
        program, base = program_mark(), base_of(site)
        raws = {file: read_bytes(site.folder, file) for file in files}
        bench = Bench(site, base, raws, larder, None, pages, _nowhere)
        leaves: dict[str, Leaf] = {}
        for name in ("site", "preview"):
            kept = take(self._kept / name, program).leaves
            leaves |= still_good(kept, bench.marks, base, files)
        wanted = [file for file in files if file not in leaves]
        if len(wanted) > FEW:
            bench.guess  # noqa: B018 - once, before there are several processes
            with TemporaryDirectory() as room:
                made = done(
                    wanted,
                    bench.leaf,
                    Path(room),
                    lambda count: self._progress("recipes", count, len(wanted)),
                )
            leaves |= {leaf.file: leaf for leaf in made}
            bare = {file: replace(leaf, laid={}) for file, leaf in leaves.items()}
            put(self._kept / "preview", program, Shelf(bare))
        for leaf in leaves.values():
            bind_leaf(leaf, bench)
        return leaves


def _nowhere(page: Page) -> str:
    raise AssertionError("a preview lays nothing out before it is asked")
