"""Whether heat reaches an ingredient: what tells a cooked custard from a raw mayonnaise.

Judged clause by clause, from the one that first names the ingredient. A clause with heat in it
counts when it names the ingredient again, or what it has become (the mixture, the sauce, "it"), or
nothing else. Heat that is plainly for another ingredient does not count. In doubt the answer is that
no heat reaches it, so that a caution rather stands once too often.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence, Set
from typing import Literal, NamedTuple

from sitegen.reading.naming import tokens
from sitegen.reading.recipe import Mention, Recipe
from sitegen.reading.sentences import Sentence, sentences_of

Heat = Literal["none", "hob", "oven"]

_OVEN = re.compile(
    r"\b(?:bake|baked|roast|(?:in|into|to) the (?:hot )?oven|under the grill|air fryer)\b"
)
_HOB = re.compile(
    r"\b(?:simmer(?:ing)?|boil|stew|braise|poach|steam|(?:deep-|stir-)?fry|saut[ée]|cook|grill|sear"
    r"|brown|scramble|barbecue|microwave|slow cooker|pressure cooker|ha(?:s|ve) reached"
    r"|bring (?:\w+ )?(?:back )?(?:up )?to (?:the|a) (?:boil|simmer)"
    r"|(?:over|on) (?:a |the )?(?:very )?(?:low|lowest|gentle|medium|moderate|high)"
    r"(?:[ -](?:to )?(?:low|medium|high))? (?:heat|flame)"
    r"|over (?:barely |gently )?simmering|coats? the (?:back of )?(?:(?:the|a) )?(?:wooden )?spoon"
    r"|heat (?:gently|through|slowly|until|it)|warm through)\b"
)
# A word of the expressions above and the expressions that it stands in. Each finds nothing without
# one of its words: a clause is looked at word by word, and few need be searched.
_IN_OVEN, _IN_HOB, _IN_NOT_HEAT = 1, 2, 4
_HOT_WORDS = {
    **dict.fromkeys(("bake", "baked", "roast", "oven", "fryer"), _IN_OVEN),
    "grill": _IN_OVEN | _IN_HOB,
    **dict.fromkeys(
        "coat coats simmer simmering stew braise poach steam fry saute sauté cook sear brown scramble barbecue "
        "microwave cooker reached flame warm".split(),
        _IN_HOB,
    ),
    **dict.fromkeys(("heat", "boil"), _IN_HOB | _IN_NOT_HEAT),
    **dict.fromkeys(("boiling", "cooked", "cooking", "liner"), _IN_NOT_HEAT),
}
_WORD = re.compile(r"\w+")
_NOT_HEAT = re.compile(
    r"\b(?:heat the oven|preheat[^,.]*|heat a[^,.]*(?:pan|grill|griddle)[^,.]*|boiling water|cooked"
    r"|off the heat|without cooking|don't boil|do not boil|no cooking|slow cooker liner)\b"
)
_CLAUSE = re.compile(
    r",\s+(?:and\s+)?(?:then\s+)?|\s+(?:(?:and then|then)\s+|–\s+|and\s+(?=(?:cook|simmer|fry|bake"
    r"|boil|stir|whisk|return|pour|poach|grill|roast|beat|fold|mix|add|toss)\b))"
)
_COLD_REMARKS = ("to serve", "to garnish", "to finish")
_BECOMES = frozenset(
    "mixture batter dough custard sauce filling it them they everything all soup pot cake loaf pudding "
    "contents curd dish meat patty ball burger cake biscuit cookie piece parcel".split()
)


class _Clause(NamedTuple):
    """A clause with heat in it, or without; what its words are is asked of few."""

    part: str
    low: str
    mentions: tuple[int, ...]
    """The lines that it names in brackets."""
    heat: Heat


class Reach:
    """The method of one recipe, taken apart once; then asked of each ingredient in turn."""

    def __init__(self, recipe: Recipe, sentences: tuple[Sentence, ...] = ()) -> None:
        self._recipe = recipe
        self._sentences = sentences
        self._clauses: list[_Clause] | None = None
        self._names: list[tuple[str, ...]] = []
        self._found: dict[int, Heat] = {}

    def of(self, index: int) -> Heat:
        """The strongest heat that reaches ingredient ``index``."""
        found = self._found.get(index)
        if found is None:
            found = self._found[index] = self._of(index)
        return found

    def _of(self, index: int) -> Heat:
        lines = self._recipe.lines
        line = lines[index]
        if line.remarks and any(r.startswith(_COLD_REMARKS) for r in line.remarks):
            return "none"
        if self._clauses is None:
            self._clauses = list(_clauses(self._sentences or sentences_of(self._recipe)))
            self._names = [(*tokens(x.called)[-1:], *tokens(x.food)[-1:]) for x in lines]
        own = set(self._names[index])
        if "egg" in tokens(line.food) or "yolk" in own:
            own |= {"egg", "yolk", "white"}
        others: set[str] | None = None
        heat: Heat = "none"
        entered: set[str] = set()
        near = became = own
        for clause in self._clauses:
            named = index in clause.mentions
            if not entered:
                if not named:
                    continue
                entered.add(clause.part)
                near = own.union(tokens(clause.part))
                became = near | _BECOMES
            elif clause.part not in entered:
                if not named and not _any_of(clause.low, near):
                    continue
                entered.add(clause.part)
            if clause.heat == "none" or clause.heat == heat:
                continue
            if not named and not _any_of(clause.low, became):
                if clause.mentions:
                    continue
                if others is None:
                    called = self._names[:index] + self._names[index + 1 :]
                    others = {word for names in called for word in names} - own
                if _any_of(clause.low, others):
                    continue
            if clause.heat == "oven":
                return "oven"
            heat = clause.heat
        return heat


def heat_reaching(recipe: Recipe, index: int, sentences: tuple[Sentence, ...] = ()) -> Heat:
    """The strongest heat that reaches one ingredient; for several, ask one :class:`Reach`."""
    return Reach(recipe, sentences).of(index)


def has_heat(text: str) -> bool:
    """Whether a sentence, in lower case, cooks anything at all."""
    return _heat_of(text) != "none"


def _any_of(text: str, words: Set[str]) -> bool:
    return not words.isdisjoint(tokens(text))


def _heat_of(clause: str) -> Heat:
    held = _held(clause)
    if not held & (_IN_OVEN | _IN_HOB):
        return "none"
    text = _NOT_HEAT.sub(" ", clause) if held & _IN_NOT_HEAT else clause
    if held & _IN_OVEN and _OVEN.search(text):
        return "oven"
    return "hob" if held & _IN_HOB and _HOB.search(text) else "none"


def _held(text: str) -> int:
    """The expressions that some word of ``text`` may be part of."""
    found = 0
    for flags in set(map(_HELD_BY.__getitem__, text.split())):
        found |= flags
    return found


class _HeldBy(dict[str, int]):
    """The expressions that a word, with the signs that cling to it, may be part of."""

    def __missing__(self, written: str) -> int:
        found = 0
        for word in _WORD.findall(written):
            found |= _HOT_WORDS.get(word, _IN_NOT_HEAT if word.startswith("preheat") else 0)
        if len(self) >= _REMEMBERED:
            self.clear()
        self[written] = found
        return found


_REMEMBERED = 4096
_HELD_BY = _HeldBy()


def _clauses(sentences: Iterable[Sentence]) -> Iterator[_Clause]:
    """The clauses in order; a sentence that cooks nothing is one, for it only names things."""
    for sentence in sentences:
        low, start = sentence.low, 0
        named: Sequence[tuple[int, int]] = ()
        if sentence.mentions:
            pieces = sentence.pieces
            named = [(p.start, p.piece.line) for p in pieces if isinstance(p.piece, Mention)]
        if not _held(low) & (_IN_OVEN | _IN_HOB):
            yield _Clause(sentence.part, low, tuple([line for _, line in named]), "none")
            continue
        for end in (*[m.start() for m in _CLAUSE.finditer(low)], len(low)):
            text = low[start:end]
            own = tuple([line for at, line in named if start <= at < end]) if named else ()
            yield _Clause(sentence.part, text, own, _heat_of(text))
            start = end
