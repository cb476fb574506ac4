"""Ingredient lines as cooks write them: every field of each, against what a cook means."""

from __future__ import annotations

import re

import pytest

from sitegen.problems import Problem
from sitegen.reading.lines import read_line
from sitegen.reading.measures import tidy
from sitegen.reading.source import Place
from tests.reading.corpus import Broken, Row, actual, broken, expected, rows

FILE = "content/recipes/soup.md"


@pytest.mark.parametrize("row", rows(), ids=lambda row: f"{row.number}: {row.words}")
def test_a_line_means_what_a_cook_means(row: Row) -> None:
    problems: list[Problem] = []
    line = read_line(row.words, Place(7, 5), FILE, problems)
    assert problems == []
    assert line is not None
    assert actual(line) == expected(row)


@pytest.mark.parametrize("row", rows(), ids=lambda row: f"{row.number}: {row.words}")
def test_the_author_s_words_are_kept(row: Row) -> None:
    line = read_line(row.words, Place(7, 5), FILE, [])
    assert line is not None
    assert line.text == tidy(row.words)
    for measure in (line.amount, *line.measures):
        if measure is not None:
            assert measure.text in line.text
    # every word of the line stands in one of its fields
    kept = " ".join(
        [
            *(f"{m.text} {m.size}" for m in (line.amount, *line.measures) if m),
            *(line.food, line.preparation, line.reference, line.part_of, line.whole),
            *line.remarks,
            *line.states,
            *(other.text for other in line.alternatives),
        ]
    )
    lost = set(re.findall(r"\w+", line.text)) - set(re.findall(r"\w+", kept))
    assert lost <= JOINTS, f"lost: {lost - JOINTS}"


JOINTS = set("of the or a about as weighed from sized Juice Optional".split())
"""Words between fields, which are said by the fields themselves."""


@pytest.mark.parametrize("bad", broken(), ids=lambda bad: f"{bad.number}: {bad.words}")
def test_a_line_that_can_not_be_understood_is_a_problem_with_its_place(bad: Broken) -> None:
    problems: list[Problem] = []
    assert read_line(bad.words, Place(7, 5), FILE, problems) is None
    assert [p.rule for p in problems] == [bad.rule]
    (problem,) = problems
    assert (problem.line, problem.column) == (7, 5 + bad.column - 1)
    assert problem.file == FILE
    assert problem.severity == "error"
    assert problem.hint, "a problem says how to mend it"


def test_the_corpus_is_as_large_as_it_claims() -> None:
    assert len(rows()) >= 400
    assert len({row.words for row in rows()}) == len(rows()), "a line stands twice"
    assert len(broken()) >= 60


@pytest.mark.parametrize(
    ("text", "rule"),
    [("", "line-empty"), (" \t ", "line-empty"), ("1 egg, " + "x" * 400, "line-long")],
)
def test_lines_that_are_none(text: str, rule: str) -> None:
    problems: list[Problem] = []
    assert read_line(text, Place(7, 5), FILE, problems) is None
    assert [(p.rule, p.line, p.column) for p in problems] == [(rule, 7, 5)]
