"""Measures as cooks write them: ``2 tbsp``, ``1 lb 4 oz``, ``2 × 400 g tins``, ``a pinch of``."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import lru_cache

from sitegen.kitchen.units import dimension_of
from sitegen.reading.numbers import Number, Unreadable, fold, scan_number
from sitegen.reading.recipe import Amount, Measure
from sitegen.reading.unit_words import FORMS, refuse_glued, refuse_misspelt, scan_unit

_LIMIT = re.compile(r"(?:up to|just (?:over|under))\s+(?=[\d¼-¾⅐-⅞])", re.IGNORECASE)
"""Words that bound an amount: they are kept, where ``about`` is a sign."""

_ABOUT = re.compile(
    r"(?:about|approx\.?|approximately|around|roughly|circa|ca\.|some)\s+|~\s*",
    re.IGNORECASE,
)

# Words between a number and its unit. Those that change how full a spoon is make it approximate;
# "packed" chooses the measure; sizes choose among a counted food's own measures.
_BEFORE_UNIT = re.compile(
    r"(?:(?P<loose>scant|heaped|heaping|rounded|generous|good|big|fat|thick|thin|chunky)"
    r"|(?P<exact>level|flat|standard)"
    r"|(?P<packed>(?:lightly |firmly |loosely |tightly )?packed)"
    r"|(?P<size>extra[- ]large|large|medium(?:[- ]sized)?|small|jumbo))\s+",
    re.IGNORECASE,
)

_HOW_FULL = frozenset("scant heaped heaping rounded".split())
_INEXACT = frozenset("scant heaped heaping rounded generous".split())

_RANGE = re.compile(r"\s*[–—−-]\s*|\s+(?:to|or)\s+", re.IGNORECASE)
_TIMES = re.compile(r"\s*[x×✕]\s*(?=\d|[¼½¾])", re.IGNORECASE)
_PLUS = re.compile(r"\s*(?:\+|,?\s*\b(?:plus|and)\b)\s*", re.IGNORECASE)
_COMMA = re.compile(r",\s+(?=\S+\s*(?:oz|ounces?)\b)", re.IGNORECASE)
_PIECE = re.compile(
    r"(?P<length>\s?-?(?:cm|mm|in|inch|inches|\"|”))(?:-long)?\)?\s+(?P<word>piece|pieces|knob|knobs|stick|sticks|length|strip|strips)\b",
    re.IGNORECASE,
)
_CONTAINERS = frozenset(
    re.split(
        " ",
        "tin can jar bottle packet package sachet envelope carton tub pot bag box block ball loaf piece "
        "fillet punnet bunch head slice portion scoop",
    )
)
_GAP = re.compile(r"[ -]*")


@dataclass(frozen=True, slots=True)
class Found:
    """A measure, where it ends, and the state words that stood in it."""

    measure: Measure
    end: int
    states: tuple[str, ...] = ()
    bare: bool = False
    """A number without a unit: what it counts must follow."""
    loose: str = ""
    """How full the spoon is: ``heaped``, ``scant``; kept beside the food."""


def tidy(text: str) -> str:
    """One space for every run of white space; none at the ends."""
    return " ".join(text.split())


# What a measure can begin with: a figure, or one of the words of the patterns here and of numbers.
_OPENING = re.compile(
    r"[\d¼-¾⅐-⅞.~]|up|just|about|approx|around|roughly|circa|ca\.|some|half|one|two|three|four|five"
    r"|six|seven|eight|nine|ten|eleven|twelve|an?\b|third|quarter|small|large|big|good|generous"
    r"|pinch|dash|splash|drizzle|handful|knob|bunch|sprig|squeeze|drop|grind|thumb",
    re.IGNORECASE,
)


@lru_cache(maxsize=4096)  # lines and brackets are scanned more than once, and recur
def scan_measure(text: str, at: int) -> Found | None:
    """The measure that starts at ``at``, if one does; raises Unreadable for a broken one.

    >>> scan_measure("2 to 3 tbsp oil", 0).measure.terms
    (Amount(value=Fraction(2, 1), unit='tbsp', upto=Fraction(3, 1)),)
    """
    if not _OPENING.match(text, at):
        return None
    limit = _LIMIT.match(text, at)
    found = _scan(text, at, limit.end() if limit else at)
    if limit is None or found is None:
        return found
    return replace(found, measure=replace(found.measure, limit=tidy(limit.group()).lower()))


def _scan(text: str, start: int, at: int) -> Found | None:
    """As :func:`scan_measure`; ``start`` is where the words of the measure begin."""
    about = _ABOUT.match(text, at)
    if about:
        at = about.end()
    number = scan_number(text, at)
    if number is None:
        return _unnumbered(text, start, at)
    first_at, at = at, number.end
    if text[at : at + 2].lstrip(" ").startswith("%"):
        return None  # "70 % chocolate"
    dashed = text.startswith("-", at)
    ranged = (None, at) if dashed else _range_end(text, first_at, at, number)
    one = _one_packet(text, start, ranged, number, bool(about))
    if one or (dashed and text[at + 1 : at + 2].isascii() and text[at + 1 : at + 2].isalpha()):
        return one  # "400-g tin", but "7-grain flakes"
    packets = _packets(text, start, at, number, bool(about))
    if packets:
        return packets
    if _NO_AMOUNT.match(text, at):
        return None
    upto, at = _range_end(text, first_at, at, number) if dashed else ranged
    return _terms(text, start, at, number, upto, bool(about))


# After a number: "2 cm thick steak", "1st pressing", "40 °C" say nothing of how much.
_NO_AMOUNT = re.compile(r"\s?(?:cm|mm|inch|inches)\b|(?:st|nd|rd|th)\b|\s?°|[\"”]", re.IGNORECASE)

# A word that stands for one of itself when no number does: "handful of parsley".
_ONE_OF = re.compile(
    r"(?:(?:(?P<size>small|large)|big|good|generous)\s+)?"
    r"(?:(?P<word>pinch|dash|splash|drizzle|handful|knob|bunch|sprig|squeeze|drop|grind|thumb)\s+of"
    r"|(?P<plain>pinch|dash|splash|handful|knob|bunch))\s+(?=\w)",
    re.IGNORECASE,
)


def _unnumbered(text: str, start: int, at: int) -> Found | None:
    found = _ONE_OF.match(text, at)
    if not found:
        return None
    word = fold(found["word"] or found["plain"])
    written = tidy(text[start : found.end()]).removesuffix(" of")
    size = (found["size"] or "").lower()
    return Found(Measure((Amount(Fraction(1), word),), written, size=size), found.end())


def _range_end(text: str, begin: int, at: int, number: Number) -> tuple[Number | None, int]:
    joint = _RANGE.match(text, at)
    if not joint or number.bare_word:
        unit = _unit_before_range(text, at)
        joint = _RANGE.match(text, unit) if unit else None
        if not joint or not _number_at(text, joint.end()):
            return None, at
        # "200 g to 250 g": the unit after the second number must be the same one
        second = _number_at(text, joint.end())
        first_unit = scan_unit(text, _skip(text, at))
        second_unit = scan_unit(text, _skip(text, second.end)) if second else None
        if second and first_unit and second_unit and first_unit[0] == second_unit[0]:
            return _ordered(begin, number, second), second.end
        if second and first_unit and second_unit and _range_word(joint.group()):
            raise Unreadable(
                "range-units",
                begin,
                second_unit[1] - begin,
                f"a range from {first_unit[0]} to {second_unit[0]} mixes units",
                "give both ends in one unit",
            )
        return None, at
    second = _number_at(text, joint.end())
    if second is None:
        return None, at
    return _ordered(begin, number, second), second.end


def _range_word(joint: str) -> bool:
    return joint.strip().lower() in ("to", "–", "—", "−", "-")


def _ordered(begin: int, first: Number, second: Number) -> Number:
    if second.value <= first.value:
        raise Unreadable(
            "range-backwards",
            begin,
            second.end - begin,
            "the second number of this range is not the larger one",
            "write the smaller number first",
        )
    return second


def _number_at(text: str, at: int) -> Number | None:
    number = scan_number(text, at)
    return None if number is None or number.bare_word else number


def _unit_before_range(text: str, at: int) -> int | None:
    try:
        unit = scan_unit(text, _skip(text, at))
    except Unreadable:
        return None
    return unit[1] if unit and dimension_of(unit[0]) != "count" else None


def _skip(text: str, at: int) -> int:
    while at < len(text) and text[at] == " ":
        at += 1
    return at


def _packets(text: str, start: int, at: int, number: Number, about: bool) -> Found | None:
    """``2 × 400 g tins``, ``a 400 g tin``, ``1 (400 g) tin``, ``a 5 cm piece``."""
    times = _TIMES.match(text, at)
    begin = times.end() if times else _skip(text, at)
    bracket = not times and text.startswith("(", begin)
    begin += 1 if bracket else 0
    if not times and not bracket and not (number.bare_word or text[at : at + 1] == " "):
        return None
    inner = _number_at(text, begin)
    if inner is None:
        return None
    piece = _PIECE.match(text, inner.end)
    if piece:
        word = FORMS.get(fold(piece["word"]), "piece")
        each = Amount(inner.value, _length_unit(piece["length"]))
        of = _OF.match(text, piece.end())
        return Found(
            Measure((Amount(number.value, word),), tidy(text[start : piece.end()]), each, about),
            of.end() if of else piece.end(),
        )
    upto, inner_end = _range_end(text, begin, inner.end, inner)
    gap = _GAP.match(text, inner_end)
    unit = scan_unit(text, gap.end() if gap else inner_end)
    if unit is None or dimension_of(unit[0]) == "count":
        return None
    each = Amount(inner.value, unit[0], upto.value if upto else None)
    end = unit[1]
    if bracket:
        if not text.startswith(")", end):
            return None
        end += 1
    gap = _GAP.match(text, end)
    container = scan_unit(text, gap.end() if gap else end)
    if container is None or container[0] not in _CONTAINERS:
        if not times:
            return None  # "1 400 g …" is not a measure; "1 (400 g) leek" is a bracket of its own
        return Found(
            Measure((Amount(number.value, "piece"),), tidy(text[start:end]), each, about), end
        )
    of = _OF.match(text, container[1])
    return Found(
        Measure(
            (Amount(number.value, container[0]),), tidy(text[start : container[1]]), each, about
        ),
        of.end() if of else container[1],
    )


def _terms(
    text: str, start: int, at: int, number: Number, upto: Number | None, about: bool
) -> Found | None:
    states: list[str] = []
    size = loose = ""
    after = _skip(text, at)
    while word := _BEFORE_UNIT.match(text, after):
        after = word.end()
        if word["packed"]:
            states.append("packed")
        elif word["size"]:
            size = word["size"].lower().replace("-sized", "").replace(" sized", "")
        elif word["loose"]:
            about = about or fold(word["loose"]) in _INEXACT
            loose = fold(word["loose"]) if fold(word["loose"]) in _HOW_FULL else loose
    unit = scan_unit(text, after)
    first = Amount(number.value, "", upto.value if upto else None)
    if unit is None:
        refuse_glued(text, at)
        refuse_misspelt(text, after)
        bare = Measure((first,), tidy(text[start:at]), None, about, "")
        return Found(bare, at, (), bare=True)
    terms = [Amount(first.value, unit[0], first.upto)]
    end = unit[1]
    while more := _more(text, end, terms[-1].unit):
        terms.append(more[0])
        end = more[1]
    _no_second_end(text, at, end)
    more_or_less = _OR_TWO.match(text, end) if first.value == 1 and upto is None else None
    if more_or_less:
        end = more_or_less.end()
        two = more_or_less["n"].lower() == "two"
        about = about or not two
        terms = [replace(terms[0], upto=Fraction(2))] if two else terms
    of = _OF.match(text, end)
    measure = Measure(tuple(terms), tidy(text[start:end]), None, about, size)
    return Found(measure, of.end() if of else end, tuple(states), loose=loose)


_OR_TWO = re.compile(r"\s+or\s+(?P<n>two|so)\b(?=\s+of\b|\s*$)", re.IGNORECASE)
"""``a sprig or two of thyme``: one to two; ``a cup or so``: about one."""
_TO = re.compile(r"\s*[–—−-]\s*|\s+to\s+")


def _no_second_end(text: str, begin: int, end: int) -> None:
    """``1 lb 4 oz to 1 lb 8 oz``: a range whose ends are no plain numbers of one unit."""
    joint = _TO.match(text, end)
    second = _number_at(text, joint.end()) if joint else None
    if second is not None:
        raise Unreadable(
            "range-units",
            begin,
            second.end - begin,
            "a range whose ends are not two numbers of one unit",
            "give both ends in one unit, as in '20 to 24 oz'",
        )


_OF = re.compile(r"\s+of\b(?!\s+\d)", re.IGNORECASE)
_TINNED = re.compile(
    r"[ -](?P<word>tin|can|jar|bottle|packet|pack|package|carton|tub|sachet|bag|box|punnet"
    r"|pot(?! (?:barley|roast|noodles?|sticker)))\b(?!\s*$)"
)


def _one_packet(
    text: str, start: int, ranged: tuple[Number | None, int], number: Number, about: bool
) -> Found | None:
    """``400 g tin beans``, ``400-g tin beans``, ``5 cm piece ginger``: one of that size."""
    upto, end = ranged
    piece = _PIECE.match(text, end)
    high = upto.value if upto else None
    if piece and not piece["word"].lower().endswith("s"):
        unit = _length_unit(piece["length"])
        return _packet(text, start, piece.end(), "piece", Amount(number.value, unit, high), about)
    try:
        unit_at = scan_unit(text, end + 1 if text.startswith("-", end) else _skip(text, end))
    except Unreadable:
        return None
    if unit_at is None or dimension_of(unit_at[0]) == "count" or number.bare_word:
        return None
    found = _TINNED.match(text, unit_at[1])
    if not found:
        return None
    each = Amount(number.value, unit_at[0], high)
    return _packet(text, start, found.end(), FORMS[found["word"]], each, about)


def _packet(text: str, start: int, end: int, unit: str, each: Amount, about: bool) -> Found:
    of = _OF.match(text, end)
    measure = Measure((Amount(Fraction(1), unit),), tidy(text[start:end]), each, about)
    return Found(measure, of.end() if of else end)


def _length_unit(written: str) -> str:
    bare = fold(written.strip(" -"))
    return "in" if bare.startswith(("in", '"', "”")) else bare


def _more(text: str, at: int, before: str) -> tuple[Amount, int] | None:
    """``4 oz`` after ``1 lb``; ``plus 2 tbsp`` after ``1 cup``."""
    if dimension_of(before) == "count":
        return None
    joint = _PLUS.match(text, at) or (_COMMA.match(text, at) if before == "lb" else None)
    begin = joint.end() if joint else _skip(text, at)
    number = _number_at(text, begin)
    if number is None:
        return None
    unit = scan_unit(text, _skip(text, number.end))
    if unit is None or dimension_of(unit[0]) != dimension_of(before):
        return None
    if unit[0] == before and not (joint and joint.group().strip()):
        return None
    return Amount(number.value, unit[0]), unit[1]
