"""``content/site.yaml`` → :class:`~sitegen.site.Settings`, every mistake with its line and column.

A field that is wrong keeps its default, so that one mistake in the settings does not hide those in
the recipes.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from datetime import date
from pathlib import Path
from typing import Annotated, Any, Literal
from urllib.parse import urlsplit

from pydantic import (
    AfterValidator,
    BaseModel,
    BeforeValidator,
    ConfigDict,
    Field,
    ValidationError,
    WithJsonSchema,
)
from pydantic_core import ErrorDetails, PydanticCustomError

from sitegen.models import STRICT
from sitegen.problems import Problem, did_you_mean
from sitegen.reading.source import Source
from sitegen.reading.yamltree import Tree, read_yaml
from sitegen.site import Author, Hush, LeftOut, MenuItem, Region, Settings, Site, Target
from sitegen.textfile import read_text

FILE = "content/site.yaml"


def load_site(folder: Path) -> tuple[Site, list[Problem]]:
    """The site in ``folder``, with defaults wherever its settings can't be understood."""
    source = read_text(folder, FILE)
    if isinstance(source, Problem):
        if source.rule == "file-empty":  # an empty settings file means: all defaults
            return Site(folder, Settings()), []
        return Site(folder, Settings()), [source]
    settings, problems = read_settings(source)
    return Site(folder, settings), problems


def read_settings(source: Source) -> tuple[Settings, list[Problem]]:
    """Understand the text of a settings file."""
    problems: list[Problem] = []
    tree = read_yaml(source, source.text, problems)
    if tree is None:
        return Settings(), problems
    data = {name: value for name, value in tree.data.items() if value is not None}
    while True:
        try:
            return _settings(_SiteFile.model_validate(data), tree), problems
        except ValidationError as invalid:
            errors = invalid.errors(include_url=False)
            problems.extend(_problem(error, tree, source) for error in errors)
            # Every top-level field that has an error goes back to its default, so this ends.
            for error in errors:
                data.pop(str(error["loc"][0]), None)


# --- what the fields may hold ---------------------------------------------------------------------


def _refuse(rule: str, message: str, hint: str) -> PydanticCustomError:
    # The text is passed as context, since PydanticCustomError formats braces in its template.
    return PydanticCustomError(
        rule,
        "{message}",
        {"message": message, "hint": hint},
    )


SECRETIVE = re.compile(
    r"pass(word|phrase|wd)?$|^pwd$|secret|token|credential|(access|private|api|account)[ _-]*key|^key$",
    re.IGNORECASE,
)
"""Names of fields that hold what nobody else may read: such a field must not stand in a site."""
_SECRET_VALUE = re.compile(r"://[^/@]*:[^/@]*@|-----BEGIN|\b(AKIA|ASIA)[A-Z0-9]{16}\b")
_SECRET_HINT = (
    "delete it, and change it where it is used, for a site's files get copied; secrets are taken from "
    "the environment or from the usual files of SSH and S3: see 'sitegen deploy --help'"
)


def _no_secret(text: str) -> str:
    if _SECRET_VALUE.search(text):
        raise _refuse("secret-in-site", "a secret stands in this setting", _SECRET_HINT)
    return text


def _address(text: str) -> str:
    _no_secret(text)
    try:
        parts = urlsplit(text)
        port_reads = parts.port is None or parts.port > 0
    except ValueError:
        parts, port_reads = urlsplit(""), False
    good = parts.scheme in ("http", "https") and parts.hostname and port_reads
    if not good or re.search(r"[\s<>\"'{}\\]", text):
        hint = "write it whole, as a reader would: https://example.org or https://example.org/food"
        raise _refuse("site-address", f"{text!r} is not a web address", hint)
    if parts.query or parts.fragment:
        raise _refuse(
            "site-address", "the site's address has a '?' or a '#'", "end it before that sign"
        )
    return text.rstrip("/")


def _language(text: str) -> str:
    if not re.fullmatch(r"[a-z]{2,3}(-[A-Z][a-z]{3})?(-([A-Z]{2}|[0-9]{3}))?", text):
        hint = "write a language tag such as en, en-GB or de-AT"
        raise _refuse("site-language", f"{text!r} is not a language tag", hint)
    return text


