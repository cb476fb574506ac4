"""An ingredient has no amount, and is not something that a cook adds to taste.

Write how much, or say what it is for: "to taste", "to serve", "for greasing".
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from sitegen.reading.naming import tokens
from sitegen.readthrough.rule import Finding, Reading

_TO_SERVE = re.compile(r"(?:to|for) (?:serve|serving|finish|garnish|top|decorate)", re.IGNORECASE)
_FEW = re.compile(r"(?:a )?few (?:sprigs|drops|leaves|stalks|strands)\b", re.IGNORECASE)
_BY_EYE = frozenset("water ice salt pepper seasoning".split())


def check(reading: Reading) -> Iterator[Finding]:
    """Lines that need an amount."""
    serving = {
        row.index for part in reading.dish.ledger if _TO_SERVE.match(part.name) for row in part.rows
    }
    for row in reading.rows:
        line = row.line
        if line.amount is not None or line.measures or line.remarks or line.part_of:
            continue
        if set(tokens(line.food)) & _BY_EYE:
            continue
        if row.index in serving or _FEW.match(line.food):
            continue
        yield reading.about_line(
            row.index,
            f"{line.food}: no amount",
            f"write how much in front, as '50 g' or '2 tbsp'; or what for: '{line.food}, to serve'",
        )
