"""The times of the steps add up to more than the whole time at the head of the recipe, or the
cooking time at the head is more than twice what the steps need.

Correct ``time:`` or the step. What goes on meanwhile, and how long a dish keeps, is not counted.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from sitegen.reading.recipe import TimeSpan
from sitegen.reading.sentences import Sentence
from sitegen.reading.spans import INSTEAD
from sitegen.readthrough.rule import Finding, Reading
from sitegen.readthrough.words import AHEAD, aside, cooks, minutes, waits

_NOT_A_STEP = re.compile(
    r"\b(?:within|up to|for no more than|no more than|no longer than|keeps?|every|or|at least|after"
    r"|another day|last|until|in under)\s(?:for\s|the\s|another\s)?$"
)
_BEFORE_EATING = re.compile(r"\b(?:in the (?:fridge|freezer) for|keeps?|keep for|store)\b")


def check(reading: Reading) -> Iterator[Finding]:
    """The head's times against the steps'."""
    times = reading.recipe.times
    stated = times.total
    if stated is None:
        return
    low, hot = added_up(reading)
    if low > stated * 60 * 1.05 + 60:
        yield reading.about_field(
            "time",
            f"the steps take at least {minutes(low)}, and the times here add up to "
            f"{minutes(stated * 60)}",
            "correct prep, cook or rest, or the step whose time is wrong",
        )
    elif times.cook and hot and times.cook * 60 > 2 * hot + 15 * 60:
        yield reading.about_field(
            "time",
            f"cook is {minutes(times.cook * 60)}, and the steps that cook take at most {minutes(hot)}",
            "correct the cooking time, or the step whose time is wrong",
        )


def added_up(reading: Reading) -> tuple[float, float]:
    """Seconds of all steps at least, and at most of those that may be cooking."""
    low = hot = 0.0
    beside = -1
    for sentence in reading.sentences:
        if aside(sentence.low):
            beside = sentence.step.number
        if not sentence.times:
            continue
        spans = [span for _, span in counted(sentence)]
        if cooks(sentence.low) or not waits(sentence.low):
            hot += sum(most for _, most in spans) * _times_over(sentence)
        if sentence.step.number != beside:
            low += sum(least for least, _ in spans)
    return low, hot


def counted(sentence: Sentence) -> Iterator[tuple[int, tuple[float, float]]]:
    """Where each time that the cook spends stands in the sentence, and its two ends in seconds."""
    low = sentence.low
    if ("keep" in low or "store" in low or " for" in low) and _BEFORE_EATING.search(low):
        return
    for placed in sentence.pieces:
        span = placed.piece
        if (
            isinstance(span, TimeSpan)
            and not _NOT_A_STEP.search(sentence.low[max(0, placed.start - 40) : placed.start])
            and not INSTEAD.search(sentence.low[max(0, placed.start - 40) : placed.start])
            and not AHEAD.match(sentence.low[placed.start + len(span.text) :][:20])
        ):
            yield placed.start, (float(span.seconds), float(span.upto or span.seconds))


def _times_over(sentence: Sentence) -> int:
    """``in three batches, 5 minutes each`` is three times five."""
    if "batch" not in sentence.low and "each" not in sentence.low:
        return 1
    found = re.search(r"\b(two|three|four|five|six|[2-6]) batches\b", sentence.low)
    numbers = {"two": 2, "three": 3, "four": 4, "five": 5, "six": 6}
    if found:
        return numbers.get(found[1]) or int(found[1])
    return (
        4 if re.search(r"\bin batches\b|\beach (?:one|batch)?\b|\bper batch\b", sentence.low) else 1
    )
