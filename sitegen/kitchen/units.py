"""The units of kitchens: their names as people write them, and their exact sizes.

Metric, US and imperial factors come from Pint's definitions (``factors.json``), which follow NIST
Handbook 44, Appendix C, and the UK Weights and Measures Act 1985. Metric cup 250 ml, metric
tablespoon 15 ml, dessertspoon 10 ml and teaspoon 5 ml, and the Australian tablespoon of 20 ml are
common practice.
"""

from __future__ import annotations

import json
from dataclasses import dataclass
from fractions import Fraction
from functools import cache, lru_cache
from importlib.resources import files
from typing import Literal

Dimension = Literal["weight", "volume", "count"]


@dataclass(frozen=True, slots=True)
class Unit:
    """One unit as a line of a recipe may name it.

    A bare ``cup`` has no size of its own: :func:`size_of` asks the region.
    """

    key: str
    dimension: Dimension
    one: str
    """As printed after 1 or less."""
    many: str
    forms: tuple[str, ...]
    """Every spelling that the line reader takes for it, in lower case unless case matters."""
    system: Literal["metric", "us", "imperial", "regional", "kitchen"] = "kitchen"
    scoops: bool = False
    """Whether ``of`` may follow: ``a pinch of``."""


def _count(one: str, many: str = "", *forms: str) -> Unit:
    many = many or one + "s"
    return Unit(one, "count", one, many, (one, many, *forms))


_MEASURES = (
    Unit(
        "mg",
        "weight",
        "mg",
        "mg",
        ("mg", "milligram", "milligrams", "milligramme", "milligrammes"),
        "metric",
    ),
    Unit(
        "g",
        "weight",
        "g",
        "g",
        ("g", "gr", "gm", "gms", "gram", "grams", "gramme", "grammes"),
        "metric",
    ),
    Unit(
        "kg",
        "weight",
        "kg",
        "kg",
        ("kg", "kgs", "kilo", "kilos", "kilogram", "kilograms", "kilogramme", "kilogrammes"),
        "metric",
    ),
    Unit(
        "ml",
        "volume",
        "ml",
        "ml",
        ("ml", "mls", "millilitre", "millilitres", "milliliter", "milliliters", "cc"),
        "metric",
    ),
    Unit(
        "cl",
        "volume",
        "cl",
        "cl",
        ("cl", "centilitre", "centilitres", "centiliter", "centiliters"),
        "metric",
    ),
    Unit(
        "dl",
        "volume",
        "dl",
        "dl",
        ("dl", "decilitre", "decilitres", "deciliter", "deciliters"),
        "metric",
    ),
    Unit(
        "l",
        "volume",
        "l",
        "l",
        ("l", "litre", "litres", "liter", "liters", "ltr", "ltrs"),
        "metric",
    ),
    Unit(
        "tsp",
        "volume",
        "tsp",
        "tsp",
        ("tsp", "tsps", "teaspoon", "teaspoons", "teaspoonful", "teaspoonfuls"),
        "regional",
    ),
    Unit(
        "tbsp",
        "volume",
        "tbsp",
        "tbsp",
        (
            "tbsp",
            "tbsps",
            "tbs",
            "tblsp",
            "tablespoon",
            "tablespoons",
            "tablespoonful",
            "tablespoonfuls",
        ),
        "regional",
    ),
    Unit(
        "dessertspoon",
        "volume",
        "dessertspoon",
        "dessertspoons",
        ("dessertspoon", "dessertspoons", "dessertspoonful", "dessertspoonfuls", "dsp", "dstsp"),
        "regional",
    ),
    Unit(
        "fl oz",
        "volume",
        "fl oz",
        "fl oz",
        ("fl oz", "fl. oz", "fl. oz.", "floz", "fluid ounce", "fluid ounces"),
        "regional",
    ),
    Unit("cup", "volume", "cup", "cups", ("cup", "cups", "cupful", "cupfuls", "c."), "regional"),
    Unit("pint", "volume", "pint", "pints", ("pint", "pints", "pt", "pts"), "regional"),
    Unit("quart", "volume", "quart", "quarts", ("quart", "quarts", "qt", "qts"), "regional"),
    Unit("gallon", "volume", "gallon", "gallons", ("gallon", "gallons"), "us"),
    Unit("us tsp", "volume", "US tsp", "US tsp", ("us tsp", "us teaspoon", "us teaspoons"), "us"),
    Unit(
        "us tbsp",
        "volume",
        "US tbsp",
        "US tbsp",
        ("us tbsp", "us tablespoon", "us tablespoons"),
        "us",
    ),
    Unit("us cup", "volume", "US cup", "US cups", ("us cup", "us cups"), "us"),
    Unit("us pint", "volume", "US pint", "US pints", ("us pint", "us pints"), "us"),
    Unit(
        "us fl oz",
        "volume",
        "US fl oz",
        "US fl oz",
        ("us fl oz", "us fluid ounce", "us fluid ounces"),
        "us",
    ),
    Unit(
        "metric cup",
        "volume",
        "metric cup",
        "metric cups",
        ("metric cup", "metric cups"),
        "regional",
    ),
    Unit(
        "imperial pint",
        "volume",
        "imperial pint",
        "imperial pints",
        ("imperial pint", "imperial pints", "uk pint", "uk pints"),
        "imperial",
    ),
    Unit(
        "imperial fl oz",
        "volume",
        "imperial fl oz",
        "imperial fl oz",
        ("imperial fl oz", "uk fl oz", "imperial fluid ounce", "imperial fluid ounces"),
        "imperial",
    ),
    Unit("oz", "weight", "oz", "oz", ("oz", "ozs", "oz.", "ounce", "ounces"), "us"),
    Unit("lb", "weight", "lb", "lb", ("lb", "lbs", "lb.", "lbs.", "pound", "pounds"), "us"),
)

