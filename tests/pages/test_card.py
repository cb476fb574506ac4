"""The card's type is the largest that is reckoned to fit; printing in a browser is the check."""

from __future__ import annotations

from dataclasses import replace

from sitegen.pages.card import LEAST, PAPERS, SIZES, card_fit, count, height
from tests.pages.fixtures import broth


def sizes(dish) -> dict[str, int]:
    return {name: int(size) for name, size in (c.split("-") for c in card_fit(dish)[0].split())}


def long_broth(times: int):
    dish = broth()
    return replace(dish, ledger=dish.ledger * times, method=dish.method * times)


def test_every_paper_has_a_size_that_the_style_sheet_knows(theme):
    sheet = theme.files["card.css"].decode()
    for paper in PAPERS:
        for size in SIZES:
            if size >= LEAST[paper.name]:
                assert f".{paper.name}-{size} {{" in sheet


def test_a_longer_recipe_gets_smaller_type_and_never_too_small_to_read():
    before = sizes(broth())
    for times in (2, 3, 8):
        after = sizes(long_broth(times))
        assert after["big"] <= before["big"]
        assert after["mid"] <= before["mid"]
        before = after
    assert before["big"] == LEAST["big"]


def test_smaller_paper_has_smaller_type():
    found = sizes(broth())
    assert found["big"] > found["mid"]


def test_the_next_size_up_would_not_fit():
    letters = count(broth())
    big = PAPERS[0]
    size = sizes(broth())["big"]
    if size < max(SIZES):
        larger = SIZES[SIZES.index(size) - 1] / 10 * 25.4 / 72
        assert height(letters, big.width / larger) * larger > big.height * 0.9


def test_the_height_grows_as_the_sheet_narrows():
    letters = count(broth())
    assert height(letters, 40) > height(letters, 60) > height(letters, 90)
