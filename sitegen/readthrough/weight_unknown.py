"""A counted or spooned ingredient is known to the larder, but not what this measure of it weighs.

Give the weight in brackets: "2 fillets haddock (300 g)". Without it the line has no figures, and the
label is only a lower bound.
"""

from __future__ import annotations

from collections.abc import Iterator

from sitegen.readthrough.amount_unmeasurable import LOOSE
from sitegen.readthrough.rule import Finding, Reading


def check(reading: Reading) -> Iterator[Finding]:
    """Lines with an amount and no weight."""
    for row in reading.rows:
        line = row.line
        if line.amount is None or row.grams is not None or not row.larder_name:
            continue
        if line.to_taste or (not row.missing and line.amount.unit in ("pinch", "dash")):
            continue
        if line.amount.unit in LOOSE or row.aisle in ("herbs", "spices"):
            continue  # a handful of herbs is by eye; of anything else another rule tells
        yield reading.about_line(
            row.index,
            f"what '{line.amount.text} {line.food}' comes to in weight is not known",
            f"write the weight in brackets: '{line.text} (about 100 g)', with your figure",
        )
