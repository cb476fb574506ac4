"""A page of the author's own words: ``content/pages/about.md`` → :class:`PlainPage`."""

from __future__ import annotations

from typing import Any

from sitegen.collection import PlainPage
from sitegen.problems import Problem, did_you_mean
from sitegen.reading.markdown import parser
from sitegen.reading.pictures import pictures_of
from sitegen.reading.read import slug_of, split
from sitegen.reading.source import Place, Source
from sitegen.reading.yamltree import read_yaml

_FIELDS = ("title", "summary")


def read_page(source: Source) -> tuple[PlainPage | None, list[Problem]]:
    """Read one page. Its fields are ``title``, which it must have, and ``summary``."""
    problems: list[Problem] = []
    halves = split(source, problems)
    tree = read_yaml(source, halves.yaml, problems) if halves else None
    if halves is None or tree is None:
        return None, problems

    def problem(rule: str, line: int, column: int, message: str, hint: str, length: int) -> None:
        problems.append(Problem(rule, "error", source.file, line, column, message, hint, length))

    for name, value in tree.data.items():
        place = tree.key_place((name,))
        if name not in _FIELDS:
            hint = did_you_mean(name, _FIELDS) or "a page has a title and a summary"
            message = f"there is no field {name!r} here"
            problem("unknown-field", place.line, place.column, message, hint, len(name))
        elif value is not None and not isinstance(value, str):
            message, hint = f"{name!r} must be words", "write it on one line"
            problem("field-shape", place.line, place.column, message, hint, len(name))
    title, summary = tree.data.get("title"), tree.data.get("summary")
    if not title:
        known = "title" in tree.data
        at = tree.key_place(("title",)) if known else Place(1, 1)
        message, hint = "this page has no title", "add a line 'title: …'"
        problem("missing-field", at.line, at.column, message, hint, 1)
    env: dict[str, Any] = {}
    tokens = parser().parse(source.text[source.offset(halves.body_line) :], env)
    pictures = pictures_of(tokens, source, halves.body_line - 1, problems)
    if problems:
        return None, problems
    html = str(parser().renderer.render(tokens, parser().options, env)).strip()
    name, words = slug_of(source.file), str(summary or "")
    return PlainPage(name, str(title), words, html, source.file, pictures), []
