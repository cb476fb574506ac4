"""YAML as the author wrote it: plain values, and the place of each.

PyYAML is asked only to compose nodes; the values are built here. Scalars stay text (``yes`` is
``"yes"``, ``12:30`` is ``"12:30"``): the field they belong to decides what they mean. An empty
value is None. Equal keys, aliases and absurd nesting are problems instead of surprises.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any

import yaml

from sitegen.problems import Problem
from sitegen.reading.source import Place, Source

try:
    from yaml import CSafeLoader as _Composer
except ImportError:  # pragma: no cover - PyYAML built without libyaml
    from yaml import SafeLoader as _Composer  # type: ignore[assignment]


class _Loader(_Composer):
    """Composes nodes without asking what type each plain value would be: ours stay text."""

    def resolve(self, kind: Any, value: Any, implicit: Any) -> str:
        """No tag is ever looked at."""
        return ""


Path = tuple[str | int, ...]
"""The way to a value: ``("ingredients", 0, "Broth", 2)``."""

_DEEPEST = 24


@dataclass(slots=True)
class Tree:
    """A mapping read from YAML, and where everything in it stands."""

    data: dict[str, Any] = field(default_factory=dict)
    values: dict[Path, Place] = field(default_factory=dict)
    keys: dict[Path, Place] = field(default_factory=dict)
    literal: set[Path] = field(default_factory=set)
    """Values that stand in the file exactly as they read, so that columns inside them are exact."""

    def place(self, path: Path) -> Place:
        """The place of the value at ``path``, or of the nearest thing around it that has one."""
        while path:
            found = self.values.get(path) or self.keys.get(path)
            if found:
                return found
            path = path[:-1]
        return self.values.get((), Place(1, 1))

    def key_place(self, path: Path) -> Place:
        """The place of the key at ``path``; the value's where there is no key."""
        return self.keys.get(path) or self.place(path)


# PyYAML's words for a mistake, in order of trial; then ours: rule, message, hint.
_TROUBLES: tuple[tuple[str, str, str, str], ...] = (
    (
        r"character '\\t'|tab character",
        "tab",
        "a tab stands where YAML wants spaces",
        "indent with two spaces; most editors can do so for you",
    ),
    (
        "mapping values are not allowed",
        "yaml-colon",
        "a second ': ' on this line, or a line indented as if it belonged to a value",
        'put a value that holds a colon in quotes: title: "Soup: the second day"',
    ),
    (
        "expected a single document",
        "second-document",
        "a second YAML document begins here",
        "keep everything in one block: take this '---' away",
    ),
    (
        "did not find expected '-' indicator|did not find expected key|expected <block end>",
        "indent",
        "this line is indented differently from the ones it belongs with",
        "give the lines of one list or one block the same number of spaces",
    ),
    (
        "could not find expected ':'",
        "yaml-key",
        "this line is neither 'field: value' nor '- item'",
        "write a colon and a space after the field's name, or '- ' in front of a line of a list",
    ),
    (
        "unexpected end of stream|while scanning a quoted scalar",
        "yaml-quote",
        "a quotation mark is opened and not closed",
        "close it at the end of the value",
    ),
    (
        r"expected ',' or '\]'|expected ',' or '}'|flow (sequence|mapping|node)",
        "yaml-brackets",
        "a '[' or '{' opens a YAML list that is not well formed",
        "close it, or put the whole value in quotes if the bracket is part of the words",
    ),
    (
        "undefined alias|alias|anchor",
        "yaml-alias",
        "a value begins with '*' or '&', which YAML takes as a reference",
        "put the value in quotes",
    ),
    (
        "cannot start any token|block scalar|indicators",
        "yaml-character",
        "a value begins with a character that YAML keeps for itself",
        "put the value in quotes",
    ),
    (
        "special characters are not allowed|control characters|unacceptable character",
        "control-character",
        "an invisible control character stands here",
        "delete it",
    ),
)


# What YAML 1.1, section 5.1, keeps out of a text.
_UNPRINTABLE = re.compile("[^\t\n\r\x20-\x7e\x85\xa0-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")


