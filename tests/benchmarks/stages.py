"""What each stage of a build costs for one recipe, in this process's own time.

    python tests/benchmarks/stages.py SITE [--recipes 150] [--turns 3] [--profile STAGE]

Times are of the processor, not of the clock; the best of the turns counts. With ``--profile`` the
functions of one stage are listed by their own time.
"""

from __future__ import annotations

import argparse
import cProfile
import pstats
import sys
import time
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

ROOT = Path(__file__).parents[2]


def stages(site_folder: Path, recipes: int) -> dict[str, Callable[[], list[Any]]]:
    """The stages by name, in order; each works on what the one before left."""
    from sitegen.collection import Collection
    from sitegen.gathering import Gatherer
    from sitegen.kitchen.work_out import work_out
    from sitegen.pages.layout import _Layout
    from sitegen.pages.theme import load_theme
    from sitegen.reading.read import read_recipe
    from sitegen.readthrough import read_through
    from sitegen.textfile import decode

    gathered = Gatherer(site_folder).gather(drafts=False)
    site, larder = gathered.site, gathered.larder
    assert larder is not None
    theme, _ = load_theme(site)
    assert theme is not None
    dishes = gathered.collection.dishes
    chosen = [dish for dish in dishes.values() if not dish.uses][:recipes]
    raws = [((site_folder / d.recipe.file).read_bytes(), d.recipe.file) for d in chosen]
    sources = [decode(raw, file) for raw, file in raws]
    layout = _Layout(Collection(site, dishes, (), {}), theme, {}, preview=False)
    layout.relations  # noqa: B018 - once for all
    return {
        "read": lambda: [read_recipe(s, site.settings) for s in sources],  # type: ignore[arg-type]
        "work out": lambda: [work_out(d.recipe, larder, site.settings, {}) for d in chosen],
        "read through": lambda: [
            list(read_through(d, s, site.settings, larder))  # type: ignore[arg-type]
            for d, s in zip(chosen, sources, strict=True)
        ],
        "recipe page": lambda: [layout.recipe(d) for d in chosen],
        "card": lambda: [layout.card(d) for d in chosen],
        "lists": lambda: [page for _, make in layout.lists() for page in make()],
    }


def main(arguments: Sequence[str] | None = None) -> int:
    """Measure, and print."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").partition("\n")[0])
    parser.add_argument("site", type=Path)
    parser.add_argument("--recipes", type=int, default=150)
    parser.add_argument("--turns", type=int, default=3)
    parser.add_argument("--profile", default="")
    given = parser.parse_args(arguments)
    sys.path.insert(0, str(ROOT))
    for name, work in stages(given.site, given.recipes).items():
        if given.profile and name != given.profile:
            continue
        work()
        if given.profile:
            profile = cProfile.Profile()
            profile.runcall(work)
            pstats.Stats(profile).strip_dirs().sort_stats("tottime").print_stats(45)
            continue
        taken = []
        for _ in range(given.turns):
            began = time.process_time()
            work()
            taken.append(time.process_time() - began)
        print(f"{name:<14}{min(taken) / given.recipes * 1000:7.2f} ms a recipe", flush=True)
    return 0


if __name__ == "__main__":
    sys.exit(main())
