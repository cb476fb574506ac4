"""Something goes into the oven before any step has heated it.

Write "Heat the oven to 180 °C fan" (with your setting) in a step before, early enough.
"""

from __future__ import annotations

from collections.abc import Iterator

from sitegen.readthrough.rule import Finding, Reading
from sitegen.readthrough.words import heats_oven, into_oven


def check(reading: Reading) -> Iterator[Finding]:
    """The first use of a cold oven."""
    for sentence in reading.sentences:
        if heats_oven(sentence.low):
            return
        found = into_oven(sentence.low)
        if not found:
            continue
        if any(h.use == "oven" for h in sentence.heats) and "cold oven" in sentence.low:
            return
        later = next(
            (s for s in reading.sentences
             if s.step.number >= sentence.step.number and heats_oven(s.low)), None
        )  # fmt: skip
        words = sentence.text[found.start() : found.end()].strip(" ,;.")
        if later is not None and later.step.number == sentence.step.number:
            return
        when = f"; step {later.step.number} heats it" if later else ", and no step heats it"
        yield reading.about_words(
            sentence,
            words,
            f"step {sentence.step.number} uses the oven{when}",
            "write 'Heat the oven to 180 °C fan', with your setting, in an earlier step",
        )
        return
