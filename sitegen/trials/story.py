"""A log told in order, each trial with what was changed since the one before; and any two compared."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from sitegen.dish import Dish
from sitegen.reading.read import slug_of
from sitegen.reading.recipe import Recipe
from sitegen.trials.again import Kitchen, cook_again, read_again
from sitegen.trials.changes import Change, changes
from sitegen.trials.compare import Comparison, Side, compare
from sitegen.trials.log import Log, Trial

if TYPE_CHECKING:
    from sitegen.gathering import Gathered

NOW = "now"
"""The recipe as it stands, in place of a trial's number."""


class NotComparable(Exception):
    """Why two versions can't be set side by side, in words for the author."""


@dataclass(frozen=True, slots=True)
class Told:
    """One trial, and what was changed for it."""

    trial: Trial
    changes: tuple[Change, ...] = ()
    since: int = 0
    """The trial that it is told against; 0: the first, or one of the two can't be read any more."""

    @property
    def said(self) -> tuple[str, ...]:
        """The changes in words; that there are none is said too."""
        if not self.since:
            return ()
        return tuple(c.words() for c in self.changes) or (f"as in trial {self.since}",)


def story(log: Log, gathered: Gathered) -> list[Told]:
    """All trials in order."""
    told: list[Told] = []
    last: tuple[int, Recipe | None, Mapping[str, Recipe]] | None = None
    for trial in log.trials:
        recipe, _ = read_again(log.recipe_file, trial.recipe, gathered.site.settings)
        used = _used(trial, gathered)
        found: tuple[Change, ...] = ()
        since = 0
        if last is not None and last[1] is not None and recipe is not None:
            since, found = last[0], changes(last[1], recipe) + _within(last[2], used)
        told.append(Told(trial, found, since))
        last = (trial.number, recipe, used)
    return told


def _used(trial: Trial, gathered: Gathered) -> dict[str, Recipe]:
    """The recipes that were recorded with a trial, as far as they can still be read."""
    settings = gathered.site.settings
    read = {file: read_again(file, text, settings)[0] for file, text in trial.used.items()}
    return {file: recipe for file, recipe in read.items() if recipe is not None}


def _within(before: Mapping[str, Recipe], after: Mapping[str, Recipe]) -> tuple[Change, ...]:
    """What was changed in recipes that both versions use."""
    return tuple(
        Change(c.kind, f"{after[file].title}, {c.what}", c.before, c.after)
        for file in sorted(before.keys() & after.keys())
        for c in changes(before[file], after[file])
    )


def compared(log: Log, gathered: Gathered, a: str, b: str) -> Comparison:
    """Two versions side by side; each is a trial's number or :data:`NOW`.

    Raises :class:`NotComparable`.
    """
    sides = (_side(log, gathered, a), _side(log, gathered, b))
    used = (_used_by(log, gathered, which) for which in (a, b))
    found = compare(*sides)
    return replace(found, changes=found.changes + _within(*used))


def _used_by(log: Log, gathered: Gathered, which: str) -> dict[str, Recipe]:
    trial = log.trial(int(which)) if which != NOW else None
    if trial is not None:
        return _used(trial, gathered)
    dishes = gathered.collection.dishes
    used = (dishes.get(slug) for slug in dishes[slug_of(log.recipe_file)].uses)
    return {dish.recipe.file: dish.recipe for dish in used if dish is not None}


def _side(log: Log, gathered: Gathered, which: str) -> Side:
    dishes = gathered.collection.dishes
    if which == NOW:
        dish = dishes.get(slug_of(log.recipe_file))
        if dish is None:
            raise NotComparable(f"{log.recipe_file} has mistakes to mend first")
        return Side("now", dish)
    trial = log.trial(int(which)) if which.isdecimal() else None
    if trial is None:
        numbers = ", ".join(str(t.number) for t in log.trials)
        raise NotComparable(f"there is no trial {which!r}; there are {numbers} and '{NOW}'")
    return Side(f"trial {trial.number}", _dish(log, trial, gathered))


def _dish(log: Log, trial: Trial, gathered: Gathered) -> Dish:
    assert gathered.larder is not None, "a gathered site has one"
    kitchen = Kitchen(gathered.site.settings, gathered.larder, gathered.collection.dishes)
    dish, problems = cook_again(log.recipe_file, trial.recipe, trial.used, kitchen)
    if dish is None:
        why = f": {problems[0].message} (its line {problems[0].line})" if problems else ""
        raise NotComparable(f"trial {trial.number} can't be worked out as it was recorded{why}")
    return dish