def read_yaml(source: Source, text: str, problems: list[Problem]) -> Tree | None:
    """Compose ``text`` (lines counted as in ``source``) into a :class:`Tree`.

    Returns None when there is nothing usable; every mistake is appended to ``problems``.
    """

    def problem(rule: str, place: Place, message: str, hint: str = "", length: int = 1) -> None:
        problems.append(
            Problem(rule, "error", source.file, place.line, place.column, message, hint, length)
        )

    if _depth(text) > _DEEPEST:
        problem("nesting", Place(1, 1), f"brackets are nested more than {_DEEPEST} deep", "")
        return None
    try:
        node = yaml.compose(text, Loader=_Loader)
    except yaml.MarkedYAMLError as error:
        mark = error.problem_mark or error.context_mark
        place = Place(mark.line + 1, mark.column + 1) if mark else Place(1, 1)
        words = " ".join(filter(None, (error.context, error.problem)))
        begun = "quoted scalar|flow (?:sequence|mapping)|simple key"
        if error.context_mark and re.search(begun, error.context or ""):
            # where it was opened, not where the parser gave up
            place = Place(error.context_mark.line + 1, error.context_mark.column + 1)
        if "\t" in source.line(place.line)[: place.column]:
            words = "tab character"
        if re.match(r"\s*- \[", source.line(place.line)):
            words = "flow sequence"
        for pattern, rule, message, hint in _TROUBLES:
            if re.search(pattern, words):
                problem(rule, place, message, hint)
                return None
        problem("yaml", place, f"this can't be read as YAML: {error.problem or words}", "")
        return None
    except yaml.YAMLError:
        found = _UNPRINTABLE.search(text)
        place = Source(source.file, text).place(found.start()) if found else Place(1, 1)
        problem(
            "control-character", place, "an invisible control character stands here", "delete it"
        )
        return None
    except RecursionError:
        problem("nesting", Place(1, 1), "values are nested too deeply", "")
        return None
    if node is None:
        return Tree()
    tree = Tree()
    if not isinstance(node, yaml.MappingNode):
        place = Place(node.start_mark.line + 1, node.start_mark.column + 1)
        problem("not-fields", place, "these are not fields", "write 'field: value' lines")
        return None
    tree.data = _Builder(text, tree, problem).mapping(node, ())
    return tree


def _depth(text: str) -> int:
    if text.count("[") + text.count("{") <= _DEEPEST:
        return 0
    deepest = depth = 0
    for char in text:
        if char in "[{":
            depth += 1
            deepest = max(deepest, depth)
        elif char in "]}" or char == "\n":
            depth = max(0, depth - 1) if char != "\n" else depth
    return deepest if deepest > _DEEPEST and _really_nested(text) else 0


def _really_nested(text: str) -> bool:
    """Brackets in prose come and go; only runs that stay open count."""
    return bool(re.search(rf"(?:[\[{{][^\[\]{{}}\n]{{0,40}}){{{_DEEPEST}}}", text))


class _Builder:
    """Walks composed nodes and fills a tree."""

    def __init__(self, text: str, tree: Tree, problem: Callable[..., None]) -> None:
        self.text = text
        self.tree = tree
        self.problem = problem
        self.seen: set[int] = set()

    def value(self, node: yaml.Node, path: Path) -> Any:
        mark = node.start_mark
        place = Place(mark.line + 1, mark.column + 1)
        self.tree.values[path] = place
        if id(node) in self.seen or len(path) > _DEEPEST:
            self.problem(
                "yaml-alias",
                place,
                "a YAML alias ('*name') repeats another value",
                "write the value out",
            )
            return None
        self.seen.add(id(node))
        if self.text[mark.index : mark.index + 1] in ("&", "!"):
            self.problem(
                "yaml-alias",
                place,
                "a value begins with '&' or '!', which YAML takes for a sign of its own",
                "put the value in quotes",
            )
        if isinstance(node, yaml.ScalarNode):
            return self.scalar(node, path, place)
        if isinstance(node, yaml.MappingNode):
            return self.mapping(node, path)
        return [self.value(item, (*path, i)) for i, item in enumerate(node.value)]

    def scalar(self, node: yaml.ScalarNode, path: Path, place: Place) -> str | None:
        text = str(node.value)
        raw = self.text[node.start_mark.index : node.end_mark.index]
        if not node.style and raw == text:
            self.tree.literal.add(path)
        elif node.style in ("'", '"') and raw[1:-1] == text:
            self.tree.values[path] = Place(place.line, place.column + 1)
            self.tree.literal.add(path)
        if not node.style:
            self._no_items_within(raw, place)
        if not node.style and text in ("", "~", "null"):
            return None
        return text

    def _no_items_within(self, raw: str, place: Place) -> None:
        """YAML joins a line that is indented further to the one above it, dash and all."""
        if "\n" not in raw:
            return
        for further, row in enumerate(raw.split("\n")[1:], 1):
            if re.match(r"\s*- ", row):
                self.problem(
                    "indent",
                    Place(place.line + further, len(row) - len(row.lstrip()) + 1),
                    "this line is indented further than the list it belongs to, so that YAML "
                    "takes it for the rest of the line above",
                    "give all lines of one list the same number of spaces",
                )

    def mapping(self, node: yaml.MappingNode, path: Path) -> dict[str, Any]:
        data: dict[str, Any] = {}
        for key_node, value_node in node.value:
            place = Place(key_node.start_mark.line + 1, key_node.start_mark.column + 1)
            if not isinstance(key_node, yaml.ScalarNode):
                self.problem(
                    "yaml-key", place, "a field's name must be plain words", "take the brackets off"
                )
                continue
            key = str(key_node.value)
            if key in data:
                first = self.tree.keys[(*path, key)]
                self.problem(
                    "duplicate-key",
                    place,
                    f"'{key}' stands twice; the first is on line {first.line}",
                    "keep one of them",
                    len(key),
                )
                continue
            self.tree.keys[(*path, key)] = place
            data[key] = self.value(value_node, (*path, key))
        return data
