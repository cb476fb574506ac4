"""Times as people say them: what a timer is set to, and what the times of a recipe add up to."""

from __future__ import annotations

import pytest

from sitegen.reading.recipe import TimeSpan
from sitegen.reading.source import Place
from sitegen.reading.spans import spot


def minutes(text: str) -> list[tuple[float, float | None]]:
    """The two ends of each time in a text, in minutes."""
    return [
        (s.what.seconds / 60, None if s.what.upto is None else s.what.upto / 60)
        for s in spot(text, Place(1, 1))
        if isinstance(s.what, TimeSpan)
    ]


@pytest.mark.parametrize(
    ("text", "first", "last"),
    [
        ("cook for about an hour and a quarter", 75, None),
        ("an hour and three quarters", 105, None),
        ("another hour and a half", None, None),
        ("an hour and a half", 90, None),
        ("an hour and ten minutes", 70, None),
        ("an hour and 20 minutes", 80, None),
        ("an hour or two", 60, 120),
        ("an hour or so", 60, None),
        ("a minute or two", 1, 2),
        ("half a minute", 0.5, None),
        ("a couple of hours", 120, None),
        ("two and a half hours", 150, None),
        ("1 and a half hours", 90, None),
        ("one and a half to two hours", 90, 120),
        ("two to two and a half hours", 120, 150),
        ("twenty-five minutes", 25, None),
        ("twenty five minutes", 25, None),
        ("forty minutes", 40, None),
        ("ten to fifteen minutes", 10, 15),
        ("an hour", 60, None),
        ("half an hour", 30, None),
        ("1 h 20 min", 80, None),
        ("Bake for 1hr 20, until golden", 80, None),
        ("Bake for 1 hour 20 at 180 °C", 80, None),
        ("Bake for 2 hrs 15.", 135, None),
        ("Soak for 1 hour 20 g of flour", 60, None),
        ("Bake for 1 hour 12 buns", 60, None),
    ],
)
def test_a_time_is_what_it_says(text: str, first: float | None, last: float | None) -> None:
    assert minutes(text) == ([] if first is None else [(first, last)])


@pytest.mark.parametrize(
    "text", ["one and two minutes", "a minute detail", "twenty eggs", "the hour"]
)
def test_what_only_sounds_like_one(text: str) -> None:
    assert (0.0, None) not in minutes(text)
