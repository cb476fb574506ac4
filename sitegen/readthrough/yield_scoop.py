"""The scoop, the count and the batch do not fit: so many scoops need more, or less, than there is.

A scoop's number says how many level ones fill a US quart. Correct ``makes``, the scoop's number or
the amounts. Doughs and mixtures are taken as 0.9 to 1.3 g a millilitre, and 15 % is let pass.
"""

from __future__ import annotations

from collections.abc import Iterator

from sitegen.kitchen.tins import read_scoop, scoop_ml
from sitegen.reading.naming import tokens
from sitegen.readthrough.rule import Finding, Reading
from sitegen.readthrough.words import near

_LIGHT, _DENSE, _PASS = 0.9, 1.3, 1.15


def check(reading: Reading) -> Iterator[Finding]:
    """``makes`` × scoop against what goes in."""
    makes = reading.recipe.makes
    number = next((n for n in map(read_scoop, reading.recipe.tools) if n), None)
    if makes is None or number is None:
        return
    noun = set(tokens(makes.noun))
    parts = [p for p in reading.dish.ledger if set(tokens(p.name)) & noun] or list(
        reading.dish.ledger
    )
    if len(parts) > 1:
        return  # which of the parts is scooped, nobody says
    rows = [r for r in parts[0].rows if not any(m.startswith(("for ", "to ")) for m in r.remarks)]
    if any(r.grams is None and r.line.amount is not None and not r.cautions for r in rows):
        return
    grams = sum(float(r.grams) for r in rows if r.grams is not None)
    need = float(makes.number * scoop_ml(number))
    if not grams or grams / _DENSE / _PASS <= need <= grams / _LIGHT * _PASS:
        return
    fits = grams / 1.1 / float(scoop_ml(number))
    yield reading.about_field(
        "makes",
        f"{makes.text} with a no. {number} scoop need {near(need)} ml, and the mixture of "
        f"{near(grams)} g gives about {fits:.0f}",
        "correct the count, the scoop's number or an amount",
    )
