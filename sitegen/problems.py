"""What went wrong in an author's file, said so that the author can mend it.

A :class:`Problem` is a value: it is made where the mistake is seen, carried along, and printed once
at the end with every other one. Nothing raises for an author's mistake.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from difflib import get_close_matches
from functools import lru_cache
from heapq import nlargest
from typing import Literal

Severity = Literal["error", "advice"]


@dataclass(frozen=True, slots=True)
class Problem:
    """One mistake, at one place.

    >>> p = Problem("unknown-field", "error", "recipes/soup.md", 4, 1,
    ...             "there is no field 'serve'", "did you mean 'serves'?")
    >>> print(p.headline())
    recipes/soup.md:4:1: error: there is no field 'serve' [unknown-field]
    """

    rule: str
    """A short plain name, stable for ever: ``unknown-field``, ``amount-unreadable``."""
    severity: Severity
    """``error`` keeps a recipe from being published; ``advice`` does not."""
    file: str
    """The file's path relative to the site's ``content`` folder's parent, with ``/``."""
    line: int
    """1-based; 0 when the whole file is meant."""
    column: int
    """1-based, counted in characters."""
    message: str
    """What was found, with the figures."""
    hint: str = ""
    """What to write instead."""
    length: int = 1
    """How many characters the caret underlines."""
    why: str = ""
    """Why it matters, for those to whom the message alone does not say so."""

    def headline(self) -> str:
        """The one-line form: place, severity, message, rule."""
        return (
            f"{self.file}:{self.line}:{self.column}: {self.severity}: {self.message} [{self.rule}]"
        )

    def as_json(self) -> dict[str, str | int]:
        """The seven named values that ``sitegen check --format json`` prints."""
        return {
            "rule": self.rule,
            "severity": self.severity,
            "file": self.file,
            "line": self.line,
            "column": self.column,
            "message": self.message,
            "hint": self.hint,
        }


def in_order(problems: Iterable[Problem]) -> list[Problem]:
    """Problems by file, line and column; the same mistake said twice is kept once."""
    seen = dict.fromkeys(problems)
    return sorted(seen, key=lambda p: (p.file, p.line, p.column, p.rule, p.message))


def has_errors(problems: Iterable[Problem]) -> bool:
    """Whether any of them keeps a recipe from being published."""
    return any(p.severity == "error" for p in problems)


def did_you_mean(word: str, known: Iterable[str]) -> str:
    """A hint naming the nearest known word, or an empty string when nothing is near.

    >>> did_you_mean("serve", ["serves", "makes"])
    "did you mean 'serves'?"
    """
    near = nearest(word.lower(), tuple(known))
    return f"did you mean '{near}'?" if near else ""


_COMPARED = 60
"""As many words are compared letter by letter; of more, those that share the most pairs of letters."""


@lru_cache(maxsize=256)
def nearest(word: str, known: tuple[str, ...]) -> str:
    """The known word that is most like one, or an empty string when none is near."""
    if len(known) > _COMPARED:
        pairs = _pairs(word)
        known = tuple(nlargest(_COMPARED, known, key=lambda other: len(pairs & _pairs(other))))
    near = get_close_matches(word, known, n=1, cutoff=0.6)
    return near[0] if near else ""


def _pairs(word: str) -> set[str]:
    return {word[at : at + 2] for at in range(len(word) - 1)}