_COUNTS = (
    _count("pinch", "pinches"),
    _count("dash", "dashes"),
    _count("drop"),
    _count("splash", "splashes"),
    _count("squeeze"),
    _count("drizzle"),
    _count("handful", "handfuls", "handsful"),
    _count("grind", "grinds", "grinding", "grindings"),
    _count("glass", "glasses", "glassful", "glassfuls"),
    _count("wine glass", "wine glasses", "wineglass", "wineglasses", "wineglassful"),
    _count("mug", "mugs", "mugful", "mugfuls"),
    _count("teacup", "teacups", "teacupful", "teacupfuls"),
    _count("bowl", "bowls", "bowlful", "bowlfuls"),
    _count("ladleful", "ladlefuls", "ladle", "ladles"),
    _count("dollop"),
    _count("glug"),
    _count("clove"),
    _count("sprig"),
    _count("bunch", "bunches"),
    _count("slice"),
    _count("rasher"),
    _count("sheet"),
    _count("knob"),
    _count("tin"),
    _count("can"),
    _count("jar"),
    _count("bottle"),
    _count("packet", "packets", "pack", "packs"),
    _count("package", "packages", "pkg"),
    _count("sachet"),
    _count("envelope"),
    _count("carton"),
    _count("tub"),
    _count("pot"),
    _count("bag"),
    _count("box", "boxes"),
    _count("block"),
    _count("cube"),
    _count("piece"),
    _count("fillet"),
    _count("strip"),
    _count("stick"),
    _count("stalk"),
    _count("stem"),
    _count("rib"),
    _count("head"),
    _count("bulb"),
    _count("leaf", "leaves"),
    _count("ear"),
    _count("cob"),
    _count("wedge"),
    _count("floret"),
    _count("pod"),
    _count("ball"),
    _count("scoop"),
    _count("segment"),
    _count("square"),
    _count("crown"),
    _count("rack"),
    _count("side"),
    _count("link"),
    _count("loaf", "loaves"),
    _count("punnet"),
    _count("thumb", "thumbs", "thumb-sized piece"),
    _count("portion"),
    _count("serving"),
    _count("batch", "batches"),
)

