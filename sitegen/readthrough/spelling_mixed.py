"""British and American names or spellings stand side by side: aubergine and zucchini, colour and
flavor.

Use one country's words all through; the site's language says which is at home.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from sitegen.reading.numbers import fold
from sitegen.reading.source import Place
from sitegen.readthrough.rule import Finding, Reading

PAIRS: tuple[tuple[str, str], ...] = (
    ("aubergine", "eggplant"),
    ("courgette", "zucchini"),
    ("coriander leaves", "cilantro"),
    ("rocket", "arugula"),
    ("spring onion", "scallion"),
    ("beetroot", "beets"),
    ("swede", "rutabaga"),
    ("plain flour", "all-purpose flour"),
    ("self-raising", "self-rising"),
    ("strong flour", "bread flour"),
    ("cornflour", "cornstarch"),
    ("caster sugar", "superfine sugar"),
    ("icing sugar", "confectioners' sugar"),
    ("bicarbonate of soda", "baking soda"),
    ("double cream", "heavy cream"),
    ("minced beef", "ground beef"),
    ("beef mince", "ground beef"),
    ("minced pork", "ground pork"),
    ("treacle", "molasses"),
    ("chilli", "chili"),
    ("yoghurt", "yogurt"),
    ("tomato purée", "tomato paste"),
    ("broad beans", "fava beans"),
    ("haricot beans", "navy beans"),
    ("prawns", "shrimp"),
    ("porridge oats", "rolled oats"),
    ("flavour", "flavor"),
    ("colour", "color"),
    ("litre", "liter"),
    ("fibre", "fiber"),
    ("grill", "broil"),
    ("baking paper", "parchment paper"),
    ("cling film", "plastic wrap"),
    ("kitchen paper", "paper towels"),
    ("savoury", "savory"),
)
"""British, American. Words that both countries use for different things are left out."""

# Words of either list that are at home in both countries' kitchens.
_BOTH = frozenset({"rocket", "yogurt", "rolled oats", "bread flour", "grill", "swede", "treacle",
                   "molasses", "chili", "beets", "strong flour", "savory", "baking paper"})  # fmt: skip
_WORDS = tuple([p[i] for p in PAIRS if p[i] not in _BOTH] for i in (0, 1))
# Looking for so many words at once is slow, so it is done only where both lists have one.
_ANY = tuple(
    re.compile(r"\b(?:" + "|".join(map(re.escape, words)) + r")", re.IGNORECASE) for words in _WORDS
)


def check(reading: Reading) -> Iterator[Finding]:
    """The first word of the country that is in the minority."""
    text = reading.source.text
    low = fold(text)
    if not all(any(map(low.__contains__, words)) for words in _WORDS):
        return
    british, american = (list(p.finditer(text)) for p in _ANY)
    if not british or not american:
        return
    home = reading.settings.language.endswith(("US", "CA"))
    mixed, other = (british, american) if len(british) < len(american) else (american, british)
    if len(british) == len(american):
        mixed, other = (british, american) if home else (american, british)
    found, beside = mixed[0], other[0]
    ours = 0 if mixed is british else 1
    pair = next((p for p in PAIRS if p[ours].lower() == found.group().lower()), None)
    instead = pair[1 - ours] if pair else beside.group()
    country = ("British", "American") if ours == 0 else ("American", "British")
    yield Finding(
        Place(*_at(reading, found.start())),
        f"'{found.group()}' is {country[0]} and '{beside.group()}' is {country[1]}",
        f"write '{instead}', or change the others",
        len(found.group()),
    )


def _at(reading: Reading, offset: int) -> tuple[int, int]:
    place = reading.source.place(offset)
    return place.line, place.column
