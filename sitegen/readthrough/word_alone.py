"""A course, cuisine or tag that one recipe alone has is nearly one that several have.

Most often it is a slip of the pen (``mian``) or a plural (``soups`` beside ``soup``). Write it as the
others do; if it is meant, silence this with a reason.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from sitegen.dish import Dish
from sitegen.reading.phrases import singular
from sitegen.reading.recipe import Recipe
from sitegen.readthrough.rule import Finding, about_field_of

_FEWEST = 3
"""Recipes that a word must have before another is taken for a slip of it."""
_LONG = 7
"""Letters of a word in which a wrong one is more likely a slip than another word (*pear*, *peas*)."""

_FIELDS = ("course", "cuisine", "tags")


def check(dishes: Sequence[Dish]) -> Iterator[tuple[Dish, Finding]]:
    """Words of one recipe that are nearly those of several."""
    for field in _FIELDS:
        having: dict[str, list[Dish]] = {}
        for dish in dishes:
            for word in {one.casefold() for one in _words(dish.recipe, field)}:
                having.setdefault(word, []).append(dish)
        common = [word for word, some in having.items() if len(some) >= _FEWEST]
        for word, some in having.items():
            near = _nearest(word, common) if len(some) == 1 else ""
            if near:
                kind = "tag" if field == "tags" else field
                yield (
                    some[0],
                    about_field_of(
                        some[0].recipe,
                        field,
                        f"no other recipe has the {kind} '{word}', and "
                        f"{len(having[near])} have '{near}'",
                        f"did you mean '{near}'?",
                    ),
                )


def _words(recipe: Recipe, field: str) -> Sequence[str]:
    if field == "tags":
        return recipe.tags
    word = recipe.course if field == "course" else recipe.cuisine
    return (word,) if word else ()


def _nearest(word: str, common: Sequence[str]) -> str:
    return next((other for other in common if word != other and is_slip(word, other)), "")


def is_slip(word: str, other: str) -> bool:
    """Whether a word is most likely another, written with one slip or in the other number.

    A slip is a letter left out, put in or changed with its neighbour; in a long word also a wrong one.

    >>> is_slip("mian", "main"), is_slip("soups", "soup"), is_slip("pear", "peas")
    (True, True, False)
    """
    if word[:1] != other[:1] or min(len(word), len(other)) < 3:
        return False
    if singular(word) == singular(other):
        return True
    if len(word) == len(other):
        wrong = [n for n, (a, b) in enumerate(zip(word, other, strict=True)) if a != b]
        if len(wrong) == 1:
            return len(word) >= _LONG
        first, last = wrong[0], wrong[-1]
        swapped = word[first] + word[last] == other[last] + other[first]
        return len(wrong) == 2 and last == first + 1 and swapped
    short, long = sorted((word, other), key=len)
    return len(short) >= 4 and any(long[:n] + long[n + 1 :] == short for n in range(len(long)))
