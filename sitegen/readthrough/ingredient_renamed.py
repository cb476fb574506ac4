"""The method calls an ingredient by another of its names: "scallions" for the list's spring onions.

Use one name all through, the list's. Readers shop by the list and cook by the method.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from sitegen.larder.food import Food
from sitegen.reading.naming import stem, tokens
from sitegen.reading.sentences import Sentence
from sitegen.readthrough.ingredient_never_used import KINDS
from sitegen.readthrough.rule import Finding, Reading, shared

_WORD = re.compile(r"[^\W_]+(?:['’-][^\W_]+)*")


def check(reading: Reading) -> Iterator[Finding]:
    """Synonyms of a line's food, in the method, that no line uses."""
    said = reading.words
    # A second name begins with a word that is nowhere in the list.
    fresh = said - _listed(reading) - _SAY_LITTLE
    for row, food in zip(reading.rows, reading.foods, strict=True):
        if food is None or fresh.isdisjoint(_beginnings(food)):
            continue  # nearly always
        for wanted in _names(food):
            if wanted[0] not in fresh or not said.issuperset(wanted):
                continue
            if set(wanted) <= KINDS.get(row.aisle, frozenset()):
                continue  # "the pasta" is no second name
            found = next(_spots(reading, wanted), None)
            if found is not None:
                sentence, words = found
                name = row.line.called or row.line.food
                yield reading.about_words(
                    sentence,
                    words,
                    f"'{words}' is the list's {name} by another name",
                    f"write '{name}' here, or change the list",
                )
                break


def _names(food: Food) -> tuple[tuple[str, ...], ...]:
    """The stems of each of a food's names."""
    names = (food.name, *food.also)
    return food.once(("names",), lambda: tuple(filter(None, map(tokens, names))))


def _beginnings(food: Food) -> frozenset[str]:
    """The first stem of each of a food's names."""
    return food.once(("beginnings",), lambda: frozenset(name[0] for name in _names(food)))


@shared
def _listed(reading: Reading) -> frozenset[str]:
    """Words of the list, of the title and of the parts' names."""
    names = (reading.recipe.title, *reading.part_names)
    return reading.listed.union(*(tokens(name) for name in names))


def _spots(reading: Reading, wanted: tuple[str, ...]) -> Iterator[tuple[Sentence, str]]:
    for sentence in reading.sentences:
        if not set(wanted).issubset(tokens(sentence.low)):
            continue
        words = list(_WORD.finditer(sentence.text))
        stems = [stem(w.group()) for w in words]
        for i in range(len(stems) - len(wanted) + 1):
            if tuple(stems[i : i + len(wanted)]) == wanted:
                yield sentence, sentence.text[words[i].start() : words[i + len(wanted) - 1].end()]


# Words that are also verbs, vessels, or names for what is being made.
_SAY_LITTLE = frozenset(
    "boiling boiled just just-boiled freshly cold hot warm iced stock water cream "
    "sauce paste bread oil fat cooking dough batter mince stew zest peel juice crumb "
    "rind spice herb flake round cut strip stick head heart leg back breast oats fish meat bird "
    "bouillon egg white yolk steak joint fillet salad filling mash pepper seasoning dressing".split()
)
