"""Long lists, cut into pages whose addresses stay: the first is the list's own, then ``/2.html``."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from sitegen.pages import address


@dataclass(frozen=True, slots=True)
class Sheet:
    """One page of a list."""

    path: str
    number: int
    """From 1."""
    last: int
    """How many there are."""
    start: int
    """What of the list stands on it, as a slice."""
    stop: int


def paged(path: str, count: int, length: int) -> Iterator[Sheet]:
    """The pages of a list of ``count``, at most ``length`` on each; an empty list has one page.

    >>> [(sheet.path, sheet.start, sheet.stop) for sheet in paged("tags/tea.html", 3, 2)]
    [('tags/tea.html', 0, 2), ('tags/tea/2.html', 2, 3)]
    """
    last = max(1, -(-count // length))
    for number in range(1, last + 1):
        start = (number - 1) * length
        yield Sheet(address.page_of(path, number), number, last, start, min(start + length, count))


def shown_numbers(number: int, last: int) -> Iterator[int | None]:
    """The pages to link to from one of them: both ends, its neighbours, and None for each gap.

    >>> list(shown_numbers(6, 40))
    [1, None, 5, 6, 7, None, 40]
    """
    near = {1, number - 1, number, number + 1, last} & set(range(1, last + 1))
    before = 0
    for each in sorted(near):
        if each - before == 2:
            yield each - 1
        elif each - before > 2:
            yield None
        yield each
        before = each
