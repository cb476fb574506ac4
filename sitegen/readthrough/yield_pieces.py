"""The pieces can't be shared out: what it makes, divided by the portions, is no whole or half number.

Correct ``serves`` or ``makes``. One loaf or cake for many is left alone.
"""

from __future__ import annotations

from collections.abc import Iterator

from sitegen.readthrough.rule import Finding, Reading


def check(reading: Reading) -> Iterator[Finding]:
    """``makes`` against ``serves``."""
    makes, serves = reading.recipe.makes, reading.recipe.serves
    if makes is None or makes.number < serves or makes.number < 3:
        if makes is None or not 2 < makes.number < serves or serves % makes.number == 0:
            return
        if (serves / makes.number).denominator == 1 or makes.number * 2 < serves:
            return
    each = makes.number / serves
    if each.denominator in (1, 2):
        return
    yield reading.about_field(
        "makes",
        f"{makes.text} for {serves} portions is {float(each):.2g} each",
        f"correct serves or makes: {makes.number} share out among "
        f"{', '.join(str(n) for n in range(2, 25) if makes.number % n == 0) or 'none'}",
    )
