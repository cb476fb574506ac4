"""The title is longer than lists, cards and result pages show: over 60 characters.

Shorten it; what makes the dish special can stand in the summary.
"""

from __future__ import annotations

from collections.abc import Iterator

from sitegen.readthrough.rule import Finding, Reading

MOST = 60
"""Characters that search engines' result pages show: common practice."""


def check(reading: Reading) -> Iterator[Finding]:
    """Too long a title."""
    length = len(reading.recipe.title)
    if length > MOST:
        yield reading.about_field(
            "title",
            f"the title has {length} characters, and about {MOST} are shown",
            "shorten it; the summary has room for the rest",
        )
