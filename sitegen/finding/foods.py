"""The main ingredients of a dish, under the plain names that a reader looks for.

A larder food is often a cut, a state or a size ("beef shin, boneless"; "chickpeas, tinned, drained");
somebody with something to use up thinks of beef and of chickpeas.
"""

from __future__ import annotations

import re
from functools import lru_cache
from typing import Final

from sitegen.dish import Dish
from sitegen.larder.words import tokens
from sitegen.late import noted
from sitegen.memory import of_the_last

SHARE: Final = 0.1
"""Of the weight of all that is not a staple: what a main ingredient has at least."""
EVERYDAY_SHARE: Final = 1 / 3
"""The same for what is in half of all recipes."""
MOST: Final = 5
"""How many ingredients weight alone can make main ones."""

_NEVER: Final = frozenset({"water", "salt", "sea salt", "black pepper", "white pepper"})
# In these aisles a food matters if the title or a tag names it, not by its weight.
_SEASONING: Final = frozenset("water oils spices sauces drinks baking sweet".split())
_BUT_BY_WEIGHT: Final = frozenset(
    {"almonds", "hazelnuts", "chocolate", "rye flour", "semolina", "buckwheat flour", "chickpea flour"}
)  # fmt: skip
_EVERYDAY: Final = frozenset({"onions", "milk", "butter", "cream", "eggs", "garlic"})
_FATS: Final = re.compile(r"\b(fat|suet|dripping|drippings|lard|shortening|margarine|spread)\b")

