"""The search index: a plain script file, so that searching works from disk as well."""

from __future__ import annotations

import json
import re
import unicodedata
from collections.abc import Sequence

from sitegen.dish import Dish
from sitegen.late import noted

INDEX_STEM = "search-index.js"
_SKIPPED = frozenset(("and", "the", "with", "for", "from", "into", "cut"))


@noted(Dish)
def words_of(dish: Dish) -> str:
    """The words that find a dish, each once, plain and lower-case, in order of the alphabet.

    Title, ingredients, course, cuisine, tags and author are looked through; the method is not.
    """
    recipe = dish.recipe
    texts = [recipe.title, recipe.course, recipe.cuisine, recipe.author, *recipe.tags]
    for row in dish.rows:
        texts += [row.line.food, row.larder_name, *(o.line.food for o in row.alternatives)]
    found = set()
    for text in texts:
        found |= {w for w in re.findall(r"[^\W_]+", plain(text)) if len(w) > 1}
    return " ".join(sorted(found - _SKIPPED))


def plain(text: str) -> str:
    """Lower case, without accents: what both the index and the reader's words are made."""
    apart = unicodedata.normalize("NFKD", text.casefold())
    return "".join(c for c in apart if not unicodedata.combining(c))


def search_index(dishes: Sequence[Dish]) -> bytes:
    """``SEARCH_INDEX``: the words of each recipe by its slug."""
    data = {dish.recipe.slug: words_of(dish) for dish in dishes}
    text = json.dumps(data, ensure_ascii=False, separators=(",", ":"))
    return f"const SEARCH_INDEX={text};\n".encode()
