"""The Larder: all foods that are known, got by name, or found by the words a cook writes.

Loading reads one JSON file; a Food is made of its record when it is first asked for, so that a
build which needs forty foods does not pay for a thousand.
"""

import json
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import Any, Final

from sitegen.larder.find import Entry, Finder
from sitegen.larder.food import Food, Measure
from sitegen.larder.vocabulary import SR28_NUTRIENTS
from sitegen.larder.words import joined, plain

_DATA: Final = Path(__file__).parent / "data" / "foods.json"
_FLESH: Final = frozenset({"meat", "poultry", "pork", "fish", "shellfish"})


_REMEMBERED: Final = 8192
"""So many of the words that were looked up last are remembered: recipes share their foods."""


@dataclass(frozen=True, slots=True)
class Match:
    """What a look-up found.

    `sure` is False if a word was left over that may change the food, if two foods fit alike, or
    if nothing fits (then `food` is None). `candidates` are the nearest foods, best first, at
    most five.
    """

    food: Food | None
    sure: bool
    candidates: tuple[Food, ...]


class Larder:
    """Foods by name. Immutable: `with_foods` gives a new one."""

    def __init__(self, records: Mapping[str, Any], foods: Mapping[str, Food]) -> None:
        self._records = records
        self._made: dict[str, Food] = dict(foods)
        self._own = dict.fromkeys(sorted(foods))
        self._names: dict[str, str] = {}
        self._finder: Finder | None = None
        self._matches: dict[str, Match] = {}
        for name in (*self._own, *(name for name in records if name not in self._own)):
            for called in self._pairs(name):
                self._names.setdefault(called, name)
        for name in self._own:  # a name comes before a synonym
            self._names[plain(name)] = name

    @staticmethod
    @cache
    def load() -> "Larder":
        """The larder that comes with sitegen, read once."""
        return Larder.from_json(json.loads(_DATA.read_text(encoding="utf-8")))

    @staticmethod
    def from_json(data: Mapping[str, Any]) -> "Larder":
        """A larder of records in the form of foods.json."""
        return Larder({record["name"]: record for record in data["foods"]}, {})

    def _called(self, name: str) -> tuple[str, ...]:
        """The name and synonyms of a food. What takes the place of ours keeps our synonyms."""
        ours = self._records[name]["also"] if name in self._records else ()
        return (name, *(self._made[name].also if name in self._own else ()), *ours)

    def _pairs(self, name: str) -> dict[str, str]:
        """What a food is called, in plain letters, each with the key that the finder knows it by."""
        if name not in self._own:
            made: dict[str, str] | None = self._records[name].get("names")
            if made is not None:
                return made
        return {plain(called): joined(called) for called in self._called(name)}

    def _keys(self) -> Iterator[tuple[str, str]]:
        """Each key with its food, for the finder; a name that another food has claimed is left out."""
        for name in dict.fromkeys(self._names.values()):
            for called, whole in self._pairs(name).items():
                if self._names[called] == name:
                    yield whole, name

    def called(self) -> Iterator[tuple[str, tuple[str, ...]]]:
        """Name and other names of each food, by name."""
        for name in sorted(self._records.keys() | self._own.keys()):
            yield name, self._called(name)[1:]

    def own_names(self, name: str) -> tuple[str, ...]:
        """What the site itself also calls a food of its own; nothing for a food of ours."""
        return self._made[name].also if name in self._own else ()

    def __len__(self) -> int:
        return len(self._records.keys() | self._own)

    @property
    def foods(self) -> tuple[Food, ...]:
        """All foods, by name."""
        return tuple(self._food(name) for name in sorted(self._records.keys() | self._own))

    def get(self, name: str) -> Food | None:
        """The food of exactly this name or synonym (capitals and accents apart), or None."""
        found = self._names.get(plain(name))
        return self._food(found) if found is not None else None

    def find(self, words: str) -> Match:
        """The food that a cook means by `words`; see `sitegen.larder.find` for the rules.

        ``Larder.load().find("2 large finely chopped onions".split(" ", 1)[1]).food.name`` is
        "onion"; "smoked onion" is found as onion too, but not `sure`.
        """
        match = self._matches.get(words)
        if match is None:
            if len(self._matches) >= _REMEMBERED:
                self._matches.clear()
            match = self._matches[words] = self._find(words)
        return match

    def _find(self, words: str) -> Match:
        if self._finder is None:
            self._finder = Finder(self._names, self._keys, self._entry)
        found = self._finder.find(words)
        return Match(
            self._food(found.name) if found.name is not None else None,
            found.sure,
            tuple(self._food(name) for name in found.candidates),
        )

    def with_foods(self, extra: Iterable[Food]) -> "Larder":
        """This larder with foods added; one of a name that is there takes its place.

        A synonym that an added food claims is no longer that of another food.
        """
        added = {name: self._made[name] for name in self._own}
        for food in extra:
            known = self._names.get(plain(food.name))
            name = known if known is not None and plain(known) == plain(food.name) else food.name
            added[name] = food if food.name == name else replace(food, name=name)
        return Larder(self._records, added)

    def _entry(self, name: str) -> Entry:
        if name in self._own:
            food = self._made[name]
            description, aisle = food.description, food.aisle
            classes, liquid = food.classes | food.unsure_classes, "liquid" in food.traits
            units = {m.unit for m in food.measures}
        else:
            record = self._records[name]
            description, aisle = record["description"], record["aisle"]
            classes = frozenset(record["is"].replace("?", "").split())
            liquid = "liquid" in record["traits"].split()
            units = {measure[1] for measure in record["measures"]}
        return Entry(
            name=name,
            description=description,
            flesh=bool(classes & _FLESH),
            liquid=liquid,
            aisle=aisle,
            units=frozenset(units),
        )

    def _food(self, name: str) -> Food:
        food = self._made.get(name)
        if food is None:
            food = self._made[name] = food_from_json(self._records[name])
        return food


