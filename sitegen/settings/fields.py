"""The fields of ``site.yaml``, as models: they check it, and give the JSON Schema."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from pydantic import AfterValidator, BaseModel, Field

from sitegen.settings.values import (
    FROZEN,
    Address,
    Colour,
    Day,
    Destination,
    Faces,
    Host,
    Language,
    MenuLine,
    Name,
    Number,
    Public,
    Text,
    some,
)
from sitegen.site import Region, Settings


class Person(BaseModel):
    """Someone who writes for the site."""

    model_config = FROZEN

    name: Text = Field(description="as it stands under a recipe's title")
    about: str = Field("", description="a sentence or two for the author's own page")


class Nutrition(BaseModel):
    """What the label shows beyond the law."""

    model_config = FROZEN

    net_carbohydrate: Annotated[
        list[Literal["fibre", "polyols", "allulose"]],
        Field(alias="net carbohydrate", description="what is taken off carbohydrate"),
    ] = []


class Silence(BaseModel):
    """A rule of the read-through that the site keeps quiet about."""

    model_config = FROZEN

    rule: Text
    why: Text


class LeftOutFields(BaseModel):
    """A caution off a page: only here, signed, with the reason."""

    model_config = FROZEN

    recipe: Text
    caution: Text
    why: Text
    signed: Text


class Trials(BaseModel):
    """What a recipe's test log must hold before it is published, and what its page says of it."""

    model_config = FROZEN

    needed: Number | None = Field(
        default=None, description="passed trials before a recipe may be published", examples=[2]
    )
    since: Day | None = Field(
        default=None, description="only recipes published from this day on need them"
    )
    shown: Literal["yes", "no"] = Field(
        default="no", description="whether a page says how often its recipe was tested"
    )


class PaidLinks(BaseModel):
    """Who pays for links, and how readers are told."""

    model_config = FROZEN

    hosts: list[Host] = Field(
        default=[],
        description="hosts whose links are paid for, subdomains too",
        examples=[["shop.example"]],
    )
    said: Text = Field(
        default=Settings().disclosure,
        description="what stands near the top of a page with paid links",
    )


class TargetFields(BaseModel):
    """A place that ``sitegen deploy`` sends the site to."""

    model_config = FROZEN

    to: Destination = Field(description="a folder, sftp://user@host/folder or s3://bucket/folder")
    address: Address = Field("", description="where readers find it, if not at the site's address")
    endpoint: Address = Field("", description="the web address of an S3-compatible store")
    region: Public = Field("", description="the store's region")
    profile: Public = Field("", description="the section of the usual S3 files that holds the keys")


class SiteFile(BaseModel):
    """The settings of a site."""

    model_config = FROZEN

    title: Text = Field(Settings().title, description="the site's name")
    address: Address = Field(
        "", description="where the site will stand; feeds and the site map need it"
    )
    language: Language = Field(Settings().language, description="a language tag")
    region: Region = Field(
        Settings().region, description="whose cups, spoons, ovens and label law are meant"
    )
    units: Literal["metric", "us"] = Field(Settings().units, description="the system shown first")
    theme: Name = Field(Settings().theme, description="a theme's folder name")
    description: str = Field("", description="one sentence about the site")
    caution: Text = Field(
        Settings().caution, description="stands beside nutrition and allergen statements"
    )
    method_heading: Text = Field(
        Settings().method_heading,
        alias="method heading",
        description="the '##' heading that the steps stand under",
    )
    questions_heading: Text = Field(
        Settings().questions_heading,
        alias="questions heading",
        description="the '##' heading that readers' questions stand under, each a '###'",
    )
    list_length: Annotated[Number, AfterValidator(some)] = Field(
        Settings().list_length,
        alias="list length",
        description="how many recipes stand on one page of a list",
    )
    authors: dict[Name, Person] = Field(
        {},
        description="who writes, by the key that recipes use in 'author'",
        examples=[{"ines": {"name": "Ines Varrow"}}],
    )
    menu: list[MenuLine] = Field(
        [],
        description="the links in the site's head, one '- Words: file' a line",
        examples=[[{"All recipes": "recipes/index.html"}]],
    )
    colours: dict[Name, Colour] = Field(
        {},
        description="colours of the theme to replace, by name",
        examples=[{"accent": "#a4362b"}],
    )
    fonts: dict[Literal["headings", "text"], Faces] = Field(
        {},
        description="typefaces of the theme to replace, as a list from which readers' devices choose",
        examples=[{"headings": "Georgia, serif"}],
    )
    minify: Literal["yes", "no"] = Field(
        "yes", description="whether pages, style sheets and scripts are written without spare space"
    )
    nutrition: Nutrition = Field(Nutrition(), description="what the label shows beyond the law")
    silence: list[Silence] = Field(
        [],
        description="rules of the read-through that this site keeps quiet about, with the reason",
    )
    without_cautions: list[LeftOutFields] = Field(
        [],
        alias="without cautions",
        description="safety cautions that the site's owner takes off a page, signed, with the reason",
    )
    trials: Trials = Field(Trials(), description="what test logs must hold and may tell")
    paid_links: PaidLinks = Field(
        PaidLinks(), alias="paid links", description="who pays for links, and how readers are told"
    )
    targets: dict[Name, TargetFields] = Field(
        {},
        description="where 'sitegen deploy' sends the site, by a name of your own",
        examples=[{"live": {"to": "sftp://me@host.example/srv/www"}}],
    )


def field_names() -> tuple[str, ...]:
    """The names of all fields, as an author writes them."""
    return tuple(field.alias or name for name, field in SiteFile.model_fields.items())


def schema() -> dict[str, Any]:
    """The JSON Schema of ``site.yaml``."""
    return SiteFile.model_json_schema(by_alias=True)
