"""The method names a tin of one size, and the tools at the head another.

Make them the same.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction

from sitegen.kitchen.tins import in_cm
from sitegen.reading.recipe import Length
from sitegen.readthrough.rule import Finding, Reading

_TIN_AFTER = re.compile(
    r"^[\s-]*(?:[\w-]+\s){0,3}?(?:tins?|pan|dish|mould|tray|frying pan|sauté pan)\b"
)
_NEAR = Fraction(6, 100)  # 23 cm and 9 in are one tin


def check(reading: Reading) -> Iterator[Finding]:
    """Sizes in the method that no tool has."""
    tools = " ".join(reading.recipe.tools)
    sizes = [
        in_cm(Length(reading.field("tools"), "", sides, unit))  # type: ignore[arg-type]
        for sides, unit in _lengths(tools)
    ]
    if not sizes:
        return
    for sentence in reading.sentences:
        for placed in sentence.pieces:
            if not isinstance(placed.piece, Length):
                continue
            after = sentence.low[placed.start + len(placed.piece.text) :]
            if not _TIN_AFTER.match(after):
                continue
            mine = in_cm(placed.piece)
            if any(_same(mine, other) for other in sizes):
                continue
            yield reading.about_words(
                sentence,
                placed.piece.text,
                f"step {sentence.step.number} has a {placed.piece.text} one, and the tools are "
                f"'{'; '.join(t for t in reading.recipe.tools if re.search('[0-9]', t))}'",
                "give the same size in both places",
            )


def _lengths(text: str) -> Iterator[tuple[tuple[Fraction, ...], str]]:
    from sitegen.reading.source import Place
    from sitegen.reading.spans import spot

    for spotted in spot(text, Place(1, 1)):
        if isinstance(spotted.what, Length):
            yield spotted.what.sides, spotted.what.unit


def _same(one: tuple[Fraction, ...], other: tuple[Fraction, ...]) -> bool:
    pairs = zip(sorted(one, reverse=True), sorted(other, reverse=True), strict=False)
    return all(abs(a - b) <= _NEAR * max(a, b) for a, b in pairs)
