"""The method uses an ingredient in several portions and the list does not say "divided", or the
list says "divided" and the method uses it all at once.

Add ", divided" to the line, or take it off. It tells the cook at the weighing stage not to tip it
all in.
"""

from __future__ import annotations

from collections.abc import Iterator

from sitegen.readthrough.rule import Finding, Reading
from sitegen.readthrough.taken import takings


def check(reading: Reading) -> Iterator[Finding]:
    """Lines whose "divided" does not fit the method."""
    for index, found in takings(reading).items():
        line = reading.rows[index].line
        if line.amount is None or line.reference:
            continue
        takes = found.takes
        total = found.total
        if found.from_nothing or (total is not None and total != 1 and total > 1):
            continue  # the sum is wrong, which another rule says
        steps = {m.place.line for m, _ in takes}
        says = "divided" in line.remarks
        split = len(takes) > 1 and len(steps) > 1
        name = line.called or line.food
        if split and not says and not any(r.startswith(("plus", "for")) for r in line.remarks):
            yield reading.about_line(
                index,
                f"the method uses {name} in {len(takes)} portions, and the list does not say so",
                f"write '{line.text}, divided'",
            )
        elif says and len(takes) == 1 and takes[0][1] == 1:
            yield reading.about_line(
                index,
                f"the list says that {name} is divided, and one step takes all of it",
                "take 'divided' off the line, or say in the method how much goes in each time",
            )
