"""The method takes a part of an ingredient, and nothing says what becomes of the rest.

Name the rest where it goes in, as in "[the remaining butter]", or lower the amount in the list. A
line that says "plus extra", "for …" or "to serve" may leave some over.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from sitegen.readthrough.rule import Finding, Reading
from sitegen.readthrough.taken import percent, takings

_ROUNDING = Fraction(97, 100)


def check(reading: Reading) -> Iterator[Finding]:
    """Ingredients of which some is left."""
    for index, found in takings(reading).items():
        if found.total == 1:
            continue  # nearly always
        line = reading.rows[index].line
        if line.amount is None or any(
            r.startswith(("plus", "for", "to ", "optional")) for r in line.remarks
        ):
            continue
        if found.total is None or not 0 < found.total < _ROUNDING:
            continue
        name = line.called or line.food
        at = found.takes[-1][0]
        yield Finding(
            at.place,
            f"the method takes {percent(found.total)} of the {name} ({line.amount.text}), and "
            "nothing says where the rest goes",
            f"write [the remaining {name}] where it goes in, or list only what is used",
            at.length,
            index,
        )
