"""What Pydantic says of ``site.yaml``, said to its author: where it stands, and how to mend it."""

from __future__ import annotations

import re
from collections.abc import Iterator

from pydantic_core import ErrorDetails

from sitegen.problems import Problem, did_you_mean
from sitegen.reading.source import Source
from sitegen.reading.yamltree import Tree
from sitegen.settings.fields import (
    LeftOutFields,
    PaidLinks,
    Person,
    Silence,
    TargetFields,
    Trials,
    field_names,
)
from sitegen.settings.values import SECRET_HINT, SECRETIVE

_SHAPES = {
    "string_type": "words",
    "dict_type": "a block of 'name: value' lines",
    "model_type": "a block of 'name: value' lines",
    "list_type": "a list, one '- …' a line",
}
_SHAPE_FOUND = {"dict": "a block of lines", "list": "a list"}


def problem_of(error: ErrorDetails, tree: Tree, source: Source) -> Problem:
    """One of Pydantic's errors at its place in the file, in words that help its author."""
    path = tuple(step for step in error["loc"] if step != "[key]")
    of_key = error["type"] == "extra_forbidden" or "[key]" in error["loc"]
    place = tree.key_place(path) if of_key or not _has_value(path, tree) else tree.place(path)
    name = next((str(step) for step in reversed(path) if isinstance(step, str)), "")
    rule, message, hint = _words(error, path, name)
    length = len(name) if of_key else _length(error["input"])
    return Problem(rule, "error", source.file, place.line, place.column, message, hint, length)


def _has_value(path: tuple[str | int, ...], tree: Tree) -> bool:
    return path in tree.values


def _length(found: object) -> int:
    return len(found) if isinstance(found, str) and "\n" not in found and found else 1


def _words(error: ErrorDetails, path: tuple[str | int, ...], name: str) -> tuple[str, str, str]:
    """The rule, the message and the hint for one of Pydantic's errors."""
    kind, context = error["type"], error.get("ctx", {})
    if kind == "extra_forbidden" and SECRETIVE.search(name):
        return "secret-in-site", f"{name!r} must not stand in a site's files", SECRET_HINT
    if kind == "extra_forbidden":
        inner = {
            "nutrition": ("net carbohydrate",),
            "silence": tuple(Silence.model_fields),
            "targets": tuple(TargetFields.model_fields),
            "trials": tuple(Trials.model_fields),
            "paid links": tuple(PaidLinks.model_fields),
            "without cautions": tuple(LeftOutFields.model_fields),
        }.get(str(path[0]), tuple(Person.model_fields))
        known = field_names() if len(path) == 1 else inner
        hint = did_you_mean(name, known) or f"the fields are: {', '.join(known)}"
        return "unknown-field", f"there is no field {name!r} here", hint
    if kind == "literal_error":
        choices = list(_literals(str(context.get("expected", ""))))
        hint = did_you_mean(str(error["input"]), choices) or f"write one of: {', '.join(choices)}"
        return "site-choice", f"{name} is {error['input']!r}, which is not one of them", hint
    if kind == "missing":
        return "missing-field", f"{_where(path[:-1])} has no {name!r}", f"add a line '{name}: …'"
    if kind == "string_too_short" or error["input"] is None:
        return "empty-field", f"{name!r} is empty", "write its value, or delete the line"
    if kind in _SHAPES:
        found = _SHAPE_FOUND.get(type(error["input"]).__name__, "words")
        return "field-shape", f"{name!r} is {found}", f"it must be {_SHAPES[kind]}"
    hint = str(context.get("hint", ""))
    message = error["msg"] if hint else f"{name}: {error['msg'].lower()}"
    return (kind if hint else "site-field"), message, hint


def _literals(expected: str) -> Iterator[str]:
    """Pydantic's ``'us', 'uk' or 'eu'``, taken apart."""
    return (match[1] for match in re.finditer(r"'([^']*)'", expected))


def _where(path: tuple[str | int, ...]) -> str:
    return ".".join(str(step) for step in path) or "the file"
