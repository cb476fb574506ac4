"""The words for a picture are longer than a screen reader should have to read out: over 150 characters.

Say what matters in one sentence.
"""

from __future__ import annotations

from collections.abc import Iterator

from sitegen.readthrough.rule import Finding, Reading

MOST = 150
"""Characters; common practice for text that is read out in one go."""


def check(reading: Reading) -> Iterator[Finding]:
    """Too long a description."""
    photo = reading.recipe.photo
    if photo is not None and len(photo.alt) > MOST:
        yield Finding(
            photo.place,
            f"the photo's alt text has {len(photo.alt)} characters; {MOST} are enough",
            "say what matters in one sentence",
        )
