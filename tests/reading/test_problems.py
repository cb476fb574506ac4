"""What an author gets wrong in a file: each mistake is one problem, at its place, said usefully."""

from __future__ import annotations

import pytest

from sitegen.problems import Problem
from sitegen.reading.read import read_recipe
from sitegen.reading.recipe import Recipe
from sitegen.reading.source import Source
from sitegen.site import Author, Settings

GOOD = """\
---
title: Barley broth
serves: 6
published: 2026-10-04
updated: 2026-11-02
author: ines
tags: [barley, winter]
makes: 18 dumplings
weighs: 2.4 kg
time: {prep: 25 min, cook: 1 h 10 min}
photo: {file: broth.jpg, alt: A deep bowl}
ingredients:
  - 200 g pearl barley
  - 3 leeks (about 450 g), finely sliced
  - 150 g plain flour
  - 100 g rye flour
  - line: 2 tbsp rapeseed oil, for frying
    as: oil
    eaten: 30%
---
An introduction.

## Method

1. Melt [half the leeks] in the [oil] for 12 to 15 minutes.
2. Add the [pearl barley], [plain flour], [rye flour] and [the remaining leeks].
3. Bake at 200 °C fan for 20 minutes.

## Keeping

Cool within 2 hours.
"""

SETTINGS = Settings(authors={"ines": Author("ines", "Ines")})


def read(text: str) -> tuple[Recipe | None, list[Problem]]:
    return read_recipe(Source("content/recipes/soup.md", text), SETTINGS)


def changed(old: str, new: str) -> str:
    assert GOOD.count(old) >= 1, old
    return GOOD.replace(old, new, 1)


def test_a_good_recipe_has_no_problem() -> None:
    recipe, problems = read(GOOD)
    assert problems == []
    assert recipe is not None
    assert (recipe.title, recipe.serves, len(recipe.lines), len(recipe.steps)) == (
        "Barley broth",
        6,
        5,
        3,
    )


# what is changed, into what, the rule, line and column, and words that message or hint must hold
FIELDS = [
    ("serves: 6", "serve: 6", "unknown-field", 3, 1, "'serve'", "did you mean 'serves'?"),
    ("serves: 6", "serves: 6\nzzz: 1", "unknown-field", 4, 1, "'zzz'", "makes, weighs, volume"),
    ("title: Barley broth\n", "", "field-missing", 1, 1, "'title' is missing", "add 'title: …'"),
    ("title: Barley broth", "title:", "field-empty", 2, 7, "nothing stands", "fill it in"),
    ("title: Barley broth", "title: #1 broth", "field-empty", 2, 7, "nothing", "need quotes"),
    ("title: Barley broth", "title: [a, b]", "wrong-type", 2, 8, "a list", "on one line"),
    ("serves: 6", "serves: six", "wrong-type", 3, 9, "'six'", "serves: 6"),
    ("serves: 6", "serves: 0", "wrong-type", 3, 9, "'0'", "serves: 6"),
    ("serves: 6", "serves: 4 to 6", "wrong-type", 3, 9, "'4 to 6'", "serves: 6"),
    ("2026-10-04", "2026-02-30", "date", 4, 12, "no 2026-02-30 in the calendar", "the day"),
    ("2026-10-04", "4 October 2026", "date", 4, 12, "'4 October 2026'", "2026-10-04"),
    ("2026-11-02", "2026-01-02", "date-order", 5, 10, "before published", "two dates"),
    ("serves: 6", "serves: 6\ntitle: Again", "duplicate-key", 4, 1, "line 2", "keep one"),
    ("    as: oil", "    as: oil\n    as: fat", "duplicate-key", 19, 5, "line 18", "keep one"),
    ("author: ines", "author: bob", "author-unknown", 6, 9, "'bob'", "ines"),
    ("makes: 18 dumplings", "makes: dumplings", "count", 8, 8, "'dumplings'", "18 dumplings"),
    ("makes: 18 dumplings", "makes: 18", "count", 8, 8, "'18'", "what it counts"),
    ("makes: 18 dumplings", "makes: twelve or so", "count", 8, 8, "or so", "about 12"),
    ("makes: 18 dumplings", "makes: 12 to 14 buns", "count", 8, 8, "12 to 14", "one number"),
    ("makes: 18 dumplings", "makes: 12–14 buns", "count", 8, 8, "12–14", "one number"),
    ("weighs: 2.4 kg", "weighs: a lot", "amount-unreadable", 9, 9, "'a lot'", "2.4 kg"),
    ("weighs: 2.4 kg", "weighs: 2.4", "amount-unreadable", 9, 9, "'2.4'", "a unit"),
    ("weighs: 2.4 kg", "weighs: 2.4 l", "wrong-type", 9, 9, "no weight", "2.4 kg"),
    ("weighs: 2.4 kg", "weighs: 2.4 kg\nvolume: 2 kg", "wrong-type", 10, 9, "no volume", "2.4 l"),
    ("weighs: 2.4 kg", "weighs: 0 kg", "amount-zero", 9, 9, "nothing", "weight"),
    ("[barley, winter]", "barley", "wrong-type", 7, 7, "a list is expected", "[barley, winter]"),
    ("[barley, winter]", "[barley, [x]]", "wrong-type", 7, 16, "item 2", "on one line"),
    ("cook: 1 h 10 min", "cook: a while", "time", 10, 28, "'a while'", "1 h 10 min"),
    ("cook: 1 h", "cooking: 1 h", "unknown-field", 10, 22, "'cooking'", "did you mean 'cook'?"),
    ("{prep: 25 min, cook: 1 h 10 min}", "25 min", "wrong-type", 10, 7, "fields", "prep: 25 min"),
    ("{file: broth.jpg, alt: A deep bowl}", "b.jpg", "wrong-type", 11, 8, "fields", "alt: what"),
    (", alt: A deep bowl", "", "field-missing", 11, 1, "'alt' of 'photo'", "add 'alt: …'"),
    ("bowl}", "bowl, focus: middle}", "focus", 11, 51, "'middle'", "50% 40%"),
    ("alt: A", "altt: A", "unknown-field", 11, 26, "'altt'", "did you mean 'alt'?"),
    ("eaten: 30%", "eaten: a third", "eaten", 19, 12, "'a third'", "eaten: 30%"),
    ("eaten: 30%", "eaten: 130%", "eaten", 19, 12, "'130%'", "eaten: 30%"),
    ("    as: oil", "    named: oil", "unknown-field", 18, 5, "'named'", "line, as, food"),
    ("    as: oil", "    as: [oil]", "wrong-type", 18, 9, "'as'", "write it out"),
    ("    as: oil", "    as: oil\n    swap: 2 T fat", "unit-ambiguous", 19, 13, "'T'", "tbsp"),
    ("line: 2 tbsp rapeseed oil", "food: oil", "line-missing", 17, 5, "no 'line'", "line: …"),
]

