"""Findings that an author or a site means to keep, each with a reason."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator

from sitegen.problems import Problem, did_you_mean
from sitegen.reading.naming import tokens
from sitegen.reading.recipe import IngredientLine, Recipe, Silence
from sitegen.readthrough.rule import Finding


def silenced_by(recipe: Recipe, rule: str, finding: Finding) -> Silence | None:
    """The silence of the recipe that covers a finding, if one does."""
    for silence in recipe.silences:
        if silence.rule != rule:
            continue
        if silence.ingredient and not _is_about(recipe, finding, silence.ingredient):
            continue
        if silence.step and silence.step != _step_at(recipe, finding.place.line):
            continue
        return silence
    return None


def _is_about(recipe: Recipe, finding: Finding, name: str) -> bool:
    if finding.line < 0:
        return False
    line: IngredientLine = recipe.lines[finding.line]
    wanted = set(tokens(name))
    return bool(wanted) and wanted <= set(tokens(f"{line.called} {line.food}"))


def _step_at(recipe: Recipe, line: int) -> int:
    """The number of the step that a line of the file belongs to; 0 before the first."""
    return max((s.number for s in recipe.steps if s.place.line <= line), default=0)


def idle(recipe: Recipe, used: Collection[Silence], known: Iterable[str]) -> Iterator[Problem]:
    """Silences of a recipe that silence nothing, and names that no rule has."""
    if not recipe.silences:
        return
    names = list(known)
    for silence in recipe.silences:
        if silence.rule in names and silence in used:
            continue
        place = silence.place
        if silence.rule in names:
            message = f"this silences '{silence.rule}', and there is nothing to silence any more"
            hint = "take it out"
        else:
            message = f"there is no rule '{silence.rule}' in the read-through"
            hint = did_you_mean(silence.rule, names) or _what_is_there(silence.rule)
        yield Problem(
            "silence-idle", "advice", recipe.file, place.line, place.column, message, hint,
            len(silence.rule),
        )  # fmt: skip


def _what_is_there(name: str) -> str:
    from sitegen.kitchen.cautions import KEYS

    if name in KEYS:
        return (
            "a safety caution can be taken off a page only by the site's owner, signed, under "
            "'without cautions' in site.yaml"
        )
    return "'sitegen rules' lists their names"
