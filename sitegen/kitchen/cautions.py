"""The safety desk: the usual cautions that stand on the page, each with the authority it comes from.

A caution follows from what the food is (the larder's traits) and from what the method does with it:
an egg in a cooked custard is no raw egg, an egg in mayonnaise is. The text is for readers anywhere:
it gives the published figure and defers to local advice. Nothing in a recipe can take a caution off;
the site's owner can, by name and with a reason, in ``site.yaml``.

Sources: the temperatures are USDA FSIS's safe minimum internal temperatures; the others are named
with each text. From memory: the freezing times for raw fish (Regulation (EC) 853/2004, Annex III; FDA
Food Code 3-402.11), and what the UK NHS and FSA, FDA and EPA say of soft cheese, liver, mercury and
cooked rice.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from sitegen.dish import Caution
from sitegen.kitchen.hazards import ferments, hot_oil, pressure_cooks
from sitegen.kitchen.heat import Reach, has_heat
from sitegen.kitchen.rows import Worked
from sitegen.reading.courses import kind_of
from sitegen.reading.recipe import Recipe
from sitegen.reading.sentences import sentences_of
from sitegen.site import LeftOut

_FSIS = "USDA FSIS, safe minimum internal temperatures"
_WHO = "young children, older people, anyone pregnant or with a weakened immune system"

TEXTS: tuple[Caution, ...] = (
    Caution(
        "poultry",
        "Cook poultry until the thickest part reaches 74 °C (165 °F). British advice is 70 °C for "
        "2 minutes, or an equivalent.",
        f"{_FSIS}; UK FSA",
    ),
    Caution(
        "mince",
        "Cook minced meat until it reaches 71 °C (160 °F) in the middle. British advice is 70 °C for "
        "2 minutes, or an equivalent.",
        f"{_FSIS}; UK FSA",
    ),
    Caution(
        "cuts",
        "Cook whole cuts of beef, pork, lamb and veal to at least 63 °C (145 °F), then rest them for "
        "3 minutes.",
        _FSIS,
    ),
    Caution(
        "game",
        "Cook rabbit, venison and other game, and offal, until they reach 71 °C (160 °F) in the thickest "
        "part. British advice is 70 °C for 2 minutes, or an equivalent.",
        f"{_FSIS}; UK FSA",
    ),
    Caution("fish", "Cook fish until it reaches 63 °C (145 °F) in the middle.", _FSIS),
    Caution(
        "raw-fish",
        "The fish in this is not cooked. Use only fish that has been frozen to kill parasites (−20 °C "
        "for at least 24 hours by EU and UK rules, 7 days by FDA's), keep it cold, and leave it out "
        f"for {_WHO}. Follow local advice.",
        "Regulation (EC) 853/2004; FDA Food Code",
    ),
    Caution(
        "shellfish",
        "Cook shellfish through, and throw away any that stay shut.",
        "USDA FSIS; common practice",
    ),
    Caution(
        "raw-shellfish",
        f"The shellfish in this is not cooked: it is not for {_WHO}. Follow local advice.",
        "FDA; UK FSA",
    ),
    Caution("eggs", "Cook egg dishes until they reach 71 °C (160 °F).", _FSIS),
    Caution(
        "raw-egg",
        f"The egg in this is raw or barely cooked. For {_WHO}, use pasteurised egg, or follow your "
        "local food authority's advice.",
        "USDA FSIS; FDA; UK FSA",
    ),
    Caution(
        "beans",
        "Soaked kidney beans must be boiled hard for at least 10 minutes (30 by FDA's advice) before "
        "they simmer, and never go raw into a slow cooker. Treat other dried beans of that family "
        "the same way.",
        "UK FSA; FDA",
    ),
    Caution("flour", "Raw flour is not ready to eat: don't taste dough or batter.", "FDA; CDC"),
    Caution(
        "sprouts",
        f"Cook sprouts until steaming hot, above all for {_WHO}.",
        "FDA; UK FSA",
    ),
    Caution(
        "soft-cheese",
        "Cheese ripened with mould, soft blue cheese, young soft cheese and any of unpasteurised milk "
        f"can carry listeria until it is cooked steaming hot: not for {_WHO}. Follow local advice.",
        "UK NHS; FDA",
    ),
    Caution(
        "liver",
        "Liver, and what is made of it, is very rich in vitamin A: not for anyone who is or may become "
        "pregnant.",
        "UK NHS",
    ),
    Caution(
        "mercury",
        "This fish can hold much mercury: not for children, nor for anyone who is, may become or has "
        "just been pregnant. Follow local advice.",
        "FDA and EPA, advice about eating fish; UK NHS",
    ),
    Caution(
        "rice",
        "Cool cooked rice that is left over within 1 hour, keep it in the fridge for no more than "
        "24 hours, and reheat it once only, until steaming hot.",
        "UK FSA",
    ),
    Caution("honey", "Honey is not for children under 12 months.", "CDC; UK NHS"),
    Caution(
        "oil",
        "Garlic and fresh herbs under oil can grow the bacterium of botulism without a sign of it. Keep "
        "this in the fridge, use it within 4 days, or freeze it.",
        "USDA and state extension services",
    ),
    Caution(
        "canning",
        "Jars for the shelf are safe only by a tested process for that food, jar size and altitude. "
        "Follow a current official guide and local advice; what is not processed so belongs in the "
        "fridge.",
        "USDA Complete Guide to Home Canning (2015)",
    ),
    Caution(
        "ferment",
        "Weigh the salt, keep everything under the brine, and throw the jar away if it grows mould, "
        "slime or a bad smell. Too little salt or too much warmth lets the wrong germs grow: follow a "
        "current official guide.",
        "USDA Complete Guide to Home Canning (2015), guide 6",
    ),
    Caution(
        "hot-oil",
        "Hot oil can catch fire: fill the pan no more than a third, dry what goes in, stay with it, and "
        "never put water on burning oil.",
        "USDA FSIS, Deep Fat Frying and Food Safety; common practice",
    ),
    Caution(
        "pressure",
        "Fill a pressure cooker no further than its maker says (half for beans and what swells), and "
        "open it only when all the pressure is gone.",
        "common practice; the maker's instructions",
    ),
    Caution(
        "keeping",
        "Chill leftovers within 2 hours (1 hour above 32 °C / 90 °F), at 4 °C (40 °F) or colder, and "
        "eat them within 3 to 4 days; reheat to 74 °C (165 °F).",
        "USDA FSIS",
    ),
)
"""Every caution, in the order in which a page shows them."""

KEYS = tuple(c.key for c in TEXTS)

_BAKED_GOODS = ("baking", "bread", "cake", "biscuits")
_NO_LEFTOVERS = (*_BAKED_GOODS, "drink", "preserve", "snack")
_DISH_OF_EGGS = 0.25
"""The share of the weight from which a baked dish counts as one of eggs, not as a cake."""

_A_DOUGH = 0.12
"""The share of the weight from which flour makes a dough or batter, whatever it is called."""

_OF_RICE = 0.05
"""The share of the weight from which rice, dry or cooked, is more than a garnish."""

_MUCH_OIL = 0.35
"""The share of the weight from which oil covers what lies in it."""

# What another recipe brings into this one, whatever this one does with it.
_TRAVELS = frozenset(
    {"honey", "raw-fish", "raw-shellfish", "oil", "sprouts", "liver", "mercury", "rice"}
)
_UNCOOKED = frozenset({"raw-egg", "soft-cheese"})

# A trait of the larder, the caution where heat reaches the food, and the one where none does.
_BY_TRAIT = (
    ("raw-poultry", "poultry", "poultry"),
    ("raw-mince", "mince", "mince"),
    ("raw-game", "game", "game"),
    ("raw-offal", "game", "game"),
    ("raw-cut", "cuts", "cuts"),
    ("raw-fish", "fish", "raw-fish"),
    ("raw-shellfish", "shellfish", "raw-shellfish"),
    ("raw-kidney-bean", "beans", "beans"),
    ("raw-sprouts", "sprouts", "sprouts"),
    ("honey", "honey", "honey"),
    ("soft-cheese", "", "soft-cheese"),
    ("unpasteurised", "", "soft-cheese"),
    ("liver", "liver", "liver"),
    ("much-mercury", "mercury", "mercury"),
)
_WATCHED = frozenset(trait for trait, _, _ in _BY_TRAIT) | {"raw-egg", "raw-flour", "rice"}

_DOUGH = re.compile(
    r"\b(?:dough|batter|pastry|crumble (?:topping|mixture)|cake mix(?:ture)?|biscuit mixture)\b"
)
_DOUGH_WORDS = ("dough", "batter", "pastry", "crumble", "mix")
"""One of them stands in all that the expression finds."""

_UNDER_OIL = re.compile(
    r"\b(?:infus\w+|confit|(?:under|covered? (?:with|in)|submerged in|cover \w+ with) (?:the )?oil)\b"
)
_SHELF = re.compile(
    r"\b(?:canning|canner|home[- ]canned|(?:boiling[- ])?water[- ]bath(?! until set)|process(?:ed)? the jars"
    r"|jars? (?:for|in) the (?:canner|water)|(?:pot|seal)(?:ted|ed)? (?:the |them |it |while |hot )*"
    r"(?:jars?|hot|for the|at once|immediately|straight away)"
    r"|(?:stor|keep|kept|last|months?|years?)\w*\b(?! in the (?:fridge|freezer))[^.;]{0,40}"
    r"\b(?:cupboard|larder|pantry|dark place|shelf)"
    r"|processed for the shelf|shelf[- ]stable)\b"
)
_JAR = re.compile(r"\b(?:jars?|bottles?)\b")
_TAG = re.compile(r"<[^<>]*>")


class _Method:
    """What the whole method is like."""

    def __init__(self, recipe: Recipe, reach: Reach) -> None:
        self.sentences = sentences_of(recipe)
        self.reach = reach
        self.text = "\n".join([s.low for s in self.sentences])

    @property
    def dough(self) -> bool:
        """Whether it makes a dough or batter."""
        return any(word in self.text for word in _DOUGH_WORDS) and bool(_DOUGH.search(self.text))

    @property
    def hot(self) -> bool:
        """Whether anything in it is cooked."""
        return any(has_heat(s.low) for s in self.sentences)


@dataclass(frozen=True, slots=True)
class _Item:
    """An ingredient as the desk sees it. Whether heat reaches it is asked only where it matters."""

    traits: frozenset[str]
    index: int
    share: float
    """Of the batch's weight."""


