"""The test logs of a site, and what they have to say to its recipes."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from sitegen.gathering.reads import Read
from sitegen.memory import Memory
from sitegen.problems import Problem
from sitegen.site import Settings

if TYPE_CHECKING:
    from sitegen.trials.log import Log


class Logs:
    """Kept by their files."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder
        self._memory = Memory()
        self._by_recipe: dict[str, Log] = {}
        self.problems: dict[str, list[Problem]] = {}
        """By the log's or the recipe's file; only files that have any."""

    def renew(
        self,
        reads: Mapping[str, Read],
        again: Iterable[str],
        files: Sequence[str],
        names: Collection[str] | None,
        settings: Settings,
    ) -> None:
        """Read the logs that may have changed (all, if ``names`` is None), and hold them against
        their recipes and against the recipes that are read ``again``."""
        if not files and not settings.trials_needed:
            self._by_recipe.clear()
            self.problems.clear()
            return
        from sitegen.trials.shelf import read_logs, said_of_recipes

        wanted = list(files) if names is None else [file for file in files if file in names]
        logs, found = read_logs(self._folder, wanted, self._memory)
        if names is None:
            self._by_recipe = logs
            self.problems.clear()
        self._by_recipe |= logs
        recipes = {*again, *logs} if names is not None else set(reads)
        for file in (*wanted, *recipes):
            self.problems.pop(file, None)
        both = [(r.recipe, r.source) for f in sorted(recipes) if (r := reads.get(f))]
        sound = [(recipe, source) for recipe, source in both if recipe and source]
        said = said_of_recipes(sound, self._by_recipe, settings, self._memory)
        for problem in (*found, *said):
            self.problems.setdefault(problem.file, []).append(problem)

    def by_slug(self, reads: Mapping[str, Read]) -> dict[str, Log]:
        """The logs by their recipes' slugs."""
        from sitegen.reading.read import slug_of

        return {slug_of(file): log for file, log in self._by_recipe.items()}
