"""``check --format sarif`` holds to SARIF 2.1.0.

Checked against the standard's published JSON Schema (version 2.1.0-rtm.5, as the npm package
``@microsoft/jest-sarif`` carries it) and, where a schema says nothing, against the text of the OASIS
Standard *SARIF Version 2.1.0 Plus Errata 01* (2023), by section.
"""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner
from jsonschema import Draft4Validator

from sitegen.cli import main
from sitegen.problems import Problem
from sitegen.sarif import as_sarif
from tests.sites import SOUP, recipe, write_site

LINES = {
    1: "---",
    2: "title: Crème 𝄞 brûlée",
    3: "serve: 4",
}
SOME = [
    Problem("unknown-field", "error", "content/recipes/crème à 100 %.md", 3, 1,
            "there is no field 'serve'", "did you mean 'serves'?", 5),
    Problem("odd", "advice", "content/recipes/crème à 100 %.md", 2, 16, "wide letters", "", 6),
    Problem("past-the-end", "advice", "content/recipes/a.md", 3, 9, "nothing after this", "", 40),
    Problem("same-address", "error", "content/recipes/a.md", 0, 0, "two of one name", "rename"),
    Problem("odd", "advice", "content/recipes/b.md", 2, 1, "again"),
]  # fmt: skip


def made(problems: list[Problem], why: dict[str, str] | None = None) -> dict[str, Any]:
    log: dict[str, Any] = json.loads(as_sarif(problems, lambda p: LINES.get(p.line, ""), why))
    return log


@pytest.fixture(scope="module")
def errors_of(node_file: Callable[[str], Path]) -> Callable[[Any], list[str]]:
    file = node_file("@microsoft/jest-sarif/lib/schemas/sarif-2.1.0-rtm.5.json")
    schema = json.loads(file.read_text(encoding="utf-8"))
    validator = Draft4Validator(schema)
    return lambda log: [f"{e.json_path}: {e.message}" for e in validator.iter_errors(log)]


@pytest.mark.parametrize("problems", [[], SOME])
def test_it_is_valid_by_the_published_schema(
    problems: list[Problem], errors_of: Callable[[Any], list[str]]
) -> None:
    assert errors_of(made(problems, {"odd": "Because."})) == []


def test_the_schema_does_find_mistakes(errors_of: Callable[[Any], list[str]]) -> None:
    log = made(SOME)
    log["runs"][0]["results"][0]["level"] = "advice"
    assert errors_of(log)


def region(problem: Problem) -> Any:
    [result] = made([problem])["runs"][0]["results"]
    return result["locations"][0]["physicalLocation"].get("region")


def test_columns_count_characters_and_end_after_the_last() -> None:
    assert made([])["runs"][0]["columnKind"] == "unicodeCodePoints"  # 3.14.17
    # 3.30.8: endColumn is one greater than the column of the last character
    assert region(SOME[0]) == {"startLine": 3, "startColumn": 1, "endColumn": 6}
    assert LINES[2][16 - 1 : 22 - 1] == "brûlée"
    assert region(SOME[1]) == {"startLine": 2, "startColumn": 16, "endColumn": 22}


def test_no_region_reaches_past_its_line_and_a_whole_file_has_none() -> None:
    assert region(SOME[2]) == {"startLine": 3, "startColumn": 9, "endColumn": 9}
    assert region(SOME[3]) is None


def test_addresses_are_relative_and_encoded() -> None:
    [result] = made(SOME[:1])["runs"][0]["results"]
    place = result["locations"][0]["physicalLocation"]["artifactLocation"]
    assert place["uri"] == "content/recipes/cr%C3%A8me%20%C3%A0%20100%20%25.md"  # RFC 3986
    assert place["uriBaseId"] in made([])["runs"][0]["originalUriBaseIds"]


def test_each_rule_is_described_once_and_each_result_points_at_its_own() -> None:
    run = made(SOME, {"odd": "Because."})["runs"][0]
    rules = run["tool"]["driver"]["rules"]
    assert [rule["id"] for rule in rules] == sorted({problem.rule for problem in SOME})
    for result in run["results"]:
        assert rules[result["ruleIndex"]]["id"] == result["ruleId"]  # 3.27.6
    described = {rule["id"]: rule.get("fullDescription") for rule in rules}
    assert described["odd"] == {"text": "Because."}
    assert [r["level"] for r in run["results"]] == [
        "error",
        "warning",
        "warning",
        "error",
        "warning",
    ]


def test_check_prints_it_and_ends_as_it_always_does(
    tmp_path: Path, errors_of: Callable[[Any], list[str]]
) -> None:
    site = write_site(tmp_path, {SOUP: recipe().replace("serves: 4", "serve: 4")})
    told = CliRunner().invoke(main, ["--site", str(site), "check", "--format", "sarif"])
    log = json.loads(told.stdout)
    assert told.exit_code == 1
    assert errors_of(log) == []
    assert [r["ruleId"] for r in log["runs"][0]["results"]] == ["unknown-field"]
    (tmp_path / SOUP).write_text(recipe(), encoding="utf-8")
    told = CliRunner().invoke(main, ["--site", str(site), "check", "--format", "sarif"])
    results = json.loads(told.stdout)["runs"][0]["results"]
    assert told.exit_code == 0
    assert all(result["level"] == "warning" for result in results)
