"""Problems as text for a terminal and as JSON for an editor."""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Iterable, Sequence
from pathlib import Path
from unicodedata import combining, east_asian_width

from sitegen.problems import Problem

Style = Callable[[str, str], str]
"""Gives a text a part's colour: ``place``, ``error``, ``advice``, ``caret`` or ``hint``."""


def plain(text: str, part: str) -> str:
    """The style for a file or a pipe: none."""
    return text


def as_json(problems: Iterable[Problem]) -> str:
    """``{"problems": [{rule, severity, file, line, column, message, hint}, …]}``."""
    return json.dumps({"problems": [p.as_json() for p in problems]}, ensure_ascii=False, indent=2)


def as_text(problems: Iterable[Problem], folder: Path, style: Style = plain) -> str:
    """Each problem with its source line and a caret under the place; a blank line between."""
    lines = SourceLines(folder)
    return "\n\n".join(one_as_text(p, lines.shown(p), style) for p in problems)


def one_as_text(problem: Problem, source_line: str, style: Style = plain) -> str:
    """One problem: headline, source line, caret, hint.

    >>> print(one_as_text(Problem("unknown-field", "error", "content/recipes/soup.md", 4, 1,
    ...       "there is no field 'serve'", "did you mean 'serves'?", 5), "serve: 4"))
    content/recipes/soup.md:4:1: error: there is no field 'serve' [unknown-field]
        4 | serve: 4
          | ^^^^^
          = did you mean 'serves'?
    """
    place = problem.file if problem.line == 0 else f"{problem.file}:{problem.line}:{problem.column}"
    out = [
        f"{style(place, 'place')}: {style(problem.severity, problem.severity)}: "
        f"{problem.message} {style(f'[{problem.rule}]', 'place')}"
    ]
    if problem.line and source_line.strip():
        number = f"{problem.line:>5}"
        shown, column = excerpt(source_line.rstrip(), problem.column, problem.length)
        pad, carets = caret(shown, column, problem.length)
        out.append(f"{number} | {shown}")
        out.append(f"      | {pad}{style(carets, 'caret')}")
    if problem.why:
        out.append(f"      = why: {problem.why}")
    if problem.hint:
        out.append(f"      = {style(problem.hint, 'hint')}")
    return "\n".join(out)


WIDEST = 88
"""Characters of a source line that are shown; a step of the method is often one long line."""


def excerpt(line: str, column: int, length: int, widest: int = WIDEST) -> tuple[str, int]:
    """The part of a long line around a place, and the column of the place in it.

    >>> excerpt("Put the butter in the pan and add the leeks.", 39, 5, widest=20)
    ('… and add the leeks.', 15)
    """
    if len(line) <= widest:
        return line, column
    room = max(widest - length, 0)
    start = min(max(column - 1 - room * 3 // 4, 0), max(len(line) - widest, 0))
    end = start + widest
    shown = line[start:end]
    if end < len(line):
        shown = shown[:-1] + "…"
    if start:
        shown = "…" + shown[1:]
    return shown, column - start


def caret(line: str, column: int, length: int) -> tuple[str, str]:
    """What stands before the caret, and the caret: tabs kept, wide letters counted as two.

    >>> caret("- 3 leeks", 5, 5)
    ('    ', '^^^^^')
    """
    before, under = line[: column - 1], line[column - 1 : column - 1 + max(length, 1)]
    pad = "".join("\t" if c == "\t" else " " * _cells(c) for c in before)
    pad += " " * max(0, column - 1 - len(before))
    return pad, "^" * max(1, sum(_cells(c) for c in under))


def _cells(character: str) -> int:
    if combining(character):
        return 0
    return 2 if east_asian_width(character) in "WF" else 1


def summary(problems: Sequence[Problem]) -> str:
    """One line that counts them.

    >>> summary([])
    'No problems.'
    """
    errors = sum(p.severity == "error" for p in problems)
    advice = len(problems) - errors
    if not problems:
        return "No problems."
    said = [counted(errors, "error")] if errors else []
    said += [f"{advice} advice"] if advice else []
    files = len({p.file for p in problems})
    return f"{' and '.join(said)} in {counted(files, 'file')}."


def counted(number: int, noun: str) -> str:
    """``1 error``, ``2 errors``."""
    return f"{number} {noun}" + ("" if number == 1 else "s")


class SourceLines:
    """The lines that problems point at, each file read once."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder
        self._files: dict[str, list[str]] = {}

    def line(self, problem: Problem) -> str:
        """The text of the problem's line; empty if it can't be read or the whole file is meant."""
        if problem.file not in self._files:
            try:
                text = (self._folder / problem.file).read_bytes().decode("utf-8", "replace")
            except OSError:
                text = ""
            self._files[problem.file] = text.split("\n")
        lines = self._files[problem.file]
        return lines[problem.line - 1].rstrip("\r") if 0 < problem.line <= len(lines) else ""

    def shown(self, problem: Problem) -> str:
        """The line as a report may show it: empty if a secret stands in it, for reports get kept."""
        line = self.line(problem)
        secret = problem.rule == "secret-in-site" or _SECRET.search(line)
        return "" if secret else line


_SECRET = re.compile(
    r"""(passw|passphrase|secret|token|credential|(access|private|api)[ _-]*key)[\w -]*["']?\s*:\s*\S"""
    r"|://[^/@\s]*:[^/@\s]*@",
    re.IGNORECASE,
)
"""A line of settings that holds a secret, whatever else is wrong with it."""
