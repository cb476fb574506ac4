"""Whether heat reaches an ingredient: what tells a cooked custard from a raw mayonnaise.

Judged clause by clause, from the one that first names the ingredient. A clause with heat in it
counts when it names the ingredient again, or what it has become (the mixture, the sauce, "it"), or
nothing else. Heat that is plainly for another ingredient does not count. In doubt the answer is that
no heat reaches it, so that a caution rather stands once too often.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Literal

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
    r"|over (?:barely |gently )?simmering|heat (?:gently|through|slowly|until|it)|warm through)\b"
)
_NOT_HEAT = re.compile(
    r"\b(?:heat the oven|preheat[^,.]*|heat a[^,.]*(?:pan|grill|griddle)[^,.]*|boiling water|cooked"
    r"|off the heat|without cooking|don't boil|do not boil|no cooking|slow cooker liner)\b"
)
_CLAUSE = re.compile(
    r",\s+(?:and\s+)?(?:then\s+)?|\s+(?:and then|then)\s+|\s+–\s+|\s+and\s+(?=(?:cook|simmer|fry|bake"
    r"|boil|stir|whisk|return|pour|poach|grill|roast|beat|fold|mix|add|toss)\b)"
)
_BECOMES = frozenset(
    "mixture batter dough custard sauce filling it them they everything all soup pot cake loaf pudding "
    "contents curd dish meat patty ball burger cake biscuit cookie piece parcel".split()
)


def heat_reaching(recipe: Recipe, index: int, sentences: tuple[Sentence, ...] = ()) -> Heat:
    """The strongest heat that reaches ingredient ``index``."""
    line = recipe.lines[index]
    if any(r.startswith(("to serve", "to garnish", "to finish")) for r in line.remarks):
        return "none"
    own = set(tokens(line.called)[-1:]) | set(tokens(line.food)[-1:])
    if "egg" in tokens(line.food) or "yolk" in own:
        own |= {"egg", "yolk", "white"}
    others = {
        w
        for i, other in enumerate(recipe.lines)
        if i != index
        for w in (*tokens(other.called)[-1:], *tokens(other.food)[-1:])
    } - own
    heat: Heat = "none"
    begun = False
    home = ""
    entered: set[str] = set()
    for sentence in sentences or sentences_of(recipe):
        for clause, mentions in _clauses(sentence):
            words = set(tokens(clause))
            named = any(m.line == index for m in mentions)
            if not begun:
                if not named:
                    continue
                begun, home = True, sentence.part
                entered.add(home)
            made = set(tokens(home))
            if named or words & (own | made):
                entered.add(sentence.part)
            found = _heat_of(clause)
            if found == "none" or sentence.part not in entered:
                continue
            mine = named or bool(words & (own | _BECOMES | made))
            for_another = any(m.line != index for m in mentions) or bool(words & others)
            if mine or not for_another:
                if found == "oven":
                    return "oven"
                heat = found
    return heat


def has_heat(text: str) -> bool:
    """Whether a sentence, in lower case, cooks anything at all."""
    return _heat_of(text) != "none"


def _heat_of(clause: str) -> Heat:
    text = _NOT_HEAT.sub(" ", clause)
    if _OVEN.search(text):
        return "oven"
    return "hob" if _HOB.search(text) else "none"


def _clauses(sentence: Sentence) -> Iterator[tuple[str, list[Mention]]]:
    start = 0
    for end in (*(m.start() for m in _CLAUSE.finditer(sentence.low)), len(sentence.low)):
        own = [
            p.piece
            for p in sentence.pieces
            if start <= p.start < end and isinstance(p.piece, Mention)
        ]
        yield sentence.low[start:end], own
        start = end
