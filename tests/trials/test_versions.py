"""What was changed between two versions, and the two side by side."""

from __future__ import annotations

from dataclasses import replace

import pytest

from sitegen.dish import Dish
from sitegen.larder.larder import Larder
from sitegen.reading.recipe import Recipe
from sitegen.site import Settings
from sitegen.trials.again import Kitchen, cook_again, read_again, recipes_used
from sitegen.trials.changes import changes
from sitegen.trials.compare import Comparison, Row, Side, compare

FILE = "content/recipes/loaf.md"
LOAF = """\
---
title: A white loaf
author: someone who has left
serves: 10
makes: 1 loaf
weighs: 800 g
time: {prep: 20 min, cook: 40 min, rest: 2 h}
tools: [900 g loaf tin]
ingredients:
  - 500 g strong white bread flour, plus extra for dusting
  - 350 ml water, lukewarm
  - 7 g fast-action dried yeast
  - 10 g fine salt
---
Bread.

## Method

1. Mix the [flour], [water], [yeast] and [salt]. Knead for 10 minutes and leave for 1 h, until doubled.
2. Shape it, put it in the tin and leave for 45 minutes, until doubled. Heat the oven to 200 °C fan.
3. Bake for 35 to 40 minutes, until it sounds hollow.
"""


@pytest.fixture(scope="module")
def kitchen() -> Kitchen:
    return Kitchen(Settings(), Larder.load(), {})


def loaf(*changed: tuple[str, str]) -> str:
    text = LOAF
    for old, new in changed:
        assert old in text
        text = text.replace(old, new, 1)
    return text


def recipe(text: str) -> Recipe:
    found, problems = read_again(FILE, text, Settings())
    assert found is not None, problems
    return found


def dish(text: str, kitchen: Kitchen, **used: str) -> Dish:
    found, problems = cook_again(FILE, text, used, kitchen)
    assert found is not None, problems
    return found


def said(*changed: tuple[str, str]) -> list[tuple[str, str]]:
    return [(c.kind, c.words()) for c in changes(recipe(LOAF), recipe(loaf(*changed)))]


def test_a_recipe_is_as_itself() -> None:
    assert said() == []


def test_what_a_cook_would_not_notice_is_no_change() -> None:
    assert said(("title: A white loaf", "title: White loaf"), ("Bread.", "Good bread.")) == []


CHANGES = [
    (("350 ml water", "375 ml water"), [("amount", "water: 350 ml → 375 ml")]),
    (("serves: 10", "serves: 12"), [("yield", "serves: 10 → 12")]),
    (("cook: 40 min", "cook: 35 min"), [("time", "cook: 40 min → 35 min")]),
    (("200 °C fan", "220 °C fan"), [("temperature", "step 2: 200 °C fan → 220 °C fan")]),
    (("35 to 40 minutes", "30 minutes"), [("time", "step 3: 35 to 40 minutes → 30 minutes")]),
    (("lukewarm", "cold"), [("ingredient", "water: water, lukewarm → water, cold")]),
    (("[900 g loaf tin]", "[900 g loaf tin, peel]"), [("tool", "peel: new: in use")]),
    (
        ("sounds hollow", "sounds quite hollow"),
        [("method", "step 3: “… it sounds hollow.” → “… it sounds quite hollow.”")],
    ),
    (
        ("Knead for 10 minutes and", "Knead for 8 minutes and"),
        [("time", "step 1: 10 minutes → 8 minutes")],
    ),
]


@pytest.mark.parametrize(("changed", "expected"), CHANGES, ids=[c[0][1] for c in CHANGES])
def test_one_change_is_named_as_one(
    changed: tuple[str, str], expected: list[tuple[str, str]]
) -> None:
    assert said(changed) == expected


def test_lines_that_come_and_go() -> None:
    salted = said(("  - 10 g fine salt\n", "  - 10 g fine salt\n  - 20 g butter, soft\n"),
                  ("[yeast] and [salt]", "[yeast], [salt] and [butter]"))  # fmt: skip
    assert ("ingredient", "butter: new: 20 g butter, soft") in salted
    other = said(("strong white bread flour", "strong wholemeal bread flour"))
    assert [kind for kind, _ in other] == ["ingredient"], "another flour is still the flour"
    fewer = changes(
        recipe(LOAF), recipe(loaf(("3. Bake for 35 to 40 minutes, until it sounds hollow.\n", "")))
    )
    assert [(c.kind, c.what, c.after) for c in fewer] == [("method", "step 3", "")]


def test_a_new_step_does_not_make_the_others_new() -> None:
    added = said(("3. Bake", "3. Dust the top with flour.\n4. Bake"))
    assert added == [("method", "step 3: new: Dust the top with flour.")]


