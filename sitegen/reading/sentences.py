"""The method, sentence by sentence: plain words with the ingredients, times and heats among them.

What the read-through and the safety desk ask is asked of a sentence: what goes in, how hot, for how
long, until what.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from html import unescape

from sitegen.reading.recipe import Length, Mention, Recipe, Step, Temperature, TimeSpan

_END = re.compile(r"[.!?;:](?=\s|$)")
_TAG = re.compile(r"<[^<>]*>")
_SHORT = re.compile(r"\b(?:no|approx|e\.g|i\.e|ca)$", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Placed:
    """A piece of a sentence, and where in its text it begins."""

    start: int
    piece: Mention | TimeSpan | Temperature | Length


@dataclass(frozen=True, slots=True)
class Sentence:
    """A sentence of one step; semicolons and colons end one too."""

    step: Step
    part: str
    """The name of the method's part that the step stands in."""
    text: str
    low: str
    """The text in lower case."""
    pieces: tuple[Placed, ...]
    # Every rule asks the rest of every sentence, so they are not sought anew each time.
    mentions: tuple[Mention, ...] = field(repr=False, compare=False)
    """The ingredients named in brackets."""
    times: tuple[TimeSpan, ...] = field(repr=False, compare=False)
    """The times."""
    heats: tuple[Temperature, ...] = field(repr=False, compare=False)
    """Oven settings and temperatures inside the food."""


# A recipe is worked out and then read through; the sentences are the same both times. The recipe is
# known again by being the same object, so nothing can be answered for another one.
_latest: tuple[Recipe | None, tuple[Sentence, ...]] = (None, ())


def sentences_of(recipe: Recipe) -> tuple[Sentence, ...]:
    """Every sentence of the method, in order."""
    global _latest
    known, sentences = _latest
    if known is not recipe:
        sentences = tuple(
            sentence
            for part in recipe.method
            for step in part.steps
            for sentence in _of_step(step, part.name)
        )
        _latest = (recipe, sentences)
    return sentences


def _of_step(step: Step, part: str) -> list[Sentence]:
    text = ""
    placed: list[Placed] = []
    spans: list[tuple[int, int]] = []
    for piece in step.pieces:
        if isinstance(piece, str):
            text += _plain(piece)
            continue
        start = len(text)
        text += piece.words if isinstance(piece, Mention) else piece.text
        placed.append(Placed(start, piece))
        spans.append((start, len(text)))
    found: list[Sentence] = []
    start = 0
    for end in [*[m.end() for m in _END.finditer(text)], len(text)]:
        if end != len(text):
            last = end - 1
            if any(a < last < b for a, b in spans):
                continue
            # the longest of these words has six letters
            if text[last] == "." and _SHORT.search(text[max(0, last - 8) : last]):
                continue
        whole = text[start:end]
        if whole and not whole.isspace():
            own = [p for p in placed if start <= p.start < end]
            found.append(_sentence(step, part, whole, own, start))
        start = end
    return found


def _sentence(step: Step, part: str, text: str, placed: list[Placed], start: int) -> Sentence:
    """A sentence that begins at ``start`` of its step, with the pieces that lie in it."""
    mentions: list[Mention] = []
    times: list[TimeSpan] = []
    heats: list[Temperature] = []
    for piece in [p.piece for p in placed]:
        if isinstance(piece, Mention):
            mentions.append(piece)
        elif isinstance(piece, TimeSpan):
            times.append(piece)
        elif isinstance(piece, Temperature):
            heats.append(piece)
    own = tuple([Placed(p.start - start, p.piece) for p in placed] if start else placed)
    kinds = (tuple(mentions), tuple(times), tuple(heats))
    return Sentence(step, part, text, text.lower(), own, *kinds)


def _plain(html: str) -> str:
    text = _TAG.sub("", html) if "<" in html else html
    text = unescape(text) if "&" in text else text
    return text.replace("\n", " ")