YAML = [
    ("  - 200 g", "\t- 200 g", "tab", 13, 1, "a tab", "two spaces"),
    ("serves: 6\n", "time:\n\tprep: 5 min\n", "tab", 4, 1, "a tab", "two spaces"),
    ("  - 3 leeks", " - 3 leeks", "indent", 14, 2, "indented differently", "same number"),
    ("  - 3 leeks", "    - 3 leeks", "indent", 14, 5, "the line above", "same number"),
    ("serves: 6", "- serves: 6", "indent", 3, 1, "indented", "same number"),
    ("serves: 6", "serves 6", "yaml-key", 3, 1, "neither", "a colon and a space"),
    ("Barley broth", "Barley: a broth", "yaml-colon", 2, 14, "': '", "in quotes"),
    ("Barley broth", '"Barley broth', "yaml-quote", 2, 8, "not closed", "close it"),
    ("Barley broth", "*Barley broth", "yaml-alias", 2, 8, "'*'", "in quotes"),
    ("Barley broth", "&Barley broth", "yaml-alias", 2, 8, "'&'", "in quotes"),
    ("Barley broth", "!Barley broth", "yaml-alias", 2, 8, "'!'", "in quotes"),
    ("Barley broth", "@Barley broth", "yaml-character", 2, 8, "keeps for itself", "in quotes"),
    ("Barley broth", "%Barley broth", "yaml-character", 2, 8, "keeps for itself", "in quotes"),
    ("Barley broth", "`Barley broth`", "yaml-character", 2, 8, "keeps for itself", "in quotes"),
    ("winter]", "winter", "yaml-brackets", 7, 7, "'['", "close it"),
    ("- 200 g pearl barley", "- [sauce](a.md)", "yaml-brackets", 13, 12, "'['", "in quotes"),
    ("Barley broth", "Barley\x07broth", "control-character", 2, 14, "invisible", "delete"),
    ("pearl barley", "pearl barley: wet", "part-lines", 13, 5, "': '", "in quotes"),
    ("- 200 g pearl", "- - 200 g pearl", "line-shape", 13, 5, "a list", "quote"),
    ("  - 200 g pearl barley", "  -\n  - 200 g pearl barley", "line-empty", 13, 4, "empty", "'-'"),
    (
        "  - 200 g pearl barley",
        "  - Broth:\n  - 200 g pearl barley",
        "part-empty",
        13,
        5,
        "",
        "two",
    ),
    ("  - 200 g", "  - Oats:\n      - 1 g oats\n  - 200 g", "part-mixed", 15, 5, "part", "first"),
]

