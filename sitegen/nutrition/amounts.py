"""Amounts of nutrients: those that labels print are at hand, all others are reckoned when asked.

A food table has some fifty nutrients of every food, a label prints ten. The rest is for who asks, as
``sitegen label`` does; a build asks it of no recipe.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from typing import Final, final

LABELLED: Final = frozenset(
    "energy_kcal fat_g saturated_g trans_g cholesterol_mg sodium_mg carbohydrate_g fibre_g sugars_g "
    "added_sugars_g protein_g vitamin_d_ug calcium_mg iron_mg potassium_mg polyols_g alcohol_g "
    "erythritol_g allulose_g".split()
)
"""What the labels of all regions print, and what their lines are reckoned from."""


@final
class Amounts(Mapping[str, float]):
    """Amounts of which the ``labelled`` ones are at hand; ``reckon`` gives them all.

    The two must agree on what is labelled. A nutrient that is absent is not known.
    """

    __slots__ = ("_all", "_reckon", "labelled")

    def __init__(
        self, labelled: Mapping[str, float], reckon: Callable[[], Mapping[str, float]]
    ) -> None:
        self.labelled = labelled
        self._reckon = reckon
        self._all: Mapping[str, float] | None = None

    def whole(self) -> Mapping[str, float]:
        """All of them."""
        if self._all is None:
            self._all = self._reckon()
        return self._all

    def __getitem__(self, key: str) -> float:
        return (self.labelled if key in LABELLED else self.whole())[key]

    def __contains__(self, key: object) -> bool:
        return key in (self.labelled if key in LABELLED else self.whole())

    def __iter__(self) -> Iterator[str]:
        return iter(self.whole())

    def __len__(self) -> int:
        return len(self.whole())

    def __bool__(self) -> bool:
        return bool(self.labelled) or bool(self.whole())

    def __repr__(self) -> str:
        return repr(self.whole())


def at_hand(nutrients: Mapping[str, float]) -> Mapping[str, float]:
    """What is labelled of ``nutrients``, and no more of it than is at hand."""
    return nutrients.labelled if type(nutrients) is Amounts else nutrients


def in_full(nutrients: Mapping[str, float]) -> Mapping[str, float]:
    """All of ``nutrients`` as a plain mapping."""
    return nutrients.whole() if type(nutrients) is Amounts else nutrients


def times(nutrients: Mapping[str, float], share: float) -> Amounts:
    """Each amount times ``share``."""

    def scaled(of: Mapping[str, float]) -> dict[str, float]:
        return {key: value * share for key, value in of.items()}

    return Amounts(scaled(at_hand(nutrients)), lambda: scaled(in_full(nutrients)))


def add(parts: Sequence[Mapping[str, float]]) -> Amounts:
    """All of them together; what is known of any is counted."""
    return Amounts(_sum([at_hand(part) for part in parts]), lambda: _sum(map(in_full, parts)))


def _sum(parts: Iterable[Mapping[str, float]]) -> dict[str, float]:
    totals: dict[str, float] = {}
    for part in parts:
        if totals.keys() == part.keys():  # as a rule: the table has nearly all of every food
            for key, amount in part.items():
                totals[key] += amount
        else:
            for key, amount in part.items():
                totals[key] = totals.get(key, 0.0) + amount
    return totals