@pytest.fixture(scope="module")
def wetter(kitchen: Kitchen) -> Comparison:
    later = loaf(("350 ml water", "375 ml water"), ("weighs: 800 g", "weighs: 810 g"))
    return compare(Side("1", dish(LOAF, kitchen)), Side("2", dish(later, kitchen)))


def row(rows: tuple[Row, ...], what: str) -> Row:
    [found] = [r for r in rows if r.what == what]
    return found


def test_ratios_are_per_cent_of_the_flour(wetter: Comparison) -> None:
    """Baker's per cent: each weight over the flour's, flour being 100 (common practice)."""
    assert wetter.base == "flour"
    assert row(wetter.ratios, "strong white bread flour").b == 100
    water = row(wetter.ratios, "water")
    assert water.a == pytest.approx(350 / 500 * 100, rel=0.003), "a litre of water weighs 1 kg"
    assert water.b == pytest.approx(375 / 500 * 100, rel=0.003)
    assert water.change == "+5.0 pts"
    assert row(wetter.ratios, "fine salt").a == 2


def test_amounts_and_yields(wetter: Comparison) -> None:
    water = row(wetter.amounts, "water")
    assert (water.before, water.after, water.change) == ("350 ml", "375 ml", "+7 %")
    assert row(wetter.amounts, "fine salt").change == ""
    assert row(wetter.yields, "comes out, weighed").b == 810
    lost = row(wetter.yields, "lost in cooking")
    assert lost.a == pytest.approx((1 - 800 / 867) * 100, abs=0.2)
    assert row(wetter.yields, "a portion").a == 80


def test_nutrition_is_of_a_portion(wetter: Comparison) -> None:
    label = wetter.a.dish.label
    salt = row(wetter.nutrition, "Salt")
    assert salt.a == next(f.value for f in label.per_serving if f.key == "salt_g")
    assert salt.a == pytest.approx(10 / 10, rel=0.05), (
        "10 g of salt among 10, and a trace in the flour"
    )


def test_without_much_flour_the_heaviest_is_the_whole(kitchen: Kitchen) -> None:
    stew = loaf(("500 g strong white bread flour, plus extra for dusting", "20 g plain flour"))
    found = compare(Side("1", dish(stew, kitchen)), Side("2", dish(stew, kitchen)))
    assert found.base == "water"
    assert row(found.ratios, "water").a == 100


def test_what_is_on_one_side_only_stands_with_a_dash(kitchen: Kitchen) -> None:
    sweet = loaf(("  - 10 g fine salt\n", "  - 10 g fine salt\n  - 15 g honey\n"),
                 ("[yeast] and [salt]", "[yeast], [salt] and [honey]"))  # fmt: skip
    found = compare(Side("1", dish(LOAF, kitchen)), Side("2", dish(sweet, kitchen)))
    honey = row(found.amounts, "honey")
    assert (honey.before, honey.after, honey.change) == ("–", "15 g", "")


SAUCE = "content/recipes/sauce.md"
WITH_SAUCE = """\
---
title: Pasta
serves: 2
ingredients:
  - 200 g dried pasta
  - 200 g [sauce](sauce.md)
---
## Method

1. Boil the [pasta] for 10 minutes, until tender, and stir in the [sauce].
"""


def sauce(oil: int) -> str:
    return f"""\
---
title: Sauce
serves: 2
weighs: 200 g
ingredients:
  - 300 g tomatoes
  - {oil} g olive oil
---
## Method

1. Simmer the [tomatoes] and the [olive oil] for 20 minutes, until thick.
"""


def test_a_recipe_that_was_used_is_worked_out_as_it_stood(kitchen: Kitchen) -> None:
    texts = {FILE: WITH_SAUCE, SAUCE: sauce(40), "content/recipes/other.md": LOAF}
    assert recipes_used(FILE, texts, Settings()) == {SAUCE: sauce(40)}
    now, _ = cook_again(SAUCE, sauce(10), {}, kitchen)
    assert now is not None
    today = replace(kitchen, dishes={"sauce": now})
    rich = dish(WITH_SAUCE, today, **{SAUCE: sauce(40)})
    lean = dish(WITH_SAUCE, today)
    fat = [d.label.per_serving_values["fat_g"] for d in (rich, lean)]
    assert fat[0] - fat[1] == pytest.approx(15, rel=0.02), "30 g less oil between two"


def test_a_record_that_can_no_longer_be_read_says_so(kitchen: Kitchen) -> None:
    found, problems = cook_again(FILE, "no fields", {}, kitchen)
    assert found is None
    assert problems
