"""What single values at the head of a file may be: words, dates, times, amounts, counts, places in a film.

They arrive as text (see :mod:`sitegen.reading.yamltree`); each kind says what it takes, and what is wrong
with what it does not.
"""

from __future__ import annotations

import re
from datetime import date
from fractions import Fraction
from typing import Annotated, Any

from pydantic import BeforeValidator, WithJsonSchema
from pydantic_core import PydanticCustomError

from sitegen.kitchen.units import dimension_of
from sitegen.reading.measures import scan_measure, tidy
from sitegen.reading.numbers import Unreadable, scan_number
from sitegen.reading.recipe import Amount, Count
from sitegen.reading.spans import duration


def _wrong(rule: str, message: str, hint: str) -> PydanticCustomError:
    return PydanticCustomError(rule, "{said}", {"said": message, "hint": hint})


def _text(value: Any) -> str:
    if value is None or (isinstance(value, str) and not value.strip()):
        raise _wrong(
            "field-empty",
            "nothing stands here",
            "fill it in, or take the line away; words that begin with '#' need quotes",
        )
    if not isinstance(value, str):
        kind = "a list" if isinstance(value, list) else "a block of fields"
        raise _wrong(
            "wrong-type", f"{kind} stands here; words are expected", "write it on one line"
        )
    return tidy(value)


def _whole(value: Any) -> int:
    text = _text(value)
    if not re.fullmatch(r"\d{1,4}", text) or int(text) < 1:
        raise _wrong(
            "wrong-type",
            f"'{text}' is not a whole number above 0",
            "write how many portions it makes, as in 'serves: 6'",
        )
    return int(text)


def _date(value: Any) -> date:
    text = _text(value)
    found = re.fullmatch(r"(\d{4})-(\d{2})-(\d{2})", text)
    if not found:
        raise _wrong("date", f"'{text}' is not a date", "write year-month-day, as in 2026-10-04")
    try:
        return date(*map(int, found.groups()))
    except ValueError:
        raise _wrong(
            "date", f"there is no {text} in the calendar", "look at the month and the day"
        ) from None


