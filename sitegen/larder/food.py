"""Food and Measure: one thing in the larder, and the weight of one household measure of it."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Any, Final, TypeVar

T = TypeVar("T")
_REMEMBERED: Final = 512
"""So many answers are remembered of each food."""

_TSP_ML: Final = Fraction("4.92892159375")  # US teaspoon, NIST Handbook 44, Appendix C

#: Volume units that a Measure may have, in millilitres (US customary, exact).
VOLUME_ML: Final[Mapping[str, Fraction]] = {
    "tsp": _TSP_ML,
    "tbsp": 3 * _TSP_ML,
    "fl_oz": 6 * _TSP_ML,
    "cup": 48 * _TSP_ML,
    "pint": 96 * _TSP_ML,
    "quart": 192 * _TSP_ML,
    "ml": Fraction(1),
    "l": Fraction(1000),
}


#: One state by two names: British cooks grate what American ones shred.
_SAME_STATE: Final[Mapping[str, str]] = {"grated": "shredded", "shredded": "grated"}


@dataclass(frozen=True, slots=True)
class Measure:
    """What `amount` `unit` of a food weighs, edible part only.

    ``Measure(Fraction(1), "cup", "chopped", Fraction(160), "USDA SR28 11282")`` is one US cup of
    chopped onion, 160 g. `unit` is a volume unit of `VOLUME_ML`, a count word in the singular
    ("clove", "large", "slice") or "" for the item itself; `state` is "" when none was given.
    """

    amount: Fraction
    unit: str
    state: str
    grams: Fraction
    source: str

    @property
    def grams_each(self) -> Fraction:
        """Grams of one `unit`."""
        return self.grams / self.amount


@dataclass(frozen=True, slots=True)
class Food:
    """One food. Figures are per 100 g of the edible part; a nutrient that is absent is unknown.

    `contains` are the allergens it surely holds, `may_contain` those that depend on the maker;
    `classes` rule a diet out, `unsure_classes` may. `refuse` is the share of the bought weight
    that is not eaten (0 to 1).
    """

    name: str
    also: tuple[str, ...] = ()
    number: str = ""
    source: str = ""
    description: str = ""
    aisle: str = ""
    refuse: Fraction = Fraction(0)
    nutrients: Mapping[str, float] = field(default_factory=dict, hash=False)
    measures: tuple[Measure, ...] = ()
    contains: frozenset[str] = frozenset()
    may_contain: frozenset[str] = frozenset()
    classes: frozenset[str] = frozenset()
    unsure_classes: frozenset[str] = frozenset()
    traits: frozenset[str] = frozenset()
    _reckoned: dict[Any, Any] = field(default_factory=dict, init=False, repr=False, compare=False)

    def once(self, asked: tuple[object, ...], reckon: Callable[[], T]) -> T:
        """What was reckoned from this food's figures before, or is now.

        They never change, and recipes ask again and again for the same few measures of the same few
        foods. ``asked`` names the question with all that the answer rests on besides the food.
        """
        if asked not in self._reckoned:
            if len(self._reckoned) >= _REMEMBERED:
                self._reckoned.clear()
            self._reckoned[asked] = reckon()
        found: T = self._reckoned[asked]
        return found

    def grams_per(self, unit: str, state: str = "") -> Measure | None:
        """The weight of one `unit` of this food in `state`, or None if nothing tells.

        A measure of exactly that state is taken, else a plain one; a measure of another state is
        never borrowed, since a cup of whole nuts is not a cup of ground ones ("grated" and
        "shredded" are one state, though). Volume units
        convert into one another from the measure nearest in size; the answer is then expressed
        in the unit asked for, and its source says what it came from.

        Flour weighs 125 g a cup (SR28 20081) and has no measure in millilitres, so
        ``flour.grams_per("ml").grams`` is 125 / 236.588… = 0.528….
        """
        return self.once(("weight", unit, state), lambda: self._grams_per(unit, state))

    def _grams_per(self, unit: str, state: str) -> Measure | None:
        for wanted in dict.fromkeys((state, _SAME_STATE.get(state, state), "")):
            same = [m for m in self.measures if m.state == wanted]
            for measure in same:
                if measure.unit == unit:
                    return measure
            if unit in VOLUME_ML:
                volumes = [m for m in same if m.unit in VOLUME_ML]
                if volumes:
                    return _converted(volumes, unit)
        return None


def _converted(volumes: list[Measure], unit: str) -> Measure:
    one = VOLUME_ML[unit]

    def distance(measure: Measure) -> Fraction:
        size = VOLUME_ML[measure.unit] * measure.amount
        return max(size / one, one / size)

    nearest = min(volumes, key=distance)
    grams = nearest.grams_each * one / VOLUME_ML[nearest.unit]
    return Measure(
        Fraction(1),
        unit,
        nearest.state,
        grams,
        f"{nearest.source}, from {nearest.amount} {nearest.unit.replace('_', ' ')}",
    )
