"""Pictures inside an author's Markdown: ``![a roll of dough, seam down](shaping.jpg "Seam down")``.

A picture in a paragraph of its own shows its title, if it has one, as a caption.
"""

from __future__ import annotations

import posixpath
import re
from collections.abc import Iterator, Sequence
from urllib.parse import unquote

from markdown_it.token import Token

from sitegen.problems import Problem
from sitegen.reading.recipe import Photo
from sitegen.reading.source import Source


def beside(file: str, name: str) -> str:
    """The file that ``name`` means within ``file``, relative to the site's folder.

    >>> beside("content/recipes/breads/rolls.md", "steps/shaping%201.png")
    'content/recipes/breads/steps/shaping 1.png'
    """
    return posixpath.normpath(posixpath.join(posixpath.dirname(file), unquote(name)))


def images(tokens: Sequence[Token]) -> Iterator[Token]:
    """The pictures among the inline tokens, in order."""
    for token in tokens:
        for child in token.children or ():
            if child.type == "image":
                yield child


def pictures_of(
    tokens: Sequence[Token], source: Source, first: int, problems: list[Problem]
) -> tuple[Photo, ...]:
    """The pictures of a text, each at its place; a problem for one that can't be shown.

    ``first`` is the line of the file that the tokens' line 0 is, less one. A picture of another host
    is refused: a page asks no other host for anything.
    """
    found: list[Photo] = []
    cursor = 0
    for block in tokens:
        start = source.offset((block.map or [0])[0] + 1 + first) if block.map else cursor
        cursor = max(cursor, start)
        for image in images((block,)):
            name = unquote(str(image.attrs["src"]))
            begin = source.text.find(name, cursor) if name else -1
            if begin < 0:
                begin = max(source.text.find("![", cursor), 0)
            place, length = source.place(begin), max(len(name), 1)
            cursor = begin + length
            wrong = _refused(name, image.content)
            if wrong:
                rule, message, hint = wrong
                at = (place.line, place.column)
                problems.append(Problem(rule, "error", source.file, *at, message, hint, length))
            else:
                found.append(Photo(name, image.content, place))
    return tuple(found)


def _refused(name: str, alt: str) -> tuple[str, str, str] | None:
    if re.match(r"[A-Za-z][A-Za-z0-9+.-]+:|//", name):
        hint = "copy it beside this file and write its name"
        return "picture-elsewhere", "this picture stands on another host", hint
    if not name:
        return "picture-missing", "this picture names no file", "write ![what it shows](file.jpg)"
    if not alt.strip():
        message = f"the picture {name} has no words for those who can't see it"
        return "picture-undescribed", message, "write what it shows between '![' and ']'"
    return None
