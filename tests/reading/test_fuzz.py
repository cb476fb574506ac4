"""No text, however wild, may make a reader fall over: a line, a recipe, its fields.

``SITEGEN_FUZZ_LINES=1000000`` runs as many lines; ``SITEGEN_FUZZ_SEED`` gives other ones.
"""

from __future__ import annotations

import os
import random
from collections.abc import Iterator

from sitegen.problems import Problem
from sitegen.reading.lines import read_line
from sitegen.reading.read import read_recipe
from sitegen.reading.source import Place, Source
from sitegen.reading.spans import spot
from sitegen.site import Settings
from tests.reading.corpus import broken, rows

LINES = int(os.environ.get("SITEGEN_FUZZ_LINES", "20000"))
SEED = int(os.environ.get("SITEGEN_FUZZ_SEED", "20261125"))

FRAGMENTS = (
    "0 1 2 3 10 400 1500 1,000 1.5 1,5 .5 1/2 1⁄2 3/4 1/0 ½ ¾ 1½ ⅛ 00 a an half a|half an|a dozen|a couple of|"
    "one two three one and a half|– — - to or × x * ~ about approx. up to|g kg mg ml cl dl l tsp tbsp T t C c "
    "cup cups fl oz|oz lb pint stick tin tins can packet clove cloves pinch of|handful of|bunch sprig piece "
    "of the plus and + ( ) [ ] (( )) , ; : . / \\ % & each in all|total drained weight as weighed|large small "
    "medium-sized packed heaped|flour butter garlic eggs lemon cream 7-grain flakes|chicken, onion "
    "juice of|zest of|finely chopped|, sliced|, divided|to taste|to serve|for frying|plus extra for|optional "
    "(optional) (400 g)|(about 2 cups)|[green sauce](green.md)|[sauce]|](x.md)|5 cm piece|400 g tin|- * # ' \" "
    "\u00a0 \u2009 \u202f \t é 味噌 😀 \u200b \u0301 ² ① Ⅷ ٣ ͏ \ufffc"
)
WORDS = (*FRAGMENTS.split("|"), *FRAGMENTS.replace("|", " ").split(" "))
CORPUS = tuple(r.words for r in rows()) + tuple(b.words for b in broken())

RECIPE = """---
title: Barley broth
serves: 6
makes: 18 dumplings
weighs: 2.4 kg
time: {prep: 25 min, cook: 1 h 10 min}
tools: [5 l stockpot, "no. 40 scoop"]
ingredients:
  - Broth:
      - 200 g pearl barley
      - 3 leeks (about 450 g), finely sliced
      - line: 2 tbsp rapeseed oil, for frying
        as: oil
        eaten: 30%
  - Dumplings:
      - 150 g (1 1/4 cups) plain flour
      - 120 g [green sauce](../sauces/green-sauce.md)
---
An *introduction*.

## Method

### Broth

1. Melt [half the leeks] in the [oil] over a low heat for 12 to 15 minutes.
2. Add the [pearl barley]; simmer at 95 °C for 1 h 10 min, then add [the remaining leeks].

### Dumplings

3. Heat the oven to 200 °C fan. Mix [100 g flour] with [any words][green sauce] in a 23 cm tin.

## Keeping

Cool within 2 hours.
"""


def _unicode(rng: random.Random) -> str:
    while True:
        if rng.random() < 0.1:
            return rng.choice(
                "\u017f\u0131\u0130\u212a"
            )  # s, i and k to a pattern, but no such letters
        char = chr(
            rng.choice(
                (rng.randrange(32, 0x250), rng.randrange(0x2000, 0x2200), rng.randrange(0x11000))
            )
        )
        if not "\ud800" <= char <= "\udfff":
            return char


def _mutated(rng: random.Random, text: str, pieces: tuple[str, ...]) -> str:
    for _ in range(rng.randint(1, 4)):
        i = rng.randrange(len(text) + 1)
        j = min(len(text), i + rng.randrange(8))
        match rng.randrange(5):
            case 0:
                text = text[:i] + text[j:]
            case 1:
                text = text[:i] + rng.choice(pieces) + text[i:]
            case 2:
                text = text[:i] + _unicode(rng) + text[j:]
            case 3:
                text = text[:i] + text[i:j] * 2 + text[j:]
            case _:
                k = rng.randrange(len(text) + 1)
                text = text[:i] + text[k : k + 12] + text[j:]
    return text


