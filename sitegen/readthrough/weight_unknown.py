"""A counted or spooned ingredient is known to the larder, but not what this measure of it weighs.

Give the weight in brackets: "2 fillets haddock (300 g)". Without it the line has no figures, and the
label is only a lower bound.
"""

from __future__ import annotations

from collections.abc import Iterator

from sitegen.reading.recipe import IngredientLine
from sitegen.readthrough.amount_unmeasurable import LOOSE, NO_SIZE
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
        if NO_SIZE.match(line.food.lower()):
            continue  # a glass: that is told already
        yield reading.about_line(
            row.index,
            f"what '{_said(line)}' comes to in weight is not known",
            f"write the weight in brackets: '{line.text} (about 100 g)', with your figure",
        )


def _said(line: IngredientLine) -> str:
    """Amount and food as the author has them: "a drop of oil", "5 medium egg yolks"."""
    end = line.text.find(line.food)
    return line.text[: end + len(line.food)] if end >= 0 else line.text