def cautions(
    recipe: Recipe, worked: Sequence[Worked], reach: Reach, left_out: Iterable[LeftOut] = ()
) -> tuple[tuple[Caution, ...], tuple[Caution, ...]]:
    """The cautions that stand beside a recipe, and those that the site's owner has left out."""
    keys = set(_keys(recipe, worked, reach))
    off = {o.caution for o in left_out if o.recipe == recipe.slug}
    stand = tuple([c for c in TEXTS if c.key in keys and c.key not in off])
    return stand, tuple([c for c in TEXTS if c.key in keys and c.key in off])


def _keys(recipe: Recipe, worked: Sequence[Worked], reach: Reach) -> Iterator[str]:
    method = _Method(recipe, reach)
    for item in _items(worked):
        yield from _of_item(item, recipe, method)
    for w in worked:
        if w.other is not None:
            brought = {c.key for c in (*w.other.cautions, *w.other.cautions_left_out)}
            yield from brought & _TRAVELS
            if brought & _UNCOOKED and method.reach.of(w.row.index) == "none":
                yield from brought & _UNCOOKED
    if _oil_on_flavourings(worked, method):
        yield "oil"
    if _for_the_shelf(recipe, method.text):
        yield "canning"
    if ferments(recipe, worked, method.text):
        yield "ferment"
    if hot_oil(worked, method.text):
        yield "hot-oil"
    if pressure_cooks(recipe, method.text):
        yield "pressure"
    if _keeps(recipe):
        yield "keeping"


