"""Lines that name more than one food: none of them may be lost to the allergens."""

from __future__ import annotations

import pytest

from sitegen.kitchen.foods import identify
from sitegen.larder.larder import Larder
from sitegen.problems import Problem
from sitegen.reading.lines import read_line
from sitegen.reading.source import Place


def meant(text: str) -> tuple[list[str], tuple[str, ...]]:
    problems: list[Problem] = []
    line = read_line(text, Place(1, 1), "soup.md", problems)
    assert line is not None
    found = identify(line, Larder.load(), "soup.md", problems)
    return [food.name for food in found.foods], found.unknown


@pytest.mark.parametrize(
    ("text", "foods", "unknown"),
    [
        (
            "sour cream, grated parmesan and sliced scallions, for serving",
            ["soured cream", "parmesan, grated", "spring onion"],
            (),
        ),
        ("basil, walnuts and gobblewort, to serve", ["basil, fresh", "walnuts"], ("gobblewort",)),
        ("parsley, chopped", ["parsley, fresh"], ()),
        ("butter, softened, for the tin", ["butter"], ()),
        ("1 tbsp maple syrup (or honey)", ["maple syrup", "honey"], ()),
        ("200 ml oat milk (or gobblewort milk)", ["oat drink"], ("gobblewort milk",)),
        ("240 ml lemon juice (from 5 to 6 lemons)", ["lemon juice"], ()),
        ("1 (9-inch) pie crust", ["shortcrust pastry"], ()),
        ("200 g yoghurt (gobblewort)", [], ()),
        ("1 lb lean ground beef (85/15)", ["beef mince, 15% fat"], ()),
    ],
)
def test_foods_of_a_line(text: str, foods: list[str], unknown: tuple[str, ...]) -> None:
    assert meant(text) == (foods, unknown)
