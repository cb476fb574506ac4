"""Figures with a letter in them: ``19O °C``, ``l5 minutes``, ``1OO g``, ``180oC``, ``20 minuts``.

To the eye they are amounts, times and heats; to the page, which can neither convert nor scale nor time
them, they are words. They are sought in the whole text of a recipe, for they may stand anywhere in
it; and nothing else is said of a spot where one stands, for what follows from it is no second mistake.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from difflib import get_close_matches
from functools import lru_cache

from sitegen.problems import Problem
from sitegen.reading.source import Source

_MEANT = str.maketrans("OolISBZ", "0011582")

_DEGREES = r"(?:[°º˚](?:\s?[CF]\b)?|degrees?\b|deg\b|(?:Celsius|Fahrenheit|[CF])\b)"
_WORDS = (
    r"(?:min(?:ute)?s?|sec(?:ond)?s?|hours?|hrs?|days?|weeks?|months?"
    r"|g|kg|mg|ml|cl|dl|l|lit(?:re|er)s?|oz|ounces?|lbs?|pounds?|tsp|tbsp|(?:tea|table)spoons?|cups?"
    r"|pints?|fl|cm|mm|inch(?:es)?)\b"
)
_UNIT = re.compile(
    rf"(?:\s?(?:[–—-]|to|or)\s?(?:[\dOolI]{{1,4}}))?(?P<unit>\s?(?:%|{_DEGREES})|[ -]?{_WORDS})"
)
"""What makes a figure of the word before it; ``1O to 12 minutes`` has it after the other end."""
_FRACTION = re.compile(rf"[ ](?:[\d¼½¾⅓⅔/]+[ ])?{_WORDS}(?! (?:my|your|his|her|our|the|it)\b)")
"""``l cup``, ``l 1/2 cups``: what follows a one that stands alone."""

_WORD = re.compile(
    r"(?<![\w#/=&?%.,])(?<![A-Za-z]-)(?=[\d.,/⁄]*[OolISBZ])[\dOolISBZ]+(?:[.,/⁄][\dOolISBZ]+)?"
)
_LITRES = re.compile(r"\d*[OoISBZ][\dOolISBZ]*l|\d*l[\dOolISBZ]+l")
_WITHIN = re.compile(r"\d[OolI]+\d")
_TENS = re.compile(r"[1-9]\d*O+")
_TEENS = re.compile(r"l[\dOolI]+")
_PART = re.compile(r"[lI][/⁄][2348]")
_BROKEN = re.compile(r"(?=.*\d)[\dOlI][\dOolI]*[.,][\dOolI]+|\d+[/⁄][\dOlI]+")
_ONE_UNIT = re.compile(r"[1-9][\dOolISBZ]*|[OI][\dOolI]*\d[\dOolI]*|[lI][O0]+")
_FALSE_DEGREE = re.compile(
    r"(?<![\w.,])(?P<figure>\d{2,3})(?P<sign>\s?[*'’^]|\s?o|\sO|(?<=\d{3})O)\s?(?P<scale>[CF])(?!\w)"
)

_APART = re.compile(r"(?<![\w.,/–—-])(?P<first>[1-4])[ ](?P<rest>\d[05])\s?°\s?(?P<scale>[CF])\b")
_COUNTED = re.compile(r"\b(?:gas|mark|step|steps|no\.?|part|line|shelf|setting)\s$", re.IGNORECASE)
_GAS_MARK = re.compile(
    r"\b[Gg]as(?:\s[Mm]ark)?\s(?P<mark>l|I(?=\s*[.,;:/()]|\s+(?:for|until|fan)\b|$)|[lI]0)(?![\w/])"
)

# One byte a character: figures, the letters taken for them, and the few signs that stand around.
_CLASSES = {"0123456789": "0", "OSBZ": "O", "CF°": "C", "*'^": "*", "/": "/", ".,": ",", "(:-": "-",
            "mhs": "m"}  # fmt: skip
_TABLE = bytearray(b"x" * 256)
for _char in " olI":
    _TABLE[ord(_char)] = ord(_char)
for _chars, _class in _CLASSES.items():
    for _char in _chars:
        _TABLE[ord(_char)] = ord(_class)
_LETTERED_SIGN = re.compile(
    rb"0(?:O|o[0 -]|[lI][OC0 -]|,[OlI])|O(?:[O0]|,0)|[lI](?:[O0/]|,0)|-(?:l| [lI]) "
)
_DEGREE_SIGN = re.compile(rb"0 ?(?:o ?|[O*])C")
# Either of the two, sought by its rarer signs, with what stands around them: three times as fast.
_SUSPECT = re.compile(
    rb"[0O/,-](?:(?<=0)(?:O|o[0 -]|[lI][OC0 -]|,[OlI]| ?(?:o ?|[O*])C)|(?<=[lIO][0O])|(?<=O)0"
    rb"|(?<=[lI]/)|(?<=[OlI],)0|(?<=-)(?:l| [lI]) )"
)
_APART_SIGN = b" 0 00"

_TIMES = ("minute", "minutes", "hour", "hours", "second", "seconds")
_TIME_WORD = re.compile(r"[mhs][a-z]{3,8}(?![\w’'])")


@dataclass(frozen=True, slots=True)
class Misread:
    """A figure or unit that can't be read, between two offsets, and what is most likely meant."""

    start: int
    end: int
    rule: str
    message: str
    hint: str