def _of_item(item: _Item, recipe: Recipe, method: _Method) -> Iterator[str]:
    for trait, cooked, uncooked in _BY_TRAIT:
        if trait in item.traits:
            raw = cooked != uncooked and method.reach.of(item.index) == "none"
            yield uncooked if raw else cooked  # an empty key is none
    if "raw-egg" in item.traits:
        heat = method.reach.of(item.index)
        if heat == "none":
            yield "raw-egg"
        elif heat == "hob" or (
            item.share >= _DISH_OF_EGGS and kind_of(recipe.course) not in _BAKED_GOODS
        ):
            yield "eggs"
    if "rice" in item.traits and item.share >= _OF_RICE and _keeps(recipe):
        yield "rice"
    if "raw-flour" in item.traits and (item.share >= _A_DOUGH or method.dough or not method.hot):
        yield "flour"


def _keeps(recipe: Recipe) -> bool:
    """Whether what is left of it would be kept as leftovers."""
    return kind_of(recipe.course) not in _NO_LEFTOVERS


def _items(worked: Sequence[Worked]) -> Iterator[_Item]:
    whole = 0.0
    for w in _with_choices(worked):
        foods = w.found.foods
        traits = (
            foods[0].traits if len(foods) == 1 else frozenset().union(*[f.traits for f in foods])
        )
        if _WATCHED.isdisjoint(traits):
            continue
        if not whole:
            whole = sum([float(w.row.grams) for w in worked if w.row.grams is not None]) or 1.0
        grams = float(w.row.grams) if w.row.grams is not None else 0.0
        yield _Item(traits, w.row.index, grams / whole)


