"""Tins and scoops: what they hold, and how one stands in for another."""

from __future__ import annotations

import re
from fractions import Fraction
from functools import lru_cache
from typing import Literal

from sitegen.dish import LengthPiece, Tin
from sitegen.kitchen.printing import half_up
from sitegen.kitchen.tables import mixed
from sitegen.kitchen.units import factors, size_of
from sitegen.reading.recipe import NOWHERE, Length
from sitegen.reading.source import Place
from sitegen.reading.spans import spot

PI = Fraction(355, 113)

_SHAPES: tuple[tuple[str, str], ...] = (
    ("ring", r"\b(?:ring|tube|savarin|bundt)\b"),
    ("loaf", r"\bloaf\b"),
    ("square", r"\bsquare\b"),
    ("oblong", r"\b(?:oblong|rectangular|rectangle|traybake)\b"),
    ("round", r"\b(?:round|springform|sandwich|spring[- ]?clip|cake tin|pie|tart|flan)\b"),
    ("oblong", r"\b(?:roasting|baking (?:dish|tin)|tin|dish|tray|pan)\b"),
)
_VESSEL = re.compile(r"\b(?:tin|pan|mould|mold|dish|tray)\b", re.IGNORECASE)
_WEIGHT_NAME = re.compile(r"\b(450|900)\s*g\b|\b([12])\s*lb\b", re.IGNORECASE)

# Loaf tins are sold by the weight of the loaf; usual inner sizes in cm, common practice.
_LOAF_SIZES = {
    "450": (Fraction(16), Fraction(11), Fraction(7)),
    "900": (Fraction(23), Fraction(13), Fraction(7)),
}


def in_cm(length: Length) -> tuple[Fraction, ...]:
    """The sides in cm, exactly."""
    factor = {"cm": Fraction(1), "mm": Fraction(1, 10), "in": factors()["in"] / 10}[length.unit]
    return tuple(side * factor for side in length.sides)


@lru_cache(maxsize=1024)
def read_tin(text: str) -> Tin | None:
    """The tin that a tool's words describe; None if they describe none or give no size.

    >>> read_tin("20 cm round tin").area
    Fraction(35500, 113)
    >>> read_tin("18 cm square tin").area
    Fraction(324, 1)
    """
    if not _VESSEL.search(text):
        return None
    shape = next((s for s, pattern in _SHAPES if re.search(pattern, text, re.IGNORECASE)), None)
    if shape is None:
        return None
    lengths = [s.what for s in spot(text, Place(1, 1)) if isinstance(s.what, Length)]
    sides = in_cm(lengths[0]) if lengths else ()
    depth = in_cm(lengths[1])[0] if len(lengths) > 1 else None
    if shape == "loaf" and not sides:
        named = _WEIGHT_NAME.search(text)
        if not named:
            return None
        sides = _LOAF_SIZES[named[1] or {"1": "450", "2": "900"}[named[2]]]
    if not sides or any(side <= 0 for side in sides):
        return None
    if shape in ("oblong", "square", "loaf") and len(sides) > 2:
        depth, sides = sides[2], sides[:2]
    if shape in ("round", "ring"):
        depth = sides[1] if len(sides) > 1 and depth is None else depth
        sides = sides[:1]
    if shape == "oblong" and len(sides) == 1:
        return None  # one side of a dish says nothing of its area
    if shape == "loaf" and len(sides) == 1:
        return None
    return Tin(shape, sides, depth, text, area(shape, sides))  # type: ignore[arg-type]


def area(shape: str, sides: tuple[Fraction, ...]) -> Fraction:
    """The area in cm² that dough or batter covers.

    A ring tin loses its funnel, taken as a third of the width (common practice, from memory).
    """
    if shape == "round":
        return PI * sides[0] * sides[0] / 4
    if shape == "ring":
        return PI * sides[0] * sides[0] / 4 * Fraction(8, 9)
    if shape == "square":
        return sides[0] * sides[0]
    return sides[0] * sides[1]


def tin_factor(own: Tin, other: Tin) -> Fraction:
    """By what to scale a recipe for another tin: by volume if both depths are known, else by area.

    >>> round(float(tin_factor(read_tin("18 cm square tin"), read_tin("20 cm round tin"))), 3)
    0.97
    """
    if own.depth and other.depth and own.depth != other.depth:
        return other.area * other.depth / (own.area * own.depth)
    return other.area / own.area


_SCOOP = re.compile(
    r"\bno\.?\s*(\d{1,3})\b[^,;]*\bscoop\b|\bscoop\b[^,;]*\bno\.?\s*(\d{1,3})\b", re.IGNORECASE
)


def read_scoop(text: str) -> int | None:
    """A scoop's number: how many level scoops fill a US quart.

    >>> read_scoop("no. 40 scoop")
    40
    """
    found = _SCOOP.search(text) if "scoop" in text.lower() else None
    number = int(found[1] or found[2]) if found else 0
    return number if 4 <= number <= 120 else None


def scoop_ml(number: int) -> Fraction:
    """What a level scoop holds: a US quart divided by its number (follows from the definition).

    >>> round(float(scoop_ml(50)), 1)
    18.9
    """
    quart = size_of("quart", "us")
    assert quart is not None
    return quart / number


def length_piece(length: Length, region: str) -> LengthPiece:
    """A length with the other system beside it: ``23 cm`` and ``9 in``."""
    return LengthPiece(length.text, _other_system(length.sides, length.unit), length)


@lru_cache(maxsize=1024)
def _other_system(sides: tuple[Fraction, ...], unit: Literal["cm", "mm", "in"]) -> str:
    own = in_cm(Length(NOWHERE, "", sides, unit))
    if unit == "in":
        cm = [half_up(s, Fraction(1, 2) if s < 10 else Fraction(1)) for s in own]
        return f"{' × '.join(f'{float(s):g}' for s in cm)} cm"
    inches = [s / (factors()["in"] / 10) for s in own]
    return f"{' × '.join(mixed(max(_inch(i), Fraction(1, 8))) for i in inches)} in"


def _inch(value: Fraction) -> Fraction:
    step = Fraction(1, 8) if value < 1 else Fraction(1, 4) if value < 4 else Fraction(1, 2)
    if value >= 12:
        step = Fraction(1)
    return half_up(value, step)
