"""SR28's free-text household measures ("cup, chopped or sliced") parted into unit and state.

What is dropped: label servings and packets whose size says nothing to a cook ("NLEA serving",
"can (15 oz)"), weights given as weights ("oz", "lb"), and yields of a butcher's cut that depend
on another weight. What is kept is never changed in its grams.
"""

import re
from collections.abc import Iterable, Mapping
from typing import Final

from sitegen.larder.food import VOLUME_ML
from sitegen.larder.vocabulary import words

_DROPPED: Final = re.compile(
    "|".join(
        (
            r"nlea|serving|portion|\bnfs\b|ns as to|label|from 19|recipe|individual",  # label sizes
            r"\byields? from|refuse|\broast\b|\bwith liquid\b|prepared|\bdry yields",  # other weights
            r"package|container|\bjar\b|bottle|\bcan\b|\bbag\b|\bpouch|\bbox\b|condensed",  # packets
            r"cubic|\blb\b|\bpr g\b|^g$|(?<!fl )\boz\b|\(\d[\d/ -]*(cup|tbsp)",  # weights and sums
            r"pizza|sandwich|entree|enchilada|of the loaf|wafers mini|\bjigger fl|^unit 2",  # made dishes
            r"gummy|brownulated|triscuit|gold ?fish|figaroo|anisette|breakfast treat",  # makers' shapes
        )
    ),
    re.IGNORECASE,
)
_WITHOUT_REFUSE: Final = re.compile(r",? without refuse$")
_SERVING: Final = re.compile(r" \([^)]*serving[^)]*\)")
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
_SIZE: Final = re.compile(r"\b(extra large|extra small|large|medium|small|jumbo)\b")
#: Parts and portions that are never the item itself, even if its description names them.
_PARTS: Final = frozenset(
    words(
        "slice leaf stick stalk head clove sprig bar piece wedge sheet spear strip ear pod ring bunch "
        "fillet link pat bulb cap half quarter"
    )
)
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
    "firmly packed": "packed",
    "flowerets": "florets",
    "fluid": "",
    "stirred": "",
    "creamy": "",
    "pared chopped": "chopped",
    "chopped pieces": "chopped",
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
_CONNECTIVES: Final = frozenset(words("or and with without not in of for"))
_NOT_STATES: Final = frozenset({"packet", "cup", "fl oz"})
_COUNTED_WORDS: Final = 2  # a longer unit is a remark, not a unit


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
    text = _WITHOUT_REFUSE.sub("", text)
    if _VOLUME_START.match(text):
        text = _SERVING.sub("", text)  # a cup is a cup, whatever the label counts it as
    if not text or _DROPPED.search(text):
        return []
    text = _without_remarks(text)
    own = {singular(word) for word in own_words} - _CONNECTIVES
    volume = _VOLUME_START.match(text)
    if volume:
        unit = _VOLUME[volume.group(1)]
        return [(unit, state) for state in _states(text[volume.end() :], own)]
    return _count(text, own)


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


def _states(text: str, own: set[str]) -> list[str]:
    text = re.sub(r"[^a-zé, ]", " ", text)
    text = re.sub(r"\s+", " ", text).strip(" ,")
    text = " ".join(word for word in text.split() if singular(word) not in own).strip(" ,")
    text = text.removeprefix("of ").removeprefix("or ").removesuffix(" or")
    text = _STATES.get(text.replace(",", ""), text)
    if not text:
        return [""]
    states = []
    for part in re.split(r",? or |, ", text):
        state = part.strip()
        states.append(_STATES.get(state, state))
    states = [s for s in states if s not in _NOT_STATES and "yield" not in s]
    if " or " not in text:  # "whole, without pits" is one state, not two
        return [" ".join(dict.fromkeys(states))] if states else []
    return list(dict.fromkeys(states))


def singular(word: str) -> str:
    """The singular of a count word: "cloves" is "clove"."""
    if word in _SINGULAR:
        return _SINGULAR[word]
    if len(word) > 4 and word.endswith("ies"):
        return word[:-3] + "y"
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
    state = "" if state == "pitted" else state  # the weight is of what is eaten anyway
    options = []
    for one in re.split(r" or |/", unit):
        parts_of_it = one.split()
        if not parts_of_it or len(parts_of_it) > _COUNTED_WORDS:
            return []
        if parts_of_it[0] in _PARTS:  # "leaf outer" is an outer leaf
            state = " ".join([*parts_of_it[1:], state]).strip()
            parts_of_it = parts_of_it[:1]
        one = " ".join([*parts_of_it[:-1], singular(parts_of_it[-1])])
        if one not in _PARTS and (one in _ITSELF or _is_own(one, own)):
            options.append((found, state))
        else:
            options.append((one, " ".join(filter(None, [found, state]))))
    return list(dict.fromkeys(options))


def _is_own(unit: str, own: set[str]) -> bool:
    """Whether the unit is the food itself: "potato", "plum tomato", "waterchestnut"."""
    named = all(singular(word) in own for word in unit.split())
    return named or any(unit == one + other for one in own for other in own)


#: States that a cook means when none is given: a cup of almonds is of whole ones, a cup of brown
#: sugar is packed, a cup of icing sugar unsifted (common practice).
_MEANT: Final = ("whole", "packed", "unsifted")


#: States of a butcher's cut that its name tells already.
_CUTS: Final = ("with", "bone", "skin", "boneless")


def plain_measures(known: Mapping[tuple[str, str], str]) -> dict[tuple[str, str], tuple[str, str]]:
    """Which measure stands for a plain one that is missing: {missing: the one that is meant}.

    `known` are the measures of one food; only its keys matter. "2 onions" are medium ones, a
    stalk is a medium stalk, and a medium lemon is simply a lemon (common practice).
    """
    meant: dict[tuple[str, str], tuple[str, str]] = {}
    if not any(unit in VOLUME_ML and not state for unit, state in known):
        for chosen in _MEANT:
            for unit, state in known:
                if state == chosen and unit in VOLUME_ML:
                    meant.setdefault((unit, ""), (unit, state))
    for unit, state in known:
        cut = state.startswith(_CUTS) and unit not in VOLUME_ML
        if (state == "medium" or cut) and (unit, "") not in known:
            meant.setdefault((unit, ""), (unit, state))
    if ("medium", "") in known and ("", "") not in known:
        meant["", ""] = ("medium", "")
    if ("", "") in known and not any((size, "") in known for size in ("large", "medium", "small")):
        meant["medium", ""] = ("", "")
    return meant
