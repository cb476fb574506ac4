"""The schemas that editors complete from agree with what the program reads.

Checked with ``jsonschema`` (https://pypi.org/project/jsonschema), by the JSON Schema draft 2020-12.
"""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

import pytest
import yaml
from click.testing import CliRunner
from jsonschema import Draft202012Validator

from sitegen.cli import main
from sitegen.reading.frontmatter import RecipeFields
from sitegen.reading.ingredient_schema import DEFINITIONS
from sitegen.reading.ingredients import LINE_FIELDS
from sitegen.reading.read import read_recipe, split
from sitegen.reading.source import Source
from sitegen.schemas import recipe_schema, site_schema
from sitegen.settings import field_names, read_settings
from sitegen.site import Settings
from tests.sites import SITE, recipe, write_site

CONTENT = Path(__file__).resolve().parent.parent / "content"


class CoreLoader(yaml.SafeLoader):
    """YAML 1.2's core schema, as YAML language servers read: dates stay words, ``yes`` is a word."""


CoreLoader.yaml_implicit_resolvers = {
    first: [
        (tag, pattern)
        for tag, pattern in rows
        if not tag.endswith(("timestamp", "bool")) or (tag.endswith("bool") and first in "tfTF")
    ]
    for first, rows in yaml.SafeLoader.yaml_implicit_resolvers.items()
}


def with_names(data: Any) -> Any:
    """As JSON has it: a key is a word, though it looks like a number."""
    if isinstance(data, dict):
        return {str(key): with_names(value) for key, value in data.items()}
    return [with_names(value) for value in data] if isinstance(data, list) else data


def as_an_editor_reads(text: str) -> Any:
    return with_names(yaml.load(text, Loader=CoreLoader))


def front_matter(text: str) -> Any:
    halves = split(Source("a.md", text), [])
    assert halves is not None
    return as_an_editor_reads(halves.yaml)


RECIPE = Draft202012Validator(recipe_schema())
SITE_FILE = Draft202012Validator(site_schema())


@pytest.mark.parametrize("schema", [recipe_schema(["ada"]), site_schema()])
def test_a_schema_is_a_schema(schema: dict[str, Any]) -> None:
    Draft202012Validator.check_schema(schema)
    assert schema["$schema"] == "https://json-schema.org/draft/2020-12/schema"


def test_every_recipe_of_the_demo_passes() -> None:
    files = sorted(CONTENT.glob("recipes/**/*.md"))
    assert len(files) > 20
    for file in files:
        errors = list(RECIPE.iter_errors(front_matter(file.read_text(encoding="utf-8"))))
        assert not errors, (file.name, [e.message for e in errors])


def test_the_settings_of_the_demo_pass() -> None:
    data = as_an_editor_reads((CONTENT / "site.yaml").read_text(encoding="utf-8"))
    assert [e.message for e in SITE_FILE.iter_errors(data)] == []


def with_fields(changed: str, to: str) -> str:
    text = recipe()
    assert changed in text
    return text.replace(changed, to, 1)


BROKEN = {
    "no title": with_fields("title: Lentil soup\n", ""),
    "a misspelt field": with_fields("serves: 4", "serve: 4"),
    "nobody served": with_fields("serves: 4", "serves: 0"),
    "a date in words": with_fields("2026-02-03", "3 February"),
    "a time without parts": with_fields("time: {prep: 10 min, cook: 30 min}", "time: 40 min"),
    "a time without a unit": with_fields("prep: 10 min", "prep: 10"),
    "an unknown part of the time": with_fields("{prep:", "{proof: 1 h, prep:"),
    "ingredients in one line": re.sub(r"(ingredients:)\n(?:  .*\n)+", r"\1 an onion\n", recipe()),
    "an ingredient with an unknown field": with_fields("    as: extra", "    called: extra"),
    "a part with two names": with_fields("  - 1 l water", "  - {A: [1 l water], B: [1 egg]}"),
    "a part that holds nothing": with_fields("  - 1 l water", "  - Broth: []"),
    "a share without a sign": with_fields("    as: extra", "    as: extra\n    eaten: half"),
    "a photo without words": with_fields("course: soup", "photo: {file: a.jpg}"),
    "tags in one word": with_fields("course: soup", "tags: soup"),
    "a silence without a reason": with_fields("course: soup", "silence: [{rule: portion}]"),
}


@pytest.mark.parametrize("text", BROKEN.values(), ids=BROKEN)
def test_what_an_editor_underlines_check_finds_too(text: str) -> None:
    assert list(RECIPE.iter_errors(front_matter(text))), "the schema lets it pass"
    _, problems = read_recipe(
        Source("a.md", text), Settings(authors=read_settings(Source("s", SITE))[0].authors)
    )
    assert problems, "the reader lets it pass"


LOOSE = {
    "a title that is a number": with_fields("Lentil soup", "1984"),
    "portions in quotes": with_fields("serves: 4", 'serves: "4"'),
    "an empty field": with_fields("course: soup", "course:"),
    "a tag that is a number": with_fields("course: soup", "tags: [soup, 30]"),
    "lines before parts": with_fields("  - 1 l water", "  - 1 l water\n  - Later: [1 egg]").replace(
        "  - line: 200 g red lentils\n    as: extra\n", "#\n"
    ),
}


@pytest.mark.parametrize("text", LOOSE.values(), ids=LOOSE)
def test_the_schema_is_no_stricter_than_the_reader(text: str) -> None:
    assert [e.message for e in RECIPE.iter_errors(front_matter(text))] == []


@pytest.mark.parametrize(
    "text",
    ["titel: A", "region: moon", "address: example.org", "menu: [{A: a.html, B: b.html}]",
     "authors: {ada: Ada}", "authors: {Ada Lind: {name: Ada}}", "colours: {accent: [1]}"],
)  # fmt: skip
def test_broken_settings_are_found_by_both(text: str) -> None:
    assert list(SITE_FILE.iter_errors(as_an_editor_reads(text)))
    assert read_settings(Source("content/site.yaml", text))[1]


def test_every_field_is_there_and_says_what_it_is_for() -> None:
    recipe_fields, site_fields = recipe_schema()["properties"], site_schema()["properties"]
    assert set(recipe_fields) == {f.alias or n for n, f in RecipeFields.model_fields.items()}
    assert set(site_fields) == set(field_names())
    assert set(DEFINITIONS["IngredientFields"]["properties"]) == set(LINE_FIELDS)
    for name, field in (*recipe_fields.items(), *site_fields.items()):
        assert field.get("description"), name


def test_authors_of_the_site_are_offered(tmp_path: Path) -> None:
    site = write_site(tmp_path)
    to = tmp_path / "recipe.schema.json"
    told = CliRunner().invoke(main, ["--site", str(site), "schema", "recipe", "--to", str(to)])
    assert told.exit_code == 0, told.output
    assert json.loads(to.read_text())["properties"]["author"]["enum"] == ["ada", None]


def test_a_file_that_is_no_schema_is_not_written_over(tmp_path: Path) -> None:
    notes = tmp_path / "notes.json"
    notes.write_text("{}")
    assert CliRunner().invoke(main, ["schema", "site", "--to", str(notes)]).exit_code == 1
    assert notes.read_text() == "{}"
