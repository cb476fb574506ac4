"""Figures with a letter in them are found where they stand; what only looks like one is left alone."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sitegen.problems import Problem
from sitegen.reading.misread import misread
from sitegen.reading.read import read_recipe
from sitegen.reading.source import Source
from sitegen.site import Settings

DEMO = Path(__file__).parents[2] / "content" / "recipes"


@pytest.mark.parametrize(
    ("text", "written", "meant"),
    [
        ("Bake at 19O °C fan", "19O", "190 °C"),
        ("Bake at 19O°C fan", "19O", "190 °C"),
        ("Bake at 19O C fan", "19O", "190 C"),
        ("Bake at l80 °C", "l80", "180 °C"),
        ("Bake at I80 °C", "I80", "180 °C"),
        ("Bake at 1SO °C", "1SO", "150 °C"),
        ("Bake at 1B0 °C", "1B0", "180 °C"),
        ("Bake at 35O degrees F", "35O", "350 degrees"),
        ("Bake at lOO °C", "lOO", "100 °C"),
        ("for 2O minutes", "2O", "20 minutes"),
        ("for 2O-minute turns", "2O", "20 minute"),
        ("for 1O to 12 minutes", "1O", "10"),
        ("for 10 to l2 minutes", "l2", "12 minutes"),
        ("for 10–l2 minutes", "l2", "12 minutes"),
        ("for 10-l2 minutes", "l2", "12 minutes"),
        ("for 2o minutes", "2o", "20 minutes"),
        ("for 2Omin", "2O", "20 min"),
        ("for l hour", None, None),  # "l" in running text may be litres
        ("for 1 h lO min", "lO", "10 min"),
        ("  - 1OO g flour", "1OO", "100 g"),
        ("  - 1OOg flour", "1OO", "100 g"),
        ("  - 2O0 g flour", "2O0", "200 g"),
        ("  - 25O ml milk", "25O", "250 ml"),
        ("  - 1Ol water", "1O", "10 l"),
        ("  - O.5 l milk", "O.5", "0.5 l"),
        ("  - 0.S kg flour", None, None),
        ("  - 1.O5 kg flour", "1.O5", "1.05 kg"),
        ("  - l/2 tsp salt", "l/2", "1/2 tsp"),
        ("  - I/2 lemon", "I/2", "1/2"),
        ("  - 1 l/2 cups milk", "l/2", "1/2 cups"),
        ("  - l cup milk", "l", "1 cup"),
        ("  - l 1/2 cups milk", "l", "1"),
        ("  - I cup milk", "I", "1 cup"),
        ("  - 200 g (l cup) milk", "l", "1 cup"),
        ("  - line: l tbsp oil", "l", "1 tbsp"),
        ("  - l2 eggs", "l2", "12"),
        ("  - 1O eggs", "1O", "10"),
        ("  - 7O % chocolate", "7O", "70 %"),
        ("  - 2l g sugar", "2l", "21 g"),
        ("a 2O cm round tin", "2O", "20 cm"),
        ("makes: 1O rolls", "1O", "10"),
        ("gas mark l", "l", "gas mark 1"),
        ("180oC", "180oC", "180 °C"),
        ("180 oC", "180 oC", "180 °C"),
        ("180 *C", "180 *C", "180 °C"),
        ("180OC", "180OC", "180 °C"),
        ("18OC", "18O", "180 C"),
        ("96oC", "96oC", "96 °C"),
        ("at 1 80 °C fan", "1 80 °C", "180 °C"),
        ("for 20 minuts", "minuts", "minutes"),
        ("for 20 mintues, until", "mintues", "minutes"),
        ("for 2 huors", "huors", "hours"),
        ("for 30 secnds", "secnds", "seconds"),
    ],
)
def test_what_cannot_be_read_is_found_with_what_is_meant(
    text: str, written: str | None, meant: str | None
) -> None:
    found = misread(text)
    assert [text[one.start : one.end] for one in found] == ([written] if written else [])
    assert [one.hint for one in found] == ([f"did you mean '{meant}'?"] if written else [])


@pytest.mark.parametrize(
    "text",
    [
        "2 l water, 2l water, 1.5 l stock, 1.5l stock, 10l stockpot, a 2l, cold",
        "a 2l jar, a 2l pan and a 5l bowl; 2l or 3l",
        "I like it. (I cup my hands round the bowl.) I, 2 and 3. So do I 2 minutes later.",
        "- I cup my hands over it",
        "50 g 00 flour, tipo 00, type 550, W260, B12, vitamin B6 (0.5 mg), omega-3, E300, 7-up",
        "O blood, OK, S-hook, L-shaped, A4 and B5 paper, 2B pencil, 3D, 4S, S5, Z2",
        "8oz, 5oz flour, 10 Oz, 2Oz, 2onions, 3B eggs, 12S tray",
        "H2O, CO2, 1st, 2nd, 3rd, 4th, 2x, 1o de maio",
        "l/100 km, ml/l, g/l, kcal/100 g, 1/2 l, 1½ l cream, 1/2 lemon, 3 l 200 g",
        "see recipes/l2.html, photo: {file: img-1O0.jpg}, [x](1O0.png), #1O0, https://x.example/l2/?a=1O",
        "180 °C, 180°C, 180 C, 180C, 350F, 160–180 °C, 180/160 °C fan, gas 4 180 °C, gas mark 4",
        "the gas is low, gas line, gas I use",
        "step 1 60 °C, gas 3 70 °C, 1 180 °C",
        "20 minutes, 20 min, 20 mins., 5-minute, 2 hour rest, 30 second, 2 houses, 12 medium, 3 mussels",
        "4 shallots, 4 minced cloves, 6 scones, 2 hens, 3 mints, 2 servings, 3 heads, 5 heaped, 2 small",
        "| °C | °F |\n| 180 | 350 |",
    ],
)
def test_what_only_looks_like_it_is_left_alone(text: str) -> None:
    assert misread(text) == []


def recipe_of(step: str, line: str = "200 g flour") -> list[Problem]:
    text = (
        f"---\ntitle: Loaf\nserves: 4\nsummary: A loaf.\ntime: {{cook: 20 min}}\ningredients:\n  - {line}\n"
        f"---\n\n## Method\n\n1. {step}\n"
    )
    return read_recipe(Source("content/recipes/loaf.md", text), Settings())[1]


def test_it_is_said_on_its_line_and_column_and_once() -> None:
    (one,) = recipe_of("Stir the [flour] at 19O °C for a while.")
    assert (one.rule, one.severity, one.line, one.column, one.length) == (
        "figure-letter", "error", 12, 24, 3
    )  # fmt: skip
    (two,) = recipe_of("Stir the [flour].", "1OO g flour")
    assert (two.rule, two.line, two.column, two.length) == ("figure-letter", 7, 5, 3)
    assert two.hint == "did you mean '100 g'?"
    three = recipe_of("Stir the [1OO g flour] for 2O minuts.", "1OO g flour")
    assert [(p.line, p.column) for p in three] == [(7, 5), (12, 14), (12, 31)]


def test_what_else_is_wrong_on_the_line_is_still_said() -> None:
    problems = recipe_of("Stir the [flour] and the [nettles] for 2O minutes.")
    assert {(p.rule, p.column) for p in problems} == {
        ("mention-unknown", 29),
        ("figure-letter", 43),
    }


def test_a_heading_and_a_comment_are_left_alone() -> None:
    assert recipe_of("Stir the [flour].\n\n## 1O g of kindness") == []


@pytest.mark.parametrize("file", sorted(DEMO.rglob("*.md")), ids=lambda f: f.stem)
def test_nothing_of_the_demo_is_misread(file: Path) -> None:
    assert misread(file.read_text(encoding="utf-8")) == []


@pytest.mark.parametrize("file", sorted(DEMO.rglob("*.md"))[:12], ids=lambda f: f.stem)
def test_any_nought_or_one_of_the_demo_that_is_typed_as_a_letter_is_found(file: Path) -> None:
    """Every temperature and time of the demo's recipes with a letter for a digit, one by one."""
    import re

    text = file.read_text(encoding="utf-8")
    tried = 0
    for figure in re.finditer(r"\d{2,3}(?= (?:°C|minutes|g\b|ml\b|cm\b))", text):
        for digit, letter in (("0", "O"), ("1", "l")):
            at = figure[0].find(digit)
            if at < 0:
                continue
            typed = figure[0][:at] + letter + figure[0][at + 1 :]
            found = misread(text[: figure.start()] + typed + text[figure.end() :])
            assert [(one.start, one.end) for one in found] == [figure.span()], typed
            tried += 1
    assert tried


@given(st.text(alphabet="0123456789OolISBZ°CFg m-/.,(:*'^ \nasinut", max_size=60))
@settings(max_examples=300, deadline=None)
def test_any_text_is_taken(text: str) -> None:
    for one in misread(text):
        assert 0 <= one.start < one.end <= len(text)
        assert one.message
        assert one.hint
