"""A method of nothing but numbered steps, perhaps in parts, cut out of the text before that is parsed.

Nearly all methods are that: each line begins a step, goes on with one, names a part or is blank. The
parser of Markdown would find the same steps, at several times the cost; whatever else stands in a
method is left to it.
"""

from __future__ import annotations

import re
from typing import NamedTuple

from markdown_it.common.utils import mdTrim

from sitegen.reading.markdown import IDLE_IN_PLAIN_TEXT


class PlainStep(NamedTuple):
    """What is written in a step, and the line that it begins on."""

    line: int
    text: str


class PlainPart(NamedTuple):
    """The steps under one ``###`` heading, or under none: then its name is empty."""

    name: str
    line: int
    steps: list[PlainStep]


class PlainMethod(NamedTuple):
    """The method's parts, and the text with blank lines in their place."""

    parts: list[PlainPart]
    rest: str


# How a paragraph begins, and nothing else: no list within a step, no heading, no code.
_WORDS = r"(?=[^\W\d_]|[\[\"'(‘“½¼¾⅓⅔]|[*_]{1,3}[^\W_]|\d+(?![\d.)]))"
_STEP = re.compile(rf"[0-9]{{1,9}}[.)] {_WORDS}")
_GOES_ON = re.compile(rf" +{_WORDS}")


def plain_method(text: str, heading: str, idle: tuple[str, ...]) -> PlainMethod | None:
    """The method of ``text`` under ``heading``; None if there is none, or it may hold more than steps.

    ``idle`` names the rules of Markdown that fit nowhere in the text.
    """
    if idle != IDLE_IN_PLAIN_TEXT or "\t" in text or "![" in text:
        return None
    rows = text.split("\n")
    wanted = heading.casefold()
    heads = [
        i for i, row in enumerate(rows) if "##" in row and row.strip("# ").casefold() == wanted
    ]
    if len(heads) != 1 or rows[heads[0]].rstrip(" ") != f"## {rows[heads[0]].strip('# ')}":
        return None
    begin = heads[0] + 1
    end = next((i for i in range(begin, len(rows)) if rows[i].startswith("## ")), len(rows))
    parts = _parts(rows[begin:end], begin + 1)
    if parts is None or not any(part.steps for part in parts):
        return None
    return PlainMethod(parts, "\n".join([*rows[:begin], *[""] * (end - begin), *rows[end:]]))


def _parts(rows: list[str], first: int) -> list[PlainPart] | None:
    """The parts of a method whose lines are ``rows``, of which the first stands on line ``first``."""
    parts = [PlainPart("", 1, [])]
    indent = 0  # of a line that goes on with the step above; 0 where none can
    for line, row in enumerate(rows, first):
        if not row:
            indent = 0
        elif step := _STEP.match(row):
            indent = step.end()
            parts[-1].steps.append(PlainStep(line, row[indent:]))
        elif indent and (more := _GOES_ON.match(row)) and more.end() == indent:
            begun = parts[-1].steps[-1]
            parts[-1].steps[-1] = PlainStep(begun.line, f"{begun.text}\n{row[indent:]}")
        elif row.startswith("### ") and (name := mdTrim(row[4:])) and "#" not in name:
            parts.append(PlainPart(name, line, []))
            indent = 0
        else:
            return None
    for part in parts:
        part.steps[:] = [PlainStep(line, mdTrim(text)) for line, text in part.steps]
    return parts
