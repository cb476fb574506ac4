"""A text and the places in it."""

from __future__ import annotations

from bisect import bisect_right
from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True)
class Place:
    """A line and a column, both from 1."""

    line: int
    column: int


@dataclass(frozen=True, slots=True)
class Source:
    """A file's text with the path that problems name.

    >>> Source("recipes/soup.md", "one\\ntwo").place(5)
    Place(line=2, column=2)
    """

    file: str
    text: str
    _starts: tuple[int, ...] = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        starts = [0]
        at = self.text.find("\n")
        while at >= 0:
            starts.append(at + 1)
            at = self.text.find("\n", at + 1)
        object.__setattr__(self, "_starts", tuple(starts))

    def place(self, offset: int) -> Place:
        """The place of a character offset."""
        line = bisect_right(self._starts, offset)
        return Place(line, offset - self._starts[line - 1] + 1)

    def offset(self, line: int, column: int = 1) -> int:
        """The character offset of a place; the end of the text if the line is past it."""
        if line > len(self._starts):
            return len(self.text)
        return self._starts[line - 1] + column - 1

    def line(self, number: int) -> str:
        """One line's text without its line break; empty if there is no such line."""
        if not 1 <= number <= len(self._starts):
            return ""
        start = self._starts[number - 1]
        end = self.text.find("\n", start)
        return self.text[start : end if end >= 0 else len(self.text)].rstrip("\r")
