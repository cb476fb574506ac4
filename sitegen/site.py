"""A site: where its folders are, and its settings."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from pathlib import Path
from typing import Literal

Region = Literal["us", "uk", "eu", "au", "ca"]


@dataclass(frozen=True, slots=True)
class Author:
    """A person who writes for the site."""

    key: str
    name: str
    about: str = ""


@dataclass(frozen=True, slots=True)
class MenuItem:
    """A link in the site's head."""

    label: str
    to: str
    line: int = field(default=0, compare=False)
    column: int = field(default=0, compare=False)
    """Where ``to`` stands in ``site.yaml``."""


@dataclass(frozen=True, slots=True)
class Hush:
    """A rule of the read-through that the whole site keeps quiet about, and why."""

    rule: str
    why: str
    line: int = 0
    """Where it stands in ``site.yaml``."""
    column: int = 1


@dataclass(frozen=True, slots=True)
class LeftOut:
    """A safety caution that the site's owner takes off one recipe's page, signed and with a reason."""

    recipe: str
    """The recipe's slug."""
    caution: str
    why: str
    signed: str
    line: int = 0
    column: int = 1


@dataclass(frozen=True, slots=True)
class Target:
    """A place that ``sitegen deploy`` sends the site to. Holds no secret, ever."""

    name: str
    to: str
    """A folder (absolute, or as seen from the site), ``sftp://…`` or ``s3://bucket/prefix``."""
    address: str = ""
    """Where readers find it; empty: at the site's own address."""
    endpoint: str = ""
    """The web address of an S3-compatible store; empty: as the usual S3 files say."""
    zone: str = ""
    """The store's region."""
    profile: str = ""
    """The section of the usual S3 files that holds the keys."""
    line: int = 0
    column: int = 1


@dataclass(frozen=True, slots=True)
class Settings:
    """``content/site.yaml``, checked. Defaults are a small English site of metric kitchens."""

    title: str = "A recipe site"
    address: str = ""
    """Where the site will stand, with scheme; may have a path. Empty: links stay relative."""
    language: str = "en-GB"
    region: Region = "uk"
    """Which cup, spoon, oven and label law are meant."""
    units: Literal["metric", "us"] = "metric"
    """Which system is shown first."""
    theme: str = "sheet"
    description: str = ""
    caution: str = (
        "The figures are estimates worked out from food tables. Check the packets you use, and ask a "
        "doctor or dietitian about a medical diet or an allergy."
    )
    method_heading: str = "Method"
    questions_heading: str = "Questions"
    list_length: int = 24
    """How many recipes stand on one page of a list."""
    net_carbohydrate: tuple[str, ...] = ()
    """What is taken off carbohydrate for net carbohydrate; empty: the line is not shown."""
    authors: Mapping[str, Author] = field(default_factory=dict)
    menu: tuple[MenuItem, ...] = ()
    colours: Mapping[str, str] = field(default_factory=dict)
    """Design tokens that the site overrides, by name."""
    fonts: Mapping[str, str] = field(default_factory=dict)
    """Stacks of typefaces that the site overrides: ``headings``, ``text``."""
    minify: bool = True
    """Whether what is written has no spare space in it."""
    trials_needed: int = 0
    """Passed trials before a recipe may be published."""
    trials_since: date | None = None
    """The day of publishing from which on they are needed; None: of every recipe."""
    trials_shown: bool = False
    """Whether a page says how often its recipe was tested."""
    silences: tuple[Hush, ...] = ()
    left_out: tuple[LeftOut, ...] = ()
    paid_hosts: tuple[str, ...] = ()
    """Hosts that pay for links to them; their subdomains too."""
    disclosure: str = (
        "Some links on this page are paid for: if you buy there, we may earn something. "
        "They are marked."
    )
    """What stands near the top of a page with paid links."""
    targets: Mapping[str, Target] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Site:
    """A folder with ``content/site.yaml`` in it, and what it says."""

    folder: Path
    settings: Settings

    @property
    def content(self) -> Path:
        """The author's folder."""
        return self.folder / "content"

    @property
    def output(self) -> Path:
        """Where ``sitegen build`` writes unless told otherwise."""
        return self.folder / "output"

    @property
    def themes(self) -> Path:
        """The site's own themes, whose templates come before the program's."""
        return self.folder / "themes"