def _with_choices(worked: Sequence[Worked]) -> Iterator[Worked]:
    """Alternatives and swaps too: the cook may take either."""
    for w in worked:
        yield w
        yield from w.alternatives
        if w.swap:
            yield w.swap


def _oil_on_flavourings(worked: Sequence[Worked], method: _Method) -> bool:
    """Garlic, fresh herbs or chillies that stay under a good deal of uncooked oil."""
    oils = [
        w for w in worked if w.found.food and w.found.food.name.endswith(" oil") and w.row.grams
    ]
    if not oils:
        return False
    whole = sum(map(_eaten_grams, worked))
    if not whole or sum(map(_eaten_grams, oils)) / whole < _MUCH_OIL:
        return False
    kept = bool(_UNDER_OIL.search(method.text))
    uncooked = [w for w in oils if kept or method.reach.of(w.row.index) == "none"]
    if sum(map(_eaten_grams, uncooked)) / whole < _MUCH_OIL:
        return False
    for w in worked:
        food = w.found.food
        if food is None or food.name.endswith(" oil"):
            continue
        name = food.name
        fresh = food.aisle == "herbs" and not re.search(r"dried|ground", name)
        if fresh or "garlic" in name or re.match(r"(?:red |green |fresh )?chilli", name):
            if "dried" in w.row.line.text or "powder" in w.row.line.text:
                continue
            return True
    return False


def _eaten_grams(w: Worked) -> float:
    return float(w.row.grams) * float(w.row.line.eaten) if w.row.grams else 0.0


def _for_the_shelf(recipe: Recipe, method: str) -> bool:
    """Jars or bottles that are to keep out of the fridge."""
    prose = [recipe.intro, *[text for section in recipe.sections for text in section.texts]]
    said = "\n".join(prose)
    both = f"{method}\n{said.lower()}"
    if "jar" not in both and "bottle" not in both:
        return False
    text = "\n".join((method, _TAG.sub(" ", said).lower()))
    return bool(_JAR.search(text) and _SHELF.search(text))