def _plain_name(text: str) -> str:
    if not re.fullmatch(r"[a-z0-9]+(-[a-z0-9]+)*", text):
        hint = "use small letters, figures and hyphens"
        raise _refuse("site-name", f"{text!r} can't be a name here", hint)
    return text


def _link(text: str) -> str:
    scheme = re.match(r"([A-Za-z][A-Za-z0-9+.-]*):", text)
    if (scheme and scheme[1].lower() not in ("http", "https", "mailto")) or text.startswith("//"):
        hint = "write a file of the site (recipes/index.html) or a whole address (https://…)"
        raise _refuse("site-link", f"{text!r} is not a link that a menu can hold", hint)
    return text


def _colour(text: str) -> str:
    hexadecimal = r"#([0-9a-fA-F]{3}|[0-9a-fA-F]{4}|[0-9a-fA-F]{6}|[0-9a-fA-F]{8})"
    function = r"(rgb|rgba|hsl|hsla|hwb|lab|lch|oklab|oklch)\([0-9a-z.,%/ +-]+\)"
    if not re.fullmatch(f"{hexadecimal}|{function}|[a-z]+", text):
        hint = "write a CSS colour: '#a4362b' (in quotes, for YAML takes # as a comment)"
        raise _refuse("site-colour", f"{text!r} is not a colour", hint)
    return text


def _faces(text: str) -> str:
    names = [name.strip() for name in text.split(",")]
    if not all(re.fullmatch(r"""[\w -]+|'[\w -]+'|"[\w -]+\"""", name) for name in names):
        hint = "name typefaces with commas between, a kind last: 'Georgia, \"Noto Serif\", serif'"
        raise _refuse("site-font", f"{text!r} is not a list of typefaces", hint)
    return ", ".join(names)


def _host(text: str) -> str:
    name = text.lower()
    if not re.fullmatch(r"[a-z0-9]([a-z0-9-]*[a-z0-9])?(\.[a-z0-9]([a-z0-9-]*[a-z0-9])?)+", name):
        hint = "write the host alone, such as shop.example, without https:// and path"
        raise _refuse("site-host", f"{text!r} is not the name of a host", hint)
    return name


def _number(text: str) -> int:
    if not re.fullmatch(r"[0-9]{1,3}", text):
        raise _refuse("site-number", f"{text!r} is not a whole number", "write a number, such as 2")
    return int(text)


def _some(number: int) -> int:
    if not number:
        raise _refuse("site-number", "a page of a list can’t hold 0", "write a number, such as 24")
    return number


def _day(text: str) -> date:
    try:
        return date.fromisoformat(text)
    except ValueError:
        hint = "write year-month-day, as in 2026-10-04"
        raise _refuse("site-date", f"{text!r} is not a date", hint) from None


def _one_link(item: dict[str, Any]) -> dict[str, Any]:
    if len(item) != 1:
        hint = "write each link as '- Words: file', such as '- All recipes: recipes/index.html'"
        raise _refuse("site-menu", "a menu line holds one link", hint)
    return item


def _destination(text: str) -> str:
    _no_secret(text)
    hint = "write a folder, sftp://user@host/folder or s3://bucket/folder"
    scheme, mark, rest = text.partition("://")
    if not mark:
        if re.match(r"(?:sftp|s3|[a-z]+ftp|https?):", text, re.IGNORECASE):
            raise _refuse("target-address", f"{text!r} is not a place to send to", hint)
        return text
    try:
        parts = urlsplit(text)
        port_reads = parts.port is None or parts.port > 0
    except ValueError:
        port_reads = False
    if scheme not in ("sftp", "s3"):
        raise _refuse("target-kind", f"nothing can be sent to {scheme}://", hint)
    if not port_reads or not parts.hostname or re.search(r"[\s?#]", rest):
        raise _refuse("target-address", f"{text!r} is not a place to send to", hint)
    return text.rstrip("/")


_Text = Annotated[str, Field(min_length=1)]
_Strict = STRICT | ConfigDict(frozen=True)


def _told(**schema: Any) -> WithJsonSchema:
    """What editors are told of words that a function checks; it may be looser than the check."""
    return WithJsonSchema({"type": "string", **schema})