FILE = [
    (GOOD, "", "file-empty", 1, 1, "empty", "title: …"),
    (GOOD, "  \n\n", "file-empty", 1, 1, "empty", "title: …"),
    ("---\ntitle", "\n---\ntitle", "fence", 1, 1, "empty lines", "begin the file"),
    ("---\ntitle", "title", "fence", 1, 1, "does not begin", "'---'"),
    ("---\nAn", "An", "fence", 22, 1, "never closed", "after the last field"),
    ("---\nAn", "---\ntitle: x\n---\nAn", "second-document", 21, 1, "more fields", "move them"),
    ("## Method", "## Way", "method-missing", 32, 1, "## Method", "numbered list"),
    ("## Method", "## Mehtod", "method-missing", 32, 1, "## Method", "if '## Mehtod' is meant"),
    ("1. Melt", "Melt", "method-empty", 23, 1, "no numbered steps", "'1. '"),
    ("## Keeping", "## Method\n\n1. Eat.", "method-twice", 29, 1, "twice", "one of them"),
    ("An introduction", "# Broth\n\nHello", "heading-one", 21, 1, "'#'", "use '##'"),
]

METHOD = [
    ("the [oil]", "the [oli]", "mention-unknown", 25, 33, "'oli'", "did you mean 'oil'?"),
    ("the [oil]", "the [nutmeg]", "mention-unknown", 25, 33, "'nutmeg'", r"\["),
    ("[pearl barley]", "[flour]", "mention-ambiguous", 26, 12, "2 ingred", "[plain flour], [rye"),
    ("[pearl barley]", "[2 T pearl barley]", "unit-ambiguous", 26, 12, "'T'", "tbsp or tsp"),
    ("200 °C", "2000 °C", "oven-out-of-range", 27, 12, "2000 °C", "digit too many"),
    ("200 °C", "20 °C", "oven-out-of-range", 27, 12, "20 °C", "digit"),
    ("200 °C fan", "gas mark 12", "oven-out-of-range", 27, 12, "gas mark 12", "¼ to 10"),
    ("200 °C", "900 °F", "oven-out-of-range", 27, 12, "900 °F", "wrong scale"),
]


@pytest.mark.parametrize(
    ("old", "new", "rule", "line", "column", "message", "hint"),
    [*FIELDS, *YAML, *FILE, *METHOD],
    ids=lambda value: value[:30] if isinstance(value, str) else None,
)
def test_one_mistake_is_one_problem_at_its_place(
    old: str, new: str, rule: str, line: int, column: int, message: str, hint: str
) -> None:
    text = changed(old, new)
    if rule == "method-empty":
        text = text.replace("\n2. Add", " Add").replace("\n3. Bake", " Bake")
    recipe, problems = read(text)
    assert recipe is None, "what is half understood is not shown"
    assert [p.rule for p in problems] == [rule]
    (problem,) = problems
    assert (problem.line, problem.column) == (line, column)
    assert message in problem.message
    assert hint in problem.hint
    assert problem.severity == "error"
    assert problem.file == "content/recipes/soup.md"


@pytest.mark.parametrize(
    ("changes", "rules"),
    [
        ({"serves: 6": "serve: 6", "2026-10-04": "2026-13-01"}, ["unknown-field", "date"]),
        (
            {"200 g pearl": "2 T pearl", "150 g plain": "3–2 g plain"},
            ["unit-ambiguous", "range-backwards"],
        ),
        ({"author: ines": "author: bob", "[oil]": "[oli]"}, ["author-unknown", "mention-unknown"]),
        ({"eaten: 30%": "eaten: x", "200 °C": "2000 °C"}, ["eaten", "oven-out-of-range"]),
        ({"tags: [": "tag: [", "200 g pearl": "200 g (7 oz pearl"}, ["unknown-field", "bracket"]),
    ],
)
def test_two_mistakes_are_two_problems(changes: dict[str, str], rules: list[str]) -> None:
    text = GOOD
    for old, new in changes.items():
        assert old in text
        text = text.replace(old, new, 1)
    recipe, problems = read(text)
    assert recipe is None
    assert sorted(p.rule for p in problems) == sorted(rules)


def test_a_caret_stands_under_the_place_in_a_quoted_line_too() -> None:
    _, problems = read(changed("- 200 g pearl barley", '- "200 g (7 oz pearl barley"'))
    assert [(p.rule, p.line, p.column) for p in problems] == [("bracket", 13, 12)]


def test_a_tab_between_field_and_value_does_no_harm() -> None:
    recipe, problems = read(changed("serves: 6", "serves:\t6"))
    assert problems == []
    assert recipe is not None
    assert recipe.serves == 6
