"""What a dish is made of, added up: nutrients, allergens, classes. The sums behind every label."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

# A nutrient that is part of another, and the most that one gram of any food can hold.
_WHOLES = {
    "sugars_g": "carbohydrate_g",
    "fibre_g": "carbohydrate_g",
    "saturated_g": "fat_g",
    "monounsaturated_g": "fat_g",
    "polyunsaturated_g": "fat_g",
}
_MOST_PER_GRAM = {
    "energy_kcal": 9.0,
    "protein_g": 1.0,
    "fat_g": 1.0,
    "saturated_g": 1.0,
    "carbohydrate_g": 1.0,
    "sugars_g": 1.0,
    "fibre_g": 1.0,
    "sodium_mg": 393.4,  # table salt: 58.44 g/mol, of which sodium 22.99
}


@dataclass(frozen=True, slots=True)
class Portion:
    """One ingredient's contribution to the whole batch."""

    index: int
    text: str
    food: str
    source: str
    grams: float | None
    """As the recipe measures it; None if not known."""
    eaten: float | None
    """After refuse and what is not eaten."""
    nutrients: Mapping[str, float]
    """For the whole batch; a nutrient that is absent is not known."""
    known: bool
    note: str = ""
    partial: frozenset[str] = frozenset()
    """Nutrients whose figure here is itself only a lower bound."""


@dataclass(frozen=True, slots=True)
class Contents:
    """Everything in the batch. Keys of allergens and classes are the larder's."""

    portions: tuple[Portion, ...] = ()
    contains: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    """Allergen key → the ingredients that bring it."""
    may_contain: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    classes: frozenset[str] = frozenset()
    unsure_classes: frozenset[str] = frozenset()
    traits: frozenset[str] = frozenset()
    unknown: tuple[str, ...] = ()
    """Ingredients whose food is not known: no claim can rest on this dish."""
    varies: tuple[str, ...] = ()
    """Made products whose recipe differs between makers."""
    batch_grams: float | None = None
    """The finished batch: as the author weighed it, else the sum of what is eaten."""
    weighed: bool = False

    @property
    def totals(self) -> dict[str, float]:
        """Nutrients of the whole batch, of what is known."""
        totals: dict[str, float] = {}
        for portion in self.portions:
            for key, amount in portion.nutrients.items():
                totals[key] = totals.get(key, 0.0) + amount
        return totals

    def incomplete(self, key: str) -> bool:
        """Whether some ingredient's figure for ``key`` is missing."""
        return any(
            p.eaten != 0 and (key not in p.nutrients or key in p.partial) for p in self.portions
        )

    def gap(self, key: str) -> float | None:
        """The most that the missing figures of ``key`` could add to the batch; None if unbounded.

        A part is never more than its whole (sugars than carbohydrate, saturates than fat), and no
        nutrient in grams is more than the food itself.
        """
        total = 0.0
        for portion in self.portions:
            if portion.eaten == 0 or (key in portion.nutrients and key not in portion.partial):
                continue
            if portion.eaten is None or key in portion.partial:
                return None
            most = _MOST_PER_GRAM.get(key)
            whole = portion.nutrients.get(_WHOLES.get(key, ""))
            if whole is not None:
                total += whole
            elif most is not None:
                total += most * portion.eaten
            else:
                return None
        return total

    @property
    def covers(self) -> float:
        """The share of the eaten weight whose energy is known, 0 to 1."""
        whole = sum(p.eaten or 0.0 for p in self.portions)
        known = sum(p.eaten or 0.0 for p in self.portions if "energy_kcal" in p.nutrients)
        return known / whole if whole else 0.0
