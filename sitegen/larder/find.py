"""Finding a food by the words a cook writes.

In this order, each step sure of itself unless two foods fit alike:

1. the name or a synonym as it stands, whatever the capitals and accents;
2. the same words in another order, number or spelling;
3. the longest name that lies within the words, if every word left over is known to be harmless
   ("large", "finely chopped", "ripe") for that food.

A word that is left over otherwise is never dropped silently: the nearest food is offered, and the
match is not sure. If no food's name lies within the words, there is no food, only candidates. A word
for a kind of food ("beef", "cream") is never a food: `kinds` says what a cook may mean by it.
"""

import re
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from math import log
from typing import Final

from sitegen.larder import harmless, kinds
from sitegen.larder.words import joined, key, plain, tokens

_CANDIDATES: Final = 5
_SLIP: Final = 0.8  # how alike two words must be for one to be a slip of the pen for the other
_LEAST: Final = 0.2  # a food that has less in common with the words is no help to their author
_GUESSED: Final = 0.4  # what a word counts for that is only taken for a slip of the pen
_OTHERWISE: Final = frozenset("vegan vegetarian free plant less meatless dairyfree mock".split())
_LATER: Final = frozenset(
    "cooked boiled roasted fried stewed grilled baked braised liquid enriched reduced light low fat "
    "unsalted sweetened rich cube powder sauce".split()
)
_NUMBER: Final = re.compile(r"[1-9]\d*")
Words = frozenset[str]


@dataclass(frozen=True, slots=True)
class Entry:
    """What the finder needs of a food."""

    name: str
    description: str = ""
    flesh: bool = False
    liquid: bool = False
    aisle: str = ""
    units: Words = frozenset()


@dataclass(frozen=True, slots=True)
class Found:
    """The name of the food, if any, and those of the nearest ones."""

    name: str | None
    sure: bool
    candidates: tuple[str, ...]


