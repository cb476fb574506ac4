"""One oven setting is given in several ways, and they do not fit: "180 °C (400 °F)", or "200 °C fan
(200 °C conventional)".

Give one; the page works out the others, with the fan and without, in both scales and gas marks.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise

from sitegen.kitchen.ovens import GAS_MARKS, setting
from sitegen.reading.numbers import fold
from sitegen.reading.recipe import Temperature
from sitegen.reading.source import Place
from sitegen.reading.spans import spot
from sitegen.readthrough.rule import Finding, Reading

_MOST = 15  # °C: two dials' roundings
_BETWEEN = re.compile(r"^[\s,/(]*(?:or\s|and\s)?[\s,/(]*$")
_TWICE = re.compile(
    r"(?:[°º˚]|\dC\b|\dF\b|\bgas\b|\bfan\b).{0,40}(?:[°º˚]|\dC\b|\dF\b|\bgas\b)", re.IGNORECASE
)


def check(reading: Reading) -> Iterator[Finding]:
    """Forms of one setting that differ."""
    for step in reading.recipe.steps:
        if not _maybe(step.text) or not _TWICE.search(step.text):
            continue
        heats = [s for s in spot(step.text, Place(0, 0)) if isinstance(s.what, Temperature)]
        for one, other in pairwise(heats):
            first, second = one.what, other.what
            assert isinstance(first, Temperature)
            assert isinstance(second, Temperature)
            if not _BETWEEN.match(step.text[one.end : other.start].rstrip("(")):
                continue
            if (first.unit, first.air) == (second.unit, second.air):
                continue
            if first.use == second.use == "core":
                a, b = (_celsius(h) for h in (first, second))
                gap, most = abs(a - b), 2.0
            else:
                a, b = _conventional(first, second, reading), _conventional(second, first, reading)
                gap, most = abs(a - b), float(_MOST)
                if _two_rows(first, second):
                    most = 0.0
            if gap <= most:
                continue
            sentence = next(
                (s for s in reading.sentences if s.step is step and first.text in s.text), None
            )
            if sentence is None:
                continue
            yield reading.about_words(
                sentence,
                first.text,
                f"'{first.text}' and '{second.text}' are {gap:.0f} °C apart",
                "give one of them; the page works out the other",
            )


def _two_rows(first: Temperature, second: Temperature) -> bool:
    """Whether both stand in the table of dials, in different rows: 350 °F is never 190 °C.

    What stands in no row (170 °C beside 325 °F) is another rounding, and is let pass.
    """
    if "fan" in (first.air, second.air) or first.unit == second.unit:
        return False
    one, other = _row(first), _row(second)
    return one is not None and other is not None and one != other


def _row(heat: Temperature) -> int | None:
    at = {"C": 1, "F": 2}.get(heat.unit)
    for i, row in enumerate(GAS_MARKS):
        if at is None and row[0] == str(heat.value):
            return i
        if at is not None and row[at] == heat.value:
            return i
    return None


def _maybe(text: str) -> bool:
    """Whether any sign of a heat is in it, told faster than two of them are found."""
    if "°" in text or "º" in text or "˚" in text:
        return True
    low = fold(text)
    return "gas" in low or "fan" in low or _SCALE.search(text) is not None


_SCALE = re.compile(r"\d[CFcf]\b")


def _celsius(heat: Temperature) -> float:
    return float(heat.value if heat.unit == "C" else (heat.value - 32) * Fraction(5, 9))


def _conventional(heat: Temperature, beside: Temperature, reading: Reading) -> float:
    """°C without a fan; in "180 °C fan (350 °F)" the word goes for both."""
    air = heat.air or (
        "fan" if beside.air == "fan" and heat.unit not in ("gas", beside.unit) else ""
    )
    said = Temperature(heat.place, heat.text, heat.value, heat.unit, "oven", air, heat.upto)
    return float(setting(said, reading.settings.region).conventional_c)
