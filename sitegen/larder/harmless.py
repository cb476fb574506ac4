"""Words that a cook writes beside a food and that leave its figures and allergens as they are.

A word is in here only if dropping it can never turn one food into another. Those that change a
food (dried, tinned, smoked, ground, toasted, cooked, whole, brown, skin on …) are left out on
purpose: they have to be part of the food's own name, or the look-up is not sure.
"""

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

#: Harmless for every food. Words are stems, as `words.stem` gives them.
ANYWHERE: Final = frozenset(
    words(
        "fresh freshly large medium small big little tiny finely coarsely roughly thinly "
        "thickly lightly very chopped sliced diced cubed grated shredded crushed torn cut halved "
        "quartered trimmed peeled cored pitted deseeded washed rinsed scrubbed cleaned picked "
        "softened melted beaten whisked sifted separated packed heaped heaping level loosely "
        "firmly good best ripe organic unwaxed plump juicy crisp young tender floury waxy optional "
        "divided about approximately zested juiced crumbled shelled bashed bruised julienned "
        "snipped mashed pureed squeezed chilled cooled cold warm lukewarm tepid pure mild piece "
        "hulled rough lengthways crosswise bite sized size"
    )
)

#: Harmless unless the food is meat or fish, which mincing turns into another food.
UNLESS_FLESH: Final = frozenset({"minced", "pounded"})

#: For flesh, these belong to the cut and are never dropped.
NEVER_FOR_FLESH: Final = frozenset({"trimmed", "mashed", "crumbled", "separated"})

#: Harmless for what pours.
IF_LIQUID: Final = frozenset({"hot", "boiling", "iced", "simmering"})

#: Harmless for fresh herbs.
IF_HERB: Final = frozenset({"leaf", "sprig", "bunch", "handful", "stalk", "only"})

#: A word of the cook against words of the food's name or description: then it is not sure.
CONFLICTS: Final = {
    "fresh": frozenset(
        words(
            "dried dry tinned frozen powder powdered ground pickled smoked spice dehydrated bottled "
            "preserved candied salted cured"
        )
    ),
    "young": frozenset({"mature", "old"}),
    "mild": frozenset({"hot", "sharp", "mature"}),
}

#: Pairs that often mean the tinned food: never taken for the fresh one without asking.
DOUBTFUL: Final = (
    frozenset({"chopped", "tomato"}),
    frozenset({"crushed", "tomato"}),
    frozenset({"peeled", "tomato"}),
    frozenset({"crushed", "pineapple"}),
    frozenset({"shredded", "coconut"}),
    frozenset({"grated", "coconut"}),
    frozenset({"pureed", "tomato"}),
    frozenset({"pureed", "pumpkin"}),
)
