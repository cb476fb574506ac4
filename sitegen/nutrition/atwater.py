"""A check on a food's energy by what its parts yield.

General factors of Regulation (EU) 1169/2011, Annex XIV: carbohydrate 4 kcal per g, polyols 2.4,
erythritol 0, protein 4, fat 9, alcohol 7, fibre 2; allulose 0.4 by FDA guidance of October 2020. Food
tables use factors of each food's own, and measured alcohol and acids: so a row that is off is not
wrong by that alone, but somebody should look at it.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

KCAL_PER_GRAM: Final[Mapping[str, float]] = {
    "protein_g": 4.0,
    "fat_g": 9.0,
    "available_carbohydrate_g": 4.0,
    "fibre_g": 2.0,
    "alcohol_g": 7.0,
    "polyols_g": 2.4,
    "allulose_g": 0.4,
}
KJ_PER_GRAM: Final[Mapping[str, float]] = {
    "protein_g": 17.0,
    "fat_g": 37.0,
    "available_carbohydrate_g": 17.0,
    "fibre_g": 8.0,
    "alcohol_g": 29.0,
    "polyols_g": 10.0,
    "allulose_g": 1.7,
}
TOLERANCE: Final = 0.15
SMALLEST_KCAL: Final = 5.0
"""A gap under this says nothing: labels call less than 5 kcal nothing (21 CFR 101.9(c)(1))."""


def energy(
    nutrients: Mapping[str, float], factors: Mapping[str, float] = KCAL_PER_GRAM
) -> float | None:
    """Energy by the factors, or None if protein, fat or carbohydrate is not known.

    Carbohydrate is the whole, fibre included, as food tables give it by difference.

    >>> energy({"protein_g": 10.0, "fat_g": 5.0, "carbohydrate_g": 20.0, "fibre_g": 4.0})
    157.0
    """
    if not nutrients.keys() >= {"protein_g", "fat_g", "carbohydrate_g"}:
        return None
    erythritol = nutrients.get("erythritol_g", 0.0)
    parts = {key: nutrients.get(key, 0.0) for key in factors}
    parts["polyols_g"] = max(0.0, parts["polyols_g"] - erythritol)
    others = parts["fibre_g"] + parts["polyols_g"] + erythritol + parts["allulose_g"]
    parts["available_carbohydrate_g"] = max(0.0, nutrients["carbohydrate_g"] - others)
    return sum(parts[key] * factor for key, factor in factors.items())


def disagreement(nutrients: Mapping[str, float]) -> float | None:
    """How far the energy by factors is from the stated one, as a share of it; None if it agrees.

    ``0.2``: the factors give 20 % more than is stated. A gap of 15 % or less is agreement, and so
    is one of less than 5 kcal.
    """
    stated, reckoned = nutrients.get("energy_kcal"), energy(nutrients)
    if stated is None or reckoned is None:
        return None
    gap = reckoned - stated
    if abs(gap) < SMALLEST_KCAL or abs(gap) <= TOLERANCE * stated:
        return None
    return gap / stated if stated else float("inf")
