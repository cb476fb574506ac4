"""Words that a cook writes beside a food and that leave its figures and allergens as they are.

A word is in here only if dropping it can never turn one food into another. Those that change a
food (dried, tinned, smoked, ground, toasted, cooked, whole, brown, skin on …) are left out on
purpose: they have to be part of the food's own name, or the look-up is not sure. So are words
whose plural names something else ("crisp": potato crisps; "bite": cheese bites).

All words are stems, as `words.stem` gives them.
"""

from collections.abc import Mapping
from typing import Final

from sitegen.larder.vocabulary import words

#: Whole phrases, dropped before the words are parted.
PHRASES: Final = (
    "at room temperature",
    "room temperature",
    "straight from the fridge",
    "from the fridge",
    "free range",
    "good quality",
    "best quality",
    "extra large",
    "medium sized",
    "large sized",
    "small sized",
    "ice cold",
    "freshly squeezed",
    "freshly grated",
    "to serve",
    "to taste",
    "to finish",
    "for dusting",
    "for greasing",
    "for frying",
    "for serving",
    "if you like",
)

#: Harmless for every food.
ANYWHERE: Final = frozenset(
    words(
        "fresh freshly large medium small big little tiny finely coarsely roughly thinly thickly "
        "lightly very chopped sliced diced cubed grated shredded crushed torn cut halved quartered "
        "trimmed peeled cored pitted deseeded washed rinsed scrubbed cleaned picked softened "
        "melted sifted packed heaped heaping level loosely firmly good best ripe organic unwaxed "
        "plump juicy floury waxy optional divided about approximately zested juiced crumbled "
        "shelled bashed bruised julienned snipped chilled cooled cold warm lukewarm tepid pure "
        "mild piece hulled rough lengthways crosswise few"
    )
)

#: Harmless unless the food is meat or fish, which mincing turns into another food.
UNLESS_FLESH: Final = frozenset({"minced", "pounded"})

#: For meat and fish these tell another cut, or that it is cooked already.
NEVER_FOR_FLESH: Final = frozenset(words("trimmed crumbled shredded picked melted"))

#: Harmless for what pours.
IF_LIQUID: Final = frozenset(words("hot boiling iced simmering"))

#: Harmless for the foods of one aisle of the shop.
IN_AISLE: Final[Mapping[str, frozenset[str]]] = {
    "herbs": frozenset(words("leaf sprig bunch handful stalk only")),
    "fruit": frozenset(words("mashed pureed")),
    "vegetables": frozenset(words("ribbon")),
    "dairy": frozenset(words("beaten whisked separated")),
}

#: Parts that a food is counted in: harmless for a food that has a measure of that part.
COUNTED_PARTS: Final = frozenset(
    words("clove slice stick stalk sprig head bulb leaf wedge spear ear floret sheet")
)

#: A word of the cook, and words of the food's name or description that it does not agree with.
CONFLICTS: Final[Mapping[str, frozenset[str]]] = {
    "fresh": frozenset(
        words(
            "dried dry tinned frozen powder powdered ground pickled smoked spice dehydrated "
            "bottled preserved candied salted cured prepared jar condensed sauce paste"
        )
    ),
    "mild": frozenset(words("hot sharp mature")),
}

#: A plural that is never the spice of that name, and what it means: "2 peppers" are no peppercorns.
PLURALS: Final[Mapping[str, str]] = {"peppers": "sweet pepper"}

#: Pairs that often mean another food (a tinned one, a made one): never taken without asking.
DOUBTFUL: Final = tuple(
    frozenset(words(pair))
    for pair in (
        "chopped tomato",
        "crushed tomato",
        "peeled tomato",
        "crushed pineapple",
        "shredded coconut",
        "grated coconut",
        "fresh cheese",
        "crumbled cheese",
        "iced tea",
        "iced coffee",
        "shredded wheat",
    )
)
