"""The portions of an ingredient that the method takes add up to more than the list has.

Make the portions add up: raise the amount in the list, or lower one in the method. "The remaining"
takes whatever is left, so it always adds up, unless nothing is left.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from sitegen.readthrough.rule import Finding, Reading
from sitegen.readthrough.taken import percent, takings

_ROUNDING = Fraction(103, 100)  # spoons in the method against grams in the list don't meet exactly


def check(reading: Reading) -> Iterator[Finding]:
    """Ingredients that run out."""
    for index, found in takings(reading).items():
        if found.total == 1 and found.from_nothing is None:
            continue  # nearly always
        line = reading.rows[index].line
        if line.amount is None or any(r.startswith("plus") for r in line.remarks):
            continue
        name = line.called or line.food
        if found.from_nothing is not None:
            at = found.from_nothing
            yield Finding(
                at.place,
                f"'{at.words}': earlier steps have used all of it",
                f"take less of [{name}] before, as in [half the {name}], or leave these words out",
                at.length,
                index,
            )
        elif found.total is not None and found.total > _ROUNDING:
            at = next((m for m, s in reversed(found.takes) if s), found.takes[-1][0])
            yield Finding(
                at.place,
                f"by here the method has taken {percent(found.total)} of the {name} "
                f"({line.amount.text}) in the list",
                "make the portions add up to what the list has, or write "
                f"[the remaining {name}] for the last",
                at.length,
                index,
            )
