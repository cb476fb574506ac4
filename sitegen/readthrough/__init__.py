"""The read-through: what a good editor does before a recipe is printed.

Each rule is one small file with one function, ``check(reading) -> Iterator[Finding]``, and one row of
:data:`~sitegen.readthrough.table.RULES`. Rules look at a whole, worked-out dish; what can't be read or
worked out at all is said before they run, by :mod:`sitegen.reading` and :mod:`sitegen.kitchen`.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from sitegen.dish import Dish
from sitegen.larder.larder import Larder
from sitegen.problems import Problem
from sitegen.reading.recipe import Silence
from sitegen.reading.source import Source
from sitegen.readthrough.rule import Finding, Reading, Rule
from sitegen.readthrough.silence import idle, silenced_by
from sitegen.readthrough.table import BY_NAME, RULES
from sitegen.site import Settings

__all__ = ["BY_NAME", "RULES", "read_across", "read_through"]


def read_through(dish: Dish, source: Source, settings: Settings, larder: Larder) -> list[Problem]:
    """Every finding of every rule that nobody silenced, and silences that silence nothing."""
    reading = Reading(dish, source, settings, larder)
    problems: list[Problem] = []
    used: set[Silence] = set()
    hushed = {hush.rule for hush in settings.silences}
    for rule in RULES:
        if rule.name in hushed:
            continue
        if (
            dish.partial and rule.of_batch
        ):  # what it would say follows from the other recipe's mistakes
            used.update(s for s in dish.recipe.silences if s.rule == rule.name)
            continue
        if rule.over_site is not None:  # whether its silences are idle, one dish can't tell
            used.update(s for s in dish.recipe.silences if s.rule == rule.name)
            continue
        for finding in rule.check(reading):
            silence = silenced_by(dish.recipe, rule.name, finding)
            if silence is not None:
                used.add(silence)
                continue
            problems.append(_problem(rule, finding, dish.recipe.file))
    problems.extend(idle(dish.recipe, used, (rule.name for rule in RULES)))
    return problems


def read_across(dishes: Iterable[Dish], settings: Settings) -> Iterator[Problem]:
    """What is found only where a site's dishes are set side by side, and nobody silenced."""
    by_file = sorted(dishes, key=lambda dish: dish.recipe.file)
    hushed = {hush.rule for hush in settings.silences}
    for rule in RULES:
        if rule.over_site is not None and rule.name not in hushed:
            for dish, finding in rule.over_site(by_file):
                if silenced_by(dish.recipe, rule.name, finding) is None:
                    yield _problem(rule, finding, dish.recipe.file)


def _problem(rule: Rule, finding: Finding, file: str) -> Problem:
    return Problem(
        rule.name,
        rule.severity,
        file,
        finding.place.line,
        finding.place.column,
        finding.message,
        finding.hint,
        finding.length,
        rule.why,
    )
