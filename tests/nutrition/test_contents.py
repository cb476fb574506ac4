"""The sums themselves: merging, gaps and coverage."""

from __future__ import annotations

from functools import reduce

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sitegen.nutrition.contents import Contents, Portion, merge
from tests.nutrition.cook import cook

KEYS = st.sampled_from(["milk", "eggs", "wheat", "fish"])
NAMES = st.sampled_from(["butter", "bread", "cod", "sauce"])
WORDS = st.frozensets(st.sampled_from(["dairy", "egg", "gluten", "meat"]), max_size=3)
BROUGHT = st.dictionaries(KEYS, st.tuples(NAMES), max_size=3)
GRAMS = st.integers(0, 500).map(float)
NUTRIENTS = st.dictionaries(st.sampled_from(["energy_kcal", "fat_g", "fibre_g"]), GRAMS)
PORTIONS = st.builds(
    Portion, st.just(0), st.just("x"), st.just("x"), st.just("s"), GRAMS, GRAMS, NUTRIENTS, st.just(True)
)  # fmt: skip
CONTENTS = st.builds(
    lambda **parts: merge(Contents(), Contents(**parts)),  # what a sum of lines can look like
    portions=st.lists(PORTIONS, max_size=3).map(tuple),
    contains=BROUGHT,
    swapped=BROUGHT,
    may_contain=BROUGHT,
    classes=WORDS,
    unsure_classes=WORDS,
    unknown=st.lists(NAMES, max_size=2).map(tuple),
    varies=st.lists(NAMES, max_size=2).map(tuple),
)


@given(CONTENTS, CONTENTS, CONTENTS)
def test_merging_is_associative_and_nothing_changes_nothing(
    a: Contents, b: Contents, c: Contents
) -> None:
    assert merge(merge(a, b), c) == merge(a, merge(b, c))
    assert merge(a, Contents()) == a == merge(Contents(), a)


@given(st.lists(CONTENTS, max_size=4))
def test_sums_add_up_and_no_fact_is_lost(parts: list[Contents]) -> None:
    whole = reduce(merge, parts, Contents())
    for key in ("energy_kcal", "fat_g", "fibre_g"):
        assert whole.totals.get(key, 0) == sum(p.totals.get(key, 0) for p in parts)
    for part in parts:
        assert part.contains.keys() <= whole.contains.keys()
        assert part.may_contain.keys() <= whole.may_contain.keys() | whole.contains.keys()
        assert part.swapped.keys() <= whole.swapped.keys() | whole.contains.keys()
        assert part.classes | part.unsure_classes <= whole.classes | whole.unsure_classes
        assert set(part.unknown) <= set(whole.unknown)


@given(st.integers(1, 40), st.sampled_from([1, 2, 5, 8]))
def test_a_scaled_batch_has_the_same_label_per_serving(times: int, serves: int) -> None:
    def made(n: int) -> list[str]:
        dish = cook(
            [f"{n * 120} g plain flour", f"{n * 50} g butter", f"{n} eggs"], serves=n * serves
        )
        return [figure.printed for figure in (*dish.label.per_serving, *dish.label.per_100g)]

    assert made(times) == made(1)


def portion(eaten: float | None, nutrients: dict[str, float], **more: object) -> Portion:
    return Portion(0, "x", "x", "s", eaten, eaten, nutrients, True, **more)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("part", "key", "most"),
    [
        (portion(50, {"fibre_g": 3.0}), "fibre_g", 0),  # known: nothing can be missing
        (portion(0, {}), "fibre_g", 0),  # nothing is eaten of it
        (portion(50, {}), "fibre_g", 50),  # no more than the food itself
        (portion(50, {"carbohydrate_g": 8.0}), "fibre_g", 8),  # a part, than its whole
        (portion(50, {"carbohydrate_g": 8.0, "sugars_g": 6.0}), "fibre_g", 2),  # and its other part
        (portion(50, {"fat_g": 5.0, "polyunsaturated_g": 4.0}), "saturated_g", 1),
        (portion(50, {}), "energy_kcal", 450),  # fat: 9 kcal per g
        (portion(10, {}), "sodium_mg", 3934),  # salt
        (portion(10, {}), "iron_mg", None),  # nothing tells
        (portion(None, {}), "fibre_g", None),  # no weight, no bound
        (portion(50, {"fibre_g": 3.0}, lacks={"fibre_g": 2.0}), "fibre_g", 2),
        (portion(50, {"fibre_g": 3.0}, lacks={"fibre_g": None}), "fibre_g", None),
        # a whole that is itself only a lower bound does not bound its part
        (portion(50, {"carbohydrate_g": 8.0}, lacks={"carbohydrate_g": 9.0}), "fibre_g", 50),
    ],
)
def test_the_most_that_can_be_missing(part: Portion, key: str, most: float | None) -> None:
    assert part.gap(key) == most
    other = portion(100, {key: 1.0})
    assert Contents(portions=(other, part)).gap(key) == most
    assert Contents(portions=(other, part)).incomplete(key) is (most != 0)


def test_coverage_counts_weight_and_goes_down_with_what_is_not_known_within() -> None:
    half = portion(50, {}, covered=0.0), portion(50, {"energy_kcal": 10.0})
    assert Contents(portions=half).covers == 0.5
    inner = portion(100, {"energy_kcal": 10.0}, covered=0.5)
    assert Contents(portions=(inner, portion(100, {"energy_kcal": 1.0}))).covers == 0.75
    assert Contents().covers == 0