def misread(text: str) -> list[Misread]:
    """The figures of ``text`` with a letter in them, false degree signs, and misspelt times.

    >>> [(m.message, m.hint) for m in misread("Bake at 19O °C for 20 minuts")]  # doctest: +NORMALIZE_WHITESPACE
    [("'19O' is no number: there is a letter in it", "did you mean '190 °C'?"),
     ("'minuts' is not a unit of time", "did you mean 'minutes'?")]
    """
    # Translating, and one search for all signs, is many times faster than searching by the patterns.
    kinds = text.encode("latin-1", "replace").translate(_TABLE)
    found: list[Misread] = []
    if "gas" in text or "Gas" in text:
        found.extend(_gas_marks(text))
    suspect = _SUSPECT.search(kinds) is not None
    if suspect and _DEGREE_SIGN.search(kinds):
        found.extend(_false_degrees(text))
    if _APART_SIGN in kinds:
        found.extend(_apart(text))
    if suspect and _LETTERED_SIGN.search(kinds):
        taken = {one.start for one in found}
        found.extend(one for one in _lettered(text) if one.start not in taken)
    at = kinds.find(b"0 m")
    while at >= 0:
        if text[at + 2 : at + 9] != "minutes":
            found.extend(_misspelt(text, at + 2))
        at = kinds.find(b"0 m", at + 3)
    return found


def meant(word: str) -> str:
    """What a figure with letters in it is, most likely.

    >>> meant("2OO"), meant("l/2")
    ('200', '1/2')
    """
    return word.translate(_MEANT)


def _false_degrees(text: str) -> Iterator[Misread]:
    for found in _FALSE_DEGREE.finditer(text):
        written = found.group()
        yield Misread(
            *found.span(),
            "degree-sign",
            f"'{written}' has '{found['sign'].strip()}' where the degree sign is meant, and is not read "
            "as a temperature",
            f"did you mean '{found['figure']} °{found['scale']}'?",
        )


def _apart(text: str) -> Iterator[Misread]:
    for found in _APART.finditer(text):
        start = found.start()
        if _COUNTED.search(text[max(0, start - 9) : start]):
            continue
        rest, scale = found["rest"], found["scale"]
        yield Misread(
            *found.span(), "figure-apart", f"'{found[0]}' is read as {rest} °{scale}, after a figure",
            f"did you mean '{found['first']}{rest} °{scale}'?",
        )  # fmt: skip


def _gas_marks(text: str) -> Iterator[Misread]:
    for found in _GAS_MARK.finditer(text):
        mark = found["mark"]
        yield Misread(
            *found.span("mark"), "figure-letter", f"'{mark}' is no gas mark: there is a letter in it",
            f"did you mean 'gas mark {meant(mark)}'?",
        )  # fmt: skip


