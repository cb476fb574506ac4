"""A step waits overnight, and the head of the recipe gives no rest of that length.

Write ``rest: 8 h`` or more into ``time``. "2 hours, or overnight" is left alone: the shorter wait is
enough.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from sitegen.readthrough.rule import Finding, Reading
from sitegen.readthrough.words import minutes

_OVERNIGHT = re.compile(r"\bovernight\b|\bthe (?:night|evening|day) before\b")
_LEAST = 6 * 60


def check(reading: Reading) -> Iterator[Finding]:
    """Nights that nobody planned."""
    rest = reading.recipe.times.rest or 0
    if rest >= _LEAST:
        return
    for sentence in reading.sentences:
        if "overnight" not in sentence.low and "before" not in sentence.low:
            continue
        found = _OVERNIGHT.search(sentence.low)
        if not found or re.search(r"\bor (?:up to |even |better )?$|\bcan\b|\bup to\b|\bif you (?:like|wish)\b",
                                  sentence.low[: found.start()]):  # fmt: skip
            continue
        said = f"rest is {minutes(rest * 60)}" if rest else "the head gives no rest"
        yield reading.about_words(
            sentence,
            found.group(),
            f"step {sentence.step.number} waits '{found.group()}', and {said}",
            "write 'rest: 8 h', or as long as it takes, into time",
        )
