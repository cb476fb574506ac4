"""A step cooks something for a time, and gives no sign by which a cook can tell that it is done.

Say what to look, feel or smell for: "for 12 to 15 minutes, until soft but not coloured". Short
moments of up to 3 minutes are left alone, and so is a step whose next one gives the sign.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from sitegen.reading.recipe import TimeSpan
from sitegen.readthrough.rule import Finding, Reading
from sitegen.readthrough.words import AHEAD, COOKING, INTO_OVEN, SIGN

_SHORT = 3 * 60
_HARD_BOIL = re.compile(r"\bboil(?:ing)? (?:hard|fast|rapidly|vigorously)\b")


def check(reading: Reading) -> Iterator[Finding]:
    """Times without signs."""
    whole: dict[int, str] = {}
    parts: dict[int, str] = {}
    for sentence in reading.sentences:
        number = sentence.step.number
        parts[number] = sentence.part
        whole[number] = whole.get(number, "") + sentence.low
    told: set[int] = set()
    for sentence in reading.sentences:
        number = sentence.step.number
        cooks = COOKING.search(sentence.low) or INTO_OVEN.search(sentence.low)
        if not cooks or number in told or _HARD_BOIL.search(sentence.low):
            continue
        long = [
            p.piece
            for p in sentence.pieces
            if isinstance(p.piece, TimeSpan)
            and (p.piece.upto or p.piece.seconds) > _SHORT
            and not AHEAD.match(sentence.low[p.start + len(p.piece.text) :])
        ]
        core = any(p.use == "core" for p in sentence.heats)
        if not long or core or SIGN.search(whole[number].split(cooks.group())[-1]):
            continue
        same = parts.get(number + 1) == parts[number]
        after = whole.get(number + 1, "") if same else ""
        if SIGN.search(whole[number]) or (COOKING.search(after) and SIGN.search(after)):
            continue
        told.add(number)
        yield reading.about_words(
            sentence,
            long[0].text,
            f"step {number} cooks for {long[0].text} and does not say how to see that it is done",
            f"add a sign: '{long[0].text}, until …'",
        )