def _lettered(text: str) -> Iterator[Misread]:
    for found in _WORD.finditer(text):
        word, end = found.group(), found.end()
        unit = _UNIT.match(text, end)
        if unit is None and _LITRES.fullmatch(word) and not text[end : end + 1].isalnum():
            word, end = word[:-1], end - 1  # "1Ol milk", "2l milk"
            unit = _UNIT.match(text, end)
        after = unit["unit"].strip(" -") if unit and unit.start("unit") == end else ""
        if not _is_figure(word, text, found.start(), end, unit is not None, bool(after)):
            continue
        near = meant(word) + (f" {after}" if after else "")
        yield Misread(
            found.start(), end, "figure-letter",
            f"'{word}' is no number: there is a letter in it" if len(word) > 1
            else f"'{word}' is a letter, and stands where a number is meant",
            f"did you mean '{near}'?",
        )  # fmt: skip


def _is_figure(word: str, text: str, start: int, end: int, unit: bool, next_to: bool) -> bool:
    """Whether a word of figures and letters is meant for a number.

    ``2l`` is two litres, ``I`` is the cook and ``0O`` is a flour: what may be anything else is left
    alone, unless a ``unit`` follows that says otherwise; ``next_to`` it, not behind a range's end.
    """
    if word in ("l", "I"):
        before = text[max(0, start - 8) : start]
        alone = before.endswith(("- ", "(", "line: ", "swap: ")) and (
            word == "l" or before[-1] != "("
        )
        return alone and _FRACTION.match(text, end) is not None
    if not any(c.isdigit() for c in word) and not (unit and re.fullmatch(r"[lI]O+", word)):
        return False
    ends = not text[end : end + 1].isalnum() and not re.match(r"[./-]\w", text[end : end + 2])
    if ends and (_WITHIN.search(word) or _TENS.fullmatch(word) or _TEENS.fullmatch(word)):
        return set(word).isdisjoint("SBZ")
    if _PART.fullmatch(word):
        return text[end : end + 1] == " "
    if not unit:
        return False
    if word[-1] == "l" and set(word[:-1]).isdisjoint("OolISBZ"):
        return next_to and text[end : end + 1] in (
            " ",
            "°",
        )  # "2l g" is 21 g; "2lg" could be anything
    return bool(_BROKEN.fullmatch(word) or _ONE_UNIT.fullmatch(word) or _WITHIN.search(word))


def _misspelt(text: str, at: int) -> Iterator[Misread]:
    found = _TIME_WORD.match(text, at)
    near = _nearly_time(found.group()) if found else ""
    if found and near:
        yield Misread(
            *found.span(), "unit-unknown", f"'{found.group()}' is not a unit of time",
            f"did you mean '{near}'?",
        )  # fmt: skip


@lru_cache(maxsize=1024)
def _nearly_time(word: str) -> str:
    """The unit of time that a word is nearly; empty if it is one, or none."""
    if word in _TIMES or word in (
        "mins",
        "secs",
        "mints",
        "house",
        "houses",
        "moments",
        "scones",
        "section",
        "sections",
    ):
        return ""
    near = get_close_matches(word, [t for t in _TIMES if t[0] == word[0]], n=1, cutoff=0.8)
    return near[0] if near else ""


def report(source: Source, problems: list[Problem]) -> None:
    """Add what is misread in a file to its problems, in place of what was said of the same spots."""
    for one in misread(source.text):
        place, length = source.place(one.start), one.end - one.start
        if source.line(place.line).lstrip().startswith("#"):
            continue  # a heading, or a comment among the fields
        begin, end = place.column, place.column + length
        problems[:] = [
            p
            for p in problems
            if p.line != place.line or p.column > end or p.column + p.length < begin
        ]
        problems.append(
            Problem(
                one.rule, "error", source.file, place.line, begin, one.message, one.hint, length
            )
        )
