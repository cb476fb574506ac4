"""An ingredient has no amount, and is not something that a cook adds to taste.

Write how much, or say what it is for: "to taste", "to serve", "for greasing".
"""

from __future__ import annotations

from collections.abc import Iterator

from sitegen.reading.naming import tokens
from sitegen.readthrough.rule import Finding, Reading

_BY_EYE = frozenset("water ice salt pepper seasoning".split())


def check(reading: Reading) -> Iterator[Finding]:
    """Lines that need an amount."""
    for row in reading.rows:
        line = row.line
        if line.amount is not None or line.measures or line.remarks or line.part_of:
            continue
        if set(tokens(line.food)) & _BY_EYE:
            continue
        yield reading.about_line(
            row.index,
            f"{line.food}: no amount",
            f"write how much in front, as '50 g' or '2 tbsp'; or what for: '{line.food}, to serve'",
        )
