"""The list is not in the order in which the method first uses the ingredients.

Move the line to where its turn comes; within a part, and among what one step takes, any order is
good. Lines "to serve" and "to taste" may stand where they like.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator

from sitegen.readthrough.rule import Finding, Reading


def check(reading: Reading) -> Iterator[Finding]:
    """The fewest lines that have to move for the order to be right."""
    for part in reading.dish.ledger:
        used: list[tuple[int, int]] = []
        for row in part.rows:
            places = reading.mentions.get(row.index)
            if not places or row.line.amount is None:
                continue
            if not any(r.startswith(("to ", "optional", "for ")) for r in row.remarks):
                used.append((row.index, places[0][0]))
        stay = _longest_in_order([step for _, step in used])
        for at, (index, step) in enumerate(used):
            if at in stay:
                continue
            line = reading.rows[index].line
            later = [(i, s) for n, (i, s) in enumerate(used) if n in stay and s > step and n < at]
            if later:
                other, its = later[0]
                where = f"before {_name(reading, other)}, which step {its} uses first"
            else:
                earlier = [
                    (i, s) for n, (i, s) in enumerate(used) if n in stay and s < step and n > at
                ]
                other, its = earlier[-1]
                where = f"after {_name(reading, other)}, which step {its} uses first"
            yield reading.about_line(
                index,
                f"{line.called or line.food} is first used in step {step}, out of the list's order",
                f"move the line {where}",
            )


def _name(reading: Reading, index: int) -> str:
    line = reading.rows[index].line
    return line.called or line.food


def _longest_in_order(steps: list[int]) -> set[int]:
    """The places of one longest run that never goes back: patience sorting."""
    tails: list[int] = []
    at: list[int] = []
    before: list[int] = [-1] * len(steps)
    for i, step in enumerate(steps):
        pile = bisect_right(tails, step)
        before[i] = at[pile - 1] if pile else -1
        if pile == len(tails):
            tails.append(step)
            at.append(i)
        else:
            tails[pile], at[pile] = step, i
    kept: set[int] = set()
    i = at[-1] if at else -1
    while i >= 0:
        kept.add(i)
        i = before[i]
    return kept
