"""What brackets in the method name: an ingredient of the list, and how much of it."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from sitegen.problems import did_you_mean
from sitegen.reading.extra import is_extra
from sitegen.reading.measures import scan_measure
from sitegen.reading.naming import Names, SizeOf, share_before, share_of, split_share
from sitegen.reading.numbers import Unreadable
from sitegen.reading.recipe import IngredientLine, Mention, Part
from sitegen.reading.source import Place

_HALF_A = re.compile(r"half an?\s", re.IGNORECASE)  # "half an onion" is a count, not a share

Report = Callable[[str, Place, int, str, str], None]
"""Takes a problem: its rule, place and length, what is wrong, and how to mend it."""


@dataclass(slots=True)
class _Use:
    """How much of one ingredient the method has taken so far; None once that is not known."""

    share: Fraction | None = Fraction(0)
    mentions: int = 0


class Mentions:
    """Reads the brackets of one method in order, and keeps count of what they have taken."""

    def __init__(self, parts: tuple[Part, ...], region: str, report: Report) -> None:
        self._lines: tuple[IngredientLine, ...] = tuple(x for p in parts for x in p.lines)
        self._sizes = SizeOf(region)
        self._report = report
        self._names = Names(self._lines)
        self._use = [_Use() for _ in self._lines]
        self._used: set[int] = set()
        self._ranges: dict[str, range] = {}
        at = 0
        for part in parts:
            self._ranges.setdefault(part.name.casefold(), range(at, at + len(part.lines)))
            at += len(part.lines)

    def read(
        self, words: str, name: str, place: Place, length: int, part: str, before: str, after: str
    ) -> Mention:
        """One bracket, ``length`` letters from ``place``: the page shows ``words``, it means ``name``.

        ``part`` is the method's part, ``before`` and ``after`` the words around it.
        """
        measure = None
        said = split_share(name)
        try:
            found = scan_measure(name, 0)
        except Unreadable as trouble:
            self._report(trouble.rule, place, length, trouble.message, trouble.hint)
            return Mention(place, words, -1, length=length)
        shared = said.share is not None or said.rest
        if found and (not shared or not found.bare or _HALF_A.match(name)):
            measure = found.measure
            said = split_share(name[found.end :].strip())
            said = split_share(said.name.removeprefix("of ").removeprefix("the "))
        elif not found and words != name:
            said_words = split_share(words)
            said = (
                said
                if said.share or said.rest
                else type(said)(said.name, said_words.share, said_words.rest, said_words.some)
            )
        if measure is None and not (said.share or said.rest or said.some):
            said = share_before(before, said)
        here = self._ranges.get(part.casefold()) if part else None
        named = self._names.find(said.name, here, self._used)
        if named.index < 0 and measure is not None:
            whole = self._names.find(name, here, self._used)  # "[00 flour]", "[7-up]"
            if whole.index >= 0:
                named, measure = whole, None
        if named.index < 0:
            self._unknown(said.name, named.rivals, place, length)
            return Mention(place, words, -1, length=length)
        if is_extra(self._lines[named.index], words, before, after):
            self._used.add(named.index)
            return Mention(place, words, named.index, None, None, True, length)
        share, again = self._take(named.index, said.share, said.rest, said.some, measure)
        return Mention(
            place, words, named.index, share, measure, again, length, said.rest, said.some
        )

    def _take(
        self, index: int, share: Fraction | None, rest: bool, some: bool, measure: Any
    ) -> tuple[Fraction | None, bool]:
        """The share that this mention shows, and whether it shows none because it came before."""
        use, line = self._use[index], self._lines[index]
        use.mentions += 1
        self._used.add(index)
        if measure is not None:
            taken = share_of(measure, line, self._sizes)
            use.share = None if use.share is None or taken is None else use.share + taken
            return None, False
        if rest:
            left = None if use.share is None else 1 - use.share
            use.share = Fraction(1)
            return (left if left and left > 0 else None), not (left and left > 0)
        if share is not None:
            use.share = None if use.share is None else use.share + share
            return share, False
        if some:
            use.share = None
            return None, True
        again = use.mentions > 1
        if not again:
            use.share = Fraction(1)
        return (None if again else Fraction(1)), again

    def _unknown(self, name: str, rivals: Sequence[int], place: Place, length: int) -> None:
        if not self._lines:
            return  # the list itself is missing, and said to be
        if rivals:
            names = ", ".join(f"[{self._lines[i].food}]" for i in rivals)
            self._report(
                "mention-ambiguous",
                place,
                length,
                f"'{name}' may be any of {len(rivals)} ingredients",
                f"write one of {names}",
            )
            return
        foods = {line.called or line.food: line for line in self._lines}
        near = did_you_mean(name, [f.lower() for f in foods]) or _shares_a_word(name, foods)
        self._report(
            "mention-unknown",
            place,
            length,
            f"no ingredient of the list is called '{name}'",
            near or "name it as the list does, or write \\[ for a plain bracket",
        )


def _shares_a_word(name: str, foods: dict[str, IngredientLine]) -> str:
    words = set(name.lower().split())
    for food in foods:
        if words & set(food.lower().split()):
            return f"did you mean '{food}'?"
    return ""
