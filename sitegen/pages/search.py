"""The search index, in parts: plain script files, so that searching works from disk as well.

A search fetches the list of terms once, then only the parts that hold what was typed:

* ``search/terms.js``: every term of the site in order, each written as the number of letters that
  it shares with the one before and the rest; how terms are dealt out to the parts; the parts' marks.
* ``search/found-N.js``: for a run of terms, which dishes hold each, by place (see
  :data:`sitegen.finding.terms.PLACES`).
* ``search/dishes-N.js``: what is shown of a run of dishes.

Dishes are numbered in title order. A list of numbers is written as the gaps between them, each in
digits of base 32, the lowest first, from :data:`DIGITS`; all but the last have 32 added.
"""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Any, Final

from sitegen.dish import Dish
from sitegen.finding.terms import PLACES, terms_of
from sitegen.finding.words import IRREGULAR, LETTERS, STOP, terms
from sitegen.pages.theme import hashed
from sitegen.pages.view import Listing

DIGITS: Final = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz-_"
PART_SIZE: Final = 6_000
"""About how many letters a part of the terms' dishes holds."""
DISHES: Final = 12
"""How many dishes a part describes."""
SUMMARY: Final = 110
"""How many letters of a summary are shown with what was found."""
COMMON: Final = 3
"""A term that stands only in the text of more than a third of the recipes finds nothing…"""
FEW: Final = 200
"""… unless they are no more than this many."""


@dataclass(frozen=True, slots=True)
class SearchFiles:
    """The index of a site."""

    terms: str
    """The path of the file that comes first."""
    files: Mapping[str, bytes]
    """All files by path, that one included."""


def search_files(entries: Sequence[tuple[Dish, str, Listing]]) -> SearchFiles:
    """The index of dishes in title order, each with its author's name and how lists show it."""
    found: dict[str, list[list[int]]] = {}
    by_author: dict[str, dict[str, int]] = {}
    for number, (dish, author, _) in enumerate(entries):
        if author not in by_author:
            by_author[author] = dict.fromkeys(terms(author), PLACES.index("filing"))
        for term, place in _nearer(terms_of(dish), by_author[author]).items():
            places = found.get(term)
            if places is None:
                places = found[term] = [[] for _ in PLACES]
            places[place].append(number)
    limit = max(FEW, len(entries) // COMMON)
    for places in found.values():
        if len(places[-1]) > limit:
            places[-1] = []
    names = sorted(found)  # also those that find nothing: else they were taken for a slip
    files: dict[str, bytes] = {}
    starts, marks = [], []
    for part, (start, run) in enumerate(_runs([_packed(found[name]) for name in names])):
        starts.append(start)
        marks.append(_add(files, f"search/found-{part}.js", "found", part, run))
    described = []
    for part, start in enumerate(range(0, len(entries), DISHES)):
        rows = [_shown(listing) for _, _, listing in entries[start : start + DISHES]]
        described.append(_add(files, f"search/dishes-{part}.js", "dishes", part, rows))
    core = {
        "terms": _front_coded(names),
        "starts": starts,
        "found": marks,
        "dishes": described,
        "run": DISHES,
        "count": len(entries),
        "digits": DIGITS,
        "letters": {chr(code): plain for code, plain in LETTERS.items()},
        "irregular": IRREGULAR,
        "stop": " ".join(sorted(STOP)),
    }
    text = f'SEARCH.take("terms",0,{_json(core)});\n'.encode()
    path = hashed("search/terms.js", text)
    return SearchFiles(path, {path: text} | files)


def _nearer(first: Mapping[str, int], second: Mapping[str, int]) -> Mapping[str, int]:
    """Both, each term at the better of its places."""
    return {**first, **{t: min(place, first.get(t, place)) for t, place in second.items()}}


def _add(files: dict[str, bytes], name: str, kind: str, part: int, data: Any) -> str:
    """Put a part among the files; gives the mark of its content, by which it is found."""
    content = f"SEARCH.take({_json(kind)},{part},{_json(data)});\n".encode()
    path = hashed(name, content)
    files[path] = content
    return path.rsplit(".", 2)[1]


def _shown(listing: Listing) -> list[str]:
    summary = listing.summary
    if len(summary) > SUMMARY:
        summary = summary[:SUMMARY].rsplit(" ", 1)[0].rstrip(",;:. ") + "…"
    meta = [listing.course, f"serves {listing.serves}", listing.time]
    return [listing.title, listing.href, summary, " · ".join(filter(None, meta))]


def _runs(packed: Sequence[str]) -> Iterator[tuple[int, list[str]]]:
    """Consecutive terms' lists, cut into parts of about one size, with the number of the first."""
    start, size = 0, 0
    for number, text in enumerate(packed):
        if size and size + len(text) > PART_SIZE:
            yield start, list(packed[start:number])
            start, size = number, 0
        size += len(text) + 3
    if packed:
        yield start, list(packed[start:])


def _packed(places: Sequence[Sequence[int]]) -> str:
    """The dishes of a term, place by place.

    >>> _packed([[0, 1], [], [40], []])
    '00..e1'
    """
    return ".".join(["".join(_gaps(numbers)) if numbers else "" for numbers in places]).rstrip(".")


def _gaps(numbers: Sequence[int]) -> Iterator[str]:
    for before, number in pairwise((-1, *numbers)):
        gap = number - before - 1
        while gap >= 32:
            yield DIGITS[32 + gap % 32]
            gap //= 32
        yield DIGITS[gap]


def _front_coded(names: Sequence[str]) -> str:
    """Terms in order, without what each shares with the one before.

    >>> _front_coded(["leek", "lemon", "lentil"])
    '0leek 2mon 2ntil'
    """
    coded = []
    for before, name in pairwise(("", *names)):
        shared = 0
        for mine, its in zip(name[:35], before, strict=False):
            if mine != its:
                break
            shared += 1
        coded.append(DIGITS[shared] + name[shared:])
    return " ".join(coded)


def _json(data: Any) -> str:
    return json.dumps(data, ensure_ascii=False, separators=(",", ":"))