# (aisles, or "" for any; what the larder's name has; the plain name), the first that fits.
_PLAIN: Final = tuple(
    (frozenset(aisles.split()), re.compile(pattern), name)
    for aisles, pattern, name in (
        ("meat", r"\b(liver|kidney|heart|tongue|giblets)\b", "offal"),
        ("meat", r"\bbacon\b", "bacon"),
        ("meat", r"\b(ham|gammon)\b", "ham"),
        ("meat", r"\b(sausage|chipolata|bratwurst|frankfurter|kielbasa)\b", "sausages"),
        ("meat", r"\b(ox|beef|stewing beef|oxtail)\b", "beef"),
        ("meat", r"\b(chicken|poussin|capon|boiling fowl)\b", "chicken"),
        ("meat", r"\b(pork|pig's)\b", "pork"),
        ("meat", r"\b(lamb|lamb's|mutton)\b", "lamb"),
        ("meat", r"\bturkey\b", "turkey"),
        ("meat", r"\bduck\b", "duck"),
        ("meat", r"\bveal\b", "veal"),
        ("meat", r"\bvenison\b", "venison"),
        ("meat", r"\bgoose\b", "goose"),
        ("meat", r"\bostrich\b", "ostrich"),
        ("meat", r"\bsteak\b", "beef"),
        ("fish tins", r"\bprawns?|shrimps?\b", "prawns"),
        ("fish tins", r"\bcrab\b", "crab"),
        ("fish tins", r"\bmussels?\b", "mussels"),
        ("fish tins", r"\bclams?\b", "clams"),
        ("fish tins", r"\boysters?\b(?! (sauce|mushroom))", "oysters"),
        ("fish tins", r"\bsmoked salmon|lox\b", "smoked salmon"),
        ("fish tins", r"\bsmoked mackerel\b", "smoked mackerel"),
        ("fish tins", r"\bsmoked haddock\b", "smoked haddock"),
        ("fish tins", r"\bsalmon\b", "salmon"),
        ("fish tins", r"\btuna\b", "tuna"),
        ("fish tins", r"\bmackerel\b", "mackerel"),
        ("fish tins", r"\bsardines?\b", "sardines"),
        ("fish tins", r"\banchov", "anchovies"),
        ("fish", r"\bsalt cod\b", "salt cod"),
        ("fish", r"\bcod\b(?! roe)", "cod"),
        ("fish", r"\btrout\b", "trout"),
        ("dairy", r"\begg\b", "eggs"),
        ("dairy", r"\b(greek|natural|fat-free|low-fat) .*yoghurt\b|\byoghurt\b", "yoghurt"),
        ("dairy", r"\b(double|single|whipping|clotted) cream\b", "cream"),
        ("dairy", r"\bsoured cream\b|\bcrème fraîche\b", "soured cream"),
        ("dairy", r"\bbuttermilk\b", "buttermilk"),
        ("dairy", r"\bgoat's cheese\b", "goat's cheese"),
        ("dairy", r"\bmilk\b", "milk"),
        ("dairy", r"\bbutter\b", "butter"),
        ("dairy", r"\bcheddar\b", "cheddar"),
        ("dairy", r"\bmozzarella\b", "mozzarella"),
        ("dairy", r"\bcream cheese\b", "soft cheese"),
        ("vegetables", r"\bsweet potato\b(?! leaves)", "sweet potatoes"),
        ("vegetables tins", r"\bpotato(es)?\b(?! flakes)", "potatoes"),
        ("vegetables", r"\bspring onion\b", "spring onions"),
        ("vegetables frozen", r"\bonions?\b", "onions"),
        ("vegetables tins", r"\bmushrooms?\b", "mushrooms"),
        ("vegetables tins", r"\btomato(es)?\b(?! sauce| soup)|\bpassata\b", "tomatoes"),
        ("vegetables frozen tins", r"\b(red|green|yellow) peppers?\b|^peppers\b", "peppers"),
        ("vegetables tins", r"\bchill(i|ies)\b|\bjalapeño", "chillies"),
        ("vegetables frozen tins", r"^carrot|^baby carrots", "carrots"),
        ("vegetables frozen", r"^(baby )?courgettes?\b", "courgettes"),
        ("vegetables frozen tins", r"^(pea|peas)\b(?! sprouts| and)", "peas"),
        ("vegetables frozen tins pulses", r"^broad beans\b", "broad beans"),
        ("vegetables frozen tins", r"\bsweetcorn\b|^corn on the cob\b", "sweetcorn"),
        ("frozen", r"^edamame\b", "edamame"),
        ("vegetables", r"\blettuce\b", "lettuce"),
        ("vegetables", r"\bchard\b", "chard"),
        ("vegetables", r"^fennel bulb\b", "fennel"),
        ("vegetables", r"^cherry tomatoes", "tomatoes"),
        ("fruit", r"\blemon\b", "lemons"),
        ("fruit", r"\blime\b", "limes"),
        ("fruit frozen", r"\borange\b", "oranges"),
        ("fruit", r"\bgrapefruit\b", "grapefruit"),
        ("fruit frozen tins", r"\bapple\b(?! butter| pie)", "apples"),
        ("fruit frozen tins", r"\bsour cherries\b|\bcherries\b(?!.*maraschino)", "cherries"),
        ("fruit tins", r"^(dried )?apricots?\b", "apricots"),
        ("pulses tins", r"\blentils?\b", "lentils"),
        ("pulses", r"\btofu\b", "tofu"),
        ("pulses", r"\bsplit peas\b", "split peas"),
        ("grains", r"\boats?\b(?! bran)|\boatmeal\b", "oats"),
        ("grains", r"\bbarley\b", "barley"),
        ("grains", r"\brice\b(?! cereal| bran)", "rice"),
        ("grains", r"\b(cornmeal|polenta|grits)\b", "polenta"),
        ("pasta", r"\b(noodles|vermicelli)\b", "noodles"),
        ("pasta", r"\b(pasta|spaghetti|lasagne)\b", "pasta"),
        ("baking nuts", r"\balmonds?\b(?! extract| paste)", "almonds"),
        ("baking nuts", r"\bhazelnuts?\b", "hazelnuts"),
        ("nuts", r"\bwalnuts?\b", "walnuts"),
        ("nuts", r"\bsesame seeds\b", "sesame"),
        ("sauces", r"^(sesame paste|tahini)\b", "sesame"),
        ("baking", r"\bchocolate\b", "chocolate"),
        ("baking", r"\brye flour\b", "rye flour"),
        ("baking", r"\b(plain|self-raising|strong white bread|cake|00|bread) flour\b", "flour"),
        ("baking", r"\bsugar\b", "sugar"),
        ("baking", r"\byeast\b", "yeast"),
        ("spices vegetables sauces", r"\bginger\b", "ginger"),
        ("bakery", r"\bbread\b|\bbreadcrumbs\b", "bread"),
        ("drinks", r"\bwine\b", "wine"),
        ("drinks", r"\b(beer|ale|stout|lager)\b", "beer"),
        ("drinks", r"\bcider\b", "cider"),
    )
)  # fmt: skip
_PART: Final = re.compile(r" (fillets?|steak|meat|tails?|legs?|florets|breast)$")
_PROPER: Final = frozenset(
    "alaska asian brazil brussels chinese concord hungarian jerusalem java malabar".split()
)
_UNCOUNTED: Final = frozenset(
    """asparagus broccoli cabbage cauliflower celery celeriac chard chicory beetroot fennel garlic
    kale kohlrabi lemongrass lettuce okra pumpkin rhubarb rocket salsify samphire sorrel spinach
    squash swede watercress choi cress pineapple melon radicchio romanesco mooli mangetout cassava
    endive escarole leaf ginger galangal breadfruit jackfruit grapefruit watermelon fruit
    tamarind raab kelp laver carrageen purslane wakame komatsuna taro"""
    .split()
)  # fmt: skip


