"""Read a whole site for its preview, in a process of its own, and keep what was made of it.

It is started anew each time and has no other threads, so that it may fork one process for each core.
It tells nothing but how far it is, one line after the other: ``340 1000``. What it keeps is looked at
as anything that was kept is: whatever has been written since does not hold. It ends with whoever
started it.
"""

from __future__ import annotations

import signal
import sys
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

from sitegen.building.hands import done
from sitegen.building.program import program_mark
from sitegen.building.shelf import Shelf, put
from sitegen.gathering import Gatherer
from sitegen.late import load_noting_modules
from sitegen.preview.start import OWN, kept, kept_at


def main(arguments: Sequence[str]) -> int:
    """``arguments`` are the site's folder and an empty one, for results on their way."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # the preview is told, and ends this one
    folder, room = map(Path, arguments)
    try:
        read_ahead(folder, room)
    except OSError:  # nobody listens any more, or there is no room: then it is done without us
        return 1
    return 0


def read_ahead(folder: Path, room: Path) -> None:
    """Make the leaves that are not kept yet, and keep them; raises OSError."""
    load_noting_modules()
    site, larder, pages, files = Gatherer(folder).outset()
    leaves, bench = kept(site, larder, pages, files)
    wanted = [file for file in files if file not in leaves]

    def tell(count: int) -> None:
        sys.stdout.write(f"{count} {len(wanted)}\n")
        sys.stdout.flush()

    tell(0)
    bench.guess  # noqa: B018 - once, before there are several processes
    leaves |= {leaf.file: leaf for leaf in done(wanted, bench.leaf, room, tell)}
    bare = {file: replace(leaf, laid={}) for file, leaf in leaves.items()}
    put(kept_at(folder, OWN), program_mark(), Shelf(bare))
