"""A step cooks something for a time, and gives no sign by which a cook can tell that it is done.

Say what to look, feel or smell for: "for 12 to 15 minutes, until soft but not coloured". Short
moments of up to 3 minutes are left alone, and so is a step whose next one gives the sign.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from sitegen.reading.recipe import TimeSpan
from sitegen.readthrough.rule import Finding, Reading
from sitegen.readthrough.words import AHEAD, COOKING, SIGN, cooks

_SHORT = 3 * 60
_OWN_SIGN = frozenset({"brown", "soften", "reduce", "toast"})
_UNSEEN = re.compile(
    r"\bpressure\b|\b(?:packet|package|pack)\b|\bit takes\b|\b(?:on|at) (?:low|high)\b"
)
"""Nobody sees into a pressure cooker or lifts a slow one's lid; a packet gives its own sign; and
"it takes 20 minutes" to come to the boil is no cooking."""
_HARD_BOIL = re.compile(r"\bboil(?:ing)? (?:hard|fast|rapidly|vigorously)\b")


def check(reading: Reading) -> Iterator[Finding]:
    """Times without signs."""
    told: set[int] = set()
    for at, sentence in enumerate(reading.sentences):
        number = sentence.step.number
        if not sentence.times or number in told:
            continue
        heated = cooks(sentence.low)
        if not heated or _UNSEEN.search(sentence.low):
            continue
        if heated.group() in _OWN_SIGN or _HARD_BOIL.search(sentence.low):
            continue
        long = [
            p.piece
            for p in sentence.pieces
            if isinstance(p.piece, TimeSpan)
            and (p.piece.upto or p.piece.seconds) > _SHORT
            and not AHEAD.match(sentence.low[p.start + len(p.piece.text) :])
        ]
        if "boil" in heated.group() and re.search(r"\beggs?\b", sentence.low):
            continue  # nobody sees into a shell
        if not long or any(h.use == "core" for h in sentence.heats):
            continue
        if SIGN.search(sentence.low[heated.end() :]) or _goes_on(reading, at):
            continue
        told.add(number)
        yield reading.about_words(
            sentence,
            long[0].text,
            f"step {number} cooks for {long[0].text} and does not say how to see that it is done",
            f"add a sign: '{long[0].text}, until …'",
        )


def _goes_on(reading: Reading, at: int) -> bool:
    """The next sentence gives the sign, or the next step of the part goes on cooking until one."""
    here = reading.sentences[at]
    after = [s for s in reading.sentences[at + 1 :] if s.step.number <= here.step.number + 1]
    if after and after[0].step is here.step and SIGN.search(after[0].low):
        return True
    step = [s for s in after if s.step.number > here.step.number and s.part == here.part]
    last = not any(s.step is here.step and s.times for s in after)
    return last and any(COOKING.search(s.low) and SIGN.search(s.low) for s in step)