def plain_name(larder_name: str, aisle: str) -> str:
    """What a reader calls a larder food, as the heading of a list.

    >>> plain_name("beef shin, boneless", "meat"), plain_name("leek", "vegetables")
    ('beef', 'leeks')
    """
    for aisles, pattern, name in _PLAIN:
        if aisle in aisles and pattern.search(larder_name):
            return name
    name = _PART.sub("", larder_name.partition(",")[0]) or larder_name
    name = name.capitalize() if name.partition(" ")[0] in _PROPER else name
    return _plural(name) if aisle in ("vegetables", "fruit") else name


def _plural(name: str) -> str:
    last = name.rsplit(" ", 1)[-1]
    if last.endswith(("s", "’s")) or last in _UNCOUNTED:
        return name
    if last.endswith("y") and last[-2:-1] not in "aeou":
        return f"{name[:-1]}ies"
    return f"{name}es" if last.endswith(("mango", "ch", "sh", "x")) else f"{name}s"


@noted(Dish)
@of_the_last
def main_foods(dish: Dish) -> tuple[str, ...]:
    """The plain names of a dish's main ingredients, the weightiest first.

    They are what the title or a tag names, and what makes up a tenth or more of the weight; stocks,
    fats, sugar, flour and seasoning don't count by weight, and what is in half of all recipes
    (onions, milk, butter, eggs) only from a third on. A sauce with a recipe of its own is left to it.
    """
    named = {*tokens(dish.recipe.title)}
    for tag in dish.recipe.tags:
        named.update(_nouns(tag))
    weights: dict[str, float] = {}
    called: set[str] = set()
    for row in dish.rows:
        if not row.larder_name or row.larder_name in _NEVER:
            continue
        name, weighs, heads = _of_food(row.larder_name, row.aisle)
        grams = float(row.grams) if weighs and row.grams is not None else 0.0
        weights[name] = weights.get(name, 0.0) + grams
        if not named.isdisjoint(heads) or (
            name != "flour" and not named.isdisjoint(_heads(row.line.food))
        ):
            called.add(name)
    whole = sum(weights.values())
    counted = sum([grams for name, grams in weights.items() if name not in _EVERYDAY])
    heaviest = sorted(weights, key=lambda name: (-weights[name], name))
    by_weight = [
        name
        for name in heaviest
        if weights[name] > 0
        and weights[name] >= (whole * EVERYDAY_SHARE if name in _EVERYDAY else counted * SHARE)
    ]
    chosen = {*by_weight[:MOST], *called}
    return tuple([name for name in heaviest if name in chosen])


@lru_cache(maxsize=8192)
def _of_food(larder_name: str, aisle: str) -> tuple[str, bool, frozenset[str]]:
    """A food's plain name, whether it counts by weight, and what names it in a title."""
    name = plain_name(larder_name, aisle)
    seasons = aisle in _SEASONING or bool(_FATS.search(larder_name))
    return name, name in _BUT_BY_WEIGHT or not seasons, _heads(name)


# Last words that name no food by themselves: "sesame seeds" are meant by "sesame".
_OF: Final = frozenset(
    "seed paste sauce flour leaf fillet bean cheese juice zest powder syrup milk stick clove butter"
    .split()
)  # fmt: skip


@lru_cache(maxsize=8192)
def _heads(name: str) -> frozenset[str]:
    """The stems by which a title may mean a food: its last word, and what stands before a vague one.

    So "sesame" means sesame seeds, but not sesame oil, which only "oil" would.
    """
    words = tokens(name.partition(",")[0])
    if not words:
        return frozenset()
    if words[-1] in _OF and len(words) > 1:
        return frozenset({words[-2], "bean"} if words[-1] == "bean" else {words[-2]})
    return frozenset({words[-1]})


@lru_cache(maxsize=4096)
def _nouns(tag: str) -> tuple[str, ...]:
    """The stems of a tag, which many recipes have."""
    return tokens(tag)