_Address = Annotated[
    str,
    AfterValidator(_address),
    _told(pattern="^(https?://.*)?$", examples=["https://example.org/food"]),
]
_Language = Annotated[
    str,
    AfterValidator(_language),
    _told(pattern="^[a-z]{2,3}(-[A-Z].*|-[0-9]{3})?$", examples=["en-GB", "en-US", "de-AT"]),
]
_Name = Annotated[str, AfterValidator(_plain_name), _told(pattern="^[a-z0-9]+(-[a-z0-9]+)*$")]
_Link = Annotated[
    str, AfterValidator(_link), _told(minLength=1, examples=["recipes/index.html", "about.html"])
]
_Colour = Annotated[str, AfterValidator(_colour), _told(minLength=1, examples=["#a4362b"])]
_Faces = Annotated[
    str,
    AfterValidator(_faces),
    _told(minLength=1, examples=["Georgia, serif", "system-ui, sans-serif"]),
]
_Host = Annotated[str, AfterValidator(_host), _told(pattern=r"^[^/:\s]+\.[^/:\s]+$")]
_Destination = Annotated[
    str,
    Field(min_length=1),
    AfterValidator(_destination),
    _told(minLength=1, examples=["sftp://me@host.example/srv/www", "s3://bucket", "../public"]),
]
_Public = Annotated[str, AfterValidator(_no_secret)]
_Number = Annotated[
    int, BeforeValidator(_number), WithJsonSchema({"type": "integer", "minimum": 0, "maximum": 999})
]
_Day = Annotated[
    date,
    BeforeValidator(_day),
    _told(pattern=r"^\d{4}-\d{2}-\d{2}$", examples=["2026-10-04"]),
]
_MenuLine = Annotated[
    dict[_Text, _Link],
    AfterValidator(_one_link),
    Field(json_schema_extra={"minProperties": 1, "maxProperties": 1}),
]


class _Person(BaseModel):
    """Someone who writes for the site."""

    model_config = _Strict

    name: _Text = Field(description="as it stands under a recipe's title")
    about: str = Field("", description="a sentence or two for the author's own page")


class _Nutrition(BaseModel):
    model_config = _Strict

    net_carbohydrate: Annotated[
        list[Literal["fibre", "polyols", "allulose"]],
        Field(alias="net carbohydrate", description="what is taken off carbohydrate"),
    ] = []


class _Silence(BaseModel):
    model_config = _Strict

    rule: _Text
    why: _Text


class _LeftOut(BaseModel):
    """A caution off a page: only here, signed, with the reason."""

    model_config = _Strict

    recipe: _Text
    caution: _Text
    why: _Text
    signed: _Text


class _Trials(BaseModel):
    """What a recipe's test log must hold before it is published, and what its page says of it."""

    model_config = _Strict

    needed: _Number | None = Field(
        default=None, description="passed trials before a recipe may be published", examples=[2]
    )
    since: _Day | None = Field(
        default=None, description="only recipes published from this day on need them"
    )
    shown: Literal["yes", "no"] = Field(
        default="no", description="whether a page says how often its recipe was tested"
    )


class _PaidLinks(BaseModel):
    model_config = _Strict

    hosts: list[_Host] = Field(
        default=[],
        description="hosts whose links are paid for, subdomains too",
        examples=[["shop.example"]],
    )
    said: _Text = Field(
        default=Settings().disclosure,
        description="what stands near the top of a page with paid links",
    )


class _Target(BaseModel):
    """A place that ``sitegen deploy`` sends the site to."""

    model_config = _Strict

    to: _Destination = Field(description="a folder, sftp://user@host/folder or s3://bucket/folder")
    address: _Address = Field("", description="where readers find it, if not at the site's address")
    endpoint: _Address = Field("", description="the web address of an S3-compatible store")
    region: _Public = Field("", description="the store's region")
    profile: _Public = Field(
        "", description="the section of the usual S3 files that holds the keys"
    )


