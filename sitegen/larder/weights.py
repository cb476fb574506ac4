"""SR28's free-text household measures ("cup, chopped or sliced") parted into unit and state.

What is dropped: label servings and packets whose size says nothing to a cook ("NLEA serving",
"can (15 oz)"), weights given as weights ("oz", "lb"), and yields of a butcher's cut that depend
on another weight. What is kept is never changed in its grams.
"""

import re
from collections.abc import Iterable
from fractions import Fraction
from typing import Final

_DROPPED: Final = re.compile(
    r"nlea|serving|\byields? from|refuse|package|container|\bjar\b|bottle|\bcan\b|cubic|prepared"
    r"|portion|\bnfs\b|ns as to|\blb\b|\bpr g\b|label|from 19|(?<!fl )\boz\b|\bwith liquid\b"
    r"|pizza|sandwich|entree|\bbag\b|\bpouch|\bbox\b|condensed|\(\d[\d/ -]*(cup|tbsp)",
    re.IGNORECASE,
)
_VOLUME: Final = {
    "cup": "cup",
    "cups": "cup",
    "tbsp": "tbsp",
    "tablespoon": "tbsp",
    "tablespoons": "tbsp",
    "tsp": "tsp",
    "teaspoon": "tsp",
    "teaspoons": "tsp",
    "fl oz": "fl_oz",
    "pint": "pint",
    "quart": "quart",
    "ml": "ml",
    "milliliter": "ml",
    "liter": "l",
}
_VOLUME_START: Final = re.compile(
    r"(cups?|tbsp|tablespoons?|tsp|teaspoons?|fl oz|pint|quart|ml|milliliter|liter)\b[ ,]*"
)
_SIZES: Final = ("extra large", "large", "medium", "small", "jumbo")
_SIZE: Final = re.compile(r"\b(extra large|large|medium|small|jumbo)\b")
_ITSELF: Final = frozenset({"fruit", "item", "each", "unit", "regular"})
#: How SR28 writes a state, and how a recipe does.
_STATES: Final = {
    "slices": "sliced",
    "cubes": "cubed",
    "cube": "cubed",
    "balls": "balls",
    "halves": "halved",
    "half": "halved",
    "pureed": "puréed",
    "puree": "puréed",
    "chopped or dice": "chopped or diced",
    "whole pieces": "whole",
    "whole kernels": "whole",
    "crumbs": "crumbs",
    "not packed": "unpacked",
    "loosely packed": "unpacked",
    "without pits": "pitted",
    "cut": "chopped",
    "quarters or chopped": "chopped",
    "strips": "strips",
    "unsifted dipped": "unsifted",
}
_SINGULAR: Final = {
    "leaves": "leaf",
    "halves": "half",
    "radishes": "radish",
    "potatoes": "potato",
    "sweetpotato": "sweet potato",
    "tomatoes": "tomato",
    "cherries": "cherry",
    "strawberries": "strawberry",
    "raspberries": "raspberry",
    "blueberries": "blueberry",
    "peaches": "peach",
    "filet": "fillet",
    "floweret": "floret",
    "flowerets": "floret",
    "anchovies": "anchovy",
}
_COUNTED_WORDS: Final = 3  # a longer unit is a remark, not a unit


def fraction(text: str) -> Fraction:
    """``"1.50"`` and ``"1/2"`` alike."""
    return Fraction(text)


def parse(description: str, own_words: Iterable[str] = ()) -> list[tuple[str, str]]:
    """The (unit, state) pairs that one SR28 measure stands for; empty if it is dropped.

    `own_words` are the words of the food's own name: "pepper" of a pepper is the item itself
    and becomes the unit "".

    >>> parse("cup, chopped or sliced")
    [('cup', 'chopped'), ('cup', 'sliced')]
    >>> parse('medium (2-1/2" dia)')
    [('medium', '')]
    >>> parse("slice, large (1/4\\" thick)")
    [('slice', 'large')]
    """
    text = description.lower().strip()
    if not text or _DROPPED.search(text):
        return []
    text = _without_remarks(text)
    volume = _VOLUME_START.match(text)
    if volume:
        unit = _VOLUME[volume.group(1)]
        return [(unit, state) for state in _states(text[volume.end() :])]
    return _count(text, {singular(word) for word in own_words})


def _without_remarks(text: str) -> str:
    """Drop brackets, but keep what says how the cup was filled ("(1" pieces)", "(not packed)")."""

    def kept(match: re.Match[str]) -> str:
        for word in ("not packed", "packed", "pieces", "cubes", "slices", "sifted"):
            if word in match.group(0):
                return ", " + word
        return ""

    text = re.sub(r"\([^)]*(\)|$)", kept, text)
    text = re.sub(r"\b\d[\d/.-]*\s*(\"|in\b\.?|inch\b)\s*(dia\.?|long|thick|slices)?", " ", text)
    return re.sub(r"\s+", " ", text.replace(" ,", ",")).strip(" ,.")


def _states(text: str) -> list[str]:
    text = re.sub(r"[^a-zé, ]", " ", text)
    text = re.sub(r"\s+", " ", text).strip(" ,")
    text = text.removeprefix("of ")
    text = _STATES.get(text.replace(",", ""), text)
    if not text:
        return [""]
    states = []
    for part in re.split(r",? or |, ", text):
        state = part.strip()
        states.append(_STATES.get(state, state))
    if " or " not in text:  # "whole, without pits" is one state, not two
        return [" ".join(dict.fromkeys(states))]
    return list(dict.fromkeys(states))


def singular(word: str) -> str:
    """The singular of a count word: "cloves" is "clove"."""
    if word in _SINGULAR:
        return _SINGULAR[word]
    if len(word) > 3 and word.endswith("s") and not word.endswith(("ss", "us", "is")):
        return word[:-1]
    return word


def _count(text: str, own: set[str]) -> list[tuple[str, str]]:
    size = _SIZE.search(text)
    rest = _SIZE.sub(" ", text) if size else text
    rest = re.sub(r"[^a-zé,/ -]", " ", rest)
    parts = [" ".join(part.split()).strip(" -/") for part in rest.split(",")]
    parts = [part for part in parts if part and part not in ("whole", "approx", "or")]
    if parts and parts[0].endswith(" whole"):
        parts[0] = parts[0].removesuffix(" whole")
    found = size.group(1) if size else ""
    if not parts:
        return [(found, "")] if found else []
    if parts[0].endswith(" yields"):  # "lemon yields": the juice of one lemon
        return [(singular(parts[0].removesuffix(" yields")), found)]
    unit, _, tail = parts[0].partition(" with")
    state = " ".join(filter(None, [("with" + tail) if tail else "", *parts[1:]]))
    options = []
    for one in re.split(r" or |/", unit):
        words = one.split()
        if not words or len(words) > _COUNTED_WORDS:
            return []
        one = " ".join([*words[:-1], singular(words[-1])])
        if one in _ITSELF or one in own:
            options.append((found, state))
        else:
            options.append((one, " ".join(filter(None, [found, state]))))
    return list(dict.fromkeys(options))
