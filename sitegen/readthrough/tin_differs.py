"""The method names a tin of one size, and the tools at the head another.

Make them the same.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction

from sitegen.kitchen.tins import in_cm
from sitegen.reading.recipe import Length
from sitegen.reading.spans import spot
from sitegen.readthrough.rule import Finding, Reading, shared

_TIN_AFTER = re.compile(
    r"^[\s-]*(?:[\w-]+\s){0,3}?(?:tins?|pan|dish|mould|tray|frying pan|sauté pan)\b"
)
_NEAR = Fraction(6, 100)  # 23 cm and 9 in are one tin


def check(reading: Reading) -> Iterator[Finding]:
    """Sizes in the method that no tool has."""
    for sentence in reading.sentences:
        for placed in sentence.pieces:
            if not isinstance(placed.piece, Length):
                continue
            after = sentence.low[placed.start + len(placed.piece.text) :]
            if not _TIN_AFTER.match(after):
                continue
            sizes = _sizes(reading)
            if not sizes:
                return
            mine = in_cm(placed.piece)
            if mine in sizes or any(_same(mine, other) for other in sizes):
                continue
            yield reading.about_words(
                sentence,
                placed.piece.text,
                f"step {sentence.step.number} has a {placed.piece.text} one, and the tools are "
                f"'{'; '.join(t for t in reading.recipe.tools if re.search('[0-9]', t))}'",
                "give the same size in both places",
            )


@shared
def _sizes(reading: Reading) -> list[tuple[Fraction, ...]]:
    """The sizes, in centimetres, of the tools."""
    spotted = spot(" ".join(reading.recipe.tools), reading.field("tools"))
    return [in_cm(s.what) for s in spotted if isinstance(s.what, Length)]


def _same(one: tuple[Fraction, ...], other: tuple[Fraction, ...]) -> bool:
    pairs = zip(sorted(one, reverse=True), sorted(other, reverse=True), strict=False)
    return all(abs(a - b) <= _NEAR * max(a, b) for a, b in pairs)
