"""JSON Schemas (draft 2020-12) of the files that an author writes, for editors to complete from.

They come from the models that check the files, and are no stricter than those: what an editor
underlines, ``sitegen check`` objects to as well. It finds more, for a schema can't read an ingredient
line. Source of the dialect: https://json-schema.org/draft/2020-12/schema.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

DIALECT = "https://json-schema.org/draft/2020-12/schema"


def recipe_schema(authors: Iterable[str] = ()) -> dict[str, Any]:
    """The front matter of a recipe; with a site's ``authors`` their keys are offered."""
    from sitegen.reading.frontmatter import RecipeFields
    from sitegen.reading.ingredient_schema import DEFINITIONS, LIST

    schema = _tidy(RecipeFields.model_json_schema(by_alias=True))
    schema["$defs"] |= DEFINITIONS
    schema["properties"]["ingredients"] |= LIST
    keys = sorted(authors)
    if keys:
        schema["properties"]["author"] = {
            "enum": [*keys, None],
            "description": schema["properties"]["author"]["description"],
        }
    return {"$schema": DIALECT, "title": "A recipe's fields", **schema}


def site_schema() -> dict[str, Any]:
    """``content/site.yaml``."""
    from sitegen.settings import schema

    return {"$schema": DIALECT, "title": "The settings of a site", **_tidy(schema())}


def _tidy(schema: Any, *, names: bool = False) -> Any:
    """A schema without the class names that Pydantic adds, and as loose about words as the reader.

    The reader takes every scalar as text, so ``title: 1984`` is a title; YAML makes it a number.
    ``names`` says that the keys are an author's fields, not JSON Schema's words.
    """
    if isinstance(schema, list):
        return [_tidy(item) for item in schema]
    if not isinstance(schema, dict):
        return schema
    if names:
        return {name: _tidy(value) for name, value in schema.items()}
    found: dict[str, Any] = {}
    for word, value in schema.items():
        if word == "title" or (word == "default" and value in (None, [], {})):
            continue
        if word in ("examples", "enum", "const", "default"):
            found[word] = value
        else:
            found[word] = _tidy(value, names=word in ("properties", "patternProperties", "$defs"))
    if found.get("type") == "string" and not found.keys() & {"enum", "pattern", "format"}:
        found["type"] = ["string", "number"]
    if "patternProperties" in found:  # a name of another form is a mistake, not a free field
        found["additionalProperties"] = False
    if isinstance(found.get("description"), str):
        found["description"] = found["description"].replace("``", "'")
    return found


def log_schema() -> dict[str, Any]:
    """A test log, ``<recipe>.trials.yaml``."""
    from sitegen.trials.read import LogFields, TrialFields

    schema = _tidy(LogFields.model_json_schema(by_alias=True))
    trial = _tidy(TrialFields.model_json_schema(by_alias=True))
    schema["properties"]["trials"]["items"] = trial
    return {"$schema": DIALECT, "title": "The test log of a recipe", **schema}
