"""The recipe has no summary: the one sentence under the title, in lists and in search results.

Write ``summary:`` with what the dish is and why one would cook it.
"""

from __future__ import annotations

from collections.abc import Iterator

from sitegen.readthrough.rule import Finding, Reading


def check(reading: Reading) -> Iterator[Finding]:
    """No summary."""
    if not reading.recipe.summary:
        yield reading.about_field("title", "there is no summary", "add 'summary: …', one sentence")
