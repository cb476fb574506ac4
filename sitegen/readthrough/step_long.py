"""A step has more than 90 words.

Cut it in two where the cook would put the spoon down. A reader finds the place again by the step's
number, with wet hands.
"""

from __future__ import annotations

from collections.abc import Iterator

from sitegen.readthrough.rule import Finding, Reading

MOST = 90


def check(reading: Reading) -> Iterator[Finding]:
    """Steps that are too long."""
    for step in reading.recipe.steps:
        if len(step.text) < 2 * MOST:
            continue  # a word has a letter and a space at least
        words = len(step.text.split())
        if words > MOST:
            yield Finding(
                step.place,
                f"step {step.number} has {words} words; {MOST} are the most that one can keep in mind",
                "cut it in two where the cook would put the spoon down",
                3,
            )
