"""The ingredients list: parts, plain lines, and lines with more to say; the fields of the head."""

from __future__ import annotations

from datetime import date
from fractions import Fraction

from sitegen.reading.read import read_recipe
from sitegen.reading.recipe import Amount, Recipe
from sitegen.reading.source import Place, Source
from sitegen.site import Author, Settings

HEAD = """\
---
title: "Soup: the second day"
serves: 4
summary: yes
published: 2026-10-04
author: ines
tags: [no, 12:30, "on"]
makes: about 1½ loaves
weighs: 1 lb
volume: 1.2 l
time: {prep: 25 min, cook: 1 h 10 min, rest: half an hour}
tools: [5 l pot]
photo: {file: a.jpg, alt: "A bowl: full", focus: 40% 60%}
may contain: [nuts]
ingredients:
  - 1 l water
  - '2 leeks, "sliced"'
  - Broth:
      - 200 g barley   # a comment of the author's
      - line: 2 tbsp rapeseed oil, for frying
        as: oil
        food: rapeseed oil
        eaten: 30%
        swap: 30 g butter
        note: any oil will do
  - Dumplings:
      - 100 g
        plain flour
---

## Method

1. Go.
"""


def recipe() -> Recipe:
    settings = Settings(authors={"ines": Author("ines", "Ines")})
    found, problems = read_recipe(Source("content/recipes/Soup two.md", HEAD), settings)
    assert problems == []
    assert found is not None
    return found


def test_parts_and_lines() -> None:
    parts = recipe().parts
    assert [part.name for part in parts] == ["", "Broth", "Dumplings"]
    assert [[line.food for line in part.lines] for part in parts] == [
        ["water", "leeks"],
        ["barley", "rapeseed oil"],
        ["plain flour"],
    ]
    assert parts[1].place == Place(18, 5)
    assert [line.place for line in recipe().lines] == [
        Place(16, 5),
        Place(17, 6),  # within the quotes, where the words are
        Place(19, 9),
        Place(20, 15),
        Place(27, 9),
    ]
    assert parts[0].lines[1].text == '2 leeks, "sliced"'


def test_a_line_with_more_to_say() -> None:
    line = recipe().lines[3]
    assert (line.called, line.pinned, line.eaten) == ("oil", "rapeseed oil", Fraction(3, 10))
    assert (line.note, line.remarks) == ("any oil will do", ("for frying",))
    assert line.swap is not None
    assert (line.swap.food, line.swap.place) == ("butter", Place(24, 15))


def test_fields_are_the_author_s_text_until_they_say_what_they_are() -> None:
    found = recipe()
    assert (found.title, found.summary, found.slug) == ("Soup: the second day", "yes", "soup-two")
    assert found.tags == ("no", "12:30", "on")
    assert found.published == date(2026, 10, 4)
    assert found.makes is not None
    assert (found.makes.number, found.makes.noun) == (Fraction(3, 2), "loaves")
    assert (found.weighs, found.volume) == (Amount(Fraction(1), "lb"), Amount(Fraction(6, 5), "l"))
    assert (found.times.prep, found.times.cook, found.times.rest) == (25, 70, 30)
    assert found.times.total == 125
    assert found.photo is not None
    assert (found.photo.alt, found.photo.focus) == ("A bowl: full", (40, 60))
    assert found.may_contain == ("nuts",)
