"""``sitegen build``: read everything, lay everything out, and only then touch the output."""

from __future__ import annotations

import itertools
import os
import time
from collections import Counter
from collections.abc import Mapping
from concurrent.futures import ThreadPoolExecutor, as_completed
from dataclasses import dataclass, field
from pathlib import Path

from sitegen import faults
from sitegen.building.lock import only_one
from sitegen.building.placing import Placed, Staging, finish_interrupted, sweep
from sitegen.gathering import Gathered, Gatherer, Progress
from sitegen.images.photos import Photograph
from sitegen.pages import lay_out
from sitegen.pages.theme import Theme, load_theme
from sitegen.problems import Problem, in_order
from sitegen.workroom import Workroom


@dataclass(frozen=True, slots=True)
class BuildReport:
    """What a build found and did."""

    folder: Path
    """Where the site stands, or would have."""
    problems: tuple[Problem, ...]
    blocking: tuple[Problem, ...] = ()
    """The errors that kept the site from being built; empty when it was."""
    recipes: int = 0
    photos: int = 0
    drafts: int = 0
    """Left out."""
    pages: Mapping[str, int] = field(default_factory=dict)
    """Files by kind: ``recipe``, ``card``, ``list`` …"""
    placed: Placed = field(default_factory=Placed)
    seconds: float = 0.0
    finished_earlier: bool = False
    """Whether a build that had been killed was carried to its end first."""

    @property
    def done(self) -> bool:
        """Whether the site was built."""
        return not self.blocking


class Unsuitable(Exception):
    """A folder that a site must not be built into; in words for the author."""


def build(
    site_folder: Path, to: Path | None = None, progress: Progress = lambda *_: None
) -> BuildReport:
    """Build the site of ``site_folder`` into ``to`` (``output/`` in it unless given).

    With an error in any recipe that is to be published, nothing is written and the last site stays
    as it is. Raises :class:`~sitegen.building.lock.Busy`, :class:`~sitegen.building.placing.InTheWay` or
    :class:`Unsuitable`.
    """
    began = time.perf_counter()
    output = _output(site_folder, to)
    workroom = Workroom(site_folder)
    workroom.ready()
    with only_one(workroom.lock):
        finished = finish_interrupted(workroom)
        sweep(output)
        gathered = Gatherer(site_folder).gather(drafts=False, progress=progress)
        theme, theme_problems = load_theme(gathered.site)
        problems = tuple(in_order((*gathered.problems, *theme_problems)))
        blocking = (*gathered.blocking, *(p for p in theme_problems if p.severity == "error"))
        if blocking or theme is None:
            return BuildReport(
                output,
                problems,
                blocking,
                drafts=gathered.drafts,
                seconds=time.perf_counter() - began,
                finished_earlier=finished,
            )
        kinds: Counter[str] = Counter()
        staging = Staging(output, workroom)
        try:
            fault = _add_pages(gathered, theme, staging, kinds, progress)
            if fault is not None:
                return BuildReport(output, (*problems, fault), (fault,), drafts=gathered.drafts)
            for path, content in theme.assets().items():
                staging.add(path, content)
                kinds["asset"] += 1
            kinds["picture"] += _add_photos(gathered, staging, workroom, progress)
            placed = staging.put_in_place()
        finally:
            staging.discard()
    return BuildReport(
        output,
        problems,
        recipes=len(gathered.collection.dishes),
        photos=len(gathered.photographs),
        drafts=gathered.drafts,
        pages=dict(sorted(kinds.items())),
        placed=placed,
        seconds=time.perf_counter() - began,
        finished_earlier=finished,
    )


def _add_pages(
    gathered: Gathered, theme: Theme, staging: Staging, kinds: Counter[str], progress: Progress
) -> Problem | None:
    """Lay out and stage every page; the problem of the first that can't be laid out."""
    sets = {slug: photo.photo_set for slug, photo in gathered.photographs.items()}
    pages = lay_out(gathered.collection, theme, sets, preview=False)
    expected = 2 * len(gathered.collection.dishes)
    for count in itertools.count(1):
        try:
            page = next(pages, None)
        except Exception as error:  # a site's own template may raise anything
            return faults.of_page("a page", error, gathered.site.folder)
        if page is None:
            return None
        staging.add(page.path, page.content)
        kinds[page.kind] += 1
        progress("pages", count, max(expected, count))
    return None


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
