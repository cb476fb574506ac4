"""A recipe begun from another: the same words under another title, and a draft again."""

from __future__ import annotations

from datetime import date

import yaml

from sitegen.problems import Problem
from sitegen.reading.read import split
from sitegen.reading.source import Source
from sitegen.reading.yamltree import read_yaml

LEFT_OUT = ("published", "updated", "photo")
"""Fields of the original that say nothing of the variation: its days and its picture."""


def variation(
    source: Source, title: str, came_from: str, day: date | None = None
) -> tuple[str | None, list[Problem]]:
    """The text of a new recipe like ``source``; None, with the problems, if its fields can't be read.

    ``title`` is YAML, quoted where it must be. All else stays as it was written, comments too.

    >>> broth = Source("a.md", "---\\ntitle: Broth\\npublished: 2026-01-02\\nserves: 4\\n---\\nHot.")
    >>> text, _ = variation(broth, "Clear broth", "a.md")
    >>> print(text)
    ---
    # A variation of Broth (a.md).
    title: Clear broth
    serves: 4
    ---
    Hot.
    """
    problems: list[Problem] = []
    halves = split(source, problems)
    tree = read_yaml(source, halves.yaml, problems) if halves else None
    if halves is None or tree is None or problems:
        return None, problems
    lines = source.text.split("\n")
    node = yaml.compose(halves.yaml, Loader=yaml.SafeLoader)
    assert isinstance(node, yaml.MappingNode), "read_yaml has read it as one"
    gone: set[int] = set()
    heading = [f"title: {title}"]
    for key, value in node.value:
        first, last = key.start_mark.line, value.end_mark.line
        if value.end_mark.column == 0 and last > first:
            last -= 1  # a block's end is where the next thing begins
        while last > first and not lines[last].strip():
            last -= 1
        if key.value == "title" or key.value in LEFT_OUT:
            gone.update(range(first, last + 1))
    said = " ".join(str(tree.data.get("title") or "another recipe").split())
    on = f", {day.isoformat()}" if day else ""
    kept = [line for number, line in enumerate(lines) if number not in gone]
    return "\n".join(
        [kept[0], f"# A variation of {said} ({came_from}){on}.", *heading, *kept[1:]]
    ), []
