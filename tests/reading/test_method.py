"""The method: what brackets name and how much of it, and nothing of the author's text lost."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sitegen.problems import Problem
from sitegen.reading.read import read_recipe
from sitegen.reading.recipe import Length, Mention, Recipe, Step, Temperature, TimeSpan
from sitegen.reading.source import Place, Source
from sitegen.reading.spans import spot
from sitegen.site import Settings

LIST = """\
  - Broth:
      - 600 ml vegetable stock
      - 3 leeks, sliced
      - 60 g (4 tbsp) butter
      - 4 eggs
      - 1 tsp fine salt
  - Dumplings:
      - 150 g plain flour
      - 30 g butter, melted
      - 1/2 tsp fine salt
      - 2 tbsp olive oil
      - line: 1 tbsp rapeseed oil
        as: frying oil
      - juice of 1 lemon
      - 50 g 00 flour
"""


def recipe_of(method: str, listed: str = LIST) -> tuple[Recipe | None, list[Problem]]:
    text = f"---\ntitle: Broth\nserves: 4\ningredients:\n{listed}---\n\n## Method\n\n{method}\n"
    return read_recipe(Source("content/recipes/broth.md", text), Settings())


def good(method: str) -> Recipe:
    recipe, problems = recipe_of(method)
    assert problems == []
    assert recipe is not None
    return recipe


def mentions(method: str) -> list[Mention]:
    return [p for s in good(method).steps for p in s.pieces if isinstance(p, Mention)]


def foods(method: str) -> list[str]:
    recipe = good(method)
    named = [p for s in recipe.steps for p in s.pieces if isinstance(p, Mention)]
    return [recipe.lines[m.line].text for m in named]


@pytest.mark.parametrize(
    ("words", "share"),
    [
        ("stock", 1),
        ("the stock", 1),
        ("all the stock", 1),
        ("all of the stock", 1),
        ("half the stock", Fraction(1, 2)),
        ("half of the stock", Fraction(1, 2)),
        ("Half the stock", Fraction(1, 2)),
        ("a third of the stock", Fraction(1, 3)),
        ("one third of the stock", Fraction(1, 3)),
        ("two thirds of the stock", Fraction(2, 3)),
        ("two-thirds of the stock", Fraction(2, 3)),
        ("a quarter of the stock", Fraction(1, 4)),
        ("three quarters of the stock", Fraction(3, 4)),
        ("three-quarters of the stock", Fraction(3, 4)),
        ("a fifth of the stock", Fraction(1, 5)),
        ("a tenth of the stock", Fraction(1, 10)),
    ],
)
def test_shares(words: str, share: int | Fraction) -> None:
    (mention,) = mentions(f"1. Add [{words}].")
    assert (mention.words, mention.share, mention.again) == (words, share, False)


@pytest.mark.parametrize(
    "words",
    [
        "the remaining stock",
        "remaining stock",
        "the rest of the stock",
        "the remainder of the stock",
    ],
)
def test_what_remains_is_what_was_not_taken(words: str) -> None:
    first, second, rest = mentions(f"1. Add [half the stock], [a third of the stock], [{words}].")
    assert (first.share, second.share) == (Fraction(1, 2), Fraction(1, 3))
    assert (rest.share, rest.again) == (Fraction(1, 6), False)


def test_what_remains_after_an_amount() -> None:
    taken, rest = mentions("1. Add [450 ml stock].\n2. Add [the remaining stock].")
    assert taken.measure is not None
    assert taken.measure.terms[0].value == 450
    assert rest.share == Fraction(1, 4)


def test_what_remains_after_an_amount_of_the_line_s_other_measure() -> None:
    _, rest = mentions("### Broth\n\n1. Melt [1 tbsp butter].\n2. Add [the remaining butter].")
    assert rest.share == Fraction(3, 4)


def test_what_remains_after_a_count() -> None:
    taken, rest = mentions("1. Beat [3 eggs].\n2. Add [the remaining egg].")
    assert taken.measure is not None
    assert rest.share == Fraction(1, 4)


def test_half_of_a_measure_is_an_amount_and_no_share() -> None:
    salt, egg = mentions("### Broth\n\n1. Add [half a teaspoon of fine salt] and [half an egg].")
    assert salt.measure is not None
    assert egg.measure is not None
    assert (salt.measure.terms[0].value, salt.measure.unit) == (Fraction(1, 2), "tsp")
    assert (egg.measure.terms[0].value, egg.measure.unit) == (Fraction(1, 2), "")
    assert (salt.share, egg.share) == (None, None)


def test_what_remains_of_an_unknown_share_shows_no_amount() -> None:
    some, rest = mentions("1. Add [some of the stock].\n2. Add [the remaining stock].")
    assert (some.share, some.again) == (None, True)
    assert rest.share is None


@pytest.mark.parametrize(
    ("words", "share"),
    [
        ("Melt half the [butter].", Fraction(1, 2)),
        ("Melt half of the [butter].", Fraction(1, 2)),
        ("Melt two-thirds of the [butter].", Fraction(2, 3)),
        ("Pour a quarter of the [stock] in.", Fraction(1, 4)),
        ("Melt the [butter].", 1),
        ("In the first half hour melt the [butter].", 1),
    ],
)
def test_a_share_before_the_bracket_is_a_share(words: str, share: int | Fraction) -> None:
    assert [m.share for m in mentions(f"1. {words}")] == [share]


def test_the_rest_before_the_bracket_is_the_rest() -> None:
    first, second = mentions("1. Pour in half the [stock]. Simmer. Add the remaining [stock].")
    assert (first.share, second.share, second.rest) == (Fraction(1, 2), Fraction(1, 2), True)


EXTRA = "  - 225 g butter, plus extra for greasing\n  - 200 g flour, plus extra for dusting\n"


@pytest.mark.parametrize(
    "words",
    [
        "[Grease][butter] the tin.",
        "[Butter] the basin well.",
        "Grease the tin with [butter].",
        "Brush two trays with a little [butter].",
    ],
)
def test_what_greases_the_tin_is_none_of_the_amount(words: str) -> None:
    recipe, _ = recipe_of(f"1. {words}\n2. Cream the [butter]. Fold in the [flour].", EXTRA)
    assert recipe is not None
    named = [p for s in recipe.steps for p in s.pieces if isinstance(p, Mention) and p.line == 0]
    assert [(m.share, m.again) for m in named] == [(None, True), (1, False)]


@pytest.mark.parametrize("words", ["Cream the [butter].", "Fry the onions with the [butter]."])
def test_what_goes_into_the_dish_is_all_of_it(words: str) -> None:
    recipe, _ = recipe_of(f"1. {words}\n2. Fold in the [flour].", EXTRA)
    assert recipe is not None
    named = [p for s in recipe.steps for p in s.pieces if isinstance(p, Mention)]
    assert named[0].share == 1


def test_a_bracket_behind_a_food_is_no_part_of_its_name() -> None:
    listed = (
        "  - Block:\n      - 280 g unsalted butter (84% fat if you find it), cold\n"
        "  - Filling:\n      - 100 g unsalted butter, soft\n"
    )
    recipe, problems = recipe_of(
        "### Block\n\n1. Beat the [butter block][unsalted butter] flat.\n\n### Filling\n\n"
        "2. Cream the [butter].",
        listed,
    )
    assert recipe is not None
    assert not problems
    named = [p.line for s in recipe.steps for p in s.pieces if isinstance(p, Mention)]
    assert named == [0, 1]


def test_a_second_naming_shows_no_amount_again() -> None:
    first, second = mentions("1. Soften the [leeks].\n2. Stir the [leeks].")
    assert (first.share, first.again) == (1, False)
    assert (second.share, second.again) == (None, True)


def test_any_words_may_name_an_ingredient() -> None:
    (mention,) = mentions("1. Sift [the white stuff][plain flour] over it.")
    assert mention.words == "the white stuff"
    assert good("1. Sift [the white stuff][plain flour].").lines[mention.line].food == "plain flour"


def test_any_words_may_hold_the_share() -> None:
    (mention,) = mentions("1. Pour [half of it][stock] in.")
    assert (mention.words, mention.share) == ("half of it", Fraction(1, 2))


@pytest.mark.parametrize(
    ("part", "line"),
    [
        ("Broth", "60 g (4 tbsp) butter"),
        ("Dumplings", "30 g butter, melted"),
        ("broth", "60 g (4 tbsp) butter"),
    ],
)
def test_a_food_of_two_parts_is_the_one_of_the_step_s_part(part: str, line: str) -> None:
    assert foods(f"### {part}\n\n1. Take the [butter].") == [line]


@pytest.mark.parametrize(
    ("name", "line"),
    [
        ("leek", "3 leeks, sliced"),
        ("Leeks", "3 leeks, sliced"),
        ("sliced leeks", "3 leeks, sliced"),
        ("vegetable stock", "600 ml vegetable stock"),
        ("frying oil", "1 tbsp rapeseed oil"),
        ("rapeseed oil", "1 tbsp rapeseed oil"),
        ("lemon juice", "juice of 1 lemon"),
        ("lemon", "juice of 1 lemon"),
        ("00 flour", "50 g 00 flour"),
        ("melted butter", "30 g butter, melted"),
        ("the egg", "4 eggs"),
        ("2 eggs", "4 eggs"),
        ("2 of the eggs", "4 eggs"),
        ("a pinch of fine salt", "1/2 tsp fine salt"),
    ],
)
def test_names(name: str, line: str) -> None:
    assert foods(f"### Dumplings\n\n1. Take [{name}].") == [line]


@pytest.mark.parametrize("name", ["oil", "flour"])
def test_a_name_that_fits_two_foods_is_not_guessed(name: str) -> None:
    _, problems = recipe_of(f"### Dumplings\n\n1. Take the [{name}].")
    assert [p.rule for p in problems] == ["mention-ambiguous"]


def test_plain_brackets_links_and_markup() -> None:
    recipe = good(
        r"1. Beat \[well\] the *soft* [**leeks**], see [how](how.md) and <b>stop</b> & `eat`."
    )
    (step,) = recipe.steps
    html = "".join(p for p in step.pieces if isinstance(p, str))
    assert "[well]" in html
    assert "<em>soft</em>" in html
    assert '<a href="how.md">how</a>' in html
    assert "&lt;b&gt;stop&lt;/b&gt; &amp; <code>eat</code>" in html
    assert step.text == "Beat [well] the soft leeks, see how and <b>stop</b> & eat."


def test_parts_steps_and_what_stands_before_them() -> None:
    recipe = good(
        "Read it *all* first.\n\n### Broth\n\nHave a [pan] ready.\n\n1. One.\n2. Two.\n\n"
        "   With more.\n\n### Dumplings\n\n3. Three.\n"
    )
    assert [part.name for part in recipe.method] == ["", "Broth", "Dumplings"]
    assert recipe.method[0].lead == "<p>Read it <em>all</em> first.</p>"
    assert recipe.method[1].lead == "<p>Have a pan ready.</p>"
    assert [step.number for step in recipe.steps] == [1, 2, 3]
    assert [step.text for step in recipe.steps] == ["One.", "Two. With more.", "Three."]


@pytest.mark.parametrize(
    ("method", "line"),
    [
        ("1. One.\n- Add the [flour].\n3. Three.", 1),
        ("- Add the [flour].\n\n1. One.", 0),
        ("1. One.\n\nServe at once.\n\n2. Two.", 2),
    ],
)
def test_text_among_the_steps_is_never_moved_without_a_word(method: str, line: int) -> None:
    recipe, problems = recipe_of(method)
    assert recipe is None
    (first,) = [p.line for p in recipe_of("1. [nothing of the list]")[1]]
    assert [(p.rule, p.line - first) for p in problems] == [("step-unnumbered", line)]


def pieces(text: str, kind: type) -> list[tuple[object, ...]]:
    found = [s.what for s in spot(text, Place(1, 1)) if isinstance(s.what, kind)]
    if kind is TimeSpan:
        return [(w.seconds, w.upto) for w in found if isinstance(w, TimeSpan)]
    if kind is Temperature:
        return [
            (w.value, w.unit, w.use, w.air, w.upto) for w in found if isinstance(w, Temperature)
        ]
    return [(*w.sides, w.unit) for w in found if isinstance(w, Length)]


@pytest.mark.parametrize(
    ("text", "first", "last"),
    [
        ("for 40 minutes", 2400, None),
        ("for 1 minute", 60, None),
        ("for 12 to 15 minutes", 720, 900),
        ("for 12–15 minutes", 720, 900),
        ("for 12-15 mins", 720, 900),
        ("for 12 or 15 min", 720, 900),
        ("for 1 h 10 min", 4200, None),
        ("for 1 hour 10 minutes", 4200, None),
        ("for 1 hour and 10 minutes", 4200, None),
        ("for 1½ hours", 5400, None),
        ("for 1 ½ hours", 5400, None),
        ("for 1 1/2 hours", 5400, None),
        ("for 1.5 hours", 5400, None),
        ("for 1,5 hours", 5400, None),
        ("for ½ hour", 1800, None),
        ("for half an hour", 1800, None),
        ("for an hour", 3600, None),
        ("for an hour and a half", 5400, None),
        ("for a quarter of an hour", 900, None),
        ("for three quarters of an hour", 2700, None),
        ("for another 5 minutes", 300, None),
        ("for five minutes", 300, None),
        ("for two to three hours", 7200, 10800),
        ("for 1 to 1½ hours", 3600, 5400),
        ("for 30 seconds", 30, None),
        ("for 45 secs", 45, None),
        ("a 20-minute rest", 1200, None),
        ("for 2 days", 172800, None),
        ("for 5 minutes 30 seconds", 330, None),
        ("for 1 min 30 s", 90, None),
        ("for 50 minutes to 1 hour", 3000, 3600),
        ("for 45 min–1 h", 2700, 3600),
        ("for 1 h to 1 h 15 min", 3600, 4500),
    ],
)
def test_times(text: str, first: int, last: int | None) -> None:
    assert pieces(text, TimeSpan) == [(first, last)]


@pytest.mark.parametrize(
    "text", ["in 3 days' time", "2 hearts", "3 handfuls", "5 hops", "0 minutes"]
)
def test_no_times(text: str) -> None:
    assert pieces(text, TimeSpan) == []


@pytest.mark.parametrize(
    ("text", "heat"),
    [
        ("Bake at 200 °C.", (200, "C", "oven", "", None)),
        ("Bake at 200°C.", (200, "C", "oven", "", None)),
        ("Bake at 200 C.", (200, "C", "oven", "", None)),
        ("Bake at 200 degrees C.", (200, "C", "oven", "", None)),
        ("Bake at 200 degrees Celsius.", (200, "C", "oven", "", None)),
        ("Heat the oven to 200 °C fan.", (200, "C", "oven", "fan", None)),
        ("Heat the oven to 200 °C (fan).", (200, "C", "oven", "fan", None)),
        ("Heat the oven to 200 °C, fan.", (200, "C", "oven", "fan", None)),
        ("Heat the oven to fan 200 °C.", (200, "C", "oven", "fan", None)),
        ("Heat the oven to 220 °C conventional.", (220, "C", "oven", "conventional", None)),
        ("Heat the oven to 220 °C without a fan.", (220, "C", "oven", "conventional", None)),
        ("Preheat the oven to 425 °F.", (425, "F", "oven", "", None)),
        ("Preheat the oven to 400 °F convection.", (400, "F", "oven", "fan", None)),
        ("Preheat to gas mark 6.", (6, "gas", "oven", "", None)),
        ("Preheat to gas 6.", (6, "gas", "oven", "", None)),
        ("Preheat to gas mark ½.", (Fraction(1, 2), "gas", "oven", "", None)),
        ("until it reads 74 °C in the middle", (74, "C", "core", "", None)),
        ("until the middle reaches 165 °F", (165, "F", "core", "", None)),
        ("Warm the milk to 35–40 °C.", (35, "C", "core", "", 40)),
        ("Heat the oil to 180 °C.", (180, "C", "core", "", None)),
        ("Boil the syrup to 118 °C.", (118, "C", "core", "", None)),
        ("Dry at 80 °C fan.", (80, "C", "oven", "fan", None)),
        ("Bake at 160°C fan-forced.", (160, "C", "oven", "fan", None)),
        ("Bake at 180ºC.", (180, "C", "oven", "", None)),
        ("Bake at 180c Fan.", (180, "C", "oven", "fan", None)),
        ("Heat the oven to Gas Mark 3.", (3, "gas", "oven", "", None)),
    ],
)
def test_heats(text: str, heat: tuple[object, ...]) -> None:
    assert pieces(text, Temperature) == [heat]


@pytest.mark.parametrize(
    ("text", "length"),
    [
        ("a 23 cm round tin", (23, "cm")),
        ("a 23cm round tin", (23, "cm")),
        ("a 23-cm tin", (23, "cm")),
        ("cut into 5 mm slices", (5, "mm")),
        ("a 9-inch tin", (9, "in")),
        ("a 9 in round tin", (9, "in")),
        ("½ inch thick", (Fraction(1, 2), "in")),
        ("1 1/2 inches thick", (Fraction(3, 2), "in")),
        ("a 20 x 30 cm tin", (20, 30, "cm")),
        ("a 20 × 30 cm tin", (20, 30, "cm")),
        ("a 20 cm × 30 cm tin", (20, 30, "cm")),
        ("a 9 x 13-inch pan", (9, 13, "in")),
        ("2.5 cm dice", (Fraction(5, 2), "cm")),
        ("2,5 cm dice", (Fraction(5, 2), "cm")),
        ("1½ cm dice", (Fraction(3, 2), "cm")),
    ],
)
def test_lengths(text: str, length: tuple[object, ...]) -> None:
    assert pieces(text, Length) == [length]


def test_one_oven_said_in_several_ways_is_one_setting() -> None:
    recipe = good("1. Heat the oven to 200 °C fan (220 °C conventional, gas 7). Wait.")
    heats = [p for p in recipe.steps[0].pieces if isinstance(p, Temperature)]
    assert [(h.text, h.air) for h in heats] == [("200 °C fan (220 °C conventional, gas 7)", "fan")]


@pytest.mark.parametrize(
    ("forms", "value", "unit", "air"),
    [
        ("180C/160C fan/gas 4", 180, "C", "conventional"),
        ("200C/fan 180C/gas 6", 200, "C", "conventional"),
        ("200°C (180°C fan)", 200, "C", "conventional"),
        ("Gas 6, 200ºC, fan 180ºC", 6, "gas", ""),
        ("350°F/180°C", 350, "F", ""),
    ],
)
def test_the_forms_of_a_setting_stay_together(forms: str, value: int, unit: str, air: str) -> None:
    recipe = good(f"1. Heat the oven to {forms}. Wait.")
    heats = [p for p in recipe.steps[0].pieces if isinstance(p, Temperature)]
    assert [(h.text, h.value, h.unit, h.air) for h in heats] == [(forms, value, unit, air)]


def test_each_form_of_a_setting_is_looked_at() -> None:
    _, problems = recipe_of("1. Heat the oven to 180C/160C fan/gas 14. Wait.")
    assert [p.rule for p in problems] == ["oven-out-of-range"]


def shown(step: Step) -> str:
    """The step as its pieces show it, markup taken off."""
    from sitegen.kitchen.words import strip_tags

    def words(piece: object) -> str:
        if isinstance(piece, str):
            return strip_tags(piece)
        return piece.words if isinstance(piece, Mention) else piece.text  # type: ignore[attr-defined]

    return " ".join("".join(map(words, step.pieces)).split())


_BITS = st.sampled_from(
    "Stir|the|[leeks]|[half the stock]|[the rest][stock]|for|12 to 15 minutes|at|200 °C fan|a 23 cm tin|"
    "and|2 < 3|& salt|“so”|then.|1 h 10 min|(about|gas 4)|– it’s|½ tsp|é|100 %|74 °C|x|C|fan|10|to|°".split(
        "|"
    )
)


@settings(max_examples=300, deadline=None)
@given(st.lists(_BITS, min_size=1, max_size=14))
def test_nothing_of_the_text_is_lost(bits: list[str]) -> None:
    text = " ".join(["Go:", *bits])
    recipe, problems = recipe_of(f"1. {text}")
    problems = [p for p in problems if p.rule != "oven-out-of-range"]
    assert problems == []
    if recipe is None:
        return
    plain = text.replace("[the rest][stock]", "the rest").replace("[", "").replace("]", "")
    (step,) = recipe.steps
    assert step.text == plain
    assert shown(step) == plain
