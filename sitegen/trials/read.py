"""A test log's file → :class:`~sitegen.trials.log.Log`, with every mistake at its place."""

from __future__ import annotations

import re
from datetime import date
from typing import Annotated, Any, cast

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field, WithJsonSchema
from pydantic_core import PydanticCustomError

from sitegen.models import STRICT
from sitegen.problems import Problem, did_you_mean
from sitegen.reading.checking import check_fields
from sitegen.reading.source import Source
from sitegen.reading.values import Day, Text, Words
from sitegen.reading.yamltree import Path, Tree, read_yaml
from sitegen.trials.log import BEST, VERDICTS, Log, Trial, Verdict


def _wrong(rule: str, said: str, hint: str) -> PydanticCustomError:
    return PydanticCustomError(rule, "{said}", {"said": said, "hint": hint})


def _prose(value: Any) -> str:
    if not isinstance(value, str):
        raise _wrong("wrong-type", "words are expected here", "write them after a '|', indented")
    return value.strip()


def _exact(value: Any) -> str:
    if not isinstance(value, str) or not value.strip():
        hint = "'sitegen trial' writes it; without it the trial can't be compared"
        raise _wrong("trial-recipe", "the recipe as it was cooked is not here", hint)
    return value


def _used(value: Any) -> dict[str, str]:
    if not isinstance(value, dict):
        hint = "'sitegen trial' writes them, each file's name over its text"
        raise _wrong("trial-recipe", "the recipes used are not here", hint)
    return {str(file): _exact(text) for file, text in value.items()}


def _verdict(value: Any) -> str:
    if value not in VERDICTS:
        hint = did_you_mean(str(value), VERDICTS) or f"write one of: {', '.join(VERDICTS)}"
        raise _wrong("trial-verdict", f"'{value}' is no verdict", hint)
    return str(value)


def _points(value: Any) -> dict[str, Any]:
    if not isinstance(value, dict):
        hint = "write each point with its mark, as in 'crust: 7'"
        raise _wrong("trial-score", "the scores are not points with marks", hint)
    return value


def _marks(value: Any) -> tuple[float, ...]:
    marks = value if isinstance(value, list) else [] if value is None else [value]
    for mark in marks:
        if not isinstance(mark, str) or not re.fullmatch(r"\d{1,3}(?:[.,]\d{1,2})?", mark.strip()):
            found = f"'{mark}'" if isinstance(mark, str) else "what stands here"
            hint = "write a number, as in 'crust: 7', or one for each taster: 'crust: [7, 6.5]'"
            raise _wrong("trial-score", f"{found} is not a mark", hint)
    return tuple(float(mark.strip().replace(",", ".")) for mark in marks)


def _best(value: Any) -> int:
    if not isinstance(value, str) or not re.fullmatch(r"[1-9]\d{0,2}", value):
        raise _wrong("trial-best", f"'{value}' is not a best mark", "write a whole number: 10")
    return int(value)


_MARK: dict[str, Any] = {"type": ["number", "null"], "minimum": 0}
_Marks = Annotated[
    Any,
    BeforeValidator(_marks),
    WithJsonSchema({"anyOf": [_MARK, {"type": "array", "items": _MARK}]}),
]
_Prose = Annotated[str, BeforeValidator(_prose)]
_Exact = Annotated[str, BeforeValidator(_exact)]
_Verdict = Annotated[
    Any, BeforeValidator(_verdict), WithJsonSchema({"type": "string", "enum": list(VERDICTS)})
]
_Scores = Annotated[dict[str, _Marks], BeforeValidator(_points)]
_Used = Annotated[
    Any,
    BeforeValidator(_used),
    WithJsonSchema({"type": "object", "additionalProperties": {"type": "string"}}),
]
_Best = Annotated[int, BeforeValidator(_best), WithJsonSchema({"type": "integer", "minimum": 1})]


class _Model(BaseModel):
    model_config = STRICT | ConfigDict(populate_by_name=True)


class TrialFields(_Model):
    """One cooking of the recipe, tasted."""

    day: Day = Field(alias="date", description="the day it was cooked")
    aim: Text | None = Field(None, description="what this trial was to find out")
    tasters: Words | None = Field(None, description="who tasted", examples=[["Ines", "Tobias"]])
    scores: _Scores | None = Field(
        None,
        description="points of your own choosing, each with a mark or one mark a taster",
        examples=[{"crust": 7, "salt": [6, 8]}],
    )
    remarks: _Prose | None = Field(None, description="what was seen, said and thought")
    verdict: _Verdict | None = Field(
        None, description="passed: fit to print; again: change and cook again; dropped: given up"
    )
    recipe: _Exact = Field(description="the recipe's text as it was cooked, recorded for you")
    used: _Used | None = Field(
        None, description="the texts of the recipes among its ingredients, recorded for you"
    )


