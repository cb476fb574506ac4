"""Ovens and inner temperatures, in every form that a kitchen's dials and thermometers show.

Sources: a fan oven does the work of a conventional one 25 °F hotter (common practice in US
kitchens) or 20 °C hotter (common practice in British ones); gas marks 1 to 9 stand at 140, 150,
160, 180, 190, 200, 220, 230 and 240 °C, 275 to 475 °F in steps of 25 (common practice). Marks ¼
and ½ (110 and 120 °C, 225 and 250 °F) are common practice, from memory.
"""

from __future__ import annotations

from fractions import Fraction
from functools import lru_cache

from sitegen.dish import MarginNote, OvenSetting, TemperaturePiece
from sitegen.kitchen.printing import half_up
from sitegen.reading.recipe import Temperature
from sitegen.reading.source import Place
from sitegen.reading.spans import spot

FAN_GAP_C = 20
FAN_GAP_F = 25

GAS_MARKS: tuple[tuple[str, int, int], ...] = (
    ("¼", 110, 225),
    ("½", 120, 250),
    ("1", 140, 275),
    ("2", 150, 300),
    ("3", 160, 325),
    ("4", 180, 350),
    ("5", 190, 375),
    ("6", 200, 400),
    ("7", 220, 425),
    ("8", 230, 450),
    ("9", 240, 475),
)
"""Mark, conventional °C, conventional °F."""


def celsius(value: Fraction) -> Fraction:
    """°F to °C, exactly."""
    return (value - 32) * Fraction(5, 9)


def fahrenheit(value: Fraction) -> Fraction:
    """°C to °F, exactly: °C × 9/5 + 32, by definition.

    >>> fahrenheit(Fraction(74))
    Fraction(826, 5)
    """
    return value * Fraction(9, 5) + 32


def _dial_c(value: Fraction) -> int:
    return int(half_up(value, Fraction(10)))


def _dial_f(value: Fraction) -> int:
    return int(half_up(value, Fraction(25)))


def gas_mark(conventional_c: int) -> str:
    """The nearest gas mark of a conventional setting; empty where none is within 10 °C."""
    near = min(GAS_MARKS, key=lambda m: abs(m[1] - conventional_c))
    return near[0] if abs(near[1] - conventional_c) <= 10 else ""


def setting(heat: Temperature, region: str) -> OvenSetting:
    """The setting in all its forms; what the author wrote is kept to the degree.

    A setting without a word about the fan is conventional, as dials have it. The two scales are
    taken from the table of gas marks where it has the temperature, since that is how dials pair
    them (220 °C with 425 °F), and from the exact conversion, rounded to the dial, elsewhere.

    >>> from sitegen.reading.source import Place
    >>> british = Temperature(Place(1, 1), "200 °C fan", Fraction(200), "C", "oven", "fan")
    >>> s = setting(british, "uk")
    >>> s.fan_c, s.conventional_c, s.gas, s.fan_f, s.conventional_f
    (200, 220, '7', 400, 425)
    """
    value = int(heat.value)
    if heat.unit == "gas":
        mark = {Fraction(1, 4): "¼", Fraction(1, 2): "½"}.get(heat.value, str(heat.value))
        near = next((m for m in GAS_MARKS if m[0] == mark), GAS_MARKS[-1])
        return OvenSetting(near[1] - FAN_GAP_C, near[1], near[2] - FAN_GAP_F, near[2], mark, "gas")
    fan = heat.air == "fan"
    if heat.unit == "C":
        conventional_c = value + FAN_GAP_C if fan else value
        fan_c = value if fan else value - FAN_GAP_C
        conventional_f = _paired_f(conventional_c)
        fan_f = conventional_f - FAN_GAP_F
    else:
        conventional_f = value + FAN_GAP_F if fan else value
        fan_f = value if fan else value - FAN_GAP_F
        conventional_c = _paired_c(conventional_f)
        fan_c = _dial_c(celsius(Fraction(fan_f))) if region == "us" else conventional_c - FAN_GAP_C
    said = heat.air or ""
    return OvenSetting(fan_c, conventional_c, fan_f, conventional_f, gas_mark(conventional_c), said)


def _paired_f(conventional_c: int) -> int:
    for _, c, f in GAS_MARKS:
        if c == conventional_c:
            return f
    return _dial_f(fahrenheit(Fraction(conventional_c)))


def _paired_c(conventional_f: int) -> int:
    for _, c, f in GAS_MARKS:
        if f == conventional_f:
            return c
    return _dial_c(celsius(Fraction(conventional_f)))


_WARM = 50
"""°C from which a temperature may be one that makes food safe."""


