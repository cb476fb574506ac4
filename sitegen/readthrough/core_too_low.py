"""A temperature inside meat, fish or egg is under the published safe minimum.

Write at least: poultry 74 °C (165 °F), minced meat 71 °C (160 °F), whole cuts of beef, pork, lamb and
veal 63 °C (145 °F) and 3 minutes' rest, fish 63 °C (145 °F), egg dishes 71 °C (160 °F): USDA FSIS. Held
for 2 minutes, 70 °C serves as well (UK FSA). A dish meant to be pinker can be silenced with its reason;
the caution on the page stays.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction

from sitegen.reading.naming import tokens
from sitegen.reading.recipe import Temperature
from sitegen.reading.sentences import Placed, Sentence
from sitegen.readthrough.rule import Finding, Reading, shared

KINDS: tuple[tuple[str, str, int, str], ...] = (
    ("raw-poultry", "poultry", 74, "chicken turkey duck poultry bird goose pheasant quail poussin"),
    ("raw-mince", "minced meat", 71, "mince burger meatball patty sausage meatloaf kofta"),
    ("raw-game", "game", 71, "rabbit hare venison boar game"),
    ("raw-offal", "offal", 71, "liver kidney heart tongue offal sweetbread"),
    (
        "raw-cut",
        "a whole cut",
        63,
        "beef pork lamb veal steak joint chop loin fillet ham roast",
    ),
    ("raw-fish", "fish", 63, "fish salmon cod haddock trout hake tuna mackerel fillet"),
    ("raw-egg", "an egg dish", 71, "egg yolk custard omelette frittata quiche"),
)
"""Larder trait, what it is called, safe minimum in °C (USDA FSIS), words that mean it in a step."""

FAHRENHEIT = {74: 165, 71: 160, 63: 145}
"""The same minimum as USDA FSIS prints it in °F."""

_READS = re.compile(
    r"\b(?:reach\w*|reads?|regist\w*|at least|until|inside|middle|centre|center|thickest|thermometer|core"
    r"|internal\w*|probe|take (?:it|them) out at)\b"
)
_SOMETHING_ELSE = re.compile(
    r"\b(?:oil|fat|milk|water|stock|syrup|sugar|caramel|dough|crumb|chocolate|wine|fridge|freezer|oven"
    r"|brine|cold|chill\w*|room|butter|jam|loaf|bread|below|under|cream|cool\w*|rice|bath)\b"
)


def check(reading: Reading) -> Iterator[Finding]:
    """Temperatures under the minimum."""
    here = [k for k in KINDS if k[0] in all_traits(reading)]
    if not here:
        return
    for sentence in reading.sentences:
        for placed in sentence.pieces if sentence.heats else ():
            heat = placed.piece
            if not isinstance(heat, Temperature) or heat.use != "core":
                continue
            degrees = celsius(heat)
            if not 40 <= degrees < 74 or not _about_food(sentence, placed):
                continue
            kind = _kind(reading, sentence, here)
            if kind is None or degrees + Fraction(1, 2) >= kind[2]:
                continue
            held = any(t.seconds >= 120 for t in sentence.times) and degrees >= 70
            if held or _rises(reading, sentence, kind[2]):
                continue
            fahrenheit = FAHRENHEIT[kind[2]]
            yield reading.about_words(
                sentence,
                heat.text,
                f"{heat.text} is under the safe minimum for {kind[1]}, {kind[2]} °C ({fahrenheit} °F) "
                "by USDA FSIS",
                f"write {kind[2]} °C, or 70 °C held for 2 minutes (UK FSA)",
            )


@shared
def traits(reading: Reading) -> dict[int, frozenset[str]]:
    """The traits of each ingredient's food."""
    return {
        row.index: food.traits if food else frozenset()
        for row, food in zip(reading.rows, reading.foods, strict=True)
    }


@shared
def all_traits(reading: Reading) -> frozenset[str]:
    """The traits of all ingredients' foods."""
    return frozenset().union(*(traits(reading).values()))


def celsius(heat: Temperature) -> Fraction:
    """The lower end, in °C."""
    return heat.value if heat.unit == "C" else (heat.value - 32) * Fraction(5, 9)


def _about_food(sentence: Sentence, placed: Placed) -> bool:
    start = placed.start
    near = sentence.low[max(0, start - 70) : start + 60]
    clause = re.split(r",|\band\b", sentence.low[:start])[-1]
    clause += re.split(r",|\band\b", sentence.low[start:])[0]
    return bool(_READS.search(near)) and not _SOMETHING_ELSE.search(clause)


def _kind(
    reading: Reading, sentence: Sentence, here: list[tuple[str, str, int, str]]
) -> tuple[str, str, int, str] | None:
    """What the sentence is about: what it names, then what its step names, then the strictest."""
    named = {t for m in sentence.mentions if m.line >= 0 for t in traits(reading)[m.line]}
    for text in (sentence.low, sentence.step.text.lower()):
        words = set(tokens(text))
        by_word = [k for k in here if k[0] in named or words & set(k[3].split())]
        if by_word:
            return max(by_word, key=lambda k: k[2] if k[0] != "raw-egg" else 0)
    meats = [k for k in here if k[0] != "raw-egg"]
    if not meats and re.search(
        r"\b(?:cake|loaf|bread|bun|roll|sponge|brownie)", reading.recipe.title.lower()
    ):
        return None
    return max(meats or here, key=lambda k: k[2])


def _rises(reading: Reading, sentence: Sentence, least: int) -> bool:
    """Taken out early, and the same step says that it climbs to the minimum while it rests."""
    return any(
        celsius(h) + Fraction(1, 2) >= least
        for s in reading.sentences
        if s.step.number in (sentence.step.number, sentence.step.number + 1)
        for h in s.heats
        if h.use == "core" and celsius(h) < 100
    )
