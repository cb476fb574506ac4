"""Reading a test log: what it says, and every mistake at its place with a way to mend it."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator

from sitegen.problems import Problem
from sitegen.reading.source import Source
from sitegen.schemas import log_schema
from sitegen.trials.log import Log, log_of, recipe_of
from sitegen.trials.read import read_log
from tests.test_schemas import as_an_editor_reads

FILE = "content/recipes/soup.trials.yaml"
WHOLE = """\
out of: 5
trials:
  - date: 2026-10-11
    aim: less salt
    tasters: [Ada, Bo]
    scores:
      salt: [2, 3.5]
      body: 4
    remarks: |
      Thin.

      Very thin.
    verdict: again
    recipe: |
      ---
      title: Soup
      ---
      Hot.
  - date: 2026-10-18
    tasters:
    scores: {salt: , body: }
    remarks:
    verdict:
    recipe: "---\\ntitle: Soup\\n---\\n"
    used:
      content/recipes/stock.md: |
        ---
        title: Stock
        ---
"""


def read(text: str) -> tuple[Log, list[Problem]]:
    return read_log(Source(FILE, text))


def test_everything_is_read() -> None:
    log, problems = read(WHOLE)
    assert problems == []
    first, second = log.trials
    assert (first.number, first.day, first.aim) == (1, date(2026, 10, 11), "less salt")
    assert first.tasters == ("Ada", "Bo")
    assert first.scores == {"salt": (2.0, 3.5), "body": (4.0,)}
    assert first.mean("salt") == 2.75
    assert first.overall == (2.75 + 4) / 2, "a point counts once, however many tasted"
    assert first.remarks == "Thin.\n\nVery thin."
    assert first.recipe == "---\ntitle: Soup\n---\nHot.\n"
    assert second.used == {"content/recipes/stock.md": "---\ntitle: Stock\n---\n"}
    assert second.untouched
    assert not first.untouched
    assert (log.best, log.tested, log.passed, log.points) == (5, 1, 0, ("salt", "body"))


@pytest.mark.parametrize("text", ["", "# nothing yet\n", "trials:\n", "trials: []\n"])
def test_an_empty_log_is_no_mistake(text: str) -> None:
    assert read(text) == (Log(FILE), [])


MISTAKES = {
    "  - date: 2026-10-11": ("  - date: 11 October", "date", 3, 11),
    "verdict: again": ("verdict: pased", "trial-verdict", 13, 14),
    "    tasters: [Ada, Bo]": ("    taster: [Ada, Bo]", "unknown-field", 5, 5),
    "body: 4": ("body: good", "trial-score", 8, 13),
    "[2, 3.5]": ("[2, 3.5, 4]", "trial-score", 7, 13),
    "salt: [2, 3.5]": ("salt: 7", "trial-score", 7, 13),
    "out of: 5": ("out of: five", "trial-best", 1, 9),
    "recipe: |\n      ---\n      title: Soup\n      ---\n      Hot.": (
        "verdicts: x", "unknown-field", 14, 5,
    ),
}  # fmt: skip


@pytest.mark.parametrize("found", MISTAKES)
def test_each_mistake_is_told_at_its_place_with_a_hint(found: str) -> None:
    written, rule, line, column = MISTAKES[found]
    assert WHOLE.count(found) == 1
    _, problems = read(WHOLE.replace(found, written))
    told = [p for p in problems if p.rule == rule]
    assert told, problems
    assert (told[0].file, told[0].line) == (FILE, line)
    assert told[0].column == column
    assert all(p.message and p.hint and p.line for p in problems)


def test_one_trials_mistake_hides_no_other_trial() -> None:
    log, problems = read(
        WHOLE.replace("2026-10-11", "yesterday").replace("verdict:\n", "verdict: ok\n")
    )
    assert sorted(p.line for p in problems) == [3, 23]
    assert [trial.number for trial in log.trials] == [2], "numbers stay those of the file"


def test_doubts_are_advice() -> None:
    twice = WHOLE.replace("2026-10-18", "2026-10-01").replace(
        "{salt: , body: }", "{slat: 3, body: 2}"
    )
    third = twice + twice.partition("trials:\n")[2].partition("  - date: 2026-10-01")[0]
    _, problems = read(third)
    assert {(p.rule, p.severity) for p in problems} == {
        ("trial-order", "advice"),
        ("trial-point", "advice"),
    }
    assert [p.hint for p in problems if p.rule == "trial-point"] == ["did you mean 'salt'?"]


def test_names() -> None:
    assert recipe_of(log_of("content/recipes/a/b.md")) == "content/recipes/a/b.md"


def test_the_schema_of_logs_fits_the_demos() -> None:
    schema = log_schema()
    Draft202012Validator.check_schema(schema)
    check = Draft202012Validator(schema)
    files = list((Path(__file__).resolve().parents[2] / "content").rglob("*.trials.yaml"))
    assert len(files) >= 3
    for text in (*(file.read_text(encoding="utf-8") for file in files), WHOLE):
        assert [e.message for e in check.iter_errors(as_an_editor_reads(text))] == []
    for wrong in ("verdict: again", "verdict: pased"), ("tasters: [Ada, Bo]", "taster: Ada"):
        assert list(check.iter_errors(as_an_editor_reads(WHOLE.replace(*wrong))))
