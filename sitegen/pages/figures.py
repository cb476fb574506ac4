"""Figures as HTML: the one place that writes the ``data`` element that the page's script rescales."""

from __future__ import annotations

import re
from functools import lru_cache

from markupsafe import Markup

from sitegen.dish import Figure
from sitegen.pages.compiling import written

NBSP = "\N{NO-BREAK SPACE}"


_MAY_BREAK = re.compile(rf"([+,·;/]|plus|and|least|most|\bto){NBSP}")
_IN_A_NAME = re.compile(rf"(?<=[^\W\d_¼½¾⅓⅔⅛⅜⅝⅞]){NBSP}(?=[^\W\d_])")


@lru_cache(maxsize=4096)
def tight(text: str) -> str:
    """Text whose figures do not part from their units; it may still break after a plus or a comma.

    >>> tight("1 cup + 2 tbsp").replace(NBSP, "_")
    '1_cup_+ 2_tbsp'
    """
    held = str(text).strip().replace(" ", NBSP)
    return _MAY_BREAK.sub(r"\1 ", held) if NBSP in held else held


# The blank comes first, so that only blanks are looked at.
_PARTED = re.compile(
    r" (?<=\d )(?=°|%|(?:g|kg|mg|ml|cl|l|cm|mm|oz|lb|kcal|kJ|min|minutes?|hours?|h|days?)\b)"
)


_AFTER_FIGURE = re.compile(r"\d ")  # found far more quickly, and most text between amounts has none


def held(text: str) -> str:
    """Running text, or HTML, in which a number and the unit after it stay on one line.

    >>> held("at 74 °C (165 °F) for 2 minutes").replace(NBSP, "_")
    'at 74_°C (165_°F) for 2_minutes'
    """
    return _PARTED.sub(NBSP, text) if _AFTER_FIGURE.search(text) else text


def draw_figure(figure: Figure, extra: str = "") -> Markup:
    """A live figure: its text, and beside it the exact value that the script scales.

    A value is written as the script reads it: ``3`` or ``5/4``. ``extra`` is further class names.
    Empty attributes are left out.
    """
    upto = figure.upto
    return _drawn(
        extra,
        figure.worked_out,
        str(figure.value),
        "" if upto is None else str(upto),
        figure.ladder,
        figure.noun,
        figure.prefix + (_about(figure) if figure.about else ""),
        figure.text,
        figure.suffix,
        figure.one,
        figure.around,
    )


def draw_word(word: Figure) -> Markup:
    """A counted food's word, which the script puts into the singular or the plural."""
    upto = f' data-upto="{word.upto!s}"' if word.upto is not None else ""
    return Markup(
        f'<span class="word" data-ladder="{word.ladder}" data-value="{word.value!s}"{upto}'
        f' data-noun="{written(word.noun)}">{written(word.text)}</span>'
    )


@lru_cache(maxsize=4096)  # by words: a figure's fractions take longer to look up than to draw
def _drawn(
    extra: str,
    worked_out: bool,
    value: str,
    upto: str,
    ladder: str,
    noun: str,
    prefix: str,
    text: str,
    suffix: str,
    one: str | None,
    around: str,
) -> Markup:
    names = f"fig {extra}" if extra else "fig"
    start = f'<data class="{names}{" worked" if worked_out else ""}" value="{value}"'
    start += f' data-ladder="{ladder}" data-value="{value}"'
    if upto:
        start += f' data-upto="{upto}"'
    for name, said in (("noun", noun), ("prefix", prefix), ("suffix", suffix), ("around", around)):
        if said:
            start += f' data-{name}="{written(said)}"'
    if one is not None:
        start += f' data-one="{written(one)}"'
        if text == one:
            prefix = suffix = ""
    loose = prefix if " " in prefix.strip() else ""  # "finely grated zest of" may break
    close = tight(f"{prefix.removeprefix(loose)}{text}{suffix}")
    if noun:  # "1 butternut squash": the number holds on to the first word, no further
        close = _IN_A_NAME.sub(" ", close)
    whole = loose + close
    shown = written(around.replace("…", whole) if around and whole else whole)
    return Markup(f"{start}>{shown}</data>")


def _about(figure: Figure) -> str:
    """How an approximate amount is marked: in words in a sentence, by a sign in a column."""
    return "about " if figure.ladder.startswith("count") else "≈ "