UNITS: dict[str, Unit] = {u.key: u for u in (*_MEASURES, *_COUNTS)}

# What a bare unit means where the site is at home.
_US = {
    "tsp": "us_tsp",
    "tbsp": "us_tbsp",
    "fl oz": "us_fl_oz",
    "cup": "us_cup",
    "pint": "us_pint",
    "quart": "us_quart",
}
_METRIC_SPOONS = {"tsp": Fraction(5), "tbsp": Fraction(15), "cup": Fraction(250)}
# Britain has spoons but no cup of its own: a British author's cups are for US readers.
_BRITISH_SPOONS = {"tsp": Fraction(5), "tbsp": Fraction(15)}
_MEANINGS: dict[str, dict[str, str | Fraction]] = {
    "us": {**_US},
    "ca": {**_US, **_METRIC_SPOONS, "pint": "imp_pint", "fl oz": "imp_fl_oz", "quart": "imp_quart"},
    "uk": {
        **_US,
        **_BRITISH_SPOONS,
        "pint": "imp_pint",
        "fl oz": "imp_fl_oz",
        "quart": "imp_quart",
    },
    "eu": {**_US, **_METRIC_SPOONS},
    "au": {
        **_US,
        **_METRIC_SPOONS,
        "tbsp": Fraction(20),
        "pint": "imp_pint",
        "fl oz": "imp_fl_oz",
        "quart": "imp_quart",
    },
}
_FIXED: dict[str, str | Fraction] = {
    "gallon": "us_gallon",
    "us tsp": "us_tsp",
    "us tbsp": "us_tbsp",
    "us cup": "us_cup",
    "us pint": "us_pint",
    "us fl oz": "us_fl_oz",
    "metric cup": Fraction(250),
    "dessertspoon": Fraction(10),
    "imperial pint": "imp_pint",
    "imperial fl oz": "imp_fl_oz",
}


ONE = Fraction(1)
"""The size of every unit of just 1 g or 1 ml is this very number: nothing need be multiplied."""


@cache
def factors() -> dict[str, Fraction]:
    """Exact sizes in g, ml or mm, by the keys of :mod:`sitegen.kitchen.make_factors`."""
    text = files("sitegen.kitchen").joinpath("factors.json").read_text(encoding="utf-8")
    return {key: Fraction(value) for key, value in json.loads(text)["factors"].items()}


def size_of(unit: str, region: str) -> Fraction | None:
    """How many grams or millilitres one ``unit`` is in ``region``; None for counted things.

    >>> float(size_of("cup", "us"))
    236.5882365
    >>> size_of("tbsp", "au")
    Fraction(20, 1)
    """
    return _sizes(region).get(unit)


@cache
def _sizes(region: str) -> dict[str, Fraction]:
    """Every size that has a name in ``region``: one table, since each amount asks it."""
    sizes = dict(factors())
    for unit, meaning in (_MEANINGS[region] | _FIXED).items():
        sizes[unit] = meaning if isinstance(meaning, Fraction) else factors()[meaning]
    return {unit: ONE if size == 1 else size for unit, size in sizes.items()}


def dimension_of(unit: str) -> Dimension:
    """Whether ``unit`` weighs, fills or counts; an unknown word counts."""
    known = UNITS.get(unit)
    return known.dimension if known else "count"


@lru_cache(maxsize=1024)
def meaning_of(unit: str, region: str) -> str:
    """What a regional unit is taken to be, for the page's note: ``1 cup is 250 ml``."""
    size = size_of(unit, region)
    if size is None or unit not in _MEANINGS[region]:
        return ""
    whole = size if size.denominator == 1 else Fraction(round(size * 10), 10)
    return f"1 {unit} is {float(whole):g} ml"
