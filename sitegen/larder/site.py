"""A site's own foods: what its author writes in content/larder/*.yaml, checked and made Foods.

    foods:
      - name: harbour oatcakes
        also: [oatcake]
        source: the label of the packet, March
        like: rolled oats      # what is not given below is taken from there, nutrients one by one
        per 100 g: {energy_kcal: 441, fat_g: 18.1, sodium_mg: 640}
        measures: {1 oatcake: 11 g, 1 cup: 90 g}
        contains: [oats]
        may contain: [sesame]
        is: ["?gluten"]        # what follows from the allergens (milk is dairy) need not be written
        aisle: bakery
        traits: [weighed]

This module knows nothing of files: mistakes go to a callback with the path to the value.
"""

import re
from collections.abc import Callable, Iterable, Mapping
from dataclasses import replace
from difflib import get_close_matches
from fractions import Fraction
from typing import Any, Final

from sitegen.larder.contradictions import between_cells, implied_classes
from sitegen.larder.food import Food, Measure
from sitegen.larder.larder import Larder
from sitegen.larder.vocabulary import (
    AISLES,
    ALLERGEN_ALIASES,
    ALLERGEN_GROUPS,
    ALLERGENS,
    CLASSES,
    NUTRIENTS,
    TRAITS,
)
from sitegen.larder.weights import singular

Path = tuple[str | int, ...]
#: Called with the path to the value, what is wrong, and how to mend it.
Problem = Callable[[Path, str, str], None]

_KNOWN_KEYS: Final = frozenset(
    {"name", "also", "source", "like", "per 100 g", "measures", "contains", "may contain"}
    | {"is", "aisle", "traits", "description", "refuse"}
)
_MEASURE: Final = re.compile(
    r"(?P<amount>\d+(?:[./]\d+)?)\s*(?P<unit>[^\d,]*?)\s*(?:,\s*(?P<state>.+))?"
)
_GRAMS: Final = re.compile(r"(?P<grams>\d+(?:\.\d+)?)\s*g")
_VOLUMES: Final = {
    "teaspoon": "tsp",
    "tablespoon": "tbsp",
    "fl oz": "fl_oz",
    "fluid ounce": "fl_oz",
    "litre": "l",
    "liter": "l",
    "millilitre": "ml",
    "milliliter": "ml",
}
_MOST: Final = {"_g": 100.0, "_kcal": 900.0}  # nothing holds more in 100 g; fat gives 9 kcal a gram
_SLACK: Final = 5.0


def foods_from_mapping(data: object, problem: Problem, larder: Larder | None = None) -> list[Food]:
    """The foods of one file's mapping; a food with a mistake in it is reported and left out.

    `problem` is called as ``problem(("foods", 0, "aisle"), "unknown aisle 'bakry'", "did you
    mean 'bakery'?")``. `larder` answers for `like`; by default the one that comes with sitegen.
    """
    if data is None:
        return []
    if not isinstance(data, Mapping):
        problem((), "this is not a mapping", "begin with 'foods:' and a list")
        return []
    for name in data:
        if name != "foods":
            problem((str(name),), f"unknown key {name!r}", "the only key here is 'foods'")
    items = data.get("foods") or []
    if not isinstance(items, list):
        problem(("foods",), "'foods' is not a list", "begin each food with '- name: …'")
        return []
    known = larder if larder is not None else Larder.load()
    foods: list[Food] = []
    for index, item in enumerate(items):
        food = _Reader(("foods", index), problem, known, foods).read(item)
        if food is None:
            continue
        if any(food.name == earlier.name for earlier in foods):
            hint = "keep one of them, or give it another name"
            problem(("foods", index, "name"), f"{food.name!r} stands twice in this file", hint)
            continue
        foods.append(food)
    return foods


