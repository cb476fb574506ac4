"""The summary is longer than where it is shown: result pages and cards cut at about 160 characters.

Shorten it to one sentence; the introduction has room for the rest.
"""

from __future__ import annotations

from collections.abc import Iterator

from sitegen.readthrough.rule import Finding, Reading

MOST = 160
"""Characters that search engines' result pages show: common practice."""


def check(reading: Reading) -> Iterator[Finding]:
    """Too long a summary."""
    length = len(reading.recipe.summary)
    if length > MOST:
        yield reading.about_field(
            "summary",
            f"the summary has {length} characters, and about {MOST} are shown",
            "shorten it; the introduction has room for the rest",
        )