class Finder:
    """An index over the names of foods; those that come first win a shared name.

    What it needs is made when it is first needed: most words are a food's name as it stands.
    """

    def __init__(
        self,
        names: Mapping[str, str],
        keys: Callable[[], Iterable[tuple[str, str]]],
        entry: Callable[[str], Entry],
    ) -> None:
        """``names`` are plain names with their foods, ``keys`` gives the :func:`joined` key of each."""
        self._names = names
        self._keys = keys
        self._entry = entry
        self._entries: dict[str, Entry] = {}
        self._owners: dict[str, list[str]] = {}
        self._holders: dict[str, list[str]] = {}
        self._sets: dict[str, Words] = {}

    @property
    def _whole(self) -> dict[str, list[str]]:
        """The foods that own each key."""
        if not self._owners:
            for whole, name in self._keys():
                owners = self._owners.get(whole)
                if owners is None:
                    self._owners[whole] = [name]
                elif name not in owners:
                    owners.append(name)
        return self._owners

    @property
    def _holding(self) -> dict[str, list[str]]:
        """The keys that hold each word."""
        if not self._holders:
            for whole in self._whole:
                for word in whole.split():
                    self._holders.setdefault(word, []).append(whole)
        return self._holders

    def _words(self, whole: str) -> Words:
        found = self._sets.get(whole)
        if found is None:
            found = self._sets[whole] = frozenset(whole.split())
        return found

    def _of(self, name: str) -> Entry:
        found = self._entries.get(name)
        if found is None:
            found = self._entries[name] = self._entry(name)
        return found

    def find(self, words: str) -> Found:
        """The food meant by `words`, and whether that is sure."""
        text = plain(words)
        found = self._find(text)
        if found.name is not None and self._of(found.name).aisle == "spices":
            for plural, meant in harmless.PLURALS.items():
                if re.search(rf"\b{plural}\b", text):
                    return self._find(text.replace(plural, meant))
        return found

    def _find(self, text: str) -> Found:
        exact = self._names.get(text)
        if exact is not None:
            return Found(exact, True, (exact,))
        whole = joined(text)
        owners = self._whole.get(whole)
        if owners:
            return Found(owners[0], len(owners) == 1, tuple(owners[:_CANDIDATES]))
        text = text.replace("-", " ")
        for phrase in harmless.PHRASES:
            text = text.replace(phrase, " ")
        asked = frozenset(key(text)) or frozenset(whole.split())
        within = self._within(asked, text)
        if within is not None and within.sure:
            return within
        return self._of_a_kind(asked, within) or within or self._nearest(asked)

    def _of_a_kind(self, asked: Words, within: Found | None) -> Found | None:
        """What is meant by a word for a kind of food, if one of those is the most of what is asked."""
        known = kinds.table()
        fitting = [whole for whole in known if self._words(whole) <= asked]
        if not fitting:
            return None
        kind = max(fitting, key=lambda whole: len(self._words(whole)))
        left = asked - self._words(kind) - harmless.ANYWHERE - harmless.UNLESS_FLESH
        longest = max((len(self._words(w)) for w in self._names_within(asked)), default=0)
        if left and (longest >= len(self._words(kind)) or self._names_holding(asked)):
            return (
                None  # "smoked cheddar cheese" is rather a cheddar, and "navy beans" are haricots
            )
        if left & _OTHERWISE:
            return None
        nearer: list[str] = []
        if left:
            both = (left, self._words(kind))
            called = ((name, frozenset(tokens(name))) for name in self._ranked(asked))
            nearer = [name for name, words in called if all(one & words for one in both)][:2]
        return Found(None, False, tuple(dict.fromkeys([*nearer, *known[kind]]))[:_CANDIDATES])

    def _within(self, asked: Words, text: str) -> Found | None:
        """The longest name within the words whose leftover is harmless."""
        best: list[str] = []
        longest = 0
        freshly = "freshly ground" in text
        for whole in self._names_within(asked):
            words = self._words(whole)
            if len(words) < longest:
                continue
            left = asked - words
            fitting = [n for n in self._whole[whole] if self._allows(n, left, freshly)]
            if not fitting:
                continue
            if len(words) > longest:
                best, longest = [], len(words)
            best += [name for name in fitting if name not in best]
        if not best:
            return None
        sure = len(best) == 1 and self._agrees(best[0], asked)
        rest = [name for name in self._ranked(asked) if name not in best] if not sure else []
        return Found(best[0], sure, tuple((best + rest)[:_CANDIDATES]))

    def _sharing(self, asked: Words) -> list[str]:
        """The keys that share a word with what is asked, in one order whatever the hash seed."""
        return sorted({whole for word in asked for whole in self._holding.get(word, ())})

    def _names_within(self, asked: Words) -> list[str]:
        return [whole for whole in self._sharing(asked) if self._words(whole) <= asked]

    def _names_holding(self, asked: Words) -> list[str]:
        rarest = min((self._holding.get(word, []) for word in asked), key=len, default=[])
        return [whole for whole in rarest if asked <= self._words(whole)]

    def _only(self, wholes: Iterable[str]) -> str | None:
        """The one food that all these names belong to, or None if they belong to several."""
        foods = {food for whole in wholes for food in self._whole[whole]}
        return foods.pop() if len(foods) == 1 else None

    def _allows(self, name: str, left: Words, freshly_ground: bool) -> bool:
        """Whether every word that is left over is harmless for this food."""
        entry = self._of(name)
        numbers = [int(word) for word in left if _NUMBER.fullmatch(word)]
        if entry.flesh and any(100 - number in numbers for number in numbers):
            return False  # lean to fat, as in 90/10: another food
        for word in left:
            if _NUMBER.fullmatch(word):
                continue
            if entry.flesh:
                if word not in harmless.ANYWHERE or word in harmless.NEVER_FOR_FLESH:
                    return False
            elif not (
                word in harmless.ANYWHERE
                or word in harmless.UNLESS_FLESH
                or (word in harmless.COUNTED_PARTS and word in entry.units)
                or (word in harmless.IF_LIQUID and entry.liquid)
                or word in harmless.IN_AISLE.get(entry.aisle, ())
                or (word == "ground" and freshly_ground and entry.aisle == "spices")
            ):
                return False
        return True

    def _agrees(self, name: str, asked: Words) -> bool:
        """Whether no word of the cook speaks against what the food is."""
        entry = self._of(name)
        called = frozenset(tokens(entry.name))
        about = called | frozenset(tokens(entry.description))
        for word in asked:
            if harmless.CONFLICTS.get(word, frozenset()) & (about - asked):
                return False
        return not any(pair <= asked and not pair <= called for pair in harmless.DOUBTFUL)

    def _nearest(self, asked: Words) -> Found:
        """No sure match: the food whose name is within the words, if any, and the nearest."""
        from difflib import get_close_matches

        known = {word for word in asked if word in self._holding}
        for word in asked - known:  # perhaps a slip of the pen: "turmric"
            if len(word) > 3:
                known.update(get_close_matches(word, self._holding, n=2, cutoff=_SLIP))
        ranked = self._ranked(frozenset(known), frozenset(known) - asked)
        holding = self._names_holding(asked)
        food = self._only(holding)
        if not holding:
            within = self._names_within(asked)
            longest = max((len(self._words(whole)) for whole in within), default=0)
            food = self._only(whole for whole in within if len(self._words(whole)) == longest)
        if food is not None:
            ranked = [food, *(name for name in ranked if name != food)]
        return Found(food, False, tuple(ranked[:_CANDIDATES]))

    def _ranked(self, asked: Words, guessed: Words = frozenset()) -> list[str]:
        """Names by the share of words in common, rare words counting for more.

        A food whose own name is what is asked ("chickpeas, dried" for chickpeas) comes before those that
        only have it among their names ("chickpea flour"), as they are bought before as they are cooked.
        """
        total = len(self._whole) + 1
        holding = self._holding
        weight = {
            word: (log(total / (1 + len(holding.get(word, ())))) + 0.1)
            * (_GUESSED if word in guessed else 1)
            for word in sorted(asked)
        }
        every = sum(weight.values())
        scores: dict[str, float] = {}
        for whole in self._sharing(asked):
            words = whole.split()
            shared = sum(weight[word] for word in words if word in weight)
            score = shared / (every + len([word for word in words if word not in weight]))
            for name in self._whole[whole]:
                scores[name] = max(score, scores.get(name, 0.0))
        near = [name for name, score in scores.items() if score >= _LEAST]
        for name in near:
            head, _, rest = name.partition(",")
            called = tokens(head)
            if frozenset(called) == asked:
                scores[name] += 1
            elif called and called[-1] in asked:
                scores[name] += 0.15
            if _LATER & frozenset(tokens(rest)):
                scores[name] -= 0.1
        return sorted(near, key=lambda name: (-scores[name], len(name), name))
