"""The ingredients list: lines, parts, and lines with more to say."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import replace
from fractions import Fraction
from typing import Any

from sitegen.problems import Problem, did_you_mean
from sitegen.reading.lines import read_line
from sitegen.reading.recipe import IngredientLine, Part
from sitegen.reading.yamltree import Path, Tree

_EMPTY = "fill it in, or take the '-' away; words that begin with '#' need quotes"
LINE_FIELDS = ("line", "as", "food", "eaten", "swap", "note")


def read_ingredients(tree: Tree, file: str, problems: list[Problem]) -> tuple[Part, ...]:
    """The parts of the list; a plain list is one unnamed part.

    A list may begin with plain lines and go on with parts; the first lines then form an unnamed
    part of their own.
    """

    def report(rule: str, path: Path, message: str, hint: str) -> None:
        place = tree.place(path)
        problems.append(Problem(rule, "error", file, place.line, place.column, message, hint))

    if "ingredients" not in tree.data:
        return ()  # the model says that it is missing
    listed = tree.data["ingredients"]
    if not isinstance(listed, list) or not listed:
        report(
            "ingredients-list",
            ("ingredients",),
            "the ingredients are not a list",
            "write one ingredient a line, each after '- '",
        )
        return ()
    return _Lister(tree, file, problems, report).parts(listed)


class _Lister:
    def __init__(
        self, tree: Tree, file: str, problems: list[Problem], report: Callable[..., None]
    ) -> None:
        self.tree = tree
        self.file = file
        self.problems = problems
        self.report = report

    def parts(self, listed: list[Any]) -> tuple[Part, ...]:
        found: list[Part] = []
        plain: list[IngredientLine] = []
        mixed = False
        for i, item in enumerate(listed):
            path: Path = ("ingredients", i)
            if isinstance(item, dict) and "line" not in item and len(item) == 1:
                ((name, lines),) = item.items()
                if isinstance(lines, list):
                    part = [self.line(x, (*path, name, j)) for j, x in enumerate(lines)]
                    kept = tuple(x for x in part if x is not None)
                    found.append(Part(name, self.tree.key_place((*path, name)), kept))
                    continue
                if lines is None:
                    self.report(
                        "part-empty",
                        path,
                        f"the part '{name}' has no ingredients",
                        "list them under it, indented by two more spaces",
                    )
                    continue
                self.report(
                    "part-lines",
                    path,
                    f"for its ': ', '{name}' is taken for a part's name, but no list follows it",
                    "put a line that holds ': ' in quotes, or list the part's lines under it",
                )
                plain.append(self._unread(item, path))
                continue
            if found and not mixed and not isinstance(item, dict):
                mixed = True
                self.report(
                    "part-mixed",
                    path,
                    "a line without a part stands after a part",
                    "indent it under its part, or move it before the first part",
                )
            line = self.line(item, path)
            if line is not None:
                plain.append(line)
        if plain:
            found.insert(0, Part("", self.tree.place(("ingredients", 0)), tuple(plain)))
        return tuple(found)

    def _unread(self, item: Any, path: Path) -> IngredientLine:
        """A line that can't be understood keeps its place, so that the method's brackets find it.

        The recipe has an error and is not shown; one mistake must not become several.
        """
        words = " ".join(_words(item)) or "?"
        return IngredientLine(words, self.tree.place(path), words)

    def line(self, item: Any, path: Path) -> IngredientLine | None:
        if isinstance(item, str):
            line = read_line(
                item,
                self.tree.place(path),
                self.file,
                self.problems,
                literal=path in self.tree.literal,
            )
            return line or self._unread(item, path)
        if item is None:
            self.report("line-empty", path, "an ingredient line is empty", _EMPTY)
            return None
        if not isinstance(item, dict):
            self.report(
                "line-shape",
                path,
                "a list stands where one ingredient is expected",
                "quote a line that begins with '['",
            )
            return self._unread(item, path)
        return self.fields(item, path)

    def fields(self, item: dict[str, Any], path: Path) -> IngredientLine | None:
        for key in item:
            if key not in LINE_FIELDS:
                place = self.tree.key_place((*path, key))
                hint = did_you_mean(key, LINE_FIELDS) or (
                    f"an ingredient's fields are {', '.join(LINE_FIELDS)}"
                    if "line" in item
                    else f'quote a line that holds a colon: "{key}: …"'
                )
                message = f"an ingredient has no field '{key}'"
                self.problems.append(
                    Problem(
                        "unknown-field",
                        "error",
                        self.file,
                        place.line,
                        place.column,
                        message,
                        hint,
                        len(key),
                    )
                )
        for key in item:
            if key in LINE_FIELDS and not isinstance(item[key], str):
                self.report(
                    "wrong-type", (*path, key), f"'{key}' takes words on one line", "write it out"
                )
                return self._unread(item, path)
        if "line" not in item:
            if all(key in LINE_FIELDS for key in item):
                self.report("line-missing", path, "the ingredient has no 'line'", "add 'line: …'")
            return self._unread(item, path)
        line = self.line(item["line"], (*path, "line"))
        if line is None:
            return None
        eaten = self.share(item["eaten"], (*path, "eaten")) if "eaten" in item else Fraction(1)
        swap = self.line(item["swap"], (*path, "swap")) if "swap" in item else None
        return replace(
            line,
            called=item.get("as", ""),
            pinned=item.get("food", ""),
            eaten=eaten,
            swap=swap,
            note=item.get("note", ""),
        )

    def share(self, text: str, path: Path) -> Fraction:
        found = re.fullmatch(r"(?:about\s+)?(\d{1,3}(?:\.\d+)?)\s*%", text.strip())
        if found and Fraction(found[1]) <= 100:
            return Fraction(found[1]) / 100
        self.report(
            "eaten",
            path,
            f"'{text}' is not a share",
            "write what is eaten of it in per cent, as in 'eaten: 30%'",
        )
        return Fraction(1)


def _words(item: Any) -> Iterator[str]:
    if isinstance(item, str):
        yield item
    elif isinstance(item, dict):
        for key, value in item.items():
            yield from (str(key), *_words(value))
    elif isinstance(item, list):
        for value in item:
            yield from _words(value)
