"""Figures as HTML: the one place that writes the ``data`` element that the page's script rescales."""

from __future__ import annotations

import re
from fractions import Fraction
from functools import lru_cache

from markupsafe import Markup, escape

from sitegen.dish import Figure

NBSP = "\N{NO-BREAK SPACE}"


def rational(value: Fraction) -> str:
    """An exact number as the script reads it: ``3`` or ``5/4``."""
    return str(value)


def tight(text: str) -> str:
    """Text whose figures do not part from their units; it may still break after a plus or a comma.

    >>> tight("1 cup + 2 tbsp").replace(NBSP, "_")
    '1_cup_+ 2_tbsp'
    """
    held = re.sub(r" (?!$)", NBSP, text.strip())
    return re.sub(rf"([+,·;/]|plus|and|least){NBSP}", r"\1 ", held)


_PARTED = re.compile(
    r"(?<=\d) (?=°|%|(?:g|kg|mg|ml|cl|l|cm|mm|oz|lb|kcal|kJ|min|minutes?|hours?|h|days?)\b)"
)


def held(text: str) -> str:
    """Running text, or HTML, in which a number and the unit after it stay on one line.

    >>> held("at 74 °C (165 °F) for 2 minutes").replace(NBSP, "_")
    'at 74_°C (165_°F) for 2_minutes'
    """
    return _PARTED.sub(NBSP, text)


@lru_cache(maxsize=4096)
def draw_figure(figure: Figure, extra: str = "") -> Markup:
    """A live figure: its text, and beside it the exact value that the script scales.

    ``extra`` is further class names. Empty attributes are left out.
    """
    prefix = figure.prefix + (_about(figure) if figure.about else "")
    attributes = [
        ("class", " ".join(filter(None, ("fig", extra, "worked" if figure.worked_out else "")))),
        ("value", rational(figure.value)),
        ("data-ladder", figure.ladder),
        ("data-value", rational(figure.value)),
        ("data-upto", "" if figure.upto is None else rational(figure.upto)),
        ("data-noun", figure.noun),
        ("data-prefix", prefix),
        ("data-suffix", figure.suffix),
    ]
    written = " ".join(f'{name}="{escape(value)}"' for name, value in attributes if value)
    loose = prefix if " " in prefix.strip() else ""  # "finely grated zest of" may break
    held_part = f"{prefix.removeprefix(loose)}{figure.text}{figure.suffix}"
    text = escape(loose + tight(held_part))
    return Markup(f"<data {written}>{text}</data>")


def _about(figure: Figure) -> str:
    """How an approximate amount is marked: in words in a sentence, by a sign in a column."""
    return "about " if figure.ladder.startswith("count") else "≈ "
