"""What was lately made of the same things, so that a page need not make it again.

A recipe's page and its card are laid out one after the other, and a dish stands on many lists: much
of what they print is the same. Things are known by being the same object, which costs nothing to
find out; a dish that was read anew is another one. What is remembered must be made of the things
alone: whatever asks the rest of the site a question has to ask it for every page.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Generic, TypeVar

T = TypeVar("T")


class Recent(Generic[T]):
    """Remembers what ``make`` made, of at most ``most`` groups of things."""

    def __init__(self, make: Callable[..., T], most: int) -> None:
        self._make, self._most = make, most
        self._known: dict[tuple[int, ...], tuple[tuple[object, ...], T]] = {}

    def __call__(self, *things: object) -> T:
        """What is made of these things, made now or before."""
        key = tuple(map(id, things))  # they are kept as well, so that no other gets their number
        known = self._known.get(key)
        if known is None:
            if len(self._known) >= self._most:
                self._known.clear()
            known = self._known[key] = things, self._make(*things)
        return known[1]


class Once:
    """A filter that draws a thing with a macro, and only once for the same thing.

    ``{{ row|once(cell, us_first) }}`` is ``{{ cell(row, us_first) }}``. What is given by name is handed
    to the macro too, but makes no difference to whether it was drawn before.
    """

    def __init__(self, most: int) -> None:
        self._most = most
        self._known: dict[tuple[int, ...], tuple[Callable[..., str], tuple[object, ...], str]] = {}

    def __call__(
        self, thing: object, macro: Callable[..., str], *more: object, **others: object
    ) -> str:
        """The thing, drawn now or before."""
        key = (id(macro), id(thing), *map(id, more))
        known = self._known.get(key)
        if known is None:
            if len(self._known) >= self._most:
                self._known.clear()
            drawn = macro(thing, *more, **others)
            known = self._known[key] = macro, (thing, *more), drawn
        return known[2]
