"""The fields of a file held against their model: the good ones, and a problem for every bad one."""

from __future__ import annotations

from typing import Any

from pydantic import BaseModel, ValidationError

from sitegen.problems import Problem, did_you_mean
from sitegen.reading.frontmatter import PhotoFields, SilenceFields, TimeFields, VideoFields
from sitegen.reading.yamltree import Path, Tree

_UNASKED = {
    "missing": "field-missing",
    "extra_forbidden": "unknown-field",
    "model_type": "wrong-type",
    "list_type": "wrong-type",
}


def check_fields(
    tree: Tree, model: type[BaseModel], file: str, problems: list[Problem]
) -> dict[str, Any]:
    """Validate ``tree`` by ``model``: the good fields by name, and a problem for every bad one."""
    try:
        checked = model.model_validate(tree.data)
        return {name: getattr(checked, name) for name in model.model_fields}
    except ValidationError as failure:
        bad: set[str] = set()
        errors = failure.errors(include_url=False, include_input=False)
        misspelt = _misspelt(model, errors)
        for error in errors:
            path: Path = tuple(error["loc"])
            if error["type"] == "missing" and path in misspelt:
                continue  # "serve: 6" is one mistake, not two
            bad.add(str(path[0]) if path else "")
            problems.append(_as_problem(tree, model, file, error["type"], path, error))
    good = {k: v for k, v in tree.data.items() if k not in bad}
    names = {(f.alias or n): n for n, f in model.model_fields.items()}
    partial: dict[str, Any] = {}
    for key, value in good.items():
        # the rest is still worth reading: one bad field must not hide mistakes in the others
        try:
            field_model = model.__pydantic_validator__.validate_assignment(
                model.model_construct(), names[key], value
            )
        except (ValidationError, KeyError):
            continue
        partial[names[key]] = getattr(field_model, names[key], None)
    return partial


def _misspelt(model: type[BaseModel], errors: Any) -> set[Path]:
    """The fields that an unknown field beside them was meant to be."""
    paths = [tuple(error["loc"]) for error in errors if error["type"] == "extra_forbidden"]
    found: set[Path] = set()
    for path in paths:
        near = did_you_mean(str(path[-1]), _known(model, path))
        if near:
            found.add((*path[:-1], near.split("'")[1]))
    return found


_NESTED = {
    "time": "write it as 'time: {prep: 25 min, cook: 1 h}'",
    "photo": "write it as 'photo: {file: broth.jpg, alt: what the picture shows}'",
    "video": "write file, title, alt, length and poster under it, two spaces further in",
    "steps": "write it as 'steps: {1: 0:05, 3: 0:40}'",
}


def _as_problem(
    tree: Tree, model: type[BaseModel], file: str, kind: str, path: Path, error: Any
) -> Problem:
    name = str(path[-1]) if path else ""
    rule = _UNASKED.get(kind, kind)
    if rule == "field-missing":
        place = tree.key_place(path[:-1]) if len(path) > 1 else tree.place(())
        owner = f" of '{path[-2]}'" if len(path) > 1 else ""
        return Problem(
            rule,
            "error",
            file,
            place.line,
            place.column,
            f"the field '{name}'{owner} is missing",
            f"add '{name}: …'",
        )
    if rule == "unknown-field":
        place = tree.key_place(path)
        known = _known(model, path)
        hint = did_you_mean(name, known) or f"the fields here are {', '.join(known)}"
        return Problem(
            rule,
            "error",
            file,
            place.line,
            place.column,
            f"there is no field '{name}'",
            hint,
            len(name),
        )
    place = tree.place(path)
    context = error.get("ctx") or {}
    said = context.get("said") or "fields of its own are expected here"
    hint = context.get("hint") or _NESTED.get(name, "write fields under it, two spaces further in")
    label = ": ".join(f"item {p + 1}" if isinstance(p, int) else str(p) for p in path)
    return Problem(rule, "error", file, place.line, place.column, f"{label}: {said}", hint)


def _known(model: type[BaseModel], path: Path) -> list[str]:
    nested: dict[str, type[BaseModel]] = {
        "time": TimeFields,
        "photo": PhotoFields,
        "video": VideoFields,
        "silence": SilenceFields,
    }
    for step in path[:-1]:
        model = nested.get(str(step), model)
    fields = model.model_fields
    return [f.alias or n for n, f in fields.items()]