class _SiteFile(BaseModel):
    """The settings of a site."""

    model_config = _Strict

    title: _Text = Field(Settings().title, description="the site's name")
    address: _Address = Field(
        "", description="where the site will stand; feeds and the site map need it"
    )
    language: _Language = Field(Settings().language, description="a language tag")
    region: Region = Field(
        Settings().region, description="whose cups, spoons, ovens and label law are meant"
    )
    units: Literal["metric", "us"] = Field(Settings().units, description="the system shown first")
    theme: _Name = Field(Settings().theme, description="a theme's folder name")
    description: str = Field("", description="one sentence about the site")
    caution: _Text = Field(
        Settings().caution, description="stands beside nutrition and allergen statements"
    )
    method_heading: _Text = Field(
        Settings().method_heading,
        alias="method heading",
        description="the '##' heading that the steps stand under",
    )
    questions_heading: _Text = Field(
        Settings().questions_heading,
        alias="questions heading",
        description="the '##' heading that readers' questions stand under, each a '###'",
    )
    list_length: Annotated[_Number, AfterValidator(_some)] = Field(
        Settings().list_length,
        alias="list length",
        description="how many recipes stand on one page of a list",
    )
    authors: dict[_Name, _Person] = Field(
        {},
        description="who writes, by the key that recipes use in 'author'",
        examples=[{"ines": {"name": "Ines Varrow"}}],
    )
    menu: list[_MenuLine] = Field(
        [],
        description="the links in the site's head, one '- Words: file' a line",
        examples=[[{"All recipes": "recipes/index.html"}]],
    )
    colours: dict[_Name, _Colour] = Field(
        {},
        description="colours of the theme to replace, by name",
        examples=[{"accent": "#a4362b"}],
    )
    fonts: dict[Literal["headings", "text"], _Faces] = Field(
        {},
        description="typefaces of the theme to replace, as a list from which readers' devices choose",
        examples=[{"headings": "Georgia, serif"}],
    )
    minify: Literal["yes", "no"] = Field(
        "yes", description="whether pages, style sheets and scripts are written without spare space"
    )
    nutrition: _Nutrition = Field(_Nutrition(), description="what the label shows beyond the law")
    silence: list[_Silence] = Field(
        [],
        description="rules of the read-through that this site keeps quiet about, with the reason",
    )
    without_cautions: list[_LeftOut] = Field(
        [],
        alias="without cautions",
        description="safety cautions that the site's owner takes off a page, signed, with the reason",
    )
    trials: _Trials = Field(_Trials(), description="what test logs must hold and may tell")
    paid_links: _PaidLinks = Field(
        _PaidLinks(), alias="paid links", description="who pays for links, and how readers are told"
    )
    targets: dict[_Name, _Target] = Field(
        {},
        description="where 'sitegen deploy' sends the site, by a name of your own",
        examples=[{"live": {"to": "sftp://me@host.example/srv/www"}}],
    )


def field_names() -> tuple[str, ...]:
    """The names of all fields, as an author writes them."""
    return tuple(field.alias or name for name, field in _SiteFile.model_fields.items())


def schema() -> dict[str, Any]:
    """The JSON Schema of ``site.yaml``."""
    return _SiteFile.model_json_schema(by_alias=True)


def _settings(read: _SiteFile, tree: Tree) -> Settings:
    return Settings(
        title=read.title,
        address=read.address,
        language=read.language,
        region=read.region,
        units=read.units,
        theme=read.theme,
        description=read.description,
        caution=read.caution,
        method_heading=read.method_heading,
        questions_heading=read.questions_heading,
        list_length=read.list_length,
        net_carbohydrate=tuple(dict.fromkeys(read.nutrition.net_carbohydrate)),
        authors={k: Author(k, person.name, person.about) for k, person in read.authors.items()},
        menu=tuple(
            MenuItem(words, to, *_line_column(tree, "menu", i, words))
            for i, item in enumerate(read.menu)
            for words, to in item.items()
        ),
        colours=dict(read.colours),
        fonts={str(name): stack for name, stack in read.fonts.items()},
        minify=read.minify == "yes",
        paid_hosts=tuple(read.paid_links.hosts),
        disclosure=read.paid_links.said,
        trials_needed=read.trials.needed or 0,
        trials_since=read.trials.since,
        trials_shown=read.trials.shown == "yes",
        silences=tuple(
            Hush(s.rule, s.why, *_line_column(tree, "silence", i, "rule"))
            for i, s in enumerate(read.silence)
        ),
        left_out=tuple(
            LeftOut(
                o.recipe,
                o.caution,
                o.why,
                o.signed,
                *_line_column(tree, "without cautions", i, "caution"),
            )
            for i, o in enumerate(read.without_cautions)
        ),
        targets={
            name: Target(
                name,
                t.to,
                t.address,
                t.endpoint,
                t.region,
                t.profile,
                *_line_column(tree, "targets", name, "to"),
            )
            for name, t in read.targets.items()
        },
    )


