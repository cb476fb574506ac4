"""What cannot be true of one row of the larder: an allergen that its class or description denies.

The rules are tables. They look at the row and at SR28's own description and food group, so that
a slip of the hand in an allergen cell is found by what USDA says the food is.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import TYPE_CHECKING, Final

from sitegen.larder.food import Food

if TYPE_CHECKING:  # the tables' reader is needed only where the larder is made
    from sitegen.larder.tables import Row

#: (allergens of which one must be there, class): each asks for the other, sure for sure.
_ALLERGEN_CLASS: Final = (
    (frozenset({"milk"}), "dairy"),
    (frozenset({"eggs"}), "egg"),
    (frozenset({"fish"}), "fish"),
    (frozenset({"crustaceans", "molluscs"}), "shellfish"),
    (frozenset({"wheat", "barley", "rye"}), "gluten"),
)
#: A class that is a kind of another.
_CLASS_CLASS: Final = (("pork", "meat"), ("poultry", "meat"))
#: A trait that asks for a class (traits name the danger, classes the diet).
_TRAIT_CLASS: Final = (
    ("raw-poultry", "poultry"),
    ("raw-fish", "fish"),
    ("raw-shellfish", "shellfish"),
    ("raw-egg", "egg"),
    ("raw-cut", "meat"),
    ("honey", "honey"),
)
#: (words, words that excuse them, allergen): looked for in name and SR28 description.
_WORD_ALLERGEN: Final = (
    (
        r"wheat|semolina|couscous|bulgur|farro|spelt|durum|seitan",
        r"buckwheat|cornmeal|gluten.free|grasshopper",
        "wheat",
    ),
    (r"barley|pearl barley", r"malt barley-free", "barley"),
    (r"\brye\b", r"rye grass", "rye"),
    (r"\boats?\b|oatmeal|oat bran", r"goat", "oats"),
    (
        r"\bmilk\b|cheese|yogh?urt|whey|casein|\bbutter\b|\bghee\b|ice cream|cr[eè]me fra[iî]che",
        r"coconut|almond milk|soy|(peanut|cashew|almond|apple|cocoa|shea|nut|seed|sesame|hazelnut"
        r"|sunflower|pumpkin|tahini) butter|butter beans|lima|oat milk|rice milk|non-?dairy"
        r"|without milk|no milk|milkfish|cocoa|hemp milk|head ?cheese|milk thistle|milk vetch"
        r"|butter lettuce|butterhead|oil, |vegan|plant|imitation|oat drink|butter replacement"
        r"|prepared with equal|scrapple|bread and butter",
        "milk",
    ),
    (
        r"\beggs?\b|mayonnaise|meringue",
        r"eggplant|egg-?free|egg noodles?, .*without|eggless|no egg|without egg|vegan",
        "eggs",
    ),
    (r"peanuts?\b", r"", "peanuts"),
    (r"\bsoy|soya|tofu|tempeh|miso\b|edamame|natto", r"soy-?free", "soya"),
    (r"\balmonds?\b", r"almond-?free|tropical", "almonds"),
    (r"hazelnuts?|filberts?", r"", "hazelnuts"),
    (r"\bwalnuts?\b", r"", "walnuts"),
    (r"cashews?", r"cashew apple", "cashews"),
    (r"\bpecans?\b", r"", "pecans"),
    (r"brazil ?nuts?", r"", "brazil-nuts"),
    (r"pistachio", r"", "pistachios"),
    (r"macadamia", r"", "macadamias"),
    (r"pine ?nuts?|pinyon|pignolia", r"", "pine-nuts"),
    (r"\bchestnuts?\b", r"water ?chestnut|waterchestnut|chestnut mushroom|mushroom", "chestnuts"),
    (r"celery|celeriac", r"", "celery"),
    (r"mustard", r"mustard (greens|spinach|cress)", "mustard"),
    (r"sesame|tahini", r"", "sesame"),
    (r"lupin", r"", "lupin"),
    (r"anchov", r"", "fish"),
    (
        r"shrimp|prawn|crab\b|lobster|crayfish|langoustine",
        r"crab ?apple|imitation|mushroom",
        "crustaceans",
    ),
    (
        r"oyster|mussel|clams?\b|scallops?\b|squid|octopus|cuttlefish|whelk|cockle|abalone",
        r"mushroom|oyster blade|scallopini|squash|oyster plant|salsify|saltines",
        "molluscs",
    ),
)
#: SR28 food groups whose every food has one of these classes.
_GROUP_CLASSES: Final = {
    "0100": ("dairy", "egg"),
    "0500": ("poultry",),
    "1000": ("pork",),
    "1300": ("meat",),
    "1500": ("fish", "shellfish"),
    "1700": ("meat",),
}
_GROUP_EXCUSED: Final = re.compile(r"non-?dairy|imitation|turtle|frog|dessert topping, pow", re.I)
_WORDS: Final = tuple(
    (re.compile(words, re.I), re.compile(excuse, re.I) if excuse else None, allergen)
    for words, excuse, allergen in _WORD_ALLERGEN
)


def contradictions(row: Row | Food, description: str, group: str = "") -> Iterator[str]:
    """What is wrong with one row, in words; nothing if all is well."""
    yield from between_cells(row)
    yield from against_words(row, description, group)


def implied_classes(
    contains: frozenset[str], may_contain: frozenset[str]
) -> tuple[frozenset[str], frozenset[str]]:
    """The classes that allergens bring with them, sure and unsure: milk is dairy.

    ``implied_classes(frozenset({"wheat"}), frozenset({"milk"}))`` is gluten for sure and dairy
    perhaps. Oats bring gluten perhaps: they meet wheat in field and mill.
    """
    sure = {class_ for allergens, class_ in _ALLERGEN_CLASS if contains & allergens}
    unsure = {class_ for allergens, class_ in _ALLERGEN_CLASS if may_contain & allergens}
    if "oats" in contains | may_contain:
        unsure.add("gluten")
    return frozenset(sure), frozenset(unsure - sure)


def between_cells(row: Row | Food) -> Iterator[str]:
    """Cells of one row that deny each other."""
    both = row.contains | row.may_contain
    classes = row.classes | row.unsure_classes
    for allergens, class_ in _ALLERGEN_CLASS:
        gluten_oats = class_ == "gluten" and "oats" in both
        if row.contains & allergens and class_ not in row.classes:
            yield f"contains {_list(row.contains & allergens)} but is not {class_}"
        elif both & allergens and class_ not in classes:
            yield f"may contain {_list(both & allergens)} but is not {class_} or ?{class_}"
        elif class_ in row.classes and not row.contains & allergens:
            yield f"is {class_} but does not contain {_list(allergens)}"
        elif class_ in row.unsure_classes and not both & allergens and not gluten_oats:
            yield f"is ?{class_} but neither contains nor may contain {_list(allergens)}"
    if "oats" in both and "gluten" not in classes and "gluten-free" not in row.name:
        yield "holds oats but is not gluten or ?gluten (oats meet wheat in field and mill)"
    for class_, wider in _CLASS_CLASS:
        if class_ in row.classes and wider not in row.classes:
            yield f"is {class_} but not {wider}"
        elif class_ in row.unsure_classes and wider not in classes:
            yield f"is ?{class_} but not {wider} or ?{wider}"
    for trait, class_ in _TRAIT_CLASS:
        if trait in row.traits and class_ not in classes:
            yield f"has the trait {trait} but is not {class_}"
    if {"raw-mince", "raw-game", "raw-offal"} & set(row.traits) and not classes & {"meat", "fish"}:
        yield "has the trait raw-mince, raw-game or raw-offal but is neither meat nor fish"
    if "honey" in row.classes and "honey" not in row.traits and row.name.startswith("honey"):
        yield "is honey but lacks the trait honey (the caution for infants)"


def against_words(row: Row | Food, description: str, group: str) -> Iterator[str]:
    """Cells that deny what the food's name, SR28's description or its food group says."""
    both = row.contains | row.may_contain
    classes = row.classes | row.unsure_classes
    text = f"{row.name} / {description}"
    for words, excuse, allergen in _WORDS:
        found = words.search(text)
        if found and allergen not in both and not (excuse and excuse.search(text)):
            yield f"{found.group(0)!r} in its name or SR28 description, but no {allergen}"
    needed = _GROUP_CLASSES.get(group)
    if needed and not classes & set(needed) and not _GROUP_EXCUSED.search(description):
        yield f"SR28 counts it among foods that are {' or '.join(needed)}, but its classes do not"
    if row.aisle == "dairy" and "cheese" in row.name and "milk" not in both:
        yield "is a dairy cheese but contains no milk"


def _list(words: frozenset[str]) -> str:
    return " or ".join(sorted(words))
