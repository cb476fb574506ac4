"""A recipe's test log as values."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from statistics import fmean
from typing import Literal, get_args

from sitegen.reading.recipe import NOWHERE
from sitegen.reading.source import Place

ENDING = ".trials.yaml"
"""What a log's name has in place of the recipe's ``.md``."""

Verdict = Literal["passed", "again", "dropped"]
"""``passed``: fit to print as it is. ``again``: to be changed and cooked again. ``dropped``: given up."""
VERDICTS: tuple[str, ...] = get_args(Verdict)
BEST = 10
"""The best mark, unless a log says otherwise."""


@dataclass(frozen=True, slots=True)
class Trial:
    """One cooking of a recipe, tasted."""

    number: int
    """Counted from 1 in the order of the file."""
    day: date
    recipe: str
    """The text of the recipe's file as it stood."""
    used: Mapping[str, str] = field(default_factory=dict)
    """File → text of the recipes among its ingredients, and among theirs, as they stood."""
    aim: str = ""
    tasters: tuple[str, ...] = ()
    scores: Mapping[str, tuple[float, ...]] = field(default_factory=dict)
    """Point → the tasters' marks; a point without a mark yet is there with none."""
    remarks: str = ""
    verdict: Verdict | None = None
    """None: not judged yet."""
    place: Place = NOWHERE

    def mean(self, point: str) -> float | None:
        """The mean mark of a point; None where nobody gave one."""
        marks = self.scores.get(point, ())
        return fmean(marks) if marks else None

    @property
    def overall(self) -> float | None:
        """The mean of all points' means: each point counts once, however many tasted it."""
        means = [m for m in map(self.mean, self.scores) if m is not None]
        return fmean(means) if means else None

    @property
    def untouched(self) -> bool:
        """Whether nothing has been written in it since it was opened."""
        said = self.aim or self.tasters or self.remarks or self.verdict
        return not said and not any(self.scores.values())


@dataclass(frozen=True, slots=True)
class Log:
    """All trials of one recipe, in the order of the file."""

    file: str
    """The path relative to the site's folder, with ``/``."""
    trials: tuple[Trial, ...] = ()
    best: int = BEST

    @property
    def recipe_file(self) -> str:
        """The recipe that it is the log of."""
        return recipe_of(self.file)

    @property
    def passed(self) -> int:
        """How many trials the recipe has passed."""
        return sum(trial.verdict == "passed" for trial in self.trials)

    @property
    def tested(self) -> int:
        """How many trials have been judged: what a page may tell."""
        return sum(trial.verdict is not None for trial in self.trials)

    @property
    def points(self) -> tuple[str, ...]:
        """Every point that was ever marked or asked for, in the order of its first trial."""
        return tuple(dict.fromkeys(point for trial in self.trials for point in trial.scores))

    def trial(self, number: int) -> Trial | None:
        """The trial of that number, if there is one."""
        return next((trial for trial in self.trials if trial.number == number), None)


def log_of(recipe_file: str) -> str:
    """The file that holds a recipe's log.

    >>> log_of("content/recipes/breads/rye-loaf.md")
    'content/recipes/breads/rye-loaf.trials.yaml'
    """
    return recipe_file.removesuffix(".md") + ENDING


def recipe_of(log_file: str) -> str:
    """The recipe that a log belongs to; the other way round from :func:`log_of`."""
    return log_file.removesuffix(ENDING) + ".md"