def _line_column(tree: Tree, *path: str | int) -> tuple[int, int]:
    place = tree.place(path)
    return place.line, place.column


# --- what Pydantic says, said to the author -------------------------------------------------------

_SHAPES = {
    "string_type": "words",
    "dict_type": "a block of 'name: value' lines",
    "model_type": "a block of 'name: value' lines",
    "list_type": "a list, one '- …' a line",
}
_SHAPE_FOUND = {"dict": "a block of lines", "list": "a list"}


def _problem(error: ErrorDetails, tree: Tree, source: Source) -> Problem:
    path = tuple(step for step in error["loc"] if step != "[key]")
    of_key = error["type"] == "extra_forbidden" or "[key]" in error["loc"]
    place = tree.key_place(path) if of_key or not _has_value(path, tree) else tree.place(path)
    name = next((str(step) for step in reversed(path) if isinstance(step, str)), "")
    rule, message, hint = _words(error, path, name)
    length = len(name) if of_key else _length(error["input"])
    return Problem(rule, "error", source.file, place.line, place.column, message, hint, length)


def _has_value(path: tuple[str | int, ...], tree: Tree) -> bool:
    return path in tree.values


def _length(found: object) -> int:
    return len(found) if isinstance(found, str) and "\n" not in found and found else 1


def _words(error: ErrorDetails, path: tuple[str | int, ...], name: str) -> tuple[str, str, str]:
    """The rule, the message and the hint for one of Pydantic's errors."""
    kind, context = error["type"], error.get("ctx", {})
    if kind == "extra_forbidden" and SECRETIVE.search(name):
        return "secret-in-site", f"{name!r} must not stand in a site's files", _SECRET_HINT
    if kind == "extra_forbidden":
        inner = {
            "nutrition": ("net carbohydrate",),
            "silence": tuple(_Silence.model_fields),
            "targets": tuple(_Target.model_fields),
            "trials": tuple(_Trials.model_fields),
            "paid links": tuple(_PaidLinks.model_fields),
            "without cautions": tuple(_LeftOut.model_fields),
        }.get(str(path[0]), tuple(_Person.model_fields))
        known = field_names() if len(path) == 1 else inner
        hint = did_you_mean(name, known) or f"the fields are: {', '.join(known)}"
        return "unknown-field", f"there is no field {name!r} here", hint
    if kind == "literal_error":
        choices = list(_literals(str(context.get("expected", ""))))
        hint = did_you_mean(str(error["input"]), choices) or f"write one of: {', '.join(choices)}"
        return "site-choice", f"{name} is {error['input']!r}, which is not one of them", hint
    if kind == "missing":
        return "missing-field", f"{_where(path[:-1])} has no {name!r}", f"add a line '{name}: …'"
    if kind == "string_too_short" or error["input"] is None:
        return "empty-field", f"{name!r} is empty", "write its value, or delete the line"
    if kind in _SHAPES:
        found = _SHAPE_FOUND.get(type(error["input"]).__name__, "words")
        return "field-shape", f"{name!r} is {found}", f"it must be {_SHAPES[kind]}"
    hint = str(context.get("hint", ""))
    message = error["msg"] if hint else f"{name}: {error['msg'].lower()}"
    return (kind if hint else "site-field"), message, hint


def _literals(expected: str) -> Iterator[str]:
    """Pydantic's ``'us', 'uk' or 'eu'``, taken apart."""
    return (match[1] for match in re.finditer(r"'([^']*)'", expected))


def _where(path: tuple[str | int, ...]) -> str:
    return ".".join(str(step) for step in path) or "the file"
