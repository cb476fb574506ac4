"""The usual safety cautions, by what the food is; each with the authority it comes from.

The text is for readers anywhere: it gives the published figure and defers to local advice.
"""

from __future__ import annotations

from sitegen.dish import Caution
from sitegen.nutrition.contents import Contents
from sitegen.reading.recipe import Recipe

_FSIS = "USDA FSIS, safe minimum internal temperatures"

# Larder trait → key, text, source; in the order shown.
_BY_TRAIT: tuple[tuple[str, str, str, str], ...] = (
    (
        "raw-poultry",
        "poultry",
        "Cook poultry until the thickest part reaches 74 °C (165 °F).",
        _FSIS,
    ),
    (
        "raw-mince",
        "mince",
        "Cook minced meat until it reaches 71 °C (160 °F) in the middle.",
        _FSIS,
    ),
    (
        "raw-cut",
        "cuts",
        "Cook whole cuts of beef, pork, lamb and veal to at least 63 °C (145 °F), then rest them for "
        "3 minutes.",
        _FSIS,
    ),
    ("raw-fish", "fish", "Cook fish until it reaches 63 °C (145 °F) in the middle.", _FSIS),
    (
        "raw-shellfish",
        "shellfish",
        "Cook shellfish through, and throw away any that stay shut.",
        "USDA FSIS; common practice",
    ),
    ("raw-egg", "eggs", "Cook egg dishes until they reach 71 °C (160 °F).", _FSIS),
    (
        "raw-kidney-bean",
        "beans",
        "Soaked kidney beans must be boiled hard for at least 10 minutes (30 by FDA's advice) before "
        "they simmer, and never go raw into a slow cooker.",
        "UK FSA; FDA",
    ),
    (
        "raw-flour",
        "flour",
        "Raw flour is not ready to eat: don't taste dough or batter.",
        "FDA; CDC",
    ),
    ("raw-sprouts", "sprouts", "Cook sprouts until steaming hot.", "FDA; UK FSA"),
    ("honey", "honey", "Honey is not for children under 12 months.", "CDC; UK NHS"),
)

_KEEPING = Caution(
    "keeping",
    "Chill leftovers within 2 hours (1 hour above 32 °C / 90 °F), at 4 °C (40 °F) or colder, and eat "
    "them within 3 to 4 days; reheat to 74 °C (165 °F).",
    "USDA FSIS",
)
_KEEPS_ON_A_SHELF = ("baking", "bread")


def cautions(recipe: Recipe, contents: Contents) -> tuple[Caution, ...]:
    """The cautions that stand beside a recipe."""
    found = [
        Caution(key, text, source)
        for trait, key, text, source in _BY_TRAIT
        if trait in contents.traits
    ]
    if recipe.course not in _KEEPS_ON_A_SHELF:
        found.append(_KEEPING)
    return tuple(found)
