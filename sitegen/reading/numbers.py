"""Numbers as cooks write them: ``2``, ``2.5``, ``2,5``, ``1/2``, ``1 1/2``, ``½``, ``1½``, ``half a``.

Scanners take a text and a position and return what they found and where it ends, or None.
A number that could mean two things (``1,000``) raises :class:`Unreadable`.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from unicodedata import numeric

_VULGAR = "¼½¾⅐⅑⅒⅓⅔⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞"

_WORDS = {
    "one": 1,
    "two": 2,
    "three": 3,
    "four": 4,
    "five": 5,
    "six": 6,
    "seven": 7,
    "eight": 8,
    "nine": 9,
    "ten": 10,
    "eleven": 11,
    "twelve": 12,
}

_NUMBER = re.compile(
    rf"""
    (?P<whole>\d{{1,6}})[ -]?(?P<glyph>[{_VULGAR}])(?!\d)
    | (?P<alone>[{_VULGAR}])
    | (?P<mixed>\d{{1,6}})(?:[ ](?:and[ ])?|-(?=\d{{1,2}}[/⁄]))
      (?P<mn>\d{{1,3}})[ ]?[/⁄][ ]?(?P<md>\d{{1,3}})(?![\d/⁄])
    | (?P<n>\d{{1,4}})[ ]?[/⁄][ ]?(?P<d>\d{{1,4}})(?![\d/⁄])
    | (?P<decimal>\d{{1,6}}[.,]\d{{1,4}})(?![\d.,]*\d)
    | (?P<point>\.\d{{1,4}})(?![\d.,]*\d)
    | (?P<integer>\d{{1,6}})(?![.,]?\d|[/⁄])
    """,
    re.VERBOSE,
)

_WORD = re.compile(
    r"(?P<half>half(?: an?| (?=dozen\b))?(?P<dozen>[ ]dozen)?)\b(?![- ]and[- ]half)"
    r"|(?P<andpart>(?P<and>\d{1,3}|one|two|three|four|five|six) and (?:a |one )?(?P<part>half|quarter))\b"
    r"|(?P<couple>a couple of)\b"
    r"|(?P<parts>(?:(?P<above>an?|one|two|three)[ -])?(?P<below>third|quarter)(?:s(?=[ ]of\b))?"
    r"(?: of an?\b| of\b)?)\b"
    r"|(?P<adozen>a dozen)\b"
    r"|(?P<word>one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve)\b(?!-)"
    r"|(?P<a>an?)\b(?![-'’]|\s(?:few|little|bit|lot)\b)",
    re.IGNORECASE,
)


_RUN = re.compile(rf"[\d.,/⁄{_VULGAR}]+")
_GOES_ON = re.compile(rf"[\d{_VULGAR}]|[/⁄][\d{_VULGAR}]")


_FOLDED = str.maketrans({"\u017f": "s", "\u0130": "i", "\u0131": "i", "\u212a": "k"})


def fold(text: str) -> str:
    """Small letters; the long s and its like, which patterns take for s, i and k, become those.

    >>> fold("Tb\u017fp")
    'tbsp'
    """
    # hardly any text has one of them, and translating is slow
    if not text.isascii() and any(odd in text for odd in "\u017f\u0130\u0131\u212a"):
        text = text.translate(_FOLDED)
    return text.lower()


class Unreadable(Exception):
    """A place that can't be understood, and how to mend it."""

    def __init__(self, rule: str, at: int, length: int, message: str, hint: str) -> None:
        super().__init__(message)
        self.rule = rule
        self.at = at
        self.length = max(1, length)
        self.message = message
        self.hint = hint


@dataclass(frozen=True, slots=True)
class Number:
    """A number and where it ends."""

    value: Fraction
    end: int
    bare_word: bool = False
    """Only ``a`` or ``an``: a number if something countable follows."""


# What a number can begin with, the long s of "six" among it; most words end the search here.
_FIRST = frozenset("hotfsenaqHOTFSENAQ\u017f." + _VULGAR)


def scan_number(text: str, at: int) -> Number | None:
    """The number that starts at ``at``, if one does.

    >>> scan_number("1 1/2 cups", 0)
    Number(value=Fraction(3, 2), end=5, bare_word=False)
    """
    first = text[at : at + 1]
    if first not in _FIRST and not first.isdecimal():
        return None
    word = _WORD.match(text, at)
    if word and word["andpart"]:
        count = fold(word["and"])
        whole = int(count) if count.isdigit() else _WORDS[count]
        part = Fraction(1, 2) if fold(word["part"]) == "half" else Fraction(1, 4)
        return Number(whole + part, word.end())
    found = _NUMBER.match(text, at)
    if found and not _GOES_ON.match(text, found.end()):
        return _digits(text, at, found)
    if found or first.isdecimal():
        end = _RUN.match(text, at)
        stop = end.end() if end else at + 1
        raise Unreadable(
            "amount-unreadable",
            at,
            stop - at,
            f"'{text[at:stop]}' is not a number that can be read",
            "write it as 1500, 1.5, 1 1/2 or 1½",
        )
    if not word:
        return None
    if word["couple"]:
        return Number(Fraction(2), word.end())
    if word["half"]:
        return Number(Fraction(6) if word["dozen"] else Fraction(1, 2), word.end())
    if word["parts"]:
        above = _WORDS.get(fold(word["above"] or ""), 1)
        return Number(Fraction(above, 3 if fold(word["below"]) == "third" else 4), word.end())
    if word["adozen"]:
        return Number(Fraction(12), word.end())
    if word["word"]:
        return Number(Fraction(_WORDS[fold(word["word"])]), word.end())
    return Number(Fraction(1), word.end(), bare_word=True)


def _digits(text: str, at: int, found: re.Match[str]) -> Number | None:
    end = found.end()
    form = found.lastgroup  # the last group of the form that fits
    if form == "integer":
        written = found["integer"]
        if len(written) > 1 and written[0] == "0":
            return None  # "00 flour" is a name
        return Number(Fraction(int(written)), end)
    if form == "glyph":
        return Number(int(found["whole"]) + _glyph(found["glyph"]), end)
    if form == "alone":
        return Number(_glyph(found["alone"]), end)
    if form == "md":
        return Number(int(found["mixed"]) + _over(text, at, end, found["mn"], found["md"]), end)
    if form == "d":
        return Number(_over(text, at, end, found["n"], found["d"]), end)
    if form == "decimal":
        written = found["decimal"]
        if re.fullmatch(r"\d{1,3},\d{3}", written):
            raise Unreadable(
                "amount-ambiguous",
                at,
                len(written),
                f"'{written}' may be a thousand or a decimal",
                f"write {written.replace(',', '')} for the thousand, "
                f"or {float(written.replace(',', '.')):g} for the decimal",
            )
        return Number(Fraction(written.replace(",", ".")), end)
    return Number(Fraction(found["point"]), end)


def _glyph(char: str) -> Fraction:
    return Fraction(numeric(char)).limit_denominator(10)


def _over(text: str, at: int, end: int, above: str, below: str) -> Fraction:
    if int(below) == 0:
        raise Unreadable(
            "amount-unreadable",
            at,
            end - at,
            f"'{text[at:end]}' divides by nothing",
            "write the fraction you mean, such as 1/2",
        )
    return Fraction(int(above), int(below))
