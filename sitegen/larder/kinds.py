"""Words that name a kind of food and no food: what a cook who writes them most likely means.

"200 g beef" may be mince, a stew or a steak, with twice the fat of one another: it is never guessed at.
``data/kinds.txt`` has the foods in the order in which a cook would think of them (common practice). It
also holds names of foods that the larder has no figures for, with those that stand nearest to them.
"""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import Final

from sitegen.larder.words import joined

_DATA: Final = Path(__file__).parent / "data" / "kinds.txt"


@cache
def table() -> dict[str, tuple[str, ...]]:
    """Each kind's key, as :func:`~sitegen.larder.words.joined` makes it, with its foods in order."""
    kinds: dict[str, tuple[str, ...]] = {}
    for row in _DATA.read_text(encoding="utf-8").splitlines():
        words, _, foods = row.partition("|")
        if foods and not row.startswith("#"):
            names = tuple(name.strip() for name in foods.split(";"))
            kinds.update((joined(word), names) for word in words.split(","))
    return kinds