def _minutes(value: Any) -> int:
    text = _text(value)
    seconds = duration(text)
    if seconds is None:
        raise _wrong(
            "time",
            f"'{text}' is not a time",
            "write minutes or hours, as in '25 min' or '1 h 10 min'",
        )
    return -(-seconds // 60)


def _amount(value: Any) -> Amount:
    text = _text(value)
    try:
        found = scan_measure(text, 0)
    except Unreadable as trouble:
        raise _wrong("amount-unreadable", trouble.message, trouble.hint) from None
    if not found or found.bare or tidy(text[found.end :]) or len(found.measure.terms) != 1:
        raise _wrong(
            "amount-unreadable", f"'{text}' is not an amount", "write a number and a unit: '2.4 kg'"
        )
    return found.measure.terms[0]


def _weight(value: Any) -> Amount:
    return _of("weight", "kg", _amount(value))


def _volume(value: Any) -> Amount:
    return _of("volume", "l", _amount(value))


def _of(dimension: str, unit: str, amount: Amount) -> Amount:
    if dimension_of(amount.unit) != dimension:
        raise _wrong(
            "wrong-type", f"'{amount.unit}' is no {dimension}", f"write a {dimension}: '2.4 {unit}'"
        )
    return amount


_NO_NOUN = re.compile(r"$|[-–—]|×(?! \d)|(?:or|to|and|plus|ish|x)\b")
"""How what follows a number begins when it counts nothing for sure: "12 or so", "12 to 14 buns"."""


_OF_A_SIZE = re.compile(r"^[x×]\s*(?=\d)")


def _count(value: Any) -> Count:
    text = _text(value)
    about = re.match(r"about\s+", text)
    start = about.end() if about else 0
    try:
        number = scan_number(text, start)
    except Unreadable as trouble:
        raise _wrong("amount-unreadable", trouble.message, trouble.hint) from None
    noun = tidy(text[number.end :]) if number else ""
    noun = _OF_A_SIZE.sub("× ", noun)  # "2 x 500 ml jars"
    if not number or number.value <= 0 or _NO_NOUN.match(noun):
        raise _wrong(
            "count",
            f"'{text}' is not a count of things",
            "write one number and what it counts: '18 dumplings', 'about 12 biscuits'",
        )
    return Count(Fraction(number.value), noun, text)


def _clock(value: Any) -> int:
    text = _text(value)
    found = re.fullmatch(r"(?:(\d{1,2}):)?(\d{1,2}):([0-5]\d)", text)
    if not found:
        raise _wrong(
            "clock",
            f"'{text}' is not a time in a film",
            "write minutes and seconds, as in 1:05 (or 1:02:30 with hours)",
        )
    hours, minutes, seconds = (int(part or 0) for part in found.groups())
    return (hours * 60 + minutes) * 60 + seconds


def _film_address(value: Any) -> str:
    text = _text(value)
    if not re.fullmatch(r"https://[^\s/<>\"'`;,]+\.[^\s<>\"'`;,]+", text):
        hint = "write it whole, as in https://films.example/rolls.webm"
        raise _wrong("film-address", f"'{text}' is not the address of a film", hint)
    return text


def as_list(value: Any) -> list[Any]:
    """The value, if it is a list."""
    if not isinstance(value, list):
        raise _wrong(
            "wrong-type", "a list is expected here", "write [barley, winter], or '- ' lines"
        )
    return value


def _focus(value: Any) -> tuple[int, int]:
    text = _text(value)
    found = re.fullmatch(r"(\d{1,3})\s*%?\s+(\d{1,3})\s*%?", text)
    if not found or max(int(found[1]), int(found[2])) > 100:
        raise _wrong(
            "focus",
            f"'{text}' is not a point of the picture",
            "write per cent from the left and from the top: '50% 40%'",
        )
    return int(found[1]), int(found[2])


def _schema(**schema: Any) -> WithJsonSchema:
    return WithJsonSchema(schema)


_DURATION = {"pattern": r"\S", "examples": ["25 min", "1 h 10 min"]}
_DAY = {"pattern": r"^\s*\d{4}-\d{2}-\d{2}\s*$", "examples": ["2026-10-04"]}
_WHOLE = {"type": ["integer", "string"], "minimum": 1, "pattern": r"^\s*0*[1-9]\d*\s*$"}
_FIGURE = {"type": "string", "pattern": r"\d|[a-z] "}
_POINT = {"type": "string", "pattern": r"^\s*\d{1,3}\s*%?\s+\d{1,3}\s*%?\s*$"}
Text = Annotated[str, BeforeValidator(_text)]
Whole = Annotated[int, BeforeValidator(_whole), _schema(**_WHOLE)]
Day = Annotated[date, BeforeValidator(_date), _schema(type="string", format="date", **_DAY)]
Minutes = Annotated[int, BeforeValidator(_minutes), _schema(type="string", **_DURATION)]
WeightField = Annotated[Any, BeforeValidator(_weight), _schema(**_FIGURE, examples=["2.4 kg"])]
VolumeField = Annotated[Any, BeforeValidator(_volume), _schema(**_FIGURE, examples=["1.5 l"])]
CountField = Annotated[Any, BeforeValidator(_count), _schema(**_FIGURE, examples=["18 dumplings"])]
Words = Annotated[list[Text], BeforeValidator(as_list)]
Clock = Annotated[
    int,
    BeforeValidator(_clock),
    _schema(type="string", pattern=r"^\s*(\d{1,2}:)?\d{1,2}:[0-5]\d\s*$", examples=["1:05"]),
]
StepNumber = Annotated[int, BeforeValidator(_whole), _schema(type="string", pattern=r"^[1-9]\d*$")]
FilmAddress = Annotated[
    str, BeforeValidator(_film_address), _schema(type="string", pattern=r"^\s*https://\S+\s*$")
]
Focus = Annotated[Any, BeforeValidator(_focus), _schema(**_POINT, examples=["50% 40%"])]
