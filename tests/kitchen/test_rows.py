"""What a line of the list becomes on the page: nothing that the author measured is lost."""

from __future__ import annotations

import pytest

from sitegen.kitchen.rows import Kitchen, work_row
from sitegen.kitchen.words import row_words
from sitegen.larder.larder import Larder
from sitegen.problems import Problem
from sitegen.reading.lines import read_line
from sitegen.reading.recipe import Recipe
from sitegen.reading.source import Place
from sitegen.site import Settings

RECIPE = Recipe("content/recipes/soup.md", "soup", "Soup", 4)


def words(text: str, region: str = "uk") -> str:
    problems: list[Problem] = []
    line = read_line(text, Place(1, 1), "soup.md", problems)
    assert line is not None
    kitchen = Kitchen(Larder.load(), Settings(region=region), {})  # type: ignore[arg-type]
    return row_words(work_row(0, line, RECIPE, kitchen, problems).row, "metric")


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("500 g potatoes (about 3)", "about 3 potatoes (500 g, 1 lb 1½ oz)"),
        ("500 g potatoes (3–4 medium)", "3–4 medium potatoes (500 g, 1 lb 1½ oz)"),
        ("30 g garlic (10 cloves)", "10 cloves garlic (30 g, 1 oz)"),
        ("100 g (1 bunch) radishes", "1 bunch radishes (100 g, 3½ oz)"),
        ("2 × 150 g salmon fillets", "2 × 150 g salmon fillets (300 g, 10½ oz)"),
        ("400 g tin tomatoes", "1 × 400 g tin tomatoes (400 g, 14 oz)"),
        ("1 lb 4 oz (570 g) plums", "570 g (1 lb 4 oz) plums"),
        ("150 g/1¼ cups plain flour", "150 g (1¼ cups) plain flour"),
        ("juice of 1 lemon (about 3 tbsp)", "juice of 1 lemon (about 45 ml, about 3 tbsp)"),
        ("2 dessertspoons honey", "29 g (2 dessertspoons) honey"),
        (
            "4 salmon fillets (about 150 g each)",
            "4 salmon fillets (about 600 g, about 1 lb 5 oz), about 150 g each",
        ),
        (
            "2 (8-ounce) steaks, patted dry",
            "2 steaks (455 g, 1 lb), 8 oz each, patted dry",
        ),
        ("salt, to taste", "salt, to taste"),
        ("1 lb ground beef (85/15)", "455 g (1 lb) ground beef (85/15)"),
        ("4 green onions (shallots)", "4 green onions (shallots) (60 g, 2 oz)"),
        ("1 heaped tbsp plain flour", "about 8 g (about 1 tbsp) plain flour, heaped"),
    ],
)
def test_rows_in_words(text: str, shown: str) -> None:
    assert words(text) == shown
