"""The title, the summary or a tag makes a claim that an ingredient breaks: "vegan", and there is honey.

Take the claim away, or the ingredient. Claims are those of diets (vegan, vegetarian) and of absence
(gluten-free, nut-free, without alcohol); "a vegan version" or "not quite vegan" are none. What a page
itself claims rests on its ingredients alone and is never taken from these words.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import lru_cache
from typing import NamedTuple

from sitegen.dish import LedgerRow
from sitegen.larder.food import Food
from sitegen.nutrition.allergens import DIETS
from sitegen.nutrition.laws import LAWS
from sitegen.readthrough.rule import Finding, Reading

_NUTS = frozenset(key for key, (name, _) in LAWS["uk"].names.items() if name == "nuts")


class _Claim(NamedTuple):
    name: str
    holds: tuple[str, ...]
    """One of these stands in whatever the words match."""
    words: re.Pattern[str]
    classes: frozenset[str]
    allergens: frozenset[str]


def _free(*foods: str) -> str:
    names = "|".join(foods)
    return (
        rf"(?:{names})s?[- ]?(?:free|less)|(?:free (?:from|of)|without|no) (?:any )?(?:{names})s?"
    )


def _claim(
    name: str,
    holds: str,
    words: str,
    classes: frozenset[str] | set[str],
    allergens: frozenset[str] | set[str],
) -> _Claim:
    whole = re.compile(
        rf"(?<![\w-])(?<!with )(?<!with a )(?<!use )(?<!using )(?P<claim>{words})(?![\w])(?!-?(?:ish|able))"
        r"(?! (?:options?|versions?|variations?|alternatives?|cheese|yogh?urt|butter|spread|mayo|ham|or)\b)",
        re.IGNORECASE,
    )
    return _Claim(name, tuple(holds.split()), whole, frozenset(classes), frozenset(allergens))


_CLAIMS = (
    _claim("vegan", "vegan plant", r"vegan|plant[- ]based", *DIETS["vegan"]),
    _claim("vegetarian", "vegetarian veggie meat", r"vegetarian|veggie|meat[- ]?free|meatless",
           *DIETS["vegetarian"]),
    _claim(
        "gluten-free", "gluten coeliac", _free("gluten") + r"|coeliac[- ](?:safe|friendly)",
        *DIETS["gluten-free ingredients"],
    ),
    _claim("wheat-free", "wheat", _free("wheat"), set(), {"wheat"}),
    _claim("dairy-free", "dairy milk", _free("dairy", "milk"), *DIETS["dairy-free ingredients"]),
    _claim("egg-free", "egg", _free("egg"), {"egg"}, {"eggs"}),
    _claim("nut-free", "nut", _free("nut"), set(), _NUTS | {"peanuts"}),
    _claim("peanut-free", "peanut", _free("peanut"), set(), {"peanuts"}),
    _claim("soya-free", "soy", _free("soya", "soy"), set(), {"soya"}),
    _claim("sesame-free", "sesame", _free("sesame"), set(), {"sesame"}),
    _claim(
        "alcohol-free", "alcohol mocktail proof",
        _free("alcohol") + r"|non[- ]?alcoholic|mocktails?|zero[- ]proof",
        {"alcohol"}, set(),
    ),
)  # fmt: skip
_HINTS = (
    *"free vega veget veggie plant meat without less mocktail alcohol coeliac proof".split(),
    "no ",
)
_NOT_SAID = re.compile(
    r"\b(?:not|isn't|nearly|almost|hardly|half|can be|could be|make (?:it|them|this)|swap|if|instead"
    r"|like|for (?:a|your) (?:vegan|vegetarian))\b"
)


def check(reading: Reading) -> Iterator[Finding]:
    """Claims of the fields against the ingredients."""
    recipe = reading.recipe
    texts = (recipe.title, recipe.summary, recipe.course, *recipe.tags)
    low = "\n".join(texts).lower()
    if not any(map(low.__contains__, _HINTS)):
        return
    told: set[str] = set()
    for field, text in zip(
        ("title", "summary", "course", *["tags"] * len(recipe.tags)), texts, strict=True
    ):
        for claim, words in _claims_in(text):
            if claim.name in told:
                continue
            breaks = _breaks(reading, claim)
            if not breaks:
                continue
            told.add(claim.name)
            yield reading.about_field(
                field,
                f"'{words}' is said in the {field}, and it is not so: {breaks}",
                f"take '{words}' away, or change the ingredient; an alternative ('or …') counts, "
                "since the cook may take it",
            )


@lru_cache(maxsize=2048)  # tags and courses recur from recipe to recipe
def _claims_in(text: str) -> tuple[tuple[_Claim, str], ...]:
    """The claims that a text makes, each with its words."""
    low = text.lower()
    if not any(map(low.__contains__, _HINTS)) or _NOT_SAID.search(low):
        return ()
    found = []
    for claim in _CLAIMS:
        if any(word in low for word in claim.holds):
            match = claim.words.search(text)
            if match:
                found.append((claim, match["claim"]))
    return tuple(found)


def _breaks(reading: Reading, claim: _Claim) -> str:
    """The first ingredient that makes the claim untrue; empty if none surely does."""
    contents = reading.dish.contents
    for key in sorted(claim.allergens & contents.contains.keys()):
        foods = contents.contains[key]
        return f"{foods[0]} holds {key}"
    if claim.classes.isdisjoint(contents.classes):
        return ""
    for row, food in zip(reading.rows, reading.foods, strict=True):
        if food is not None and not claim.classes.isdisjoint(_classes(food, claim)):
            return _named(row)
    through = claim.classes & contents.classes
    if through and any(row.reference for row in reading.rows):
        return f"another recipe in it brings {', '.join(sorted(through))}"
    return ""


def _classes(food: Food, claim: _Claim) -> frozenset[str]:
    # a teaspoon of vanilla is a flavouring to who drinks no alcohol
    if claim.name == "alcohol-free" and ("extract" in food.name or "vinegar" in food.name):
        return frozenset()
    return food.classes


def _named(row: LedgerRow) -> str:
    return f"there is {row.line.called or row.line.food} in it"
