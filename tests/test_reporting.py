"""Problems as text: the caret stands under the place, whatever the line is made of."""

from __future__ import annotations

from pathlib import Path

import pytest

from sitegen.problems import Problem
from sitegen.reporting import as_text, caret, one_as_text, summary
from tests.sites import write


@pytest.mark.parametrize(
    ("line", "column", "length", "shown"),
    [
        ("- 3 leeks", 5, 5, "    ^^^^^"),
        ("\t- 3 leeks", 6, 5, "\t    ^^^^^"),
        ("茶 leeks", 3, 5, "   ^^^^^"),  # a wide letter takes two cells
        ("cre\u0300me leeks", 8, 5, "      ^^^^^"),  # a combining accent takes none
        ("short", 9, 1, "        ^"),
        ("", 1, 1, "^"),
    ],
)
def test_the_caret(line: str, column: int, length: int, shown: str) -> None:
    assert "".join(caret(line, column, length)) == shown


def test_a_problem_of_a_whole_file_has_no_line() -> None:
    problem = Problem("file-empty", "error", "content/recipes/a.md", 0, 0, "it is empty", "write")
    assert one_as_text(problem, "") == (
        "content/recipes/a.md: error: it is empty [file-empty]\n      = write"
    )


def test_a_file_that_can_not_be_read_again_is_no_trouble(tmp_path: Path) -> None:
    write(tmp_path / "a.md", b"one\ncr\xe8me\n")
    problems = [
        Problem("x", "error", "a.md", 2, 3, "here"),
        Problem("x", "error", "gone.md", 2, 3, "there"),
        Problem("x", "error", "a.md", 99, 1, "far"),
    ]
    text = as_text(problems, tmp_path)
    assert "    2 | cr\ufffdme\n      |   ^" in text
    assert "gone.md:2:3: error: there [x]" in text


def test_the_summary_counts() -> None:
    error = Problem("x", "error", "a.md", 1, 1, "m")
    advice = Problem("y", "advice", "b.md", 1, 1, "m")
    assert summary([]) == "No problems."
    assert summary([error]) == "1 error in 1 file."
    assert summary([error, error, advice]) == "2 errors and 1 advice in 2 files."
