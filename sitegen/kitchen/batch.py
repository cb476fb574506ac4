"""The batch added up: each ingredient's weight, nutrients and allergens."""

from __future__ import annotations

import re
from collections.abc import Iterable
from fractions import Fraction

from sitegen.dish import Dish
from sitegen.kitchen.rows import Worked
from sitegen.kitchen.units import size_of
from sitegen.larder.food import Food
from sitegen.nutrition.contents import Contents, Portion
from sitegen.nutrition.cooking import after_cooking, cooking_of
from sitegen.reading.recipe import Amount, Recipe

# What is bought without its bones has no refuse, whatever the table's own sample had.
_BONED = re.compile(
    r"\b(?:boneless|boned|fillets?|filleted|shelled|minced?|mince)\b", re.IGNORECASE
)


def add_up(recipe: Recipe, worked: Iterable[Worked], region: str) -> Contents:
    """The contents of the whole batch; swaps are left out, alternatives bring their allergens."""
    rows = list(worked)
    portions = tuple(_portion(w, recipe) for w in rows)
    contains: dict[str, list[str]] = {}
    may: dict[str, list[str]] = {}
    classes: set[str] = set()
    unsure: set[str] = set()
    traits: set[str] = set()
    unknown: list[str] = []
    varies: list[str] = []
    for w in _with_alternatives(rows):
        name = w.row.line.food
        if w.other is not None:
            inner = w.other.contents
            _merge(contains, inner.contains, name)
            _merge(may, inner.may_contain, name)
            classes |= inner.classes
            unsure |= inner.unsure_classes
            traits |= inner.traits
            unknown += [f"{x} (in {name})" for x in inner.unknown]
            varies += [f"{x} (in {name})" for x in inner.varies]
            continue
        if not w.found.foods:
            unknown.append(name)
            continue
        for food in w.found.foods:
            for key in food.contains:
                contains.setdefault(key, []).append(name)
            for key in food.may_contain:
                may.setdefault(key, []).append(name)
            classes |= food.classes
            unsure |= food.unsure_classes
            traits |= food.traits
            if "varies" in food.traits:
                varies.append(name)
    eaten = sum(p.eaten or 0.0 for p in portions)
    batch = float(_grams(recipe.weighs, region)) if recipe.weighs else (eaten or None)
    return Contents(
        portions=portions,
        contains={k: tuple(dict.fromkeys(v)) for k, v in sorted(contains.items())},
        may_contain={
            k: tuple(dict.fromkeys(v)) for k, v in sorted(may.items()) if k not in contains
        },
        classes=frozenset(classes),
        unsure_classes=frozenset(unsure - classes),
        traits=frozenset(traits),
        unknown=tuple(dict.fromkeys(unknown)),
        varies=tuple(dict.fromkeys(varies)),
        batch_grams=batch,
        weighed=recipe.weighs is not None,
    )


def _grams(amount: Amount, region: str) -> Fraction:
    return amount.value * (size_of(amount.unit, region) or Fraction(1))


def _with_alternatives(rows: list[Worked]) -> Iterable[Worked]:
    for row in rows:
        yield row
        yield from row.alternatives


def _merge(into: dict[str, list[str]], inner: object, name: str) -> None:
    assert isinstance(inner, dict)
    for key, foods in inner.items():
        into.setdefault(key, []).extend(f"{food} in {name}" for food in foods)


def _portion(worked: Worked, recipe: Recipe) -> Portion:
    row, line = worked.row, worked.row.line
    middle = _middle(worked)
    if worked.other is not None:
        return _reference(worked, worked.other, middle)
    food = worked.found.food
    if food is None:
        return Portion(row.index, line.text, "", "", middle, middle, {}, False, "not in the larder")
    if middle is None:
        if line.amount is None or line.to_taste:
            return Portion(
                row.index,
                line.text,
                food.name,
                food.source,
                None,
                0.0,
                {},
                True,
                "not counted: no amount",
            )
        return Portion(
            row.index,
            line.text,
            food.name,
            food.source,
            None,
            None,
            {},
            False,
            "its weight is not known",
        )
    eaten, note = _eaten(worked, food, middle)
    raw = {key: value * eaten / 100 for key, value in food.nutrients.items()}
    nutrients, cooked = after_cooking(food, raw, cooking_of(recipe, row.index))
    note = "; ".join(filter(None, (note, cooked)))
    return Portion(
        row.index, line.text, food.name, food.source, middle, eaten, nutrients, True, note
    )


def _middle(worked: Worked) -> float | None:
    grams = worked.weighed.grams
    return float((grams[0] + grams[1]) / 2) if grams else None


def _eaten(worked: Worked, food: Food, grams: float) -> tuple[float, str]:
    """What of the weight is eaten: bones, peel and shells off, frying oil and brine left behind."""
    notes: list[str] = []
    eaten = grams
    prepared = {"peeled", "pitted", "stoned"} & set(worked.row.line.states)
    bought = worked.weighed.as_bought and "egg" not in food.traits
    trimmed = bool(prepared) and "weighed" not in food.traits
    boned = bool(_BONED.search(f"{worked.row.line.text} {food.name}"))
    if bought and food.refuse and not trimmed and not boned:
        eaten *= float(1 - food.refuse)
        notes.append(f"{float(food.refuse):.0%} refuse taken off ({food.source})")
    share = worked.row.line.eaten
    if share != 1:
        eaten *= float(share)
        notes.append(f"{float(share):.0%} eaten (the author's figure)")
    return eaten, "; ".join(notes)


def _reference(worked: Worked, other: Dish, grams: float | None) -> Portion:
    row, line = worked.row, worked.row.line
    inner = other.contents
    if grams is None or not inner.batch_grams:
        return Portion(
            row.index, line.text, other.recipe.title, "this site", grams, grams, {}, False,
            "its weight is not known",
        )  # fmt: skip
    share = grams / inner.batch_grams
    eaten = grams * float(line.eaten)
    nutrients = {k: v * share * float(line.eaten) for k, v in inner.totals.items()}
    partial = frozenset(k for k in nutrients if inner.incomplete(k))
    return Portion(
        row.index, line.text, other.recipe.title, "worked out on its own page", grams, eaten,
        nutrients, not inner.unknown, "", partial,
    )  # fmt: skip
