"""``sitegen build``: read everything, lay everything out, and only then touch the output."""

from __future__ import annotations

import os
import time
from collections import Counter
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor, as_completed
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from sitegen.building.lock import only_one
from sitegen.building.placing import Staging, finish_interrupted, sweep
from sitegen.building.report import BuildReport
from sitegen.building.unchanged import look, note_down, nothing_to_do
from sitegen.problems import in_order
from sitegen.workroom import Workroom

if TYPE_CHECKING:
    from sitegen.gathering import Gathered
    from sitegen.images.photos import Photograph

Progress = Callable[[str, int, int], None]
"""As :data:`sitegen.gathering.Progress`."""


class Unsuitable(Exception):
    """A folder that a site must not be built into; in words for the author."""


def build(
    site_folder: Path, to: Path | None = None, progress: Progress = lambda *_: None
) -> BuildReport:
    """Build the site of ``site_folder`` into ``to`` (``output/`` in it unless given).

    What an earlier build has kept is used where nothing that it came from has changed; the result
    is the same as without. With an error in any recipe that is to be published, nothing is written
    and the last site stays as it is. Raises :class:`~sitegen.building.lock.Busy`,
    :class:`~sitegen.building.placing.InTheWay` or :class:`Unsuitable`.
    """
    began, clock = time.perf_counter(), time.time_ns()
    output = _output(site_folder, to)
    workroom = Workroom(site_folder)
    workroom.ready()
    with only_one(workroom.lock):
        finished = finish_interrupted(workroom)
        sweep(output)
        looked = look(site_folder)
        same = nothing_to_do(workroom, output, looked, time.perf_counter() - began)
        if same is not None and not finished:
            return same
        from sitegen.building.works import Works  # only now: all of the program comes with it
        from sitegen.gathering import Gatherer

        staging = Staging(output, workroom)
        try:
            works = Works(site_folder, workroom, staging, progress)
            gathered = Gatherer(site_folder, works.leaves).gather(drafts=False, progress=progress)
            assert works.theme is not None
            theme, theme_problems = works.theme
            problems = tuple(in_order((*gathered.problems, *theme_problems)))
            blocking = (*gathered.blocking, *(p for p in theme_problems if p.severity == "error"))
            failed = BuildReport(
                output, problems, blocking, drafts=gathered.drafts, finished_earlier=finished
            )
            if blocking or theme is None:
                return replace(failed, seconds=time.perf_counter() - began)
            kinds: Counter[str] = Counter()
            fault = works.add_pages(gathered, theme, kinds)
            if fault is not None:
                return replace(failed, problems=(*problems, fault), blocking=(fault,))
            for path, content in theme.assets().items():
                staging.add(path, content)
                kinds["asset"] += 1
            for film in gathered.collection.films.values():
                for path, source in film.files():
                    if path not in staging.digests:  # one film may belong to two recipes
                        staging.add(path, source.read_bytes())
                        kinds["film"] += 1
            kinds["picture"] += _add_photos(gathered, staging, workroom, progress)
            placed = staging.put_in_place()
            works.keep()
            changes = works.changes(gathered)
            _prune(gathered, workroom)
        finally:
            staging.discard()
    report = BuildReport(
        output,
        problems,
        recipes=len(gathered.collection.dishes),
        photos=len(gathered.photographs),
        drafts=gathered.drafts,
        pages=dict(sorted(kinds.items())),
        placed=placed,
        changes=changes,
        seconds=time.perf_counter() - began,
        finished_earlier=finished,
    )
    note_down(workroom, looked, report, clock)
    return report


def _add_photos(
    gathered: Gathered, staging: Staging, workroom: Workroom, progress: Progress
) -> int:
    """Make every picture and stage it. Pillow lets go of the interpreter, so threads are enough."""
    from sitegen.images.cache import Cache

    cache = Cache(workroom.cache)

    def made(photo: Photograph) -> list[tuple[str, bytes]]:
        return list(photo.made(cache))

    files = 0
    photos = list(gathered.photographs.values())
    with ThreadPoolExecutor(os.cpu_count() or 1) as pool:
        waiting = [pool.submit(made, photo) for photo in photos]
        for done, future in enumerate(as_completed(waiting), start=1):
            for path, content in future.result():
                staging.add(path, content)
                files += 1
            progress("photos", done, len(photos))
    return files


def _prune(gathered: Gathered, workroom: Workroom) -> None:
    """Let go of made pictures that no photo of the site, a draft's among them, needs any more."""
    from sitegen.images.cache import Cache

    Cache(workroom.cache).prune(
        key for photo in gathered.all_photographs for key in photo.cached_as()
    )


def _output(site_folder: Path, to: Path | None) -> Path:
    """The output folder, links resolved, if a site may stand there."""
    output = (to if to is not None else site_folder / "output").resolve()
    site = site_folder.resolve()
    if output.exists() and not output.is_dir():
        raise Unsuitable(f"{output} is a file, so no site can be built there")
    for kept in (site / "content", site / "themes", site / ".sitegen", site / ".git"):
        if output == kept or kept in output.parents:
            raise Unsuitable(f"{output} lies in {kept.name}/, which is the author's own")
    if output == site or output in site.parents:
        raise Unsuitable(f"{output} holds the site's own files; build into a folder of its own")
    return output
