"""Small sites for tests, written to a folder of the test's own."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

SITE = """\
title: The test kitchen
address: https://kitchen.example
authors:
  ada: {name: Ada Lind}
"""


def recipe(
    title: str = "Lentil soup", *, ingredient: str = "200 g red lentils", more: str = ""
) -> str:
    """A sound recipe; ``ingredient`` is one more line that the method names as [extra]."""
    return f"""\
---
title: {title}
summary: A pot of soup for a wet evening.
published: 2026-02-03
author: ada
course: soup
serves: 4
time: {{prep: 10 min, cook: 30 min}}
ingredients:
  - 1 onion (150 g), chopped
  - 1 l water
  - line: {ingredient}
    as: extra
---
An introduction.

## Method

1. Put the [onion], the [water] and the [extra] in a pan and simmer for 30 minutes, until soft.
{more}"""


SOUP = "content/recipes/lentil-soup.md"


def write_site(folder: Path, files: Mapping[str, str | bytes] | None = None) -> Path:
    """A site of one sound recipe, and ``files`` besides (by their path in the site)."""
    whole: dict[str, str | bytes] = {"content/site.yaml": SITE, SOUP: recipe(), **(files or {})}
    for name, content in whole.items():
        write(folder / name, content)
    return folder


def write(path: Path, content: str | bytes) -> None:
    """Write one file, its folders too."""
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(content if isinstance(content, bytes) else content.encode())
