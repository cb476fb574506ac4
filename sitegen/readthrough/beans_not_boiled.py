"""Dried kidney beans, or others of their family, are cooked without a hard boil of 10 minutes.

Write "boil hard for 10 minutes" before they simmer (UK FSA; FDA advises 30). Raw, they hold a poison
that simmering and slow cookers do not destroy. Tinned beans are cooked already.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from sitegen.reading.recipe import TimeSpan
from sitegen.readthrough.core_too_low import all_traits, traits
from sitegen.readthrough.rule import Finding, Reading

_BOIL = re.compile(r"\bboil(?:ing)?\b")
_LEAST = 600


def check(reading: Reading) -> Iterator[Finding]:
    """Beans that are not boiled long enough."""
    if "raw-kidney-bean" not in all_traits(reading):
        return
    beans = [i for i, t in traits(reading).items() if "raw-kidney-bean" in t]
    if "pressure" in reading.method:
        return
    for sentence in reading.sentences:
        if sentence.mentions and not any(m.line in beans for m in sentence.mentions):
            continue  # "boil the rice"
        for placed in sentence.pieces:
            if not isinstance(placed.piece, TimeSpan) or placed.piece.seconds < _LEAST:
                continue
            clause = re.split(r",| and | then ", sentence.low[: placed.start])[-1]
            if _BOIL.search(clause) and "to the boil" not in clause and "to a boil" not in clause:
                return
    if any(_boiled_before(reading.rows[i].line.text.lower()) for i in beans):
        return
    index = beans[0]
    name = reading.rows[index].line.food
    slow = " before they go into a slow cooker" if "slow cooker" in reading.method else ""
    yield reading.about_line(
        index,
        f"{name}: no step boils them hard for 10 minutes{slow}",
        "write 'Boil hard for 10 minutes' before the simmering (UK FSA; FDA advises 30 minutes)",
    )


_BOILED_FOR = re.compile(r"\bboiled\b[^,;]*?\b(\d+)(?:\s*(?:to|–|-)\s*\d+)?\s*min")


def _boiled_before(line: str) -> bool:
    """``200 g kidney beans, soaked, boiled hard for 10 minutes and drained``."""
    found = _BOILED_FOR.search(line)
    return bool(found and int(found[1]) * 60 >= _LEAST)
