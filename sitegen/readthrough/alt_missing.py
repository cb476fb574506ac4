"""A picture in the text has no words for those who can't see it, or its words say only "photo".

Write what the picture shows: ``![A deep bowl of broth with three dumplings](broth.jpg)``.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from sitegen.reading.source import Place
from sitegen.readthrough.rule import Finding, Reading

_PICTURE = re.compile(r"!\[(?P<alt>[^\]\n]*)\]\((?P<file>[^)\n]+)\)")
_EMPTY = re.compile(
    r"^\W*(?:(?:an?|the)?\s*(?:photo|picture|image|img|foto|dsc)[\s_-]*(?:of)?[\s\d_-]*"
    r"|[\w-]+\.(?:jpe?g|png|webp|avif))?\W*$",
    re.IGNORECASE,
)


def check(reading: Reading) -> Iterator[Finding]:
    """Pictures without a description."""
    photo = reading.recipe.photo
    if photo is not None and _EMPTY.match(photo.alt):
        yield Finding(
            photo.place,
            f"'{photo.alt}' does not say what the picture shows",
            "write what one would see: 'A deep bowl of broth with three dumplings'",
        )
    first, text = reading.body
    if "![" not in text:
        return
    for found in _PICTURE.finditer(text):
        if _EMPTY.match(found["alt"]):
            before = text[: found.start()]
            column = found.start() - (before.rfind("\n") + 1) + 1
            yield Finding(
                Place(first + before.count("\n"), column),
                f"the picture {found['file']} has no words for those who can't see it",
                "write what it shows between '![' and ']'",
                len(found.group()),
            )
