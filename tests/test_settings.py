"""``site.yaml``: every mistake at its line and column, and the rest of the file still understood."""

from __future__ import annotations

from pathlib import Path

import pytest

from sitegen.problems import Problem
from sitegen.reading.source import Source
from sitegen.settings import field_names, load_site, read_settings, schema
from sitegen.site import Author, MenuItem, Settings


def read(text: str) -> tuple[Settings, list[Problem]]:
    return read_settings(Source("content/site.yaml", text))


def test_every_field_is_read() -> None:
    settings, problems = read(
        """\
title: The Shared Table
address: https://shared-table.example/food/
language: en-GB
region: eu
units: us
theme: sheet
description: A kitchen by the sea.
caution: Take care.
method heading: How
authors:
  ines: {name: Ines Varrow, about: Runs the kitchen.}
menu:
  - All recipes: recipes/index.html
  - Elsewhere: https://elsewhere.example/
colours:
  accent: "#a4362b"
"""
    )
    assert problems == []
    assert settings == Settings(
        title="The Shared Table",
        address="https://shared-table.example/food",
        language="en-GB",
        region="eu",
        units="us",
        theme="sheet",
        description="A kitchen by the sea.",
        caution="Take care.",
        method_heading="How",
        authors={"ines": Author("ines", "Ines Varrow", "Runs the kitchen.")},
        menu=(
            MenuItem("All recipes", "recipes/index.html"),
            MenuItem("Elsewhere", "https://elsewhere.example/"),
        ),
        colours={"accent": "#a4362b"},
    )


def test_an_empty_file_means_the_defaults() -> None:
    assert read("# nothing yet\n") == (Settings(), [])


@pytest.mark.parametrize(
    ("line", "column", "length", "rule", "hint"),
    [
        ("titel: X", 1, 5, "unknown-field", "did you mean 'title'?"),
        ('title: ""', 9, 1, "empty-field", "write its value"),
        ("address: kitchen", 10, 7, "site-address", "https://"),
        ("address: https://a.example/?q=1", 10, 22, "site-address", "before that sign"),
        ("address: https://a.example:port", 10, 22, "site-address", "https://"),
        ("language: English", 11, 7, "site-language", "en-GB"),
        ("region: ukk", 9, 3, "site-choice", "did you mean 'uk'?"),
        ("units: stones", 8, 6, "site-choice", "metric, us"),
        ("theme: ../x", 8, 4, "site-name", "hyphens"),
        ("title: [a, b]", 8, 1, "field-shape", "words"),
        ("authors: [ines]", 10, 1, "field-shape", "name: value"),
        ("authors: {ines: {nam: Ines, name: I}}", 18, 3, "unknown-field", "did you mean 'name'?"),
        ("authors: {ines: {about: x}}", 17, 1, "missing-field", "name"),
        ("authors: {Ines V: {name: x}}", 11, 6, "site-name", "hyphens"),
        ("menu: {a: b}", 7, 1, "field-shape", "list"),
        ("menu: [{a: b, c: d}]", 8, 1, "site-menu", "All recipes"),
        ('menu: [{a: "javascript:alert(1)"}]', 13, 19, "site-link", "https://"),
        ('colours: {accent: "red; } body {"}', 20, 13, "site-colour", "CSS"),
    ],
)
def test_a_mistake_is_found_at_its_place_and_the_rest_is_kept(
    line: str, column: int, length: int, rule: str, hint: str
) -> None:
    settings, problems = read(f"description: kept\n{line}\n")
    assert [(p.rule, p.line, p.column, p.length) for p in problems] == [(rule, 2, column, length)]
    assert problems[0].severity == "error"
    assert hint in problems[0].hint
    assert settings == Settings(description="kept")


def test_all_mistakes_are_found_in_one_run() -> None:
    _, problems = read("titel: X\nregion: mars\nunits: stones\naddress: no\n")
    assert sorted(p.line for p in problems) == [1, 2, 3, 4]


def test_a_file_that_is_not_yaml_or_not_text_is_a_problem(tmp_path: Path) -> None:
    (tmp_path / "content").mkdir()
    for raw in (b"title: 'open\n", b"title: Cr\xe8me\n", b"- a\n- b\n"):
        (tmp_path / "content" / "site.yaml").write_bytes(raw)
        site, problems = load_site(tmp_path)
        assert site.settings == Settings()
        assert [p.severity for p in problems] == ["error"]
        assert problems[0].file == "content/site.yaml"


def test_the_schema_for_editors_names_every_field() -> None:
    assert tuple(schema()["properties"]) == field_names()
    assert schema()["additionalProperties"] is False


def test_faces_are_names_with_commas_and_nothing_else() -> None:
    good = "fonts:\n  headings: Georgia, 'Noto Serif', serif\n"
    settings, problems = read(good)
    assert problems == []
    assert settings.fonts == {"headings": "Georgia, 'Noto Serif', serif"}
    for wrong in ("x; color: red", "url(a.woff)", "a }", "'half, serif", ""):
        _, problems = read(f'fonts:\n  headings: "{wrong}"\n')
        assert [(p.line, p.severity) for p in problems] == [(2, "error")], wrong
