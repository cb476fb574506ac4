"""What else a food is called: "eggplant" finds aubergines, and "aubergine" finds eggplants.

A larder food's other names stand in the index beside its own, word by word. Many of their words mean
many foods ("spanish onion", "green onion", "baby onions") and would find what nobody looked for. So a
word is taken where it is the whole name, vague words apart ("garbanzo beans"), and shares no word with
the food's own; else only where it means one kind of food in the whole larder ("bell pepper").

What a site calls the foods of its own is not in doubt: its author has said it of them, and all of it
finds them (:attr:`sitegen.dish.LedgerRow.also`).
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from functools import cache
from typing import Final

from sitegen.finding.words import terms
from sitegen.larder.larder import Larder

_VAGUE: Final = frozenset(
    terms(
        """beans seeds leaves nuts flour sauce paste powder juice oil meat fresh raw dried dry cooked
        boiled frozen tinned canned tin can jar drained peeled chopped ground whole baby large small"""
    )
)


@cache
def other_names() -> Mapping[str, tuple[str, ...]]:
    """Larder name → the terms of its other names that find it, in order.

    >>> other_names()["rocket"]
    ('arugula', 'roquette', 'rucola')
    """
    return _names(Larder.load().called())


def _names(foods: Iterable[tuple[str, tuple[str, ...]]]) -> dict[str, tuple[str, ...]]:
    family: dict[str, str] = {}  # "chickpeas, tinned, drained" is of the chickpeas
    sure: dict[str, set[str]] = {}
    unsure: dict[str, set[str]] = {}
    kinds: dict[str, set[str]] = {}
    for name, others in foods:
        head = family[name] = name.partition(",")[0]
        own, heads = set(terms(name)), terms(head) or [name]
        found, open_to_doubt = sure.setdefault(head, set()), unsure.setdefault(head, set())
        for term in own:
            kinds.setdefault(term, set()).add(heads[-1])
        for other in others:
            said = set(terms(other))
            for term in said:
                kinds.setdefault(term, set()).add(heads[-1])
            left = said - own - _VAGUE
            whole = len(left) == 1 and said.isdisjoint(heads)
            (found if whole else open_to_doubt).update(left)
    told = {
        head: tuple(sorted(found | {term for term in unsure[head] if len(kinds[term]) == 1}))
        for head, found in sure.items()
    }
    return {name: told[head] for name, head in family.items()}
