"""All of a site's test logs, and what they have to say to its recipes."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from functools import partial
from pathlib import Path

from sitegen.memory import Memory, Same, mark
from sitegen.problems import Problem
from sitegen.reading.recipe import Recipe
from sitegen.reading.source import Place, Source
from sitegen.site import Settings
from sitegen.textfile import decode, read_bytes
from sitegen.trials.again import read_again
from sitegen.trials.changes import changes
from sitegen.trials.log import Log, log_of, recipe_of
from sitegen.trials.read import read_log


def read_logs(
    folder: Path, files: Iterable[str], memory: Memory
) -> tuple[dict[str, Log], list[Problem]]:
    """The logs in ``files``, by the recipe's file, and every mistake in them."""
    logs: dict[str, Log] = {}
    problems: list[Problem] = []
    for file in files:
        if not (folder / recipe_of(file)).is_file():
            recipe = recipe_of(file)
            message = f"this is the test log of {recipe}, which is not there"
            hint = "if the recipe has another name now, give the log that name too"
            problems.append(Problem("trials-alone", "advice", file, 0, 0, message, hint))
        log, found = _one(folder, file, memory)
        problems += found
        logs[recipe_of(file)] = log
    return logs, problems


def _one(folder: Path, file: str, memory: Memory) -> tuple[Log, list[Problem]]:
    raw = read_bytes(folder, file)
    if isinstance(raw, Problem):
        return Log(file), [raw]

    def read() -> tuple[Log, list[Problem]]:
        source = decode(raw, file)
        if isinstance(source, Problem):
            return Log(file), [] if source.rule == "file-empty" else [source]
        return read_log(source)

    return memory.recall(f"log {file}", (mark(raw),), read)


def said_of_recipes(
    recipes: Iterable[tuple[Recipe, Source]],
    logs: Mapping[str, Log],
    settings: Settings,
    memory: Memory,
) -> Iterator[Problem]:
    """Recipes that are held back from publishing, and those that are no longer what passed."""
    for recipe, source in recipes:
        log = logs.get(recipe.file)
        held = _held_back(recipe, log, settings)
        if held is not None:
            yield held
        elif log is not None and log.passed and recipe.published is not None:
            yield from memory.recall(
                f"log and recipe {recipe.file}",
                (Same(recipe), Same(log), Same(settings)),
                partial(_changed_since, recipe, source.text, log, settings),
            )


def _held_back(recipe: Recipe, log: Log | None, settings: Settings) -> Problem | None:
    day, needed = recipe.published, settings.trials_needed
    if day is None or not needed or (settings.trials_since and day < settings.trials_since):
        return None
    passed = log.passed if log else 0
    if passed >= needed:
        return None
    place = recipe.places.get("published", Place(1, 1))
    have = "none" if not passed else f"{passed}"
    trials = "1 passed trial" if needed == 1 else f"{needed} passed trials"
    message = f"this site publishes a recipe after {trials}; this one has {have}"
    where = log_of(recipe.file)
    hint = (
        f"write 'verdict: passed' in {where} when it has, or take 'published' away to keep a draft"
    )
    return Problem(
        "held-back", "error", recipe.file, place.line, place.column, message, hint, len("published")
    )


_WORDS_ONLY = ("published:", "updated:", "summary:", "author:", "tags:", "photo:", "#")
"""How lines begin that no cook weighs, times or heats by."""


def _changed_since(recipe: Recipe, text: str, log: Log, settings: Settings) -> list[Problem]:
    """What a cook would weigh, time or heat differently from the last version that passed."""
    trial = next(t for t in reversed(log.trials) if t.verdict == "passed")
    if _cooked_by(text) == _cooked_by(trial.recipe):  # nearly always, and reading it again costs
        return []
    passed, _ = read_again(recipe.file, trial.recipe, settings)
    if passed is None:
        return []
    telling = ("amount", "time", "temperature")
    found = [c.words() for c in changes(passed, recipe) if c.kind in telling]
    if not found:
        return []
    more = f" and {len(found) - 3} more" if len(found) > 3 else ""
    place = recipe.places.get("title", Place(1, 1))
    message = f"changed since it last passed (trial {trial.number}): {'; '.join(found[:3])}{more}"
    hint = f"cook it as it stands, or set it back to what was tested; see {log.file}"
    return [
        Problem(
            "untested-change", "advice", recipe.file, place.line, place.column, message, hint, 5
        )
    ]


def _cooked_by(text: str) -> list[str]:
    return [line for line in text.split("\n") if not line.startswith(_WORDS_ONLY)]
