"""What each stage of a build costs for one recipe, in this process's own time.

    python tests/benchmarks/stages.py SITE [--recipes 150] [--turns 3] [--cold] [--profile STAGE]

Times are of the processor, not of the clock; the best of the turns counts. Every turn has dishes of
its own, as in a build, so that nothing is measured that was remembered from the turn before; a
recipe's card is laid out right after its page. Words and lines that recur are remembered, as in a
build; with ``--cold`` they are forgotten before every turn. With ``--profile`` the functions of one
stage are listed by their own time.
"""

from __future__ import annotations

import argparse
import cProfile
import pstats
import sys
import time
from collections import defaultdict
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from functools import _lru_cache_wrapper
from pathlib import Path
from typing import Any

ROOT = Path(__file__).parents[2]


class Watch:
    """Adds up what each stage takes, or profiles one of them."""

    recipes = 1

    def __init__(self, profiled: str = "") -> None:
        self.profiled, self.profile = profiled, cProfile.Profile()
        self.taken: dict[str, float] = defaultdict(float)

    @contextmanager
    def on(self, stage: str) -> Iterator[None]:
        """Watch what is done within."""
        if stage == self.profiled:
            self.profile.enable()
        began = time.process_time()
        yield
        self.taken[stage] += time.process_time() - began
        self.profile.disable()


def stages(site_folder: Path, recipes: int) -> Callable[[Watch], None]:
    """What does every stage once, each on what the one before left."""
    from sitegen.collection import Collection
    from sitegen.gathering import Gatherer
    from sitegen.kitchen.work_out import work_out
    from sitegen.pages.layout import Layout
    from sitegen.pages.theme import load_theme
    from sitegen.reading.read import read_recipe
    from sitegen.readthrough import read_through
    from sitegen.textfile import decode

    gathered = Gatherer(site_folder).gather(drafts=False)
    site, larder = gathered.site, gathered.larder
    assert larder is not None
    theme, _ = load_theme(site)
    assert theme is not None
    known = gathered.collection.dishes
    slugs = [slug for slug, dish in known.items() if not dish.uses][:recipes]
    files = [known[slug].recipe.file for slug in slugs]
    raws = [(site_folder / file).read_bytes() for file in files]
    sources: list[Any] = [decode(raw, file) for raw, file in zip(raws, files, strict=True)]
    settings = site.settings

    def turn(watch: Watch) -> None:
        watch.recipes = len(slugs)
        with watch.on("read"):
            read = [read_recipe(source, settings)[0] for source in sources]
        with watch.on("work out"):
            chosen = [work_out(r, larder, settings, {})[0] for r in read if r is not None]
        with watch.on("read through"):
            for dish, source in zip(chosen, sources, strict=True):
                list(read_through(dish, source, settings, larder))
        fresh = {
            slug: work_out(dish.recipe, larder, settings, {u: known[u] for u in dish.uses})[0]
            for slug, dish in known.items()
        }
        layout = Layout(Collection(site, fresh), theme, {}, preview=False)
        layout.relations  # noqa: B018 - once for all
        for slug in slugs:
            with watch.on("recipe page"):
                layout.recipe(fresh[slug])
            with watch.on("card"):
                layout.card(fresh[slug])
        with watch.on("lists"):
            for _, make in layout.lists():
                list(make())

    return turn


def forget() -> None:
    """Empty what the program remembers of words and lines, as if no recipe were like another."""
    for name, module in list(sys.modules.items()):
        if not name.startswith("sitegen."):
            continue
        for thing in vars(module).values():
            if isinstance(thing, _lru_cache_wrapper) and thing.cache_parameters()["maxsize"]:
                thing.cache_clear()


def main(arguments: Sequence[str] | None = None) -> int:
    """Measure, and print."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").partition("\n")[0])
    parser.add_argument("site", type=Path)
    parser.add_argument("--recipes", type=int, default=150)
    parser.add_argument("--turns", type=int, default=3)
    parser.add_argument("--cold", action="store_true", help="forget words and lines before a turn")
    parser.add_argument("--profile", default="")
    given = parser.parse_args(arguments)
    sys.path.insert(0, str(ROOT))
    turn = stages(given.site, given.recipes)
    turn(Watch())  # templates and modules are loaded once
    watches = [Watch(given.profile) for _ in range(1 if given.profile else given.turns)]
    for watch in watches:
        if given.cold:
            forget()
        turn(watch)
    if given.profile:
        pstats.Stats(watches[0].profile).strip_dirs().sort_stats("tottime").print_stats(45)
        return 0
    for stage in watches[0].taken:
        best = min(watch.taken[stage] for watch in watches)
        print(f"{stage:<14}{best / watches[0].recipes * 1000:7.2f} ms a recipe")
    return 0


if __name__ == "__main__":
    sys.exit(main())
