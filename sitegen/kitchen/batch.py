"""The batch added up: each ingredient's weight, nutrients and allergens."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from fractions import Fraction
from functools import cached_property

from sitegen.dish import Dish
from sitegen.kitchen.eaten import edible
from sitegen.kitchen.heat import Reach
from sitegen.kitchen.rows import Worked
from sitegen.kitchen.units import size_of
from sitegen.kitchen.weighing import Span
from sitegen.larder.food import Food
from sitegen.larder.vocabulary import NUTRIENTS
from sitegen.nutrition.added_sugars import added_sugars
from sitegen.nutrition.amounts import LABELLED, Amounts, at_hand, in_full, times
from sitegen.nutrition.contents import Contents, Portion, Working, merge_all
from sitegen.nutrition.cooking import after_cooking, changes_label
from sitegen.nutrition.heat import Cooking, Method
from sitegen.reading.recipe import Amount, Recipe


def add_up(recipe: Recipe, worked: Iterable[Worked], region: str, reach: Reach) -> Contents:
    """The contents of the whole batch; ``reach`` tells which ingredients heat reaches.

    The figures are those of the recipe as written; allergens, classes and doubts also come from
    what the reader may choose instead, alternatives and swaps.
    """
    rows = list(worked)
    cooks = _Cooks(recipe, reach)
    found = merge_all([_facts(w) for w in rows])
    portions = tuple([_portion(w, cooks) for w in rows])
    return _finished(found, portions, recipe, region)


def with_swaps(
    recipe: Recipe, worked: Sequence[Worked], contents: Contents, region: str, reach: Reach
) -> list[tuple[str, str, Contents]]:
    """For each swap: its words, those of what it stands for, and the batch made with it."""
    found = []
    cooks = _Cooks(recipe, reach)
    for place, w in enumerate(worked):
        if w.swap is None:
            continue
        portions = list(contents.portions)
        portions[place] = _portion(w.swap, cooks)
        made = _finished(contents, tuple(portions), recipe, region)
        found.append((w.swap.row.line.food, w.row.line.food, made))
    return found


def _finished(
    facts: Contents, portions: tuple[Portion, ...], recipe: Recipe, region: str
) -> Contents:
    """The batch weighs what its author weighed; else what goes in, if all of that is known."""
    weighed = float(_grams(recipe.weighs, region)) if recipe.weighs else None
    return replace(
        facts,
        portions=portions,
        batch_grams=(_eaten(portions) or None) if weighed is None else weighed,
        weighed=weighed is not None,
    )


def _eaten(portions: tuple[Portion, ...]) -> float | None:
    return Contents(portions).eaten


def _grams(amount: Amount, region: str) -> Fraction:
    return amount.value * (size_of(amount.unit, region) or Fraction(1))


# --- what it contains -----------------------------------------------------------------------------


def _facts(worked: Worked) -> Contents:
    """Allergens and classes of a line, with those of everything that may stand in its place."""
    facts = _line_facts(worked)
    if not worked.alternatives and worked.swap is None:
        return facts
    others = [_facts(other) for other in worked.alternatives]
    swap = [_as_a_swap(_facts(worked.swap))] if worked.swap is not None else []
    return merge_all([facts, *others, *swap])


def _as_a_swap(facts: Contents) -> Contents:
    """What is sure of a swap is only possible of the dish."""
    return replace(
        facts,
        contains={},
        swapped={**facts.swapped, **facts.contains},
        classes=frozenset(),
        unsure_classes=facts.classes | facts.unsure_classes,
    )


def _line_facts(worked: Worked) -> Contents:
    name = worked.row.line.food
    if worked.found.made:
        return Contents()  # its part has told it already
    if worked.other is not None:
        return _inner_facts(worked.other.contents, name, worked.other.recipe.may_contain)
    foods, unknown = worked.found.foods, worked.found.unknown
    if len(foods) == 1 and not unknown:
        return _food_facts(foods[0], name)
    facts = Contents(unknown=(() if foods else (name,)) + unknown)
    return merge_all([facts, *[_food_facts(food, name) for food in foods]])


def _food_facts(food: Food, name: str) -> Contents:
    """What a food brings under the name that a line gives it: recipes name the same few alike."""
    return food.once(("facts", name), lambda: _facts_of(food, name))


def _facts_of(food: Food, name: str) -> Contents:
    return Contents(
        contains=dict.fromkeys(sorted(food.contains), (name,)),
        may_contain=dict.fromkeys(sorted(food.may_contain - food.contains), (name,)),
        classes=food.classes,
        unsure_classes=food.unsure_classes - food.classes,
        traits=food.traits,
        varies=(name,) if "varies" in food.traits else (),
    )


def _inner_facts(inner: Contents, name: str, told: Sequence[str]) -> Contents:
    """The facts of another recipe; each says through which ingredient it comes."""

    def through(brought: Mapping[str, tuple[str, ...]]) -> dict[str, tuple[str, ...]]:
        return {key: tuple(f"{food} in {name}" for food in foods) for key, foods in brought.items()}

    return Contents(
        contains=through(inner.contains),
        swapped=through(inner.swapped),
        may_contain=through(inner.may_contain),
        told=tuple(told) + inner.told,
        classes=inner.classes,
        unsure_classes=inner.unsure_classes,
        traits=inner.traits,
        unknown=tuple(f"{food} (in {name})" for food in inner.unknown),
        varies=tuple(f"{food} (in {name})" for food in inner.varies),
    )


# --- what it weighs and gives ---------------------------------------------------------------------


class _Cooks:
    """The method of one recipe, as every ingredient asks it how it is cooked."""

    def __init__(self, recipe: Recipe, reach: Reach) -> None:
        self.recipe = recipe
        self._reach = reach

    @cached_property
    def _method(self) -> Method:
        return Method(self.recipe)

    def cooking(self, index: int, food: Food) -> Cooking:
        """How a line is cooked.

        Where it is in doubt whether heat reaches alcohol, none is taken off.
        """
        cooking = self._method.cooking_of(index)
        if not cooking.heated or not food.nutrients.get("alcohol_g"):
            return cooking
        if self._reach.of(index) == "none":
            return replace(cooking, oven=False, wet=False, heated=False, minutes=0.0)
        return cooking


def _portion(worked: Worked, cooks: _Cooks) -> Portion:
    row, line = worked.row, worked.row.line
    span = worked.weighed.grams
    middle = float(_middle(span)) if span else None
    if worked.other is not None:
        return _reference(worked, worked.other, middle)
    food = worked.found.food
    if worked.found.made:
        note = f"counted with the part {worked.found.made}, of which it is made"
        return Portion(row.index, line.text, "", "", middle, 0.0, {}, True, note)
    if food is None:
        share = float(line.eaten)
        eaten = None if middle is None else middle * share
        eaten = 0.0 if middle is None and _uncounted(worked) else eaten
        return Portion(
            row.index, line.text, "", "", middle, eaten, {}, False, "not in the larder", covered=0.0
        )
    name, source = food.name, food.source
    if middle is None and _uncounted(worked):
        note = "not counted: no amount"
        return Portion(row.index, line.text, name, source, None, 0.0, {}, True, note)
    if middle is None or span is None:
        note = "its weight is not known"
        none = _none_whatever_it_weighs(food)
        return Portion(
            row.index, line.text, name, source, None, None, none, False, note, covered=0.0
        )
    share, refused = edible(worked, food, cooks.recipe)
    known = known_nutrients(food)

    def weighed_out(of: Mapping[str, float]) -> dict[str, float]:
        if share == 1:  # of most foods all is eaten
            return {key: value * middle / 100 for key, value in of.items()}
        return {key: value * middle * share / 100 for key, value in of.items()}

    def cooked() -> tuple[Mapping[str, float], list[str]]:
        return after_cooking(food, weighed_out(in_full(known)), cooks.cooking(row.index, food))

    def working() -> str:
        extras = _uncounted_extras(worked)
        return "; ".join([*_weighing(worked, span), *refused, *cooked()[1], *extras])

    labelled: Mapping[str, float] = weighed_out(at_hand(known))
    if changes_label(food):
        labelled, _ = after_cooking(food, labelled, cooks.cooking(row.index, food))
    nutrients = Amounts(labelled, lambda: cooked()[0])
    return Portion(
        row.index,
        line.text,
        name,
        source,
        middle,
        middle * share,
        nutrients,
        True,
        Working(working),
        ends=_ends(nutrients, span),
    )


def _middle(span: Span) -> Fraction:
    return span[0] if span[0] is span[1] else (span[0] + span[1]) / 2


def _weighing(worked: Worked, span: Span) -> list[str]:
    """How the grams came about, where the author did not give them outright."""
    basis = worked.weighed.grams_basis
    notes = [f"weight reckoned {basis}" if basis.startswith("from ") else basis] if basis else []
    return notes + (["the middle of the range"] if _is_range(span) else [])


def _is_range(span: Span) -> bool:
    return span[0] is not span[1] and span[0] != span[1]


def known_nutrients(food: Food) -> Amounts:
    """The food's figures per 100 g, with those that follow from what it is.

    No alcohol in what is not alcoholic; added sugars where they are plainly all or none.
    """
    return food.once(("nutrients",), lambda: _known_nutrients(food))


def _known_nutrients(food: Food) -> Amounts:
    known = dict(food.nutrients)
    if "alcohol" not in food.classes | food.unsure_classes:
        known.setdefault("alcohol_g", 0.0)
    added = added_sugars(food)
    if added is not None:
        known["added_sugars_g"] = added
    labelled = {key: value for key, value in known.items() if key in LABELLED}
    return Amounts(labelled, lambda: known)


def _none_whatever_it_weighs(food: Food) -> Amounts:
    """What a food surely has none of: a spoon of salt adds no carbohydrate, however large it is."""

    def none(of: Mapping[str, float]) -> dict[str, float]:
        return {key: 0.0 for key, value in of.items() if value == 0}

    known = known_nutrients(food)
    return food.once(("none",), lambda: Amounts(none(at_hand(known)), lambda: none(in_full(known))))


def _uncounted(worked: Worked) -> bool:
    """To taste, or with no amount at all: the cook decides, so nothing can be counted."""
    line = worked.row.line
    return line.amount is None or line.to_taste


def _uncounted_extras(worked: Worked) -> list[str]:
    remarks = worked.row.line.remarks
    notes = []
    if remarks and any(r.startswith("plus") for r in remarks):
        notes.append("what is extra is not counted")
    if worked.alternatives or len(worked.found.foods) > 1:
        notes.append("the figures are those of the first choice")
    elif worked.found.unknown and worked.found.foods:
        notes.append("the figures are those of the choice that is known")
    return notes


def _ends(nutrients: Amounts, span: Span) -> tuple[Amounts, Amounts] | None:
    if not _is_range(span):
        return None
    low, high = span
    middle = (low + high) / 2
    if not middle:
        return None
    return times(nutrients, float(low / middle)), times(nutrients, float(high / middle))


def _reference(worked: Worked, other: Dish, grams: float | None) -> Portion:
    row, line, inner = worked.row, worked.row.line, other.contents
    blank = Portion(
        row.index, line.text, other.recipe.title, "worked out on its own page", grams, None, {}, False
    )  # fmt: skip
    if grams is None or not inner.batch_grams:
        return replace(blank, note="its weight is not known", covered=0.0)
    eaten = grams * float(line.eaten)
    share = eaten / inner.batch_grams

    lacks: dict[str, float | None] = {}
    for key in NUTRIENTS:
        gap = inner.gap(key)
        if gap != 0:
            lacks[key] = None if gap is None else gap * share
    ends, span = inner.ends, worked.weighed.grams
    nutrients = times(inner.totals, share)
    own = _ends(nutrients, span) if span else None
    return replace(
        blank,
        eaten=eaten,
        nutrients=nutrients,
        known=not inner.unknown,
        lacks=lacks,
        covered=inner.covers,
        ends=own or ((times(ends[0], share), times(ends[1], share)) if ends else None),
    )
