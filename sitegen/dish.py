"""What follows from a recipe: everything that the pages show, worked out.

A :class:`Dish` is a pure function of a Recipe, the Larder and the Settings: no clock, no files, no
network. Pages, JSON-LD, ``sitegen weigh`` and ``sitegen label`` see these values and compute nothing.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Literal

from sitegen.nutrition.amounts import times
from sitegen.nutrition.contents import Contents, Portion
from sitegen.reading.recipe import (
    IngredientLine,
    Length,
    Mention,
    Recipe,
    Section,
    Temperature,
    TimeSpan,
)


@dataclass(frozen=True, slots=True)
class Figure:
    """A printed amount and the exact one behind it, which is what scales.

    ``Figure("us-volume", Fraction(60), None, "1¼ cups", ...)`` is 60 teaspoons. ``ladder`` names
    the row of the ladder table that prints it; ``value`` is in that ladder's base unit.
    """

    ladder: str
    """``g``, ``g-fine``, ``ml``, ``us-volume`` (teaspoons), ``us-weight`` (oz), ``count`` …"""
    value: Fraction
    upto: Fraction | None
    text: str
    """As printed at the recipe's own size: the author's own words, or the ladder's."""
    worked_out: bool = False
    """False: the author's figure. True: reckoned from another."""
    about: bool = False
    noun: str = ""
    """For counts: the key of the counted word (``clove``, ``tin``); empty for a bare number."""
    basis: str = ""
    """For worked-out figures, how: ``from 125 g to the cup (USDA SR28 20081)``."""
    prefix: str = ""
    """Text that stands before and does not scale."""
    suffix: str = ""
    """Text that stands after and does not scale, as `` × 400 g`` after a count of tins."""
    one: str | None = None
    """What stands for exactly one, without prefix and suffix: ``a pinch``; ``""``: nothing."""
    around: str = ""
    """What stands around it and goes when nothing is left: ``(…)``, with its blank."""

    @property
    def said_as_one(self) -> bool:
        """Whether ``text`` is the words for exactly one."""
        return self.one is not None and self.text == self.one


@dataclass(frozen=True, slots=True)
class AmidAmount:
    """An amount amid the words of a line, in both systems: the ``3 l`` of "cooked in 3 l water"."""

    metric: Figure | None
    us: Figure | None
    lead: Figure | None = None
    """The author's own, where it is of neither system: a British pint."""


@dataclass(frozen=True, slots=True)
class LedgerRow:
    """One ingredient as the table shows it."""

    index: int
    """The number that mentions in the method use."""
    line: IngredientLine
    food: str
    """The food's words as shown, e.g. ``leeks``; with the count before it where there is one."""
    metric: Figure | None
    us: Figure | None
    lead: Figure | None = None
    """A count or a regional measure that belongs in neither column: ``3`` (leeks), ``2 × 400 g tins``."""
    size: str = ""
    preparation: str = ""
    remarks: tuple[str, ...] = ()
    missing: str = ""
    """Why a column is empty: ``no measured weight of a cup of this``; empty if none is."""
    cautions: tuple[str, ...] = ()
    """Keys of scaling cautions (``leavening``, ``salt``, ``spice``, ``gelling``, ``egg``)."""
    grams: Fraction | None = None
    grams_upto: Fraction | None = None
    millilitres: Fraction | None = None
    larder_name: str = ""
    also: tuple[str, ...] = ()
    """What the site also calls the food, where it is one of its own."""
    larder_source: str = ""
    reference: str = ""
    """The slug of the recipe that this ingredient is; empty if it is a food."""
    swap: LedgerRow | None = None
    alternatives: tuple[LedgerRow, ...] = ()
    optional: bool = False
    aisle: str = ""
    amid: tuple[tuple[str, tuple[str | AmidAmount, ...]], ...] = ()
    """Those texts of the preparation, the remarks and the note that have amounts in them, in pieces."""

    def pieces_of(self, text: str) -> tuple[str | AmidAmount, ...]:
        """One of those texts, in pieces: words, and the amounts amid them."""
        for known, pieces in self.amid:
            if known == text:
                return pieces
        return (text,)


@dataclass(frozen=True, slots=True)
class LedgerPart:
    """A part of the ingredients table."""

    name: str
    rows: tuple[LedgerRow, ...]


@dataclass(frozen=True, slots=True)
class AmountPiece:
    """An ingredient named in a step, with its amount in both systems (None: no amount shown).

    ``the 3 eggs``, ``the flour (250 g)``, ``2 tbsp olive oil``: the amounts are those to be printed.
    """

    words: str
    """The author's words."""
    index: int
    metric: Figure | None = None
    us: Figure | None = None
    lead: Figure | None = None
    mention: Mention | None = None
    word: Figure | None = None
    """The counted food at the end of the words, to agree with the number: ``eggs``."""
    opening: str = ""
    """The words before the amount, where that stands among the words: ``all the ``."""
    before: bool = False
    """The amount (the count, where there is one) stands before the food and not after it."""
    about: bool = False
    """``about`` stands before the figures of the two systems."""
    marks: tuple[str, str] = ("(", ")")
    """The brackets of what stands after the food; square ones within the author's round ones."""

    @property
    def rest(self) -> str:
        """The words after ``opening``, without the counted food."""
        end = len(self.words) - len(self.word.text) if self.word else len(self.words)
        return self.words[len(self.opening) : end]


