"""What single values of ``site.yaml`` may be: addresses, names, links, colours, days, numbers."""

from __future__ import annotations

import re
from datetime import date
from typing import Annotated, Any
from urllib.parse import urlsplit

from pydantic import AfterValidator, BeforeValidator, ConfigDict, Field, WithJsonSchema
from pydantic_core import PydanticCustomError

from sitegen.models import STRICT


def refuse(rule: str, message: str, hint: str) -> PydanticCustomError:
    """What a check raises: the rule's name, what is wrong, and how to mend it."""
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
SECRET_HINT = (
    "delete it, and change it where it is used, for a site's files get copied; secrets are taken from "
    "the environment or from the usual files of SSH and S3: see 'sitegen deploy --help'"
)


def _no_secret(text: str) -> str:
    if _SECRET_VALUE.search(text):
        raise refuse("secret-in-site", "a secret stands in this setting", SECRET_HINT)
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
        raise refuse("site-address", f"{text!r} is not a web address", hint)
    if parts.query or parts.fragment:
        raise refuse(
            "site-address", "the site's address has a '?' or a '#'", "end it before that sign"
        )
    return text.rstrip("/")


def _language(text: str) -> str:
    if not re.fullmatch(r"[a-z]{2,3}(-[A-Z][a-z]{3})?(-([A-Z]{2}|[0-9]{3}))?", text):
        hint = "write a language tag such as en, en-GB or de-AT"
        raise refuse("site-language", f"{text!r} is not a language tag", hint)
    return text


def _plain_name(text: str) -> str:
    if not re.fullmatch(r"[a-z0-9]+(-[a-z0-9]+)*", text):
        hint = "use small letters, figures and hyphens"
        raise refuse("site-name", f"{text!r} can't be a name here", hint)
    return text


def _link(text: str) -> str:
    scheme = re.match(r"([A-Za-z][A-Za-z0-9+.-]*):", text)
    if (scheme and scheme[1].lower() not in ("http", "https", "mailto")) or text.startswith("//"):
        hint = "write a file of the site (recipes/index.html) or a whole address (https://…)"
        raise refuse("site-link", f"{text!r} is not a link that a menu can hold", hint)
    return text


def _colour(text: str) -> str:
    hexadecimal = r"#([0-9a-fA-F]{3}|[0-9a-fA-F]{4}|[0-9a-fA-F]{6}|[0-9a-fA-F]{8})"
    function = r"(rgb|rgba|hsl|hsla|hwb|lab|lch|oklab|oklch)\([0-9a-z.,%/ +-]+\)"
    if not re.fullmatch(f"{hexadecimal}|{function}|[a-z]+", text):
        hint = "write a CSS colour: '#a4362b' (in quotes, for YAML takes # as a comment)"
        raise refuse("site-colour", f"{text!r} is not a colour", hint)
    return text


def _faces(text: str) -> str:
    names = [name.strip() for name in text.split(",")]
    if not all(re.fullmatch(r"""[\w -]+|'[\w -]+'|"[\w -]+\"""", name) for name in names):
        hint = "name typefaces with commas between, a kind last: 'Georgia, \"Noto Serif\", serif'"
        raise refuse("site-font", f"{text!r} is not a list of typefaces", hint)
    return ", ".join(names)


def _host(text: str) -> str:
    name = text.lower()
    if not re.fullmatch(r"[a-z0-9]([a-z0-9-]*[a-z0-9])?(\.[a-z0-9]([a-z0-9-]*[a-z0-9])?)+", name):
        hint = "write the host alone, such as shop.example, without https:// and path"
        raise refuse("site-host", f"{text!r} is not the name of a host", hint)
    return name


def _number(text: str) -> int:
    if not re.fullmatch(r"[0-9]{1,3}", text):
        raise refuse("site-number", f"{text!r} is not a whole number", "write a number, such as 2")
    return int(text)


def some(number: int) -> int:
    """At least one."""
    if not number:
        raise refuse("site-number", "a page of a list can’t hold 0", "write a number, such as 24")
    return number


def _day(text: str) -> date:
    try:
        return date.fromisoformat(text)
    except ValueError:
        hint = "write year-month-day, as in 2026-10-04"
        raise refuse("site-date", f"{text!r} is not a date", hint) from None


def _one_link(item: dict[str, Any]) -> dict[str, Any]:
    if len(item) != 1:
        hint = "write each link as '- Words: file', such as '- All recipes: recipes/index.html'"
        raise refuse("site-menu", "a menu line holds one link", hint)
    return item


def _destination(text: str) -> str:
    _no_secret(text)
    hint = "write a folder, sftp://user@host/folder or s3://bucket/folder"
    scheme, mark, rest = text.partition("://")
    if not mark:
        if re.match(r"(?:sftp|s3|[a-z]+ftp|https?):", text, re.IGNORECASE):
            raise refuse("target-address", f"{text!r} is not a place to send to", hint)
        return text
    try:
        parts = urlsplit(text)
        port_reads = parts.port is None or parts.port > 0
    except ValueError:
        port_reads = False
    if scheme not in ("sftp", "s3"):
        raise refuse("target-kind", f"nothing can be sent to {scheme}://", hint)
    if not port_reads or not parts.hostname or re.search(r"[\s?#]", rest):
        raise refuse("target-address", f"{text!r} is not a place to send to", hint)
    return text.rstrip("/")


Text = Annotated[str, Field(min_length=1)]
FROZEN = STRICT | ConfigDict(frozen=True)


def _told(**schema: Any) -> WithJsonSchema:
    """What editors are told of words that a function checks; it may be looser than the check."""
    return WithJsonSchema({"type": "string", **schema})


Address = Annotated[
    str,
    AfterValidator(_address),
    _told(pattern="^(https?://.*)?$", examples=["https://example.org/food"]),
]
Language = Annotated[
    str,
    AfterValidator(_language),
    _told(pattern="^[a-z]{2,3}(-[A-Z].*|-[0-9]{3})?$", examples=["en-GB", "en-US", "de-AT"]),
]
Name = Annotated[str, AfterValidator(_plain_name), _told(pattern="^[a-z0-9]+(-[a-z0-9]+)*$")]
Link = Annotated[
    str, AfterValidator(_link), _told(minLength=1, examples=["recipes/index.html", "about.html"])
]
Colour = Annotated[str, AfterValidator(_colour), _told(minLength=1, examples=["#a4362b"])]
Faces = Annotated[
    str,
    AfterValidator(_faces),
    _told(minLength=1, examples=["Georgia, serif", "system-ui, sans-serif"]),
]
Host = Annotated[str, AfterValidator(_host), _told(pattern=r"^[^/:\s]+\.[^/:\s]+$")]
Destination = Annotated[
    str,
    Field(min_length=1),
    AfterValidator(_destination),
    _told(minLength=1, examples=["sftp://me@host.example/srv/www", "s3://bucket", "../public"]),
]
Public = Annotated[str, AfterValidator(_no_secret)]
Number = Annotated[
    int, BeforeValidator(_number), WithJsonSchema({"type": "integer", "minimum": 0, "maximum": 999})
]
Day = Annotated[
    date,
    BeforeValidator(_day),
    _told(pattern=r"^\d{4}-\d{2}-\d{2}$", examples=["2026-10-04"]),
]
MenuLine = Annotated[
    dict[Text, Link],
    AfterValidator(_one_link),
    Field(json_schema_extra={"minProperties": 1, "maxProperties": 1}),
]
