"""Measures that stand beside the first one: in brackets, after a stroke, or between commas."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace

from sitegen.kitchen.units import dimension_of
from sitegen.reading.measures import scan_measure, tidy
from sitegen.reading.numbers import Unreadable
from sitegen.reading.phrases import STATE
from sitegen.reading.recipe import Measure

_TAIL = re.compile(
    r"(?:\s*\b(?:(?P<each>each|apiece)|in all|in total|total|altogether"
    r"|(?:(?P<state>drained|trimmed|peeled|net|total) )?weight"
    r"|after [a-z]+ing|when [a-z]+|as weighed|as bought|(?P<done>[a-z]+ed))\b)*\s*",
    re.IGNORECASE,
)
_HEAD = re.compile(r"(?P<state>drained|trimmed|peeled|net|total)(?: weight)?:?\s+", re.IGNORECASE)
_SIZED = re.compile(
    r"\s*(?P<size>extra[- ]large|large|medium(?:[- ]sized)?|small)(?: ones?)?(?=\s*$)",
    re.IGNORECASE,
)
_JOINT = re.compile(r"\s*[,;]\s+(?:or\s+)?|(?<=[^\d\s])\s*/\s*|(?<=[^\d\s¼-¾⅐-⅞])\s+or\s+")
_RATIO = re.compile(r"\s*\d{2}\s*/\s*\d{1,2}\s*(?:lean)?\s*", re.IGNORECASE)
"""``(85/15)``: minced meat's lean and fat, not a count of five and two thirds."""
_NOTE = re.compile(r"as weighed|as bought|in all|in total", re.IGNORECASE)

_ALL = re.compile(r"\b(?:in all|in total|total|altogether)\b", re.IGNORECASE)
_HYPHEN = re.compile(r"(?<=\d)-(?=[A-Za-z])")
_HYPHENED = re.compile(r"\d[⁄/\d.,]*-[a-z]", re.IGNORECASE)


@dataclass(slots=True)
class Aside:
    """What a bracket's words come to."""

    measures: list[Measure]
    states: list[str]
    of_all: bool = False
    """It says that it measures all of them together."""
    of_each: bool = False


@dataclass(slots=True)
class Bracket:
    """A bracket of a line: where it stands, and the words in it."""

    start: int
    end: int
    inner: str


def find_brackets(text: str, after: int) -> list[Bracket]:
    """The outermost brackets of ``text`` that close at or behind ``after``."""
    found: list[Bracket] = []
    if "(" not in text and ")" not in text:
        return found
    opened: int | None = None
    depth = 0
    for i, char in enumerate(text):
        if char == "(":
            depth += 1
            if depth == 1:
                opened = i
        elif char == ")":
            if depth == 0:
                raise Unreadable(
                    "bracket", i, 1, "a ')' closes nothing", "open it with '(' or take it away"
                )
            depth -= 1
            if depth == 0 and opened is not None:
                if i >= after:
                    found.append(Bracket(opened, i + 1, text[opened + 1 : i]))
                opened = None
    if depth and opened is not None:
        raise Unreadable(
            "bracket", opened, 1, "a '(' is not closed", "close it with ')' on the same line"
        )
    return found


def read_aside(text: str, at: int) -> Aside | None:
    """The measures that ``text`` consists of; None if it says anything else.

    ``at`` is where the text stands in its line, for the place of a mistake.

    >>> [m.text for m in read_aside("400 g, drained weight 240 g", 0).measures]
    ['400 g', 'drained weight 240 g']
    """
    if _RATIO.fullmatch(text):
        return None
    found = Aside([], [])
    begin = 0
    for end, following in [(j.start(), j.end()) for j in _JOINT.finditer(text)] + [
        (len(text),) * 2
    ]:
        piece = text[begin:end]
        if not _one(piece, at + begin, found):
            return None
        begin = following
    if not found.measures:
        return None
    found.of_all = bool(_ALL.search(text))
    found.of_each = found.of_each or bool(_HYPHENED.search(text))
    if found.of_each:
        found.measures = [replace(m, apiece=True) for m in found.measures]
    return found


def _one(piece: str, at: int, into: Aside) -> bool:
    if STATE.fullmatch(piece.strip()):
        into.states.append(piece.strip().lower())
        return bool(into.measures)
    if _NOTE.fullmatch(piece.strip()):
        return bool(into.measures)
    lead = len(piece) - len(piece.lstrip())
    head = _HEAD.match(piece, lead)
    begin = head.end() if head else lead
    try:
        # "8-ounce" is 8 ounces to the scanner, and "8-ounce" on the page
        found = scan_measure(_HYPHEN.sub(" ", piece) if "-" in piece else piece, begin)
    except Unreadable as trouble:
        if trouble.rule == "unit-glued":
            return False  # "(2x washed)" is no measure, and need not be one
        trouble.at += at
        raise
    if found is None:
        return False
    measure, end = replace(found.measure, text=tidy(piece)), found.end
    if found.bare:
        sized = _SIZED.match(piece, end)
        if sized:
            size = sized["size"].lower().replace("-sized", "").replace(" sized", "")
            measure, end = replace(measure, size=size), sized.end()
        if not piece[:end].strip()[-1:].isnumeric() and not sized:
            return False
    tail = _TAIL.fullmatch(piece, end)
    if tail is None:
        return False
    into.states.extend(found.states)
    for word in (head and head["state"], tail["state"], tail["done"]):
        if word and STATE.fullmatch(word):
            into.states.append(word.lower())
    if tail["each"]:
        into.of_each = True
    into.measures.append(measure)
    return True


_STROKE = re.compile(r"\s*/\s*(?=[\d¼½¾⅓⅔⅛])")


def stroke(text: str, at: int) -> tuple[Measure, int] | None:
    """``/1¼ cups`` right after ``150 g``: the same in the other system."""
    joint = _STROKE.match(text, at)
    if not joint:
        return None
    found = scan_measure(text, joint.end())
    if found is None or found.bare or dimension_of(found.measure.unit) == "count":
        return None
    return found.measure, found.end
