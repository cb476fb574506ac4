"""The fields at the head of a recipe, checked and typed.

The values arrive as text (see :mod:`sitegen.reading.yamltree`); each field says what it takes.
The model also gives the JSON Schema that editors complete from.
"""

from __future__ import annotations

import re
from datetime import date
from fractions import Fraction
from typing import Annotated, Any

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field, ValidationError, WithJsonSchema
from pydantic_core import PydanticCustomError

from sitegen.kitchen.units import dimension_of
from sitegen.models import STRICT
from sitegen.problems import Problem, did_you_mean
from sitegen.reading.measures import scan_measure, tidy
from sitegen.reading.numbers import Unreadable, scan_number
from sitegen.reading.recipe import Amount, Count
from sitegen.reading.spans import duration
from sitegen.reading.yamltree import Path, Tree


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


_NO_NOUN = re.compile(r"$|[-–—×]|(?:or|to|and|plus|ish|x)\b")
"""How what follows a number begins when it counts nothing for sure: "12 or so", "12 to 14 buns"."""


def _count(value: Any) -> Count:
    text = _text(value)
    about = re.match(r"about\s+", text)
    start = about.end() if about else 0
    try:
        number = scan_number(text, start)
    except Unreadable as trouble:
        raise _wrong("amount-unreadable", trouble.message, trouble.hint) from None
    noun = tidy(text[number.end :]) if number else ""
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


def _list(value: Any) -> list[Any]:
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
Words = Annotated[list[Text], BeforeValidator(_list)]
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


class _Model(BaseModel):
    model_config = STRICT | ConfigDict(populate_by_name=True)


class TimeFields(_Model):
    """``time: {prep: 25 min, cook: 1 h 10 min, rest: 30 min}``."""

    prep: Minutes | None = Field(None, description="hands-on time before the heat")
    cook: Minutes | None = Field(None, description="time over or in the heat")
    rest: Minutes | None = Field(None, description="rising, soaking, chilling, cooling")


class PhotoFields(_Model):
    """``photo: {file: broth.jpg, alt: A deep bowl of broth}``."""

    file: Text = Field(description="the picture's file, beside the recipe")
    alt: Text = Field(description="what it shows, for those who can't see it")
    focus: Focus | None = Field(None, description="the point that crops keep")


class VideoFields(_Model):
    """``video: {file: rolls.webm, title: …, alt: …, length: 0:35, poster: rolls.jpg}``."""

    file: Text | None = Field(None, description="a .webm or .mp4 beside the recipe")
    address: FilmAddress | None = Field(
        None, description="or where it stands on another host, which is asked only after a press"
    )
    title: Text = Field(description="what it is called")
    alt: Text = Field(description="what it shows, for those who can't see it or don't play it")
    length: Clock = Field(description="how long it is")
    poster: Text = Field(description="a still beside the recipe, shown until it is played")
    published: Day | None = Field(None, description="if on another day than the recipe")
    captions: Text | None = Field(None, description="a .vtt beside the recipe: what is said in it")
    transcript: Text | None = Field(None, description="what is said and shown, to be read")
    steps: dict[StepNumber, Clock] = Field(
        default_factory=dict,
        description="where in the film each step begins",
        examples=[{"1": "0:05", "3": "0:40"}],
    )


class SilenceFields(_Model):
    """``silence: [{rule: portion-unusual, why: a tasting plate}]``."""

    rule: Text = Field(description="the name that stands after the finding, in brackets")
    why: Text = Field(description="the reason, for whoever reads this next")
    ingredient: Text | None = Field(None, description="only about this ingredient")
    step: Whole | None = Field(None, description="only about this step's number")


Silences = Annotated[list[SilenceFields], BeforeValidator(_list)]


class RecipeFields(_Model):
    """Every field that a recipe may have."""

    title: Text = Field(description="the dish's name")
    summary: Text | None = Field(None, description="one sentence under the title")
    published: Day | None = Field(None, description="none: a draft, seen in the preview only")
    updated: Day | None = Field(
        None, description="the day of the last change that a cook would see"
    )
    author: Text | None = Field(None, description="a key of site.yaml's authors")
    course: Text | None = Field(
        None,
        description="where it stands in a meal",
        examples=["main", "side", "bread", "baking", "pudding", "sauce", "soup"],
    )
    cuisine: Text | None = Field(None, description="whose cooking it is", examples=["Nordic"])
    tags: Words = Field(
        default_factory=list,
        description="what else to file it under",
        examples=[["barley", "winter"]],
    )
    serves: Whole = Field(description="portions: what per-serving figures divide by", examples=[6])
    makes: CountField | None = Field(None, description="how many of what: 18 dumplings")
    weighs: WeightField | None = Field(None, description="the finished batch")
    volume: VolumeField | None = Field(None, description="the batch's volume, where it matters")
    time: TimeFields | None = Field(None, description="how long it takes: prep, cook, rest")
    tools: Words = Field(
        default_factory=list,
        description="what a cook must have, with sizes; tins and scoops are measured from here",
        examples=[["5 l stockpot", "23 cm round tin", "no. 40 scoop"]],
    )
    photo: PhotoFields | None = Field(None, description="the picture beside the recipe's file")
    disclosure: Text | None = Field(
        None,
        description="who paid or gave what, told near the top of the page",
        examples=["The mill gave us the flour for this loaf."],
    )
    video: VideoFields | None = Field(None, description="a film of the recipe, or of a step")
    may_contain: Words = Field(
        default_factory=list,
        alias="may contain",
        description="traces that a packet or kitchen brings",
        examples=[["sesame"]],
    )
    silence: Silences = Field(
        default_factory=list, description="findings of the read-through to keep quiet about"
    )
    ingredients: Any = Field(
        description="one line each, in the order of use; or parts, each a name over its lines"
    )


