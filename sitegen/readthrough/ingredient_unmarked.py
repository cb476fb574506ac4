"""A step names an ingredient in plain words only: no step has it in brackets.

Put the name in brackets where the ingredient goes in, as in "stir in the [butter]". The page then
shows its amount there, in both systems, and it scales with the portions.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from sitegen.reading.naming import name_of, tokens
from sitegen.reading.recipe import Mention
from sitegen.reading.sentences import Sentence
from sitegen.readthrough.ingredient_never_used import names_of
from sitegen.readthrough.rule import Finding, Reading
from sitegen.readthrough.words import UNTAKEN


def check(reading: Reading) -> Iterator[Finding]:
    """Lines that are named, never bracketed."""
    if reading.takes_everything:
        return
    if not reading.mentions and reading.sentences:
        yield Finding(
            reading.sentences[0].step.place,
            "no step names an ingredient in brackets, so the method shows no amounts and does not scale",
            "write the ingredients in brackets where they go in, as in 'melt the [butter]'",
            3,
        )
        return
    for row in reading.rows:
        line = row.line
        if row.index in reading.mentions or any(UNTAKEN.match(r) for r in line.remarks):
            continue
        if line.amount is None:
            continue  # there is no amount to show
        names = names_of(row, reading)
        if names.isdisjoint(reading.words):
            continue
        for sentence in reading.sentences:
            if names.isdisjoint(tokens(sentence.low)):
                continue
            word = _plain_word(sentence, names)
            if not word:
                continue
            number = sentence.step.number
            yield reading.about_words(
                sentence,
                word,
                f"step {number} opens a bracket before '{word}' and never closes it"
                if f"[{word}" in sentence.text
                else f"step {number} names '{word}' without brackets, so its amount is not shown there",
                f"write [{name_of(line)}]",
            )
            break


_WORD = re.compile(r"[^\W_]+(?:['’-][^\W_]+)*")


def _plain_word(sentence: Sentence, names: set[str]) -> str:
    """The first of the names that stands in the sentence outside brackets."""
    marked = [
        (p.start, p.start + len(p.piece.words))
        for p in sentence.pieces
        if isinstance(p.piece, Mention)
    ]
    for found in _WORD.finditer(sentence.text):
        within = any(start <= found.start() < end for start, end in marked)
        if not within and set(tokens(found.group())) & names:
            return found.group()
    return ""
