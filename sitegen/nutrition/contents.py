"""What a dish is made of, added up: nutrients, allergens, classes. The sums behind every label.

Contents of single ingredients are merged into those of a dish; merging is associative and ``Contents()``
changes nothing, so parts, dishes within dishes and swaps all go the same way.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence, Set
from dataclasses import dataclass, field
from typing import NamedTuple

from sitegen.nutrition.amounts import LABELLED, Amounts, add, at_hand

# A nutrient that is part of another is never more than its whole.
_WHOLES = {
    "sugars_g": "carbohydrate_g",
    "added_sugars_g": "sugars_g",
    "fibre_g": "carbohydrate_g",
    "saturated_g": "fat_g",
    "trans_g": "fat_g",
    "monounsaturated_g": "fat_g",
    "polyunsaturated_g": "fat_g",
}
# Parts of one whole that leave no room for each other.
_BESIDE = {
    "sugars_g": ("fibre_g",),
    "fibre_g": ("sugars_g",),
    "saturated_g": ("monounsaturated_g", "polyunsaturated_g"),
    "trans_g": ("saturated_g",),
    "monounsaturated_g": ("saturated_g", "polyunsaturated_g"),
    "polyunsaturated_g": ("saturated_g", "monounsaturated_g"),
}
# The most that one gram of any food can hold.
_MOST_PER_GRAM = {
    "energy_kcal": 9.0,
    "sodium_mg": 393.4,  # table salt: 58.44 g/mol, of which sodium 22.99
}

Brought = Mapping[str, tuple[str, ...]]
"""Allergen key → the ingredients that bring it."""


class Working:
    """How figures came about, put into words when somebody asks; the same words are the same."""

    __slots__ = ("_make",)

    def __init__(self, make: Callable[[], str]) -> None:
        self._make = make

    def __str__(self) -> str:
        return self._make()

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Working) and str(self) == str(other)

    __hash__ = None  # type: ignore[assignment]  # its words would have to be made


@dataclass(frozen=True, slots=True)
class Portion:
    """One ingredient's contribution to the whole batch."""

    index: int
    text: str
    food: str
    source: str
    grams: float | None
    """As the recipe measures it, the middle of a range; None if not known."""
    eaten: float | None
    """After refuse and what is not eaten; None if not known."""
    nutrients: Mapping[str, float]
    """For the whole batch; a nutrient that is absent is not known."""
    known: bool
    note: str | Working = ""
    """How its figures came about, in words; or what says it, for hardly anybody asks."""
    lacks: Mapping[str, float | None] = field(default_factory=dict)
    """Nutrients whose figure here is a lower bound, and the most they may lack (None: no telling)."""
    covered: float = 1.0
    """The share of its weight whose composition is known."""
    ends: tuple[Mapping[str, float], Mapping[str, float]] | None = None
    """The nutrients at both ends of the amount's range; None where there is no range."""

    @property
    def working(self) -> str:
        """How its figures came about, in words."""
        return str(self.note)

    def gap(self, key: str) -> float | None:
        """The most that the figure of ``key`` may lack; 0 if it is known, None if nothing tells."""
        if self.eaten == 0 or (key in self.nutrients and key not in self.lacks):
            return 0.0
        if key in self.lacks:
            return self.lacks[key]
        if self.eaten is None:
            return None
        whole = _WHOLES.get(key, "")
        if whole in self.nutrients and whole not in self.lacks:
            taken = sum(self.nutrients.get(part, 0.0) for part in _BESIDE.get(key, ()))
            return max(0.0, self.nutrients[whole] - taken)
        most = _MOST_PER_GRAM.get(key, 1.0 if key.endswith("_g") else None)
        return None if most is None else most * self.eaten


