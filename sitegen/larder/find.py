"""Finding a food by the words a cook writes.

In this order, each step sure of itself unless two foods fit alike:

1. the name or a synonym as it stands, whatever the capitals and accents;
2. the same words in another order, number or spelling;
3. the same after dropping words known to be harmless ("large", "finely chopped", "ripe").

A word that is left over is never dropped silently: the nearest food is offered, and the match is
not sure. If no food's name lies within the words, nor the words within a name, there is no food,
only candidates.
"""

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass, field
from difflib import get_close_matches
from math import log
from typing import Final

from sitegen.larder import harmless
from sitegen.larder.words import key, plain, tokens

_CANDIDATES: Final = 5
Key = tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Entry:
    """What the finder needs of a food."""

    name: str
    names: tuple[str, ...]
    description: str = ""
    flesh: bool = False
    liquid: bool = False
    herb: bool = False
    units: frozenset[str] = frozenset()


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
    _full: dict[Key, list[str]] = field(default_factory=lambda: defaultdict(list))
    _core: dict[Key, list[str]] = field(default_factory=lambda: defaultdict(list))
    _holders: dict[str, set[tuple[Key, str]]] = field(default_factory=lambda: defaultdict(set))
    _unit_words: set[str] = field(default_factory=set)

    def __post_init__(self) -> None:
        for entry in self.entries:
            self._by_name[entry.name] = entry
            self._unit_words |= entry.units
            for name in entry.names:
                self._exact.setdefault(plain(name), entry.name)
                whole = key(name)
                _append(self._full[whole], entry.name)
                _append(self._core[_core(whole)], entry.name)
                for word in whole:
                    self._holders[word].add((whole, entry.name))

    def find(self, words: str) -> Found:
        """The food meant by `words`, and whether that is sure."""
        text = plain(words)
        exact = self._exact.get(text)
        if exact is not None:
            return Found(exact, True, (exact,))
        whole = key(text)
        if whole in self._full:
            return self._one_of(self._full[whole], whole, whole)
        cleaned = text.replace("-", " ")
        for phrase in harmless.PHRASES:
            cleaned = cleaned.replace(phrase, " ")
        cleaned = cleaned.replace("freshly ground", "freshly")
        whole = key(cleaned) or whole
        found = self._without_harmless(whole, "freshly ground" in text)
        return found or self._nearest(_core(whole) or whole)

    def _one_of(self, names: list[str], asked: Key, used: Key) -> Found:
        name = names[0]
        if len(names) > 1:
            return Found(name, False, tuple(names[:_CANDIDATES]))
        sure = self._agrees(name, frozenset(asked) - frozenset(used))
        return Found(name, sure, (name,) if sure else self._around(name, asked))

    def _agrees(self, name: str, dropped: frozenset[str]) -> bool:
        """Whether none of the dropped words speaks against the food."""
        entry = self._by_name[name]
        if entry.flesh and dropped & (harmless.NEVER_FOR_FLESH | harmless.UNLESS_FLESH):
            return False
        about = frozenset(tokens(entry.name)) | frozenset(tokens(entry.description))
        if any(harmless.CONFLICTS.get(word, frozenset()) & about for word in dropped):
            return False
        said = dropped | frozenset(tokens(entry.name))
        return not any(pair <= said and pair & dropped for pair in harmless.DOUBTFUL)

    def _without_harmless(self, whole: Key, freshly_ground: bool) -> Found | None:
        core = _core(whole)
        attempts = [core]
        # Words harmless for some foods only: the fewest dropped first.
        some = [w for w in core if w in _SOMETIMES or w in self._unit_words]
        attempts += [tuple(w for w in core if w != word) for word in some]
        if len(some) > 1:
            attempts.append(tuple(w for w in core if w not in some))
        for attempt in attempts:
            if not attempt:
                continue
            names = self._full.get(attempt) or self._core.get(attempt)
            if not names:
                continue
            extra = frozenset(core) - frozenset(attempt)
            allowed = [n for n in names if self._allows(n, extra)]
            if not allowed:
                continue
            found = self._one_of(allowed, whole, attempt)
            if freshly_ground and self._by_name[allowed[0]].flesh:
                return Found(found.name, False, found.candidates)
            return found
        return None

    def _allows(self, name: str, words: frozenset[str]) -> bool:
        entry = self._by_name[name]
        for word in words:
            if word in harmless.UNLESS_FLESH and not entry.flesh:
                continue
            if word in harmless.IF_LIQUID and entry.liquid:
                continue
            if word in harmless.IF_HERB and entry.herb:
                continue
            if word in entry.units and not entry.flesh:
                continue
            return False
        return True

    def _around(self, name: str, asked: Key) -> tuple[str, ...]:
        others = [n for n in self._ranked(asked) if n != name]
        return (name, *others[: _CANDIDATES - 1])

    def _nearest(self, asked: Key) -> Found:
        known = [word for word in asked if self._holders.get(word)]
        if len(known) < len(asked):  # perhaps a slip of the pen: "turmric"
            vocabulary = list(self._holders)
            for word in asked:
                if word not in known:
                    known += get_close_matches(word, vocabulary, n=2, cutoff=0.75)
        ranked = self._ranked(tuple(known))
        wanted = frozenset(asked)
        for name in ranked[:_CANDIDATES]:
            for own in self._by_name[name].names:
                words = frozenset(key(own))
                if words <= wanted or wanted <= words:
                    rest = [n for n in ranked if n != name]
                    return Found(name, False, (name, *rest[: _CANDIDATES - 1]))
        return Found(None, False, tuple(ranked[:_CANDIDATES]))

    def _ranked(self, asked: Key) -> list[str]:
        """Names by the share of words in common, rare words counting for more."""
        total = len(self._by_name) + 1
        weight = {word: log(total / (1 + len(self._holders.get(word, ())))) + 0.1 for word in asked}
        scores: dict[str, float] = {}
        for word in asked:
            for own, name in self._holders.get(word, ()):
                shared = sum(weight[w] for w in asked if w in own)
                every = shared + sum(weight[w] for w in asked if w not in own)
                spare = sum(1 for w in own if w not in weight)
                score = shared / (every + spare)
                if score > scores.get(name, 0):
                    scores[name] = score
        return sorted(scores, key=lambda name: (-scores[name], len(name), name))


_SOMETIMES: Final = harmless.UNLESS_FLESH | harmless.IF_LIQUID | harmless.IF_HERB


def _append(names: list[str], name: str) -> None:
    if name not in names:
        names.append(name)


def _core(words: Iterable[str]) -> Key:
    return tuple(word for word in words if word not in harmless.ANYWHERE)
