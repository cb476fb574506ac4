"""Poultry, minced meat, a roast or fish is cooked, and no step gives the temperature inside.

Add it to the sign of doneness: "until it reaches 74 °C in the thickest part". A long simmer cooks
through by itself; fish may be told by its flakes (USDA FSIS), and thin rashers by their crispness.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from sitegen.kitchen.heat import heat_reaching
from sitegen.readthrough.core_too_low import FAHRENHEIT, KINDS, all_traits, celsius, traits
from sitegen.readthrough.rule import Finding, Reading
from sitegen.readthrough.words import into_oven

_SIMMERED = {
    "raw-poultry": 40,
    "raw-mince": 20,
    "raw-game": 60,
    "raw-offal": 20,
    "raw-cut": 60,
    "raw-fish": 15,
}
"""Minutes of simmering after which the inside is surely done: common practice."""
_FLAKES = re.compile(r"\b(?:flak\w*|opaque)\b")
_THIN = re.compile(r"\b(?:bacon|rashers?|pancetta|gammon steak|suet|back fat|flare fat|escalope|minute steak"
                   r"|strips|thinly sliced|bones?|trotter|hock)\b", re.IGNORECASE)  # fmt: skip
_LEAST_CUT = 250
_WET = re.compile(
    r"\b(?:simmer\w*|stew\w*|brais\w*|poach\w*|boil|boiling|slow cooker|bubbl\w*|steam\w*)\b"
)

_COVERED = re.compile(r"\bcover and (?:cook|bake)\b")


def check(reading: Reading) -> Iterator[Finding]:
    """Foods that need a figure and have none."""
    if _SIMMERED.keys().isdisjoint(all_traits(reading)):
        return
    if any(h.use == "core" and 45 <= celsius(h) < 100 for s in reading.sentences for h in s.heats):
        return
    for index, found in traits(reading).items():
        kind = next((k for k in KINDS if k[0] in found and k[0] in _SIMMERED), None)
        if kind is None or index not in reading.mentions:
            continue
        row = reading.rows[index]
        if heat_reaching(reading.recipe, index, reading.sentences) == "none":
            continue
        loose = "raw-mince" if "mince" in row.larder_name else kind[0]
        if _simmered(reading, index) >= _SIMMERED[loose]:
            continue
        if kind[0] == "raw-fish" and _FLAKES.search(reading.method):
            continue
        words = f"{row.line.text} {row.larder_name}"
        if kind[0] == "raw-cut" and (
            _THIN.search(words) or (row.grams is not None and row.grams < _LEAST_CUT)
        ):
            continue
        us = reading.settings.region == "us"
        dial = f"{FAHRENHEIT[kind[2]]} °F" if us else f"{kind[2]} °C"
        yield reading.about_line(
            index,
            f"no step gives the temperature inside for {row.line.called or row.line.food}; the safe "
            f"minimum for {kind[1]} is {kind[2]} °C, {FAHRENHEIT[kind[2]]} °F (USDA FSIS)",
            f"add 'until it reaches {dial} in the middle' where it is done",
        )
        return


def _simmered(reading: Reading, index: int) -> float:
    """Minutes of wet heat from the step that first names the ingredient on; stews in the oven too."""
    first = reading.mentions[index][0][0]
    covered = bool(re.search(r"\bcover(?:ed)?\b", reading.method)) and "stock" in reading.method
    slow = "slow cooker" in reading.method
    return sum(
        t.seconds / 60
        for s in reading.sentences
        if s.step.number >= first
        and (
            slow or _WET.search(s.low) or (covered and (into_oven(s.low) or _COVERED.search(s.low)))
        )
        for t in s.times
    )
