"""One part of the list has the same ingredient on two lines, and the method names it once.

Take one of them out, or name both in the method. Salt or butter that goes in twice can be one line that
says "divided".
"""

from __future__ import annotations

from collections.abc import Iterator

from sitegen.reading.naming import bare_food, tokens
from sitegen.readthrough.rule import Finding, Reading


def check(reading: Reading) -> Iterator[Finding]:
    """Lines of one part that are alike to the letter."""
    foods = [row.line.food for row in reading.rows]
    if len(set(foods)) == len(foods):
        return  # nearly always
    for part in reading.dish.ledger:
        if len({row.line.food for row in part.rows}) == len(part.rows):
            continue  # the same in two parts
        seen: set[tuple[str, ...]] = set()
        for row in part.rows:
            line = row.line
            if line.amount is None:
                continue
            name = (*tokens(bare_food(line.food)), line.part_of)
            if line.called or name not in seen:
                seen.add(name)
                continue
            if row.index in reading.mentions:
                continue  # the method takes both
            yield reading.about_line(
                row.index,
                f"{line.food} is in the list twice, and the method takes it once",
                "take one line out, or name both in the method",
            )