def core(heat: Temperature) -> tuple[int, int]:
    """A temperature inside food in °C and °F, to the degree.

    From 50 °C the one worked out is never rounded downwards, since germs die by it; a dough's or a
    cellar's warmth is rounded to the nearest.

    >>> from sitegen.reading.source import Place
    >>> core(Temperature(Place(1, 1), "74 °C", Fraction(74), "C", "core"))
    (74, 166)
    >>> core(Temperature(Place(1, 1), "14 °C", Fraction(14), "C", "core"))
    (14, 57)
    """
    of_c = heat.unit == "C"
    exact = fahrenheit(heat.value) if of_c else celsius(heat.value)
    safe = (heat.value if of_c else exact) >= _WARM
    other = -(-exact // 1) if safe else int(half_up(exact, Fraction(1)))
    return (int(heat.value), other) if of_c else (other, int(heat.value))


# Published pairs, printed as the authority prints them: USDA FSIS safe minimum temperatures.
_PUBLISHED = {74: 165, 71: 160, 63: 145, 4: 40, 60: 140}


def core_pair(heat: Temperature) -> tuple[int, int]:
    """As :func:`core`, with the published pair where a food authority gives one.

    FSIS pairs 165 °F with 74 °C although 74 °C is 165.2 °F; the author's own figure is kept, and
    its partner is the published one.
    """
    value = int(heat.value)
    if heat.unit == "C" and value in _PUBLISHED:
        return value, _PUBLISHED[value]
    for c, f in _PUBLISHED.items():
        if heat.unit == "F" and value == f:
            return c, value
    return core(heat)


def piece(heat: Temperature, region: str) -> TemperaturePiece:
    """A temperature in the text, with what the author did not write as an aside."""
    if heat.use == "core":
        c, f = core_pair(heat)
        aside = f"{f} °F" if heat.unit == "C" else f"{c} °C"
        upto: tuple[int, int] | None = None
        if heat.upto is not None:
            upto = core_pair(_at(heat, heat.upto))
            aside = f"{f}–{upto[1]} °F" if heat.unit == "C" else f"{c}–{upto[0]} °C"
        return TemperaturePiece(
            heat.text,
            "core",
            aside,
            None,
            c,
            f,
            heat,
            upto[0] if upto else None,
            upto[1] if upto else None,
        )
    oven = setting(heat, region)
    return TemperaturePiece(heat.text, "oven", _aside(oven, heat, region), oven, None, None, heat)


def _at(heat: Temperature, value: Fraction) -> Temperature:
    return Temperature(heat.place, heat.text, value, heat.unit, heat.use, heat.air)


def _aside(oven: OvenSetting, heat: Temperature, region: str) -> str:
    """The forms that the author did not give: ``180C/160C fan`` still lacks its Fahrenheit."""
    f, c = f"{oven.conventional_f} °F", f"{oven.conventional_c} °C"
    fan_f, fan_c = f"fan {oven.fan_f} °F", f"fan {oven.fan_c} °C"
    gas = [("gas", f"gas {oven.gas}")] if region == "uk" and oven.gas else []
    forms: list[tuple[str, str]]
    if heat.unit == "F":
        other = ("F", f"{f} without a fan") if oven.said == "fan" else ("F fan", fan_f)
        forms = [other, ("C", c), ("C fan", fan_c)]
    elif oven.said == "gas":
        forms = [("C", c), ("C fan", fan_c), ("F", f)]
    elif oven.said == "fan":
        forms = [("C", f"{c} without a fan"), *gas, ("F", f)]
    else:
        forms = [("C fan", fan_c), *gas, ("F", f)]
    given = _given(heat.text)
    return ", ".join(words for form, words in forms if form not in given)


@lru_cache(maxsize=1024)
def _given(text: str) -> frozenset[str]:
    """The forms of an oven setting that a text gives: ``C``, ``C fan``, ``F``, ``F fan``, ``gas``."""
    heats = [s.what for s in spot(text, Place(0, 0)) if isinstance(s.what, Temperature)]
    return frozenset(f"{h.unit} fan" if h.air == "fan" else h.unit for h in heats)


def margin(heat: TemperaturePiece, region: str) -> MarginNote:
    """The short lines that stand beside a step."""
    if heat.oven is None:
        c = f"{heat.core_c}–{heat.core_c_upto}" if heat.core_c_upto else f"{heat.core_c}"
        f = f"{heat.core_f}–{heat.core_f_upto}" if heat.core_f_upto else f"{heat.core_f}"
        first, second = f"{c} °C", f"{f} °F"
        pair = (second, first) if region == "us" else (first, second)
        return MarginNote("core", pair)
    oven = heat.oven
    if region == "us":
        return MarginNote(
            "oven",
            (f"{oven.conventional_f} °F", f"fan {oven.fan_f} °F", f"{oven.conventional_c} °C"),
        )
    lines = [f"fan {oven.fan_c} °C", f"no fan {oven.conventional_c} °C"]
    if region == "uk" and oven.gas:
        lines.append(f"gas {oven.gas}")
    return MarginNote("oven", (*lines, f"{oven.conventional_f} °F"))