@dataclass(frozen=True, slots=True)
class TimePiece:
    """A time that can be started."""

    text: str
    seconds: int
    upto: int | None
    span: TimeSpan


@dataclass(frozen=True, slots=True)
class OvenSetting:
    """One oven setting in every form that a dial shows.

    British ``200 °C fan`` is fan 200 °C, conventional 220 °C, gas mark 7, and 400/425 °F.
    """

    fan_c: int
    conventional_c: int
    fan_f: int
    conventional_f: int
    gas: str
    """The gas mark of the conventional setting; empty out of its range."""
    said: Literal["fan", "conventional", "gas", ""]
    """Which of them the author gave."""


@dataclass(frozen=True, slots=True)
class TemperaturePiece:
    """A temperature in both scales. ``aside`` is the words to add after the author's own."""

    text: str
    use: Literal["oven", "core"]
    aside: str
    """What the author did not write, e.g. ``220 °C conventional, gas mark 7, 400 °F fan``."""
    oven: OvenSetting | None
    core_c: int | None
    core_f: int | None
    temperature: Temperature
    core_c_upto: int | None = None
    core_f_upto: int | None = None


@dataclass(frozen=True, slots=True)
class LengthPiece:
    """A length in both systems: ``23 cm`` and ``9 in``."""

    text: str
    aside: str
    length: Length


DishPiece = str | AmountPiece | TimePiece | TemperaturePiece | LengthPiece
"""A run of safe HTML, or a value that a template draws."""


@dataclass(frozen=True, slots=True)
class MarginNote:
    """What the eye looks for beside a step."""

    kind: Literal["time", "oven", "core"]
    lines: tuple[str, ...]
    """Short lines, each unbreakable: ``fan 200 °C``, ``220 °C``, ``gas 7``, ``425 °F``."""


@dataclass(frozen=True, slots=True)
class StepView:
    """A step of the method, laid out."""

    number: int
    pieces: tuple[DishPiece, ...]
    margin: tuple[MarginNote, ...]
    text: str
    """Plain text with amounts, as JSON-LD and feeds print it."""
    mark: str = ""
    """Of the step's words, wherever it stands: by it the page knows a step that was ticked off."""


@dataclass(frozen=True, slots=True)
class MethodPartView:
    """The steps under one heading."""

    name: str
    lead: str
    steps: tuple[StepView, ...]


@dataclass(frozen=True, slots=True)
class Field:
    """One field of the sheet head: ``Serves`` / ``6`` / ````."""

    key: str
    """``serves makes weighs prep cook rest total oven tin scoop serving``."""
    label: str
    value: str
    detail: str = ""
    figure: Figure | None = None
    """Set where the value scales with portions."""
    detail_figure: Figure | None = None
    """Set where the detail scales too."""


@dataclass(frozen=True, slots=True)
class Tin:
    """A baking tin found among the tools. Lengths in cm."""

    shape: Literal["round", "square", "oblong", "loaf", "ring"]
    sides: tuple[Fraction, ...]
    depth: Fraction | None
    text: str
    area: Fraction
    """cm²; π taken as 355/113."""


@dataclass(frozen=True, slots=True)
class NutrientFigure:
    """One nutrient of one portion, or of 100 g."""

    key: str
    """``energy_kcal``, ``protein_g`` …"""
    label: str
    value: float | None
    """None: not known well enough to print."""
    printed: str
    """As the label of the region rounds it, unit included: ``410 kcal``, ``< 1 g``."""
    complete: bool
    """False: some ingredient's figure is missing, so the true one is at least this."""
    daily: str = ""
    """The per cent of the daily value where the region's label has one."""
    indent: bool = False
    """A part of the nutrient above it: ``of which saturates``."""


@dataclass(frozen=True, slots=True)
class SwapFigures:
    """The label of a serving when one ingredient is swapped."""

    use: str
    """The swap's words: ``haddock fillet``."""
    instead_of: str
    per_serving: tuple[NutrientFigure, ...]


