"""What kind of course a recipe's own word for it means, where a rule or a caution hangs on it."""

from __future__ import annotations

from functools import lru_cache

_MEANT = {
    "appetizer": "starter",
    "bake": "baking",
    "bakes": "baking",
    "beverage": "drink",
    "biscuit": "biscuits",
    "canning": "preserve",
    "chutney": "preserve",
    "cocktail": "drink",
    "cookie": "biscuits",
    "cookies": "biscuits",
    "entrée": "main",
    "jam": "preserve",
    "main course": "main",
    "main dish": "main",
    "pickle": "preserve",
    "preserving": "preserve",
    "side dish": "side",
}


@lru_cache(maxsize=256)
def kind_of(course: str) -> str:
    """The course in the singular and by its usual name; a word of the author's own as it stands.

    >>> [kind_of(c) for c in ("Preserves", "Jams", "Side dishes", "biscuits", "baby")]
    ['preserve', 'preserve', 'side', 'biscuits', 'baby']
    """
    word = course.strip().lower()
    if word in _MEANT or word == "biscuits":
        return _MEANT.get(word, word)
    single = word[:-2] if word.endswith(("dishes", "ches")) else word.removesuffix("s")
    return _MEANT.get(single, single)
