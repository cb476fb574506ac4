"""What an author said, typed and immutable. Every value knows the place it came from."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date
from fractions import Fraction
from typing import Literal

from sitegen.reading.source import Place

NOWHERE = Place(0, 0)


@dataclass(frozen=True, slots=True)
class Amount:
    """A number, or a range of numbers, of one unit; exact.

    ``1 lb 4 oz`` is two amounts in one :class:`Measure`; ``2 to 3 tbsp`` is one with ``upto``.
    """

    value: Fraction
    unit: str = ""
    """A key of the unit table (``g``, ``cup``, ``clove``), or ``""`` for a bare count."""
    upto: Fraction | None = None
    """The upper end of a range."""

    def times(self, factor: Fraction) -> Amount:
        """This amount scaled; exact, so scaling there and back gives the same amount."""
        upto = None if self.upto is None else self.upto * factor
        return Amount(self.value * factor, self.unit, upto)


@dataclass(frozen=True, slots=True)
class Measure:
    """One measure as an author writes it: amounts that add up, perhaps of packets of a size.

    ``1 cup plus 2 tbsp`` has two terms; ``2 × 400 g tins`` has one term (2 tins) and ``each``
    (400 g).
    """

    terms: tuple[Amount, ...]
    text: str
    """As written, tidied of double spaces: what the page prints when nothing is scaled."""
    each: Amount | None = None
    about: bool = False
    size: str = ""
    """``large``, ``medium``, ``small``: chooses among a counted food's own measures."""
    apiece: bool = False
    """``(150 g each)``: of one, not of all."""
    limit: str = ""
    """``up to``, ``just under``, ``just over``: words that are not ``about`` and must be kept."""

    @property
    def unit(self) -> str:
        """The unit of the first term."""
        return self.terms[0].unit


@dataclass(frozen=True, slots=True)
class IngredientLine:
    """One line of the list, taken apart.

    For ``about 3 leeks, finely sliced (450 g), divided``: ``amount`` is about 3 of no unit, ``food``
    is ``leeks``, ``preparation`` is ``finely sliced``, ``measures`` holds 450 g and ``remarks``
    holds ``divided``.
    """

    text: str
    place: Place
    food: str
    """The food's words, without amount, size, preparation and remarks."""
    amount: Measure | None = None
    measures: tuple[Measure, ...] = ()
    """The author's other measures of the same thing, from brackets."""
    preparation: str = ""
    remarks: tuple[str, ...] = ()
    """``divided``, ``optional``, ``to taste``, ``to serve``, ``for frying``, ``plus extra for …``."""
    states: tuple[str, ...] = ()
    """Words of the line that may choose the measure: ``chopped``, ``packed``, ``drained`` …"""
    reference: str = ""
    """The link's target when the ingredient is another recipe."""
    called: str = ""
    """The name that the method uses (``as``)."""
    pinned: str = ""
    """The larder entry the author pinned (``food``)."""
    eaten: Fraction = Fraction(1)
    """The share of it that is eaten: frying oil, brine, marinade."""
    alternatives: tuple[IngredientLine, ...] = ()
    """Further choices written in the line itself, after ``or``."""
    swap: IngredientLine | None = None
    note: str = ""
    part_of: str = ""
    """``juice``, ``finely grated zest``: the line measures its food in whole ones."""
    whole: str = ""
    """What ``part_of`` is taken from: ``lemon`` in ``juice of 1 lemon``."""

    @property
    def to_taste(self) -> bool:
        """Whether the cook decides how much."""
        return any(r.startswith("to taste") for r in self.remarks)


@dataclass(frozen=True, slots=True)
class Part:
    """A part of the ingredients list; a plain list has one unnamed part."""

    name: str
    place: Place
    lines: tuple[IngredientLine, ...]


@dataclass(frozen=True, slots=True)
class Mention:
    """An ingredient named in the method, in brackets."""

    place: Place
    words: str
    """The words that the page shows."""
    line: int
    """The ingredient's number in the recipe, counted from 0 through all parts; -1 if unknown."""
    share: Fraction | None = None
    """``half the butter`` is 1/2; ``the remaining stock`` is what is left; None: all or nothing said."""
    measure: Measure | None = None
    """``100 g flour``: an amount of its own."""
    again: bool = False
    """A later naming of what is in use already: no amount is shown."""
    length: int = 1
    rest: bool = False
    """``the remaining stock``: all that is left is asked for, be it nothing."""
    some: bool = False
    """``some of the stock``: a share that nobody can know."""


@dataclass(frozen=True, slots=True)
class TimeSpan:
    """A time in the text, in seconds; ``12 to 15 minutes`` has both ends."""

    place: Place
    text: str
    seconds: int
    upto: int | None = None


@dataclass(frozen=True, slots=True)
class Temperature:
    """A temperature in the text: an oven setting, or the heat inside the food or the pan."""

    place: Place
    text: str
    value: Fraction
    unit: Literal["C", "F", "gas"]
    use: Literal["oven", "core"]
    air: Literal["fan", "conventional", ""] = ""
    """What the author said of the oven; empty if nothing."""
    upto: Fraction | None = None


