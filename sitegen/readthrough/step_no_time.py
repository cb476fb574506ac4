"""A step cooks something until it is done, and gives no time.

Add how long that takes in your kitchen: "for about 10 minutes, until soft". Bringing to the boil,
melting and the like need none.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from sitegen.readthrough.rule import Finding, Reading

_COOKS = re.compile(
    r"\b(?P<verb>bake|roast|simmer|fry|cook|steam|braise|poach|stew|grill)\b(?P<rest>[^.;]*\buntil\b)"
)
_BRIEF = re.compile(
    r"\buntil (?:fragrant|hot|warm|combined|steaming|bubbling|melted|foaming|wilted|just)\b"
)


def check(reading: Reading) -> Iterator[Finding]:
    """Signs without times."""
    timed = {s.step.number for s in reading.sentences if s.times}
    for sentence in reading.sentences:
        number = sentence.step.number
        if number in timed or "until" not in sentence.low:
            continue
        found = _COOKS.search(sentence.low)
        if found is None or _BRIEF.search(sentence.low):
            continue
        timed.add(number)
        words = sentence.text[found.start() : found.end("verb")]
        yield reading.about_words(
            sentence,
            words,
            f"step {number} says until when to {found['verb']}, and not how long that takes",
            f"add a time: '{found['verb']} for 10 minutes, until …', with yours",
        )