def food_from_json(record: Mapping[str, Any]) -> Food:
    """A Food of its record in foods.json."""
    number: str = record["number"]
    source: str = record.get("source") or f"USDA SR28 {number}"
    nutrients = {
        key: float(figure)
        for key, figure in zip(SR28_NUTRIENTS, record["per_100_g"].split(), strict=False)
        if figure != "-"
    }
    nutrients.update((key, float(figure)) for key, figure in record.get("extra", {}).items())
    contains, may_contain = _parted(record["contains"])
    classes, unsure_classes = _parted(record["is"])
    return Food(
        name=record["name"],
        also=tuple(record["also"]),
        number=number,
        source=source,
        description=record["description"],
        aisle=record["aisle"],
        refuse=Fraction(record["refuse"]) / 100,
        nutrients=nutrients,
        measures=tuple(
            Measure(Fraction(amount), unit, state, Fraction(grams), where or source)
            for amount, unit, state, grams, where in record["measures"]
        ),
        contains=contains,
        may_contain=may_contain,
        classes=classes,
        unsure_classes=unsure_classes,
        traits=frozenset(record["traits"].split()),
    )


def food_as_json(food: Food) -> dict[str, Any]:
    """The record of a Food that does not come from SR28, as foods.json has it."""
    return {
        "name": food.name,
        "number": food.number,
        "source": food.source,
        "description": food.description,
        "also": list(food.also),
        "aisle": food.aisle,
        "refuse": str(food.refuse * 100),
        "contains": _joined(food.contains, food.may_contain),
        "is": _joined(food.classes, food.unsure_classes),
        "traits": _joined(food.traits, frozenset()),
        "per_100_g": "",
        "extra": {key: repr(figure) for key, figure in sorted(food.nutrients.items())},
        "measures": [
            [str(m.amount), m.unit, m.state, str(m.grams), m.source] for m in food.measures
        ],
    }


def _parted(text: str) -> tuple[frozenset[str], frozenset[str]]:
    words = text.split()
    return (
        frozenset(w for w in words if not w.startswith("?")),
        frozenset(w[1:] for w in words if w.startswith("?")),
    )


def _joined(sure: frozenset[str], unsure: frozenset[str]) -> str:
    return " ".join([*sorted(sure), *(f"?{word}" for word in sorted(unsure))])
