"""How much of each ingredient the method takes, mention by mention."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from sitegen.reading.naming import SizeOf, share_of
from sitegen.reading.recipe import Mention
from sitegen.readthrough.rule import Reading, shared


@dataclass(frozen=True, slots=True)
class Taken:
    """What the method takes of one ingredient; ``total`` is None once a share can't be known."""

    total: Fraction | None
    takes: tuple[tuple[Mention, Fraction | None], ...]
    """Each mention that takes some, with its share."""
    from_nothing: Mention | None = None
    """The first mention that asks for the rest when nothing is left."""


@shared
def takings(reading: Reading) -> dict[int, Taken]:
    """What the method takes of each ingredient that it mentions, in the order of first mention."""
    return {index: _taken(reading, index) for index in reading.mentions}


_NONE, _ALL = Fraction(0), Fraction(1)


def _taken(reading: Reading, index: int) -> Taken:
    """Add up the mentions of one ingredient."""
    mentions = reading.mentions[index]
    if len(mentions) == 1:
        mention = mentions[0][1]
        if mention.measure is None and not (mention.rest or mention.some or mention.again):
            return Taken(mention.share, ((mention, mention.share),))
    line = reading.rows[index].line
    sizes = SizeOf(reading.settings.region)
    total: Fraction | None = _NONE
    takes: list[tuple[Mention, Fraction | None]] = []
    from_nothing = None
    for _, mention in mentions:
        share: Fraction | None
        if mention.measure is not None:
            share = share_of(mention.measure, line, sizes)
        elif mention.rest:
            if total is not None and total >= 1 and from_nothing is None:
                from_nothing = mention
            share = None if total is None else max(_NONE, 1 - total)
            takes.append((mention, share))
            total = _ALL
            continue
        elif mention.some:
            share = None
        elif mention.again:
            continue
        else:
            share = mention.share
        takes.append((mention, share))
        total = None if total is None or share is None else total + share
    return Taken(total, tuple(takes), from_nothing)


def percent(share: Fraction) -> str:
    """A share in words: a fraction that kitchens say, else per cent.

    >>> percent(Fraction(3, 2)), percent(Fraction(1, 2)), percent(Fraction(27, 25))
    ('1½', 'half', '108 %')
    """
    known = {
        Fraction(1, 2): "half",
        Fraction(1, 3): "a third",
        Fraction(2, 3): "two thirds",
        Fraction(1, 4): "a quarter",
        Fraction(3, 4): "three quarters",
        Fraction(3, 2): "1½",
        Fraction(2): "twice",
    }
    return known.get(share, f"{float(share * 100):.0f} %")
