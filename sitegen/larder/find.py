"""Finding a food by the words a cook writes.

In this order, each step sure of itself unless two foods fit alike:

1. the name or a synonym as it stands, whatever the capitals and accents;
2. the same words in another order, number or spelling;
3. the longest name that lies within the words, if every word left over is known to be harmless
   ("large", "finely chopped", "ripe") for that food.

A word that is left over otherwise is never dropped silently: the nearest food is offered, and the
match is not sure. If no food's name lies within the words, there is no food, only candidates.
"""

import re
from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass, field
from difflib import get_close_matches
from math import log
from typing import Final

from sitegen.larder import harmless
from sitegen.larder.words import key, plain, tokens

_CANDIDATES: Final = 5
_SLIP: Final = 0.8  # how alike two words must be for one to be a slip of the pen for the other
_NUMBER: Final = re.compile(r"[1-9]\d*")
Words = frozenset[str]


@dataclass(frozen=True, slots=True)
class Entry:
    """What the finder needs of a food."""

    name: str
    names: tuple[str, ...]
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


@dataclass(slots=True)
class Finder:
    """An index over the names of foods; entries that come first win a shared name."""

    entries: Iterable[Entry]
    _exact: dict[str, str] = field(default_factory=dict)
    _by_name: dict[str, Entry] = field(default_factory=dict)
    _whole: dict[Words, list[str]] = field(default_factory=dict)
    _holders: dict[str, list[Words]] = field(default_factory=lambda: defaultdict(list))

    def __post_init__(self) -> None:
        for entry in self.entries:
            self._by_name[entry.name] = entry
            for name in entry.names:
                self._exact.setdefault(plain(name), entry.name)
                whole = frozenset(key(name))
                owners = self._whole.get(whole)
                if owners is None:
                    self._whole[whole] = [entry.name]
                    for word in whole:
                        self._holders[word].append(whole)
                elif entry.name not in owners:
                    owners.append(entry.name)

    def find(self, words: str) -> Found:
        """The food meant by `words`, and whether that is sure."""
        text = plain(words)
        found = self._find(text)
        if found.name is not None and self._by_name[found.name].aisle == "spices":
            for plural, meant in harmless.PLURALS.items():
                if re.search(rf"\b{plural}\b", text):
                    return self._find(text.replace(plural, meant))
        return found

    def _find(self, text: str) -> Found:
        exact = self._exact.get(text)
        if exact is not None:
            return Found(exact, True, (exact,))
        asked = frozenset(key(text))
        owners = self._whole.get(asked)
        if owners:
            return Found(owners[0], len(owners) == 1, tuple(owners[:_CANDIDATES]))
        text = text.replace("-", " ")
        for phrase in harmless.PHRASES:
            text = text.replace(phrase, " ")
        asked = frozenset(key(text)) or asked
        return self._within(asked, text) or self._nearest(asked)

    def _within(self, asked: Words, text: str) -> Found | None:
        """The longest name within the words whose leftover is harmless."""
        best: list[str] = []
        longest = 0
        freshly = "freshly ground" in text
        for name_words in self._names_within(asked):
            if len(name_words) < longest:
                continue
            left = asked - name_words
            fitting = [n for n in self._whole[name_words] if self._allows(n, left, freshly)]
            if not fitting:
                continue
            if len(name_words) > longest:
                best, longest = [], len(name_words)
            best += [name for name in fitting if name not in best]
        if not best:
            return None
        sure = len(best) == 1 and self._agrees(best[0], asked)
        rest = [name for name in self._ranked(asked) if name not in best] if not sure else []
        return Found(best[0], sure, tuple((best + rest)[:_CANDIDATES]))

    def _names_within(self, asked: Words) -> Iterable[Words]:
        seen = {names for word in asked for names in self._holders.get(word, ())}
        return (names for names in seen if names <= asked)

    def _names_holding(self, asked: Words) -> Iterable[Words]:
        rarest = min((self._holders.get(word, []) for word in asked), key=len, default=[])
        return (names for names in rarest if asked <= names)

    def _only(self, all_names: Iterable[Words]) -> str | None:
        """The one food that all these names belong to, or None if they belong to several."""
        foods = {food for names in all_names for food in self._whole[names]}
        return foods.pop() if len(foods) == 1 else None

    def _allows(self, name: str, left: Words, freshly_ground: bool) -> bool:
        """Whether every word that is left over is harmless for this food."""
        entry = self._by_name[name]
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
        entry = self._by_name[name]
        called = frozenset(tokens(entry.name))
        about = called | frozenset(tokens(entry.description))
        for word in asked:
            if harmless.CONFLICTS.get(word, frozenset()) & (about - asked):
                return False
        return not any(pair <= asked and not pair <= called for pair in harmless.DOUBTFUL)

    def _nearest(self, asked: Words) -> Found:
        """No sure match: the food whose name is within the words, if any, and the nearest."""
        known = {word for word in asked if word in self._holders}
        for word in asked - known:  # perhaps a slip of the pen: "turmric"
            known.update(get_close_matches(word, self._holders, n=2, cutoff=_SLIP))
        ranked = self._ranked(frozenset(known))
        holding = list(self._names_holding(asked))
        food = self._only(holding)
        if not holding:
            within = list(self._names_within(asked))
            longest = max(map(len, within), default=0)
            food = self._only(names for names in within if len(names) == longest)
        if food is not None:
            ranked = [food, *(name for name in ranked if name != food)]
        return Found(food, False, tuple(ranked[:_CANDIDATES]))

    def _ranked(self, asked: Words) -> list[str]:
        """Names by the share of words in common, rare words counting for more."""
        total = len(self._whole) + 1
        weight = {w: log(total / (1 + len(self._holders.get(w, ())))) + 0.1 for w in asked}
        every = sum(weight.values())
        scores: dict[str, float] = {}
        for names in {names for word in asked for names in self._holders.get(word, ())}:
            shared = sum(weight[word] for word in names if word in weight)
            score = shared / (every + len(names - asked))
            for name in self._whole[names]:
                scores[name] = max(score, scores.get(name, 0.0))
        return sorted(scores, key=lambda name: (-scores[name], len(name), name))