def lines(count: int, seed: int) -> Iterator[str]:
    """Lines from fragments of the grammar, from mutated corpus lines, and from any characters."""
    rng = random.Random(seed)
    for _ in range(count):
        kind = rng.randrange(10)
        if kind < 5:
            joint = rng.choice((" ", " ", "", ", "))
            yield joint.join(rng.choices(WORDS, k=rng.randint(0, 14)))
        elif kind < 9:
            yield _mutated(rng, rng.choice(CORPUS), WORDS)
        else:
            yield "".join(_unicode(rng) for _ in range(rng.randrange(60)))


def check(text: str) -> None:
    """A line is read with nothing lost, or is one problem whose place lies in the line."""
    problems: list[Problem] = []
    line = read_line(text, Place(3, 5), "soup.md", problems)
    if line is None:
        assert len(problems) == 1, text
        (problem,) = problems
        assert problem.line == 3
        assert 5 <= problem.column <= 5 + len(text), (text, problem)
        assert problem.message, text
        assert problem.hint, (text, problem)
        return
    assert problems == []
    assert line.food, text
    assert line.text == " ".join(text.split()), text
    for measure in (line.amount, *line.measures):
        if measure is not None:
            for term in measure.terms:
                assert term.value >= 0, text
                assert term.upto is None or term.upto > term.value, text
    assert line.amount is None or all(t.value > 0 for t in line.amount.terms), text


def test_no_line_makes_the_reader_fall_over() -> None:
    for text in lines(LINES, SEED):
        try:
            check(text)
        except Exception as error:
            raise AssertionError(f"{text!r}: {error!r}") from error


def test_lines_of_one_thing_many_times_over() -> None:
    """What makes a pattern backtrack: long runs of the same piece, up to the longest line."""
    for piece in (
        *WORDS,
        "1 ",
        "1/",
        "1 1/",
        "½",
        "a ",
        "plus 1 tbsp ",
        "1 cup plus ",
        "or 1 ",
        "x 1 ",
    ):
        if piece:
            check(piece * (399 // len(piece)))
            check(f"1 {piece * (390 // len(piece))} egg")
            check(f"200 g ({piece * (380 // len(piece))}) egg")


def test_no_recipe_makes_the_reader_fall_over() -> None:
    rng = random.Random(SEED)
    pieces = (
        *WORDS,
        *(
            "---\n",
            "\n",
            "  ",
            "- ",
            ": ",
            "{",
            "}",
            "'",
            '"',
            "&a ",
            "*a",
            "!!python/object:x ",
            "|\n",
        ),
        *(
            "\t",
            "## Method\n",
            "### Broth\n",
            "1. ",
            "> ",
            "```\n",
            "<b>",
            "[",
            "]",
            "][",
            "\\[",
            "title: x\n",
        ),
        *(
            "? ",
            "<<: ",
            "ingredients:\n",
            "%YAML 1.1\n",
            "~",
            "null",
            "2026-13-40",
            "\x00",
            "\x85",
            "\u2028",
        ),
    )
    for _ in range(max(300, LINES // 100)):
        text = _mutated(rng, RECIPE, pieces)
        source = Source("content/recipes/soup.md", text)
        try:
            recipe, problems = read_recipe(source, Settings())
        except Exception as error:
            raise AssertionError(f"{text!r}: {error!r}") from error
        rows_of = text.split("\n")
        assert (recipe is None) == any(p.severity == "error" for p in problems), text
        for problem in problems:
            assert 1 <= problem.line <= len(rows_of) + 1, (text, problem)
            at_most = len(rows_of[problem.line - 1]) + 1 if problem.line <= len(rows_of) else 1
            assert 1 <= problem.column <= at_most, (text, problem)
        if recipe is not None:
            for step in recipe.steps:
                assert step.text is not None


def test_running_text_is_cut_without_overlap() -> None:
    rng = random.Random(SEED)
    pieces = tuple(
        "180 °C|°F|fan|gas mark 6|gas 4|20|12 to 15|minutes|mins|1 h 10 min|an hour|½|1/2|23 cm|x|×|9 inch|"
        "tin|–|to|or|(|)|,|.|core|oven|about|one|three-quarters of an hour|1,5|3.5|999999|0 min|-".split(
            "|"
        )
    )
    for _ in range(max(2000, LINES // 4)):
        text = rng.choice((" ", " ", "")).join(rng.choices(pieces, k=rng.randint(0, 12)))
        end = 0
        for spotted in spot(text, Place(1, 1)):
            assert end <= spotted.start < spotted.end <= len(text), text
            end = spotted.end
            assert text[spotted.start : spotted.end].startswith(spotted.what.text.strip()), text