@dataclass(frozen=True, slots=True)
class Contents:
    """Everything in the batch. Keys of allergens and classes are the larder's."""

    portions: tuple[Portion, ...] = ()
    contains: Brought = field(default_factory=dict)
    swapped: Brought = field(default_factory=dict)
    """Allergens that come only with a swap."""
    may_contain: Brought = field(default_factory=dict)
    classes: frozenset[str] = frozenset()
    unsure_classes: frozenset[str] = frozenset()
    """Classes that depend on the maker, or on whether a swap is taken."""
    traits: frozenset[str] = frozenset()
    unknown: tuple[str, ...] = ()
    """Ingredients whose food is not known: no claim can rest on this dish."""
    varies: tuple[str, ...] = ()
    """Made products whose recipe differs between makers."""
    told: tuple[str, ...] = ()
    """What the authors of recipes within this one say that it may contain."""
    batch_grams: float | None = None
    """The finished batch: as the author weighed it, else the sum of what is eaten."""
    weighed: bool = False

    _sums: list[_Sums] = field(default_factory=list, init=False, repr=False, compare=False)
    """The sums, once somebody has asked for them."""

    @property
    def totals(self) -> Amounts:
        """Nutrients of the whole batch, of what is known."""
        return self._summed().totals

    def _summed(self) -> _Sums:
        if not self._sums:
            self._sums.append(_Sums.of(self.portions))
        return self._sums[0]

    def total(self, key: str) -> float | None:
        """One nutrient of the whole batch; None if it is known of no ingredient."""
        totals = self._summed().totals
        return totals.labelled.get(key) if key in LABELLED else totals.get(key)

    @property
    def ends(self) -> tuple[Amounts, Amounts] | None:
        """The totals if every range is taken at its low end, and at its high end."""
        if all(p.ends is None for p in self.portions):
            return None
        low = [p.ends[0] if p.ends else p.nutrients for p in self.portions]
        high = [p.ends[1] if p.ends else p.nutrients for p in self.portions]
        return add(low), add(high)

    @property
    def eaten(self) -> float | None:
        """Grams of all that is eaten, before cooking; None if some weight is not known."""
        weights = [p.eaten for p in self.portions]
        known = [w for w in weights if w is not None]
        return sum(known) if len(known) == len(weights) else None

    def incomplete(self, key: str) -> bool:
        """Whether some ingredient's figure for ``key`` is missing or only a lower bound."""
        return any(gap != 0 for gap in self._gaps(key))

    def gap(self, key: str) -> float | None:
        """The most that the missing figures of ``key`` could add to the batch; None if no telling.

        A part is never more than its whole (sugars than carbohydrate, saturates than fat), and no
        nutrient in grams is more than the food itself.
        """
        gaps = self._gaps(key)
        if not gaps:
            return 0.0
        known = [g for g in gaps if g is not None]
        return sum(known, 0.0) if len(known) == len(gaps) else None

    def _gaps(self, key: str) -> Sequence[float | None]:
        """What the portions that may lack something of ``key`` lack: as a rule there are none."""
        if key in LABELLED and key not in self._summed().lacking:
            return ()
        return [p.gap(key) for p in self.portions if key not in p.nutrients or key in p.lacks]

    @property
    def covers(self) -> float:
        """The share of the eaten weight whose energy is known, 0 to 1; unknown weights apart."""
        whole = sum([p.eaten or 0.0 for p in self.portions])
        covered = [p for p in self.portions if "energy_kcal" in at_hand(p.nutrients)]
        known = sum([(p.eaten or 0.0) * p.covered for p in covered])
        return known / whole if whole else 0.0

    @property
    def unweighed(self) -> tuple[str, ...]:
        """Ingredients that have an amount but no known weight, so that no share can be given."""
        return tuple(p.text for p in self.portions if p.eaten is None)


class _Sums(NamedTuple):
    """The nutrients of all portions together."""

    totals: Amounts
    lacking: Set[str]
    """The labelled ones of which some portion may lack something."""

    @staticmethod
    def of(portions: Sequence[Portion]) -> _Sums:
        """The sums of a batch's portions."""
        nutrients = [p.nutrients for p in portions]
        known: Set[str] = LABELLED
        for part in nutrients:
            known = known & at_hand(part).keys()
        lacking = LABELLED - known
        return _Sums(add(nutrients), lacking.union(*[p.lacks for p in portions if p.lacks]))


def merge(first: Contents, second: Contents) -> Contents:
    """Both together; see :func:`merge_all`."""
    return merge_all((first, second))


def merge_all(parts: Sequence[Contents]) -> Contents:
    """All of them together. The batch's weight is left open: it is known only once all is in.

    What is certain outweighs what is possible: an allergen that one surely contains is no longer
    among those that a packet may bring.
    """
    contains = _brought([p.contains for p in parts if p.contains])
    classes = frozenset().union(*[p.classes for p in parts])
    return Contents(
        portions=tuple([portion for p in parts for portion in p.portions]),
        contains=contains,
        swapped=_without(_brought([p.swapped for p in parts if p.swapped]), contains),
        may_contain=_without(_brought([p.may_contain for p in parts if p.may_contain]), contains),
        classes=classes,
        unsure_classes=frozenset().union(*[p.unsure_classes for p in parts]) - classes,
        traits=frozenset().union(*[p.traits for p in parts]),
        unknown=tuple(dict.fromkeys([name for p in parts for name in p.unknown])),
        varies=tuple(dict.fromkeys([name for p in parts for name in p.varies])),
        told=tuple(dict.fromkeys([name for p in parts for name in p.told])),
    )


def _brought(parts: Sequence[Brought]) -> Brought:
    found: dict[str, dict[str, None]] = {}
    for part in parts:
        for key, foods in part.items():
            found.setdefault(key, {}).update(dict.fromkeys(foods))
    return {key: tuple(found[key]) for key in sorted(found)}


def _without(brought: Brought, sure: Brought) -> Brought:
    return {key: foods for key, foods in brought.items() if key not in sure}
