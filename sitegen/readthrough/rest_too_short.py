"""A step rests, soaks, chills or rises for longer than the rest time at the head of the recipe says.

Write the longest wait into ``time: {rest: …}``. Readers plan the day by it.
"""

from __future__ import annotations

from collections.abc import Iterator

from sitegen.readthrough.rule import Finding, Reading
from sitegen.readthrough.time_total import counted
from sitegen.readthrough.words import COOKING, aside, minutes, waits


def check(reading: Reading) -> Iterator[Finding]:
    """Single waits longer than the stated one."""
    times = reading.recipe.times
    stated = times.rest
    if times.total is None:
        return
    # Without a rest of its own, a short wait may well be counted as preparation.
    bound = (stated if stated is not None else max(30, (times.prep or 0) + (times.cook or 0))) * 60
    for sentence in reading.sentences:
        if not sentence.times or not waits(sentence.low):
            continue
        if COOKING.search(sentence.low) or aside(sentence.low):
            continue
        for start, (low, _) in counted(sentence):
            if low <= bound * 1.05:
                continue
            words = next(p.piece.text for p in sentence.pieces if p.start == start)  # type: ignore[union-attr]
            said = f"rest is {minutes(bound)}" if stated is not None else "the head gives no rest"
            yield reading.about_words(
                sentence,
                words,
                f"step {sentence.step.number} waits for {words}, and {said}",
                f"write 'rest: {minutes(low)}' into time, or correct the step",
            )
