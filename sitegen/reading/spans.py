"""Times, temperatures and lengths in running text."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import lru_cache
from typing import Literal

from sitegen.reading.numbers import Unreadable, fold, scan_number
from sitegen.reading.recipe import Length, Temperature, TimeSpan
from sitegen.reading.source import Place

_N = r"(?:\d+(?:[.,]\d+)?(?:\s?[¼½¾⅓⅔])?|[¼½¾⅓⅔]|\d+\s\d/\d|\d/\d)"
_SPELT = {
    word: value
    for value, word in enumerate(
        "one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen "
        "sixteen seventeen eighteen nineteen".split(),
        1,
    )
}
_TENS = {"twenty": 20, "thirty": 30, "forty": 40, "fifty": 50, "sixty": 60, "ninety": 90}
_WORDS = (
    rf"(?:{'|'.join(_TENS)})(?:[- ](?:one|two|three|four|five|six|seven|eight|nine))?"
    rf"|{'|'.join(sorted(_SPELT, key=len, reverse=True))}"
)
_PARTS = {"half": Fraction(1, 2), "quarter": Fraction(1, 4), "quarters": Fraction(3, 4)}
_AND = r"\s+and\s+(?:a\s+(?:half|quarter)|three[- ]quarters)\b"
_UNITS = {"s": 1, "m": 60, "h": 3600, "d": 86400}
_UNIT = r"(?:seconds?|secs?|minutes?|mins?|hours?|hrs?|h|days?)"

_SMALLER = r"(?:seconds?|secs?|s|minutes?|mins?)"

_AFTER_HOURS = r"(?:(?<=\dh)|(?<=\sh)|(?<=hr)|(?<=hrs)|(?<=hour)|(?<=hours))"
"""``1 hr 20``: minutes without their unit, only right after hours."""

_TIME = re.compile(
    rf"""(?<![\w.,/])(?:
      (?P<idiom>(?:another\s+)?(?:half\s+an\s+hour|half\s+a\s+minute|(?:a\s+)?quarter\s+of\s+an\s+hour
        |three[- ]quarters\s+of\s+an\s+hour|an?\s+(?:hour|minute)\s+or\s+(?:two|so)
        |a\s+couple\s+of\s+(?:hours|minutes)
        |an\s+hour(?:{_AND}|\s+and\s+(?P<over>{_N}|(?:{_WORDS})\b)[\s-]?min(?:ute)?s?\b)?|a\s+minute))
    | (?P<from>{_N}|(?:{_WORDS})\b)(?P<fromand>{_AND})?
      (?:\s*(?:[–—-]|\bto\b|\bor\b)\s*(?P<to>{_N}|(?:{_WORDS})\b)(?P<toand>{_AND})?)?
      [\s-]?(?P<unit>{_UNIT})(?![\w’'])
      (?:\s*(?:,|and)?\s*(?P<more>{_N})\s*(?P<moreunit>{_SMALLER})(?![\w’'])
        |{_AFTER_HOURS}\s?(?P<bare>[1-5]\d)(?=\s*(?:[.,;)]|$|(?:at|until|or|in|then|and|with|on)\b)))?
      (?:\s*(?:[–—-]|\bto\b|\bor\b)\s*(?P<till>{_N})[\s-]?(?P<tillunit>{_UNIT})(?![\w’'])
        (?:\s*(?P<tillmore>{_N})\s*(?P<tillmoreunit>{_SMALLER})(?![\w’']))?)?
    )""",
    re.VERBOSE | re.IGNORECASE,
)

_IDIOMS = {
    "half an hour": 1800,
    "quarter of an hour": 900,
    "a quarter of an hour": 900,
    "three-quarters of an hour": 2700,
    "three quarters of an hour": 2700,
    "half a minute": 30,
    "an hour": 3600,
    "a minute": 60,
    "a couple of hours": 7200,
    "a couple of minutes": 120,
}

_AIR = r"(?:fan(?:[- ](?:forced|assisted))?|convection|conventional|no[- ]fan|without\s(?:a\s)?fan|static)"
# The degree sign, and the two that keyboards give for it: the masculine ordinal and the ring.
_DEGREE = "[°º˚]"
_HEAT = re.compile(
    rf"""(?<![\w.,])(?:
      (?:(?P<before>(?i:fan|conventional))(?:\s+oven)?\s+)?(?<![.,])
      (?P<from>\d{{2,4}})(?:\s*(?:{_DEGREE}\s?[CF]?)?\s*(?:[–—-]|to)\s*(?P<to>\d{{2,4}}))?\s*
      (?:{_DEGREE}\s?|degrees\s+|deg\s+)?
      (?P<unit>[CF]|(?<=[\d°º˚])[cf]|[Cc]elsius|[Cc]entigrade|[Ff]ahrenheit)(?![\w’'])
      (?:[\s,]*\(?(?P<air>(?i:{_AIR}))(?:\s+oven)?\b(?!\s*\d)\)?)?
    | (?i:gas)(?:\s+(?i:mark))?\s+(?P<gas>\d{{1,2}}|[¼½])(?!\w)
    )""",
    re.VERBOSE,
)

_LENGTH = re.compile(
    rf"(?<![\w.,/])(?P<a>{_N})(?:\s*(?:cm|mm)?\s*[x×]\s*(?P<b>{_N}))?(?:\s*[x×]\s*(?P<c>{_N}))?"
    r"[\s-]?(?P<unit>cm|mm|inch(?:es)?|in(?=\s+(?:round|square|tin|pan|cake)))(?![\w’'])"
)

_INSIDE = re.compile(
    r"\b(?:middle|centre|center|core|thickest|internal|inside|thermometer|probe|reads?|registers?"
    r"|reach(?:es|ed)?|jam|marmalade"
    r"|water|milk|custard|syrup|sugar|caramel|fat|chocolate|stock|liquid|temperature of)\b",
    re.IGNORECASE,
)
_OIL = re.compile(r"\b(?:oil|fryer|deep|frying|fat|syrup|sugar|caramel)\b", re.IGNORECASE)
_OVEN = re.compile(r"\b(?:oven|bake|roast|preheat|grill|gas)\b", re.IGNORECASE)

INSTEAD = re.compile(
    r"\bor (?:cook )?(?:on |at )?(?:a )?(?:high|low|full|medium|auto)(?: heat| power| setting)?"
    r"(?: for)?(?: about| around)?\s*\Z",
    re.IGNORECASE,
)
"""Ends the words before a time that stands in place of the one before it: ``or high for 5 hours``."""

LONGEST_TIMER = 48 * 3600


@dataclass(frozen=True, slots=True)
class Spotted:
    """Something recognised between two offsets of a text."""

    start: int
    end: int
    what: TimeSpan | Temperature | Length


# What must be in a text for the patterns above to fit: told far faster than that they don't.
_SCALED = re.compile(r"\d\d\s*(?:[°º˚CFcf]|deg)")
_SIZED = re.compile(r"[\d¼½¾⅓⅔][\s-]?(?:cm|mm|in)")
_TIMED = ("min", "hour", "sec", "day", "hr")
_HOURS = re.compile(r"[\d¼½¾⅓⅔\s-]h\b")
# Where a time begins that has no such word: the pattern is tried there, and not at every letter.
_FIGURE = re.compile(r"[\d¼½¾⅓⅔](?<![\w.,/].)")
_NUMBER_WORDS = (*({*_SPELT, *_TENS} - {"one", "ten"}), "half", "quarter", "couple")
_SHORT_WORDS = re.compile(r"[aot](?<!\w.)(?:n?\s+(?:hour|minute)|ne\b|en\b)")  # not "bone", "often"


def spot(text: str, place: Place, lead: str = "") -> list[Spotted]:
    """Everything that ``text`` says of times, heats and lengths, in order, without overlap.

    ``lead`` are the words before it in the same paragraph: they may say what a heat is of.

    >>> [s.what.text for s in spot("Bake at 180 °C fan for 40 minutes in a 23 cm tin", Place(1, 1))]
    ['180 °C fan', '40 minutes', '23 cm']
    """
    found: list[Spotted] = []
    low = fold(text)
    kinds: list[Iterator[Spotted]] = []
    if _SCALED.search(text) or "gas" in low:
        kinds.append(_heats(text, place, lead))
    if any(map(low.__contains__, _TIMED)) or _HOURS.search(low):
        kinds.append(_times(text, low, place))
    if _SIZED.search(text):
        kinds.append(_lengths(text, place))
    for items in kinds:
        for item in items:
            if not any(item.start < other.end and other.start < item.end for other in found):
                found.append(item)
    return sorted(found, key=lambda s: s.start) if len(found) > 1 else found


@lru_cache(maxsize=1024)
def number(text: str) -> Fraction:
    """A number that the patterns above matched, in figures or in words."""
    ten, _, one = text.strip().lower().replace(" ", "-").partition("-")
    if ten in _TENS or (ten in _SPELT and not one):
        return Fraction(_TENS.get(ten, 0) + _SPELT.get(one or ten, 0))
    try:
        found = scan_number(text.strip().lower(), 0)
    except Unreadable:
        found = None
    return found.value if found else Fraction(0)


def duration(text: str) -> int | None:
    """Seconds of a whole text that is one time: ``1 h 10 min``; None if it is something else."""
    found = _TIME.fullmatch(text.strip())
    if not found:
        return None
    first, last = _seconds(found)
    return last or first


def _seconds(found: re.Match[str]) -> tuple[int, int | None]:
    if found["idiom"]:
        words = re.sub(r"^another\s+", "", " ".join(fold(found["idiom"]).split()))
        if words.endswith(" or two"):
            one = _IDIOMS[words.removesuffix(" or two")]
            return one, 2 * one
        hour, _, over = words.removesuffix(" or so").partition(" and ")
        more = int(number(found["over"]) * 60) if found["over"] else int(_part_of(over) * 3600)
        return _IDIOMS[hour] + more, None
    unit, more, to = found["unit"], _part(found, "more"), found["to"]
    more += 60 * int(found["bare"] or 0)
    first = _lasting(found["from"], found["fromand"], unit) + more
    last = _lasting(to, found["toand"], unit) + more if to else None
    if found["till"]:
        last = _part(found, "till") + _part(found, "tillmore")
    return first, last if last and last > first else None


def _part_of(words: str | None) -> Fraction:
    """``and a half`` is 1/2; nothing is 0."""
    return _PARTS[re.split(r"[- \s]", words.lower())[-1]] if words else Fraction(0)


def _part(found: re.Match[str], name: str) -> int:
    """Seconds of a number and its unit; 0 where they are not there."""
    if not found[name]:
        return 0
    return _lasting(found[name], None, found[f"{name}unit"])


@lru_cache(maxsize=1024)
def _lasting(written: str, part: str | None, unit: str) -> int:
    """Seconds of a number, and of ``and a half`` after it, of units of time."""
    return int((number(written) + _part_of(part)) * _UNITS[fold(unit[0])])


def _times(text: str, low: str, place: Place) -> Iterator[Spotted]:
    in_words = any(map(low.__contains__, _NUMBER_WORDS)) or _SHORT_WORDS.search(low)
    for found in _TIME.finditer(text) if in_words else _times_in_figures(text):
        first, last = _seconds(found)
        if 0 < first <= LONGEST_TIMER:
            yield Spotted(*found.span(), TimeSpan(place, found.group(), first, last))


def _times_in_figures(text: str) -> Iterator[re.Match[str]]:
    end = 0
    for begin in _FIGURE.finditer(text):
        # what lies within a time is not the beginning of another
        found = _TIME.match(text, begin.start()) if begin.start() >= end else None
        if found is not None:
            end = found.end()
            yield found


def _heats(text: str, place: Place, lead: str) -> Iterator[Spotted]:
    for found in _HEAT.finditer(text):
        start, end = found.span()
        words = found.group().rstrip()
        if words.count("(") != words.count(")"):  # "(200 °C fan)" belongs to the sentence
            words = words.rstrip(")")
        end = start + len(words)
        if found["gas"]:
            yield Spotted(
                start, end, Temperature(place, words, number(found["gas"]), "gas", "oven")
            )
            continue
        value = Fraction(found["from"])
        unit: Literal["C", "F"] = "C" if found["unit"][0] in "Cc" else "F"
        said = (found["air"] or found["before"] or "").lower()
        air: Literal["fan", "conventional", ""] = ""
        if said:
            air = "fan" if said.startswith(("fan", "convection")) else "conventional"
        celsius = value if unit == "C" else (value - 32) * Fraction(5, 9)
        use = _use(lead + text, len(lead) + start, len(lead) + end, celsius, bool(air))
        upto = Fraction(found["to"]) if found["to"] else None
        yield Spotted(start, end, Temperature(place, words, value, unit, use, air, upto))


def _use(
    text: str, start: int, end: int, celsius: Fraction, said_air: bool
) -> Literal["oven", "core"]:
    """An oven setting, or the heat of what is cooked; judged by the sentence around it."""
    if said_air:
        return "oven"
    before = re.split(r"[.;:!?]\s", text[:start])[-1]
    after = re.split(r"[.;:!?](?:\s|$)", text[end:])[0]
    if celsius < 100:
        return "core"
    if _OIL.search(before) and not _OVEN.search(before):
        return "core"
    if celsius < 130 and _INSIDE.search(before + after) and not _OVEN.search(before):
        return "core"
    return "oven"


def _lengths(text: str, place: Place) -> Iterator[Spotted]:
    for found in _LENGTH.finditer(text):
        sides = tuple(number(found[k]) for k in "abc" if found[k])
        unit: Literal["cm", "mm", "in"] = "in"
        if found["unit"] in ("cm", "mm"):
            unit = "cm" if found["unit"] == "cm" else "mm"
        if all(sides):
            yield Spotted(*found.span(), Length(place, found.group(), sides, unit))


_FORM_OF = re.compile(r"[\s,;/(]*(?:or\s)?[\s(]*")


def one_setting(text: str, spotted: list[Spotted]) -> list[Spotted]:
    """``180C/160C fan/gas 4`` is one setting in three forms: one piece, with the first's figures.

    Where one form names the fan and the first does not, the first is the oven without it.
    """
    kept: list[Spotted] = []
    forms: list[Temperature] = []
    for item in spotted:
        heat, last = item.what, kept[-1] if kept else None
        if not isinstance(heat, Temperature) or heat.use != "oven":
            kept.append(item)
            forms = []
            continue
        joined = bool(forms and last) and _FORM_OF.fullmatch(text[last.end : item.start])  # type: ignore[union-attr]
        if not joined or any((f.unit, f.air) == (heat.unit, heat.air) for f in forms):
            kept.append(item)
            forms = [heat]
            continue
        assert last is not None
        forms.append(heat)
        end = item.end
        words = text[last.start : end]
        if words.count("(") > words.count(")") and text[end : end + 1] == ")":
            end += 1
        first = forms[0]
        if first.unit == "C" and not first.air and any(f.air == "fan" for f in forms[1:]):
            first = replace(first, air="conventional")
        kept[-1] = Spotted(last.start, end, replace(first, text=text[last.start : end]))
    return kept


def says_the_same(settings: list[Temperature], heat: Temperature) -> bool:
    """``180 °C fan (200 °C conventional, gas 6)``: one setting said in several ways."""
    last = settings[-1] if settings else None
    if last is None or last.use != "oven" or last.place.line != heat.place.line:
        return False
    gap = heat.place.column - last.place.column - len(last.text)
    return 0 <= gap <= 6 and (last.air, last.unit) != (heat.air, heat.unit)
