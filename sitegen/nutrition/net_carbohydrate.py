"""Net carbohydrate: carbohydrate less what the site says is not used. No regulation defines the term.

Fibre and polyols are commonly taken off (common practice); allulose is left out of sugars by FDA
guidance of October 2020, and is carbohydrate that the body hardly uses.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from sitegen.nutrition.contents import Contents

PARTS: Final = ("fibre", "polyols", "allulose")
NOT_A_TERM: Final = "Net carbohydrate is not a term of any label regulation."


def net_carbohydrate(
    contents: Contents, share: float, parts: Sequence[str] = PARTS
) -> tuple[float | None, str]:
    """Grams in a share of the batch, and the line with its formula.

    What is not known of a part is not taken off, so that the figure errs upwards: "at most". None
    where the carbohydrate itself has a gap.
    """
    whole = contents.total("carbohydrate_g")
    if whole is None or contents.incomplete("carbohydrate_g"):
        return None, f"Net carbohydrate: not known. {NOT_A_TERM}"
    terms = [f"carbohydrate {whole * share:.1f} g"]
    net, open_ended = whole, False
    for part in parts:
        known = contents.total(f"{part}_g")
        net -= known or 0.0
        if known is None:
            terms.append(f"{part} (none known)")
            continue
        open_ended = open_ended or (part == "fibre" and contents.incomplete("fibre_g"))
        terms.append(f"{part} {known * share:.1f} g")
    net = max(0.0, net) * share
    most = "at most " if open_ended else ""
    return net, f"Net carbohydrate {most}{net:.1f} g = {' − '.join(terms)}. {NOT_A_TERM}"
