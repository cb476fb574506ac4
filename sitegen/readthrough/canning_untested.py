"""The recipe puts jars up for the shelf, and does not say by which tested process.

Name the official guide and its process, or send the jars to the fridge. Times, jar sizes, acidity and
altitude decide whether a jar is safe, and no one can work them out by taste.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from sitegen.readthrough.prose import said
from sitegen.readthrough.rule import Finding, Reading

_CANS = re.compile(
    r"\b(?:canning|canner|home[- ]canned|water[- ]bath|process(?:ed)? (?:the |for )?(?:jars|\d+ min)"
    r"|(?:pot|seal)(?:ted|ed)? (?:the |them |it |while )*(?:hot )?(?:jars?|while hot|hot|at once|immediately"
    r"|straight away)|shelf[- ]stable"
    r"|(?:stored?|kept|keeps?|lasts?|months?|years?)\b[^.;]{0,40}"
    r"\b(?:cupboard|dark place|shelf|larder|pantry))\b"
)
_NOT = re.compile(r"\b(?:not|don't|never|no|instead of)\b")


def check(reading: Reading) -> Iterator[Finding]:
    """Shelf jars without a tested process."""
    if any(c.key == "oil" for c in reading.dish.cautions):
        return  # no jar of garlic in oil belongs on a shelf, by whatever process: another rule says so
    body = reading.body_low
    if "jar" not in body and "bottle" not in body:
        return
    if not re.search(r"\b(?:jars?|bottles?)\b", body) or re.search(r"\btested\b", body):
        return
    for sentence in said(reading):
        found = _CANS.search(sentence.low)
        if (
            found is None
            or _NOT.search(sentence.low)
            or re.search(r"\bcake|biscuit|tin\b", sentence.low)
        ):
            continue
        words = sentence.text[found.start() : found.end()]
        yield Finding(
            sentence.place(reading, found.start()),
            f"'{words}': jars for the shelf need a tested process, and none is named",
            "name the official guide whose process this follows, or write 'keep in the fridge'",
            len(words),
        )
        return