_UNASKED = {
    "missing": "field-missing",
    "extra_forbidden": "unknown-field",
    "model_type": "wrong-type",
    "list_type": "wrong-type",
}


def check_fields(
    tree: Tree, model: type[BaseModel], file: str, problems: list[Problem]
) -> dict[str, Any]:
    """Validate ``tree`` by ``model``: the good fields by name, and a problem for every bad one."""
    try:
        checked = model.model_validate(tree.data)
        return {name: getattr(checked, name) for name in model.model_fields}
    except ValidationError as failure:
        bad: set[str] = set()
        errors = failure.errors(include_url=False, include_input=False)
        misspelt = _misspelt(model, errors)
        for error in errors:
            path: Path = tuple(error["loc"])
            if error["type"] == "missing" and path in misspelt:
                continue  # "serve: 6" is one mistake, not two
            bad.add(str(path[0]) if path else "")
            problems.append(_as_problem(tree, model, file, error["type"], path, error))
    good = {k: v for k, v in tree.data.items() if k not in bad}
    names = {(f.alias or n): n for n, f in model.model_fields.items()}
    partial: dict[str, Any] = {}
    for key, value in good.items():
        # the rest is still worth reading: one bad field must not hide mistakes in the others
        try:
            field_model = model.__pydantic_validator__.validate_assignment(
                model.model_construct(), names[key], value
            )
        except (ValidationError, KeyError):
            continue
        partial[names[key]] = getattr(field_model, names[key], None)
    return partial


def _misspelt(model: type[BaseModel], errors: Any) -> set[Path]:
    """The fields that an unknown field beside them was meant to be."""
    paths = [tuple(error["loc"]) for error in errors if error["type"] == "extra_forbidden"]
    found: set[Path] = set()
    for path in paths:
        near = did_you_mean(str(path[-1]), _known(model, path))
        if near:
            found.add((*path[:-1], near.split("'")[1]))
    return found


_NESTED = {
    "time": "write it as 'time: {prep: 25 min, cook: 1 h}'",
    "photo": "write it as 'photo: {file: broth.jpg, alt: what the picture shows}'",
    "video": "write file, title, alt, length and poster under it, two spaces further in",
    "steps": "write it as 'steps: {1: 0:05, 3: 0:40}'",
}


def _as_problem(
    tree: Tree, model: type[BaseModel], file: str, kind: str, path: Path, error: Any
) -> Problem:
    name = str(path[-1]) if path else ""
    rule = _UNASKED.get(kind, kind)
    if rule == "field-missing":
        place = tree.key_place(path[:-1]) if len(path) > 1 else tree.place(())
        owner = f" of '{path[-2]}'" if len(path) > 1 else ""
        return Problem(
            rule,
            "error",
            file,
            place.line,
            place.column,
            f"the field '{name}'{owner} is missing",
            f"add '{name}: …'",
        )
    if rule == "unknown-field":
        place = tree.key_place(path)
        known = _known(model, path)
        hint = did_you_mean(name, known) or f"the fields here are {', '.join(known)}"
        return Problem(
            rule,
            "error",
            file,
            place.line,
            place.column,
            f"there is no field '{name}'",
            hint,
            len(name),
        )
    place = tree.place(path)
    context = error.get("ctx") or {}
    said = context.get("said") or "fields of its own are expected here"
    hint = context.get("hint") or _NESTED.get(name, "write fields under it, two spaces further in")
    label = ": ".join(f"item {p + 1}" if isinstance(p, int) else str(p) for p in path)
    return Problem(rule, "error", file, place.line, place.column, f"{label}: {said}", hint)


def _known(model: type[BaseModel], path: Path) -> list[str]:
    nested: dict[str, type[BaseModel]] = {
        "time": TimeFields,
        "photo": PhotoFields,
        "video": VideoFields,
        "silence": SilenceFields,
    }
    for step in path[:-1]:
        model = nested.get(str(step), model)
    fields = model.model_fields
    return [f.alias or n for n, f in fields.items()]