class _Reader:
    """Reads one food; remembers whether anything was wrong with it."""

    def __init__(self, path: Path, problem: Problem, larder: Larder, earlier: list[Food]) -> None:
        self.path = path
        self._report = problem
        self.larder = larder
        self.earlier = earlier
        self.wrong = False

    def problem(self, where: Path, message: str, hint: str = "") -> None:
        self.wrong = True
        self._report(self.path + where, message, hint)

    def read(self, item: object) -> Food | None:
        if not isinstance(item, Mapping):
            self.problem((), "a food is not a mapping", "give it 'name:' and 'source:' at least")
            return None
        for name in item:
            if name not in _KNOWN_KEYS:
                self.problem((str(name),), f"unknown key {name!r}", _near(str(name), _KNOWN_KEYS))
        base = self._base(item)
        name = self._text(item, "name", required=True)
        source = self._text(item, "source", required=True)
        food = replace(
            base,
            name=name,
            source=source,
            also=tuple(self._list(item, "also")) if "also" in item else (),
            number="",
            description=self._text(item, "description") or base.description,
            nutrients={**base.nutrients, **self._nutrients(item.get("per 100 g"))},
        )
        if "measures" in item:
            food = replace(food, measures=tuple(self._measures(item["measures"], source)))
        food = self._labelled(food, item)
        return None if self.wrong else food

    def _base(self, item: Mapping[Any, Any]) -> Food:
        if "like" not in item:
            return Food(name="")
        like = str(item["like"])
        for food in self.earlier:
            if food.name == like:
                return food
        found = self.larder.get(like)
        if found is None:
            near = ", ".join(food.name for food in self.larder.find(like).candidates[:3])
            self.problem(("like",), f"the larder has no {like!r}", near and f"nearest: {near}")
            return Food(name="")
        return found

    def _labelled(self, food: Food, item: Mapping[Any, Any]) -> Food:
        if "contains" in item or "may contain" in item:
            sure = self._words(item, "contains", ALLERGENS, "allergen")
            may = self._words(item, "may contain", ALLERGENS, "allergen")
            marked = frozenset(word[1:] for word in sure if word.startswith("?"))
            bare = frozenset(word for word in sure if not word.startswith("?"))
            food = replace(food, contains=bare, may_contain=(may | marked) - bare)
        implied = implied_classes(food.contains, food.may_contain)
        if "is" in item:
            words = self._words(item, "is", CLASSES, "class")
            unsure = frozenset(word[1:] for word in words if word.startswith("?"))
            bare = frozenset(word for word in words if not word.startswith("?"))
            food = replace(food, classes=bare, unsure_classes=unsure - bare)
        if "gluten-free" not in food.name:
            classes = food.classes | implied[0]
            unsure_classes = (food.unsure_classes | implied[1]) - classes
            food = replace(food, classes=classes, unsure_classes=unsure_classes)
        for message in () if self.wrong else between_cells(food):  # no knock-on reports
            self.problem(("is",) if "is" in item else (), message, "see 'contains' and 'is'")
        if "traits" in item:
            food = replace(food, traits=self._words(item, "traits", TRAITS, "trait"))
        if not food.traits & {"spooned", "weighed"}:
            habit = "spooned" if "liquid" in food.traits else "weighed"
            food = replace(food, traits=food.traits | {habit})
        if "aisle" in item:
            aisle = str(item["aisle"])
            if aisle not in AISLES:
                self.problem(("aisle",), f"unknown aisle {aisle!r}", _near(aisle, AISLES))
            food = replace(food, aisle=aisle)
        if "refuse" in item:
            percent = re.fullmatch(r"(\d+(?:\.\d+)?)\s*%?", str(item["refuse"]))
            if percent is None or Fraction(percent[1]) >= 100:
                self.problem(("refuse",), "refuse is not a percentage", "write it like '12 %'")
            else:
                food = replace(food, refuse=Fraction(percent[1]) / 100)
        return food

    def _text(self, item: Mapping[Any, Any], name: str, required: bool = False) -> str:
        value = item.get(name)
        if isinstance(value, str | int | float) and str(value).strip():
            return " ".join(str(value).split())
        if required:
            where = (name,) if name in item else ()
            hint = "say where the figures come from" if name == "source" else "every food has one"
            self.problem(where, f"{name!r} is missing or empty", hint)
        elif value is not None:
            self.problem((name,), f"{name!r} is not a line of text")
        return ""

    def _list(self, item: Mapping[Any, Any], name: str) -> list[str]:
        value = item.get(name)
        if value is None:
            return []
        if isinstance(value, str):
            return [part.strip() for part in re.split(r"[;,]", value) if part.strip()]
        if isinstance(value, list) and all(isinstance(part, str | int) for part in value):
            return [str(part).strip() for part in value]
        self.problem(
            (name,), f"{name!r} is not a list of words", 'write [one, two], and "?one" in quotes'
        )
        return []

    def _words(
        self, item: Mapping[Any, Any], name: str, known: Iterable[str], kind: str
    ) -> frozenset[str]:
        words = set()
        for index, written in enumerate(self._list(item, name)):
            mark = "?" if written.startswith("?") else ""
            bare = written.removeprefix("?").strip().lower().replace(" ", "-")
            bare = ALLERGEN_ALIASES.get(bare, bare) if kind == "allergen" else bare
            if bare not in known or (mark and kind == "trait"):
                where: Path = (name, index) if isinstance(item.get(name), list) else (name,)
                hint = ALLERGEN_GROUPS.get(bare, "") if kind == "allergen" else ""
                self.problem(where, f"unknown {kind} {written!r}", hint or _near(bare, known))
            elif mark and name == "may contain":
                words.add(bare)
            else:
                words.add(mark + bare)
        return frozenset(words)

    def _nutrients(self, given: object) -> dict[str, float]:
        if given is None:
            return {}
        if not isinstance(given, Mapping):
            self.problem(("per 100 g",), "'per 100 g' is not a mapping", "write energy_kcal: 120")
            return {}
        found: dict[str, float] = {}
        for name, value in given.items():
            where = ("per 100 g", str(name))
            if name not in NUTRIENTS:
                self.problem(where, f"unknown nutrient {name!r}", _near(str(name), NUTRIENTS))
            elif isinstance(value, bool) or not isinstance(value, int | float):
                self.problem(where, f"{value!r} is not a number", "give the figure for 100 g")
            elif (
                not 0
                <= value
                <= next(
                    (most for end, most in _MOST.items() if str(name).endswith(end)), float("inf")
                )
                + (_SLACK if str(name).endswith("_kcal") else 0)
            ):
                self.problem(where, f"{value} cannot be in 100 g", "give the figure for 100 g")
            else:
                found[name] = float(value)
        parts = sum(found.get(k, 0.0) for k in ("protein_g", "fat_g", "carbohydrate_g", "water_g"))
        if parts > 100 + _SLACK:
            message = f"protein, fat, carbohydrate and water come to {parts:g} g in 100 g"
            self.problem(("per 100 g",), message, "are the figures per portion?")
        return found

    def _measures(self, given: object, source: str) -> list[Measure]:
        if not isinstance(given, Mapping):
            self.problem(("measures",), "'measures' is not a mapping", "write 1 cup: 90 g")
            return []
        found = []
        for written, weight in given.items():
            where = ("measures", str(written))
            what = _MEASURE.fullmatch(str(written).strip())
            grams = _GRAMS.fullmatch(str(weight).strip())
            if what is None or not Fraction(what["amount"]):
                self.problem(where, f"{written!r} is not a measure", "write it like '1 cup'")
            elif grams is None or not Fraction(grams["grams"]):
                self.problem(where, f"{weight!r} is not a weight in grams", "write it like '90 g'")
            else:
                unit = singular(what["unit"].strip().lower())
                unit = _VOLUMES.get(unit, unit)
                state = (what["state"] or "").strip().lower()
                amount, weighs = Fraction(what["amount"]), Fraction(grams["grams"])
                found.append(Measure(amount, unit, state, weighs, source))
        return found


def _near(word: str, known: Iterable[str]) -> str:
    close = get_close_matches(word, sorted(known), n=1, cutoff=0.6)
    return f"did you mean {close[0]!r}?" if close else "known: " + ", ".join(sorted(known))
