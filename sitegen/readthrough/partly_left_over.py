"""The method takes a part of an ingredient, and nothing says what becomes of the rest.

Name the rest where it goes in, as in "[the remaining butter]", or lower the amount in the list. A
line that says "plus extra", "for …" or "to serve" may leave some over.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction

from sitegen.reading.naming import name_of, tokens
from sitegen.readthrough.rule import Finding, Reading
from sitegen.readthrough.taken import percent, takings

_ROUNDING = Fraction(97, 100)
_AGAIN = re.compile(r"\b(?:repeat|do the same|then the (?:rest|second|other))\b")
_REST = re.compile(r"\b(?:remaining|rest of the|other half of the|last of the)\s+([^,.;]{1,40})")


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
        name = name_of(line)
        if _said_plainly(reading, name):
            continue
        at = found.takes[-1][0]
        yield Finding(
            at.place,
            f"the method takes {percent(found.total)} of the {name} ({line.amount.text}), and "
            "nothing says where the rest goes",
            f"write [the remaining {name}] where it goes in, or list only what is used",
            at.length,
            index,
        )


def _said_plainly(reading: Reading, name: str) -> bool:
    """Without brackets: "add the remaining coconut milk", "repeat with the other half"."""
    method = reading.method
    if _AGAIN.search(method):
        return True
    last = set(tokens(name)[-1:])
    return any(last & set(tokens(found[1])) for found in _REST.finditer(method))