@dataclass(frozen=True, slots=True)
class LabelLine:
    """One ingredient's share in the working of the label."""

    portion: Portion
    serving: float
    """The part of the batch that a serving is."""

    @property
    def index(self) -> int:
        """The ingredient's number in the ledger."""
        return self.portion.index

    @property
    def text(self) -> str:
        """The line as its author wrote it."""
        return self.portion.text

    @property
    def grams(self) -> float | None:
        """What the batch has of it, as the recipe measures it; None if not known."""
        return self.portion.grams

    @property
    def eaten_grams(self) -> float | None:
        """What of that is eaten; None if not known."""
        return self.portion.eaten

    @property
    def larder_name(self) -> str:
        """The food's name; empty if the larder has none."""
        return self.portion.food

    @property
    def source(self) -> str:
        """Where the food's figures come from."""
        return self.portion.source

    @property
    def per_serving(self) -> Mapping[str, float]:
        """What it gives to a serving; a nutrient that is absent is not known."""
        return times(self.portion.nutrients, self.serving)

    @property
    def note(self) -> str:
        """How its figures came about, in words."""
        return self.portion.working


@dataclass(frozen=True, slots=True)
class Label:
    """Nutrition worked out, with what it rests on."""

    form: Literal["us", "eu"]
    serving: str
    """``a sixth of the batch, about 400 g``."""
    serves: int
    batch_grams: float | None
    per_serving: tuple[NutrientFigure, ...]
    per_100g: tuple[NutrientFigure, ...]
    covers: float
    """0 to 1: the share of the weight that the figures cover."""
    lines: tuple[LabelLine, ...]
    sources: tuple[str, ...]
    energy_split: tuple[tuple[str, float], ...]
    """Share of energy: ``(("protein", 0.2), ("fat", 0.3), ("carbohydrate", 0.5))``; sums to 1."""
    per_serving_values: Mapping[str, float] = field(default_factory=dict)
    per_100g_values: Mapping[str, float] = field(default_factory=dict)
    net_carbohydrate_g: float | None = None
    """Of a serving; None if carbohydrate is not known well enough."""
    net_carbohydrate: str = ""
    """The line with its formula, as the page prints it; empty unless the site asks for it."""
    ranges: tuple[tuple[str, str, str], ...] = ()
    """``("energy_kcal", "410 kcal", "440 kcal")``: a serving at both ends of the amounts' ranges."""
    swaps: tuple[SwapFigures, ...] = ()
    by_factors: tuple[float, float] | None = None
    """kcal and kJ of a serving by the factors of Regulation (EU) 1169/2011, Annex XIV."""


@dataclass(frozen=True, slots=True)
class Allergens:
    """What the dish contains by the law of the region."""

    law: str
    """``the 14 allergens of Regulation (EU) 1169/2011, Annex II``."""
    contains: tuple[str, ...]
    """As the law names them, with the food that brings each: ``cereals containing gluten (wheat)``."""
    because: Mapping[str, tuple[str, ...]]
    """For each entry of ``contains``, the ingredients that bring it."""
    check_packet: tuple[str, ...]
    """Allergens that some makers' products have: ``celery (vegetable stock)``."""
    author_may_contain: tuple[str, ...]
    unsure: tuple[str, ...]
    """Ingredients whose allergens are not known: the statement may be incomplete."""
    swaps: tuple[str, ...] = ()
    """What only swaps would bring: ``milk, only if you use butter``."""
    beyond: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    """What the region's law does not name, but another's does, and what brings it: barley in the US."""


@dataclass(frozen=True, slots=True)
class Caution:
    """A safety caution beside the recipe."""

    key: str
    text: str
    source: str


@dataclass(frozen=True, slots=True)
class Dish:
    """Everything that one recipe's pages show."""

    recipe: Recipe
    fields: tuple[Field, ...]
    """The sheet head, in order; only what the recipe has."""
    ledger: tuple[LedgerPart, ...]
    method: tuple[MethodPartView, ...]
    sections: tuple[Section, ...]
    label: Label
    allergens: Allergens
    diets: tuple[str, ...]
    """Claims that every ingredient allows: ``vegan``, ``vegetarian``, ``gluten-free ingredients``."""
    cautions: tuple[Caution, ...]
    scaling_notes: tuple[str, ...]
    """What does not scale, said in words: times, oven, tin."""
    tins: tuple[Tin, ...]
    uses: tuple[str, ...]
    """Slugs of recipes that are ingredients of this one."""
    ingredient_texts: tuple[str, ...]
    """One readable string a line, both systems, for JSON-LD and feeds."""
    cautions_left_out: tuple[Caution, ...] = ()
    """Those that would stand here, had the site's owner not taken them off, signed, in site.yaml."""
    unit_meanings: tuple[str, ...] = ()
    """What the author's cups and spoons are taken to hold: ``1 cup is 236.6 ml``."""
    contents: Contents = field(default_factory=Contents)
    """The sums behind the label and the statements, for dishes that use this one."""
    partial: bool = False
    """A recipe among its ingredients, however far down, can't be worked out: it says so itself."""

    @property
    def rows(self) -> tuple[LedgerRow, ...]:
        """All rows in order."""
        return tuple(row for part in self.ledger for row in part.rows)
