"""A step gives an amount in plain words: it stays as it is when the reader scales the recipe.

Put the amount and the ingredient in brackets, "[100 g flour]"; what is not in the list yet, such as
water for the pot, gets a line there. Amounts of one piece ("50 g each", "a tablespoon at a time")
and sizes of pots and tins are left alone, for they don't scale.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from sitegen.reading.amid import BEFORE_ONE, OF_ONE
from sitegen.reading.sentences import Sentence
from sitegen.readthrough.rule import Finding, Reading

_UNIT = (
    r"(?:kg|g|ml|cl|dl|l|litres?|liters?|tsp|tbsp|teaspoons?|tablespoons?|cups?|fl\.? oz|oz"
    r"|ounces?|lb|lbs|pounds?|pints?)\b"
)
_AMOUNT = re.compile(
    r"(?<![\w.,/°])(?:about\s+)?(?:\d+(?:[.,]\d+)?|[¼½¾⅓⅔]|\d+\s?[¼½¾⅓⅔]|\d+\s\d/\d|\d/\d|half a|a|two|three)"
    rf"\s?(?P<unit>{_UNIT})(?P<after>[^.;:]{{0,34}})"
)
# The end of the number and the unit are in every amount, and are sought far faster.
_MEASURED = re.compile(rf"[\d¼½¾⅓⅔aoe](?:(?<=[\d¼½¾⅓⅔a])|(?<=two)|(?<=three))\s?{_UNIT}")
_ONE_SPOON = re.compile(r"^a\s?(?:tea|table)spoons?$|^a cup$|^a pint$")


def check(reading: Reading) -> Iterator[Finding]:
    """Amounts in running text."""
    for sentence in reading.sentences:
        if _MEASURED.search(sentence.low):
            yield from _in(sentence, reading)


def _in(sentence: Sentence, reading: Reading) -> Iterator[Finding]:
    for found in _AMOUNT.finditer(sentence.low):
        start, end = found.start(), found.start("after")
        taken = [
            (p.start, p.start + len(getattr(p.piece, "words", "") or getattr(p.piece, "text", "")))
            for p in sentence.pieces
        ]
        if any(a < end and start < b for a, b in taken) or OF_ONE.search(found["after"]):
            continue
        if BEFORE_ONE.search(sentence.low[:start]) or _ONE_SPOON.match(
            found.group()[: end - start]
        ):
            continue
        words = sentence.text[start:end]
        yield reading.about_words(
            sentence,
            words,
            f"'{words.strip()}' in step {sentence.step.number} would stay the same for any number "
            "of portions",
            "write the amount and the ingredient in brackets, as in "
            f"[{words.strip()} …], with the ingredient in the list",
        )