@dataclass(frozen=True, slots=True)
class Length:
    """A length in the text: ``a 23 cm round tin``, ``2 cm dice``; ``20 x 30 cm`` has two sides."""

    place: Place
    text: str
    sides: tuple[Fraction, ...]
    unit: Literal["cm", "mm", "in"]


Piece = str | Mention | TimeSpan | Temperature | Length
"""A run of safe HTML, or something that the page shows in its own way."""


@dataclass(frozen=True, slots=True)
class Step:
    """One numbered step; numbers run through all parts."""

    number: int
    place: Place
    pieces: tuple[Piece, ...]
    text: str
    """The step's plain text, markup and brackets taken off."""
    pictures: tuple[str, ...] = ()
    """The files of its pictures, as the author names them."""


@dataclass(frozen=True, slots=True)
class MethodPart:
    """The steps under one ``###`` heading, or under none."""

    name: str
    place: Place
    steps: tuple[Step, ...]
    lead: str = ""
    """HTML that stands before the first step."""


@dataclass(frozen=True, slots=True)
class Question:
    """A reader's question and the author's answer."""

    asked: str
    """HTML without a block of its own."""
    slug: str
    answer: str
    """HTML."""


@dataclass(frozen=True, slots=True)
class Section:
    """Any other ``##`` section: its heading and its HTML."""

    name: str
    slug: str
    html: str
    place: Place
    questions: tuple[Question, ...] = ()
    """The ``###`` headings of the section for questions, which follow ``html``."""

    @property
    def texts(self) -> tuple[str, ...]:
        """All of its HTML."""
        return (self.html, *(q.asked for q in self.questions), *(q.answer for q in self.questions))


@dataclass(frozen=True, slots=True)
class Photo:
    """A picture beside the recipe."""

    file: str
    """Relative to the recipe's folder."""
    alt: str
    place: Place = NOWHERE
    focus: tuple[int, int] = (50, 50)
    """The point that crops keep, in per cent from the left and the top."""


@dataclass(frozen=True, slots=True)
class Video:
    """A film of the recipe or of a part of it."""

    title: str
    alt: str
    """What it shows, for those who can't see it or will not play it."""
    poster: Photo
    """A still, shown until the film is played."""
    seconds: int
    """Its length."""
    file: str = ""
    """Beside the recipe; or else ``address``."""
    address: str = ""
    published: date | None = None
    captions: str = ""
    """A WebVTT file beside the recipe."""
    transcript: str = ""
    steps: tuple[tuple[int, int], ...] = ()
    """Numbers of steps and the second at which each begins, in order of time."""
    place: Place = NOWHERE


@dataclass(frozen=True, slots=True)
class Times:
    """Minutes, None where the author says nothing."""

    prep: int | None = None
    cook: int | None = None
    rest: int | None = None

    @property
    def total(self) -> int | None:
        """The sum of what is given."""
        given = [m for m in (self.prep, self.cook, self.rest) if m is not None]
        return sum(given) if given else None


@dataclass(frozen=True, slots=True)
class Count:
    """``18 dumplings``: a number and what it counts."""

    number: Fraction
    noun: str
    text: str


@dataclass(frozen=True, slots=True)
class Silence:
    """A finding of the read-through that the author has looked at and means to keep, and why."""

    rule: str
    why: str
    place: Place = NOWHERE
    ingredient: str = ""
    """Only about this ingredient, named as in the list or by its ``as``."""
    step: int = 0
    """Only about this step; 0: anywhere in the recipe."""


@dataclass(frozen=True, slots=True)
class Recipe:
    """One recipe file, understood."""

    file: str
    """The path relative to the site's folder, with ``/``: ``content/recipes/breads/rye.md``."""
    slug: str
    """The last part of its address: the file's name without ``.md``."""
    title: str
    serves: int
    summary: str = ""
    published: date | None = None
    """None: a draft, seen in the preview only."""
    updated: date | None = None
    author: str = ""
    course: str = ""
    cuisine: str = ""
    tags: tuple[str, ...] = ()
    makes: Count | None = None
    weighs: Amount | None = None
    volume: Amount | None = None
    times: Times = Times()
    tools: tuple[str, ...] = ()
    photo: Photo | None = None
    video: Video | None = None
    disclosure: str = ""
    """Who paid or gave what, in the author's words."""
    may_contain: tuple[str, ...] = ()
    parts: tuple[Part, ...] = ()
    intro: str = ""
    """HTML."""
    method: tuple[MethodPart, ...] = ()
    sections: tuple[Section, ...] = ()
    pictures: tuple[Photo, ...] = ()
    """The pictures in the text, in order; those of steps are among them."""
    silences: tuple[Silence, ...] = ()
    """Findings of the read-through that the author means to keep."""
    places: dict[str, Place] = field(default_factory=dict, compare=False)
    """Where each front-matter field stands."""

    @property
    def lines(self) -> tuple[IngredientLine, ...]:
        """All ingredient lines in order; a :class:`Mention` counts through these."""
        return tuple(line for part in self.parts for line in part.lines)

    @property
    def steps(self) -> tuple[Step, ...]:
        """All steps in order."""
        return tuple(step for part in self.method for step in part.steps)

    @property
    def draft(self) -> bool:
        """Whether only the preview shows it."""
        return self.published is None
