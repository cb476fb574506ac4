"""Files whose pages would have one address, and files that nobody reads."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from difflib import get_close_matches

from sitegen.problems import Problem, Severity
from sitegen.reading.read import slug_of

TAKEN: Mapping[str, tuple[str, ...]] = {
    "recipe": ("index",),
    "page": ("index", "search", "404"),
}
"""Names that the site's own pages have."""
ROOMS = ("recipes", "pages", "larder")
"""The folders of ``content/`` that are read; one of nearly such a name is likely misspelt."""
STRAY = ("md", "markdown", "yaml", "yml")
"""Endings, in any letters, of files that an author would expect to be read."""


def address_problems(recipes: Sequence[str], pages: Sequence[str]) -> Iterator[Problem]:
    """Recipes, or pages, whose names come to the same address, or to one that is taken."""
    for what, files in (("recipe", recipes), ("page", pages)):
        by_slug: dict[str, list[str]] = {}
        for file in files:
            by_slug.setdefault(slug_of(file), []).append(file)
        for slug, same in by_slug.items():
            for file in same if len(same) > 1 else ():
                others = " and ".join(other for other in same if other != file)
                message = f"this {what} and {others} would have the same address"
                hint = "give one of the files another name; folders are not part of the address"
                yield _of_file("same-address", "error", file, message, hint)
            message = ""
            if slug in TAKEN[what]:
                message = f"a page named '{slug}' is part of every site"
            dish = slug.removesuffix("-card")
            if what == "recipe" and dish != slug and dish in by_slug:
                message = f"the printable card of {by_slug[dish][0]} has this address"
            if message:
                hint = "give the file another name"
                yield _of_file("taken-address", "error", same[0], message, hint)


def stray_files(files: Sequence[str], read: Collection[str]) -> Iterator[Problem]:
    """Files of ``content/`` that look as if they were meant to be read, and are not."""
    for file in files:
        _, first, *deeper = file.split("/")
        ending = file.rpartition(".")[2].lower()
        if file in read or ending not in STRAY or first.lower() == "readme.md":
            continue
        if not deeper or get_close_matches(first.lower(), ROOMS, n=1, cutoff=0.75):
            message = "this file is not read where it stands, or under this name"
            hint = (
                "recipes/ and pages/ hold .md files, larder/ holds .yaml files, "
                "and the settings are in site.yaml"
            )
            yield _of_file("file-stray", "advice", file, message, hint)


def _of_file(rule: str, severity: Severity, file: str, message: str, hint: str) -> Problem:
    return Problem(rule, severity, file, 0, 0, message, hint)
