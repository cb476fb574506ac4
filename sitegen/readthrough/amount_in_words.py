"""A line names a second food with an amount in its preparation: "60 g oats, soaked in 200 ml milk".

Give it a line of its own, "200 ml milk", and name both in the method. The amount there scales and is
converted; but it is on no shopping list, and neither its nutrition nor its allergens are counted.
Water and ice may stay, and what is taken from another line of the list.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import pairwise

from sitegen.dish import AmidAmount, LedgerRow
from sitegen.reading.naming import tokens
from sitegen.readthrough.rule import Finding, Reading

_FOOD = re.compile(
    r"\s*(?:of\s+)?(?P<rest>the rest of|the|this|that|it|its)?\s*(?P<words>[^\W\d][^,;:.()]*)"
)
_END = re.compile(
    r"\s(?:for|until|then|and|or|to|in|on|over|at|with|into|from|per|before|after|while|overnight)\b"
)
_LONGEST = 4  # words of a food's name


def check(reading: Reading) -> Iterator[Finding]:
    """Foods with an amount amid the words of another's line."""
    for row in reading.rows:
        for text, pieces in row.amid:
            for piece, after in pairwise(pieces):
                if isinstance(piece, AmidAmount) and isinstance(after, str):
                    yield from _named(reading, row, text, piece, after)


def _named(
    reading: Reading, row: LedgerRow, text: str, amount: AmidAmount, after: str
) -> Iterator[Finding]:
    found = _FOOD.match(after)
    if found is None or found["rest"]:
        return
    words = _END.split(found["words"], maxsplit=1)[0].split()[:_LONGEST]
    name = next((n for n in range(len(words), 0, -1) if _is_food(reading, " ".join(words[:n]))), 0)
    food = " ".join(words[:name])
    if not food or _listed(reading, row, food):
        return
    own = next(f for f in (amount.lead, amount.metric, amount.us) if f and not f.worked_out)
    line = row.line
    at = line.text.find(food, max(0, line.text.find(own.text)))
    place = line.place if at < 0 else type(line.place)(line.place.line, line.place.column + at)
    yield Finding(
        place,
        f"'{own.text} {food}' stands among the words on '{line.food}': nobody buys it, and neither its "
        "nutrition nor its allergens are counted",
        f"give it a line of its own: '- {own.text} {food}'",
        len(food),
        row.index,
    )


def _is_food(reading: Reading, words: str) -> bool:
    match = reading.larder.find(words)
    return bool(match.sure and match.food and match.food.name != "water")


def _listed(reading: Reading, row: LedgerRow, food: str) -> bool:
    """Whether another line brings it, or it is more of the line's own food."""
    asked = frozenset(tokens(food))
    return any(asked & frozenset(tokens(other.line.food)) for other in reading.rows) or bool(
        asked & frozenset(tokens(row.line.food))
    )