class LogFields(_Model):
    """The test log of one recipe. It is private: no page is made from it."""

    best: _Best = Field(BEST, alias="out of", description="the best mark; 10 unless said")
    trials: Any = Field(
        None,
        description="in the order of cooking",
        json_schema_extra={"type": ["array", "null"]},
    )


def read_log(source: Source) -> tuple[Log, list[Problem]]:
    """Every trial that can be understood, and every mistake; one trial's never hide another's."""
    problems: list[Problem] = []
    tree = read_yaml(source, source.text, problems)
    if tree is None:
        return Log(source.file), problems
    head = check_fields(tree, LogFields, source.file, problems)
    best = head.get("best") or BEST
    entries = tree.data.get("trials")
    if entries is not None and not isinstance(entries, list):
        place = tree.place(("trials",))
        problems.append(
            Problem(
                "wrong-type",
                "error",
                source.file,
                place.line,
                place.column,
                "the trials are not a list",
                "begin each trial with '- date: …'",
            )
        )
        entries = None
    trials: list[Trial] = []
    for index, entry in enumerate(entries or ()):
        trial = _trial(entry, index, tree, source.file, best, problems)
        if trial is not None:
            trials.append(trial)
    log = Log(source.file, tuple(trials), best)
    problems += _doubts(log, tree)
    return log, problems


def _trial(
    entry: Any, index: int, tree: Tree, file: str, best: int, problems: list[Problem]
) -> Trial | None:
    at: Path = ("trials", index)
    here = tree.place(at)
    if not isinstance(entry, dict):
        message = f"trial {index + 1} is not a block of fields"
        hint = "write its date, tasters, scores, remarks and verdict, each on a line"
        problems.append(
            Problem("trial-shape", "error", file, here.line, here.column, message, hint)
        )
        return None
    found: list[Problem] = []
    fields = check_fields(_subtree(tree, at, entry), TrialFields, file, found)
    scores = cast("dict[str, tuple[float, ...]]", fields.get("scores") or {})
    tasters = tuple(fields.get("tasters") or ())
    for point, marks in scores.items():
        place = tree.place((*at, "scores", point))
        if any(mark > best for mark in marks):
            message = f"{point}: {max(marks):g} is more than the best mark, {best}"
            hint = f"write 0 to {best}, or 'out of: …' at the head of the file"
            found.append(
                Problem("trial-score", "error", file, place.line, place.column, message, hint)
            )
        if tasters and len(marks) > max(1, len(tasters)):
            message = f"{point}: {len(marks)} marks, but {len(tasters)} tasted"
            hint = "name every taster, or take a mark away"
            found.append(
                Problem("trial-score", "error", file, place.line, place.column, message, hint)
            )
    problems += found
    if not isinstance(fields.get("day"), date) or not fields.get("recipe"):
        return None
    return Trial(
        number=index + 1,
        day=fields["day"],
        recipe=fields["recipe"],
        used=fields.get("used") or {},
        aim=fields.get("aim") or "",
        tasters=tasters,
        scores=scores,
        remarks=fields.get("remarks") or "",
        verdict=cast("Verdict | None", fields.get("verdict")),
        place=here,
    )


def _subtree(tree: Tree, at: Path, data: dict[str, Any]) -> Tree:
    """One entry as a tree of its own, its places those of the file."""
    depth = len(at)
    return Tree(
        data,
        {path[depth:]: place for path, place in tree.values.items() if path[:depth] == at},
        {path[depth:]: place for path, place in tree.keys.items() if path[:depth] == at},
    )


def _doubts(log: Log, tree: Tree) -> list[Problem]:
    """What may be a slip: days out of order, and a point named once and nearly like another."""
    found: list[Problem] = []
    for before, trial in zip(log.trials, log.trials[1:], strict=False):
        if trial.day < before.day:
            place = tree.place(("trials", trial.number - 1, "date"))
            message = f"trial {trial.number} is of {trial.day}, before trial {before.number}'s day"
            hint = "look at the two dates; trials stand in the order of cooking"
            found.append(
                Problem("trial-order", "advice", log.file, place.line, place.column, message, hint)
            )
    uses: dict[str, list[int]] = {}
    for trial in log.trials:
        for point in trial.scores:
            uses.setdefault(point, []).append(trial.number)
    for point, numbers in uses.items():
        others = [other for other in uses if len(uses[other]) > len(numbers)]
        hint = did_you_mean(point, others) if len(numbers) == 1 else ""
        if hint:
            place = tree.key_place(("trials", numbers[0] - 1, "scores", point))
            message = f"the point '{point}' is marked in this trial only"
            found.append(
                Problem(
                    "trial-point",
                    "advice",
                    log.file,
                    place.line,
                    place.column,
                    message,
                    hint,
                    len(point),
                )
            )
    return found
