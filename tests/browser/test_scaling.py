"""A reader scales a recipe: every figure follows exactly, nothing else moves, nothing is lost."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest
from bs4 import BeautifulSoup

from sitegen.gathering import Gatherer
from sitegen.kitchen.scaling import scale
from sitegen.pages.pieces import words
from tests.browser.figures import expected, plain, shown
from tests.browser.pages import recipe_paths, soup

PIE = "recipes/fish-pie.html"
"""The demo's harbour pie: serves 6, in a table of two parts, with an oven, times and a tin."""


@pytest.fixture(scope="module")
def dishes():
    site = Path(__file__).parents[2]
    return Gatherer(site).gather(drafts=False).collection.dishes


def own_serves(demo, path):
    return int(soup(demo / path).find(id="scale")["data-serves"])


def row(page, food):
    """The figures of a table row by the words of its food."""
    found = page.locator(".ledger tbody tr").filter(has_text=food).first
    return [plain(text) for text in found.locator("data.fig").all_text_contents()]


@pytest.mark.parametrize("factor", [Fraction(3, 2), Fraction(2), Fraction(1, 2), Fraction(7, 6)])
def test_every_figure_prints_what_python_prints(demo, site, page, factor):
    for path in recipe_paths(demo):
        serves = own_serves(demo, path) * factor
        page.goto(f"{site}{path}?serves={serves}")
        wanted = [expected(figure, factor) for figure in soup(demo / path).select("data.fig")]
        assert shown(page) == wanted, path
        assert wanted


@pytest.mark.parametrize("factor", [Fraction(1), Fraction(3), Fraction(1, 3), Fraction(5, 4)])
def test_every_sentence_of_every_method_reads_as_python_writes_it(dishes, demo, site, page, factor):
    """On the page and on its card: counts before their food, none before one, words that agree."""
    for path in recipe_paths(demo):
        dish = dishes[path.removeprefix("recipes/").removesuffix(".html")]
        made = scale(dish, factor).dish
        steps = [step for part in made.method for step in part.steps]
        wanted = [plain(BeautifulSoup(str(words(s, False, str)), "lxml").get_text()) for s in steps]
        serves = own_serves(demo, path) * factor
        for address, where in (
            (path, ".steps .text"),
            (path.replace(".html", "-card.html"), ".card-method li"),
        ):
            page.goto(f"{site}{address}?serves={serves}")
            said = [plain(text) for text in page.locator(where).all_text_contents()]
            assert len(said) == len(steps)
            assert [a for a, b in zip(said, wanted, strict=True) if a != b and b not in a] == [], (
                path
            )


def test_a_pie_for_nine_is_what_a_cook_reckons(site, page):
    """Worked out by hand: the recipe is for 6, so everything half as much again."""
    page.goto(site + PIE)
    page.fill("#serves", "9")
    for food, figure in {
        "floury potatoes": "1.8 kg",
        "cod fillet": "600 g",
        "smoked haddock": "375 g",
        "plain flour": "90 g",
        "frozen peas": "225 g",
        "Dijon mustard": "1½ tsp",
        "bay lea": "1½ bay leaves",
    }.items():
        assert figure in row(page, food), (food, row(page, food))


def test_the_method_follows_the_table_and_times_and_ovens_stay(demo, site, page):
    page.goto(site + PIE)
    kept = ".margin, .aside, .time"
    before, figures = page.locator(kept).all_text_contents(), shown(page, ".method")
    page.fill("#serves", str(2 * own_serves(demo, PIE)))
    assert page.locator(kept).all_text_contents() == before
    assert before
    after = shown(page, ".method")
    assert len(after) == len(figures) > 5
    assert all(a != b for a, b in zip(after, figures, strict=True))
    assert page.locator(".scale-notes").is_visible(), "what does not scale is said"


def test_reload_and_a_shared_address_keep_the_scale_and_one_press_resets(demo, site, window):
    page = window().page
    page.goto(site + PIE)
    first = page.locator("data.fig").all_text_contents()
    page.fill("#serves", "4")
    scaled = shown(page)
    assert scaled != [plain(text) for text in first]
    page.reload()
    assert page.input_value("#serves") == "4"
    assert shown(page) == scaled
    elsewhere = window().page
    elsewhere.goto(page.url)
    assert shown(elsewhere) == scaled
    page.click("#scale-reset")
    assert page.locator("data.fig").all_text_contents() == first, "the author's own text, untouched"
    assert "serves" not in page.url
    assert page.input_value("#serves") == str(own_serves(demo, PIE))


def test_there_and_back_gives_the_same_lines(site, page):
    page.goto(site + PIE)
    first = page.locator("data.fig").all_text_contents()
    for serves in ("18", "1/3", "7", "5.5", "2 2/3", "6"):
        page.fill("#serves", serves)
    assert page.locator("data.fig").all_text_contents() == first


def test_buttons_walk_through_whole_portions(site, page):
    page.goto(site + PIE)
    more = page.get_by_role("button", name="One portion more")
    fewer = page.get_by_role("button", name="One portion fewer")
    more.click()
    assert page.input_value("#serves") == "7"
    page.fill("#serves", "3½")
    fewer.click()
    assert page.input_value("#serves") == "3"
    for _ in range(5):
        fewer.click()
    assert page.input_value("#serves") == "1", "never none, never fewer"


@pytest.mark.parametrize("typed", ["", "0", "-2", "two", "1,250", "99999999"])
def test_what_is_no_number_of_portions_changes_nothing_and_is_marked(site, page, typed):
    page.goto(site + PIE)
    before = shown(page)
    page.fill("#serves", typed)
    assert shown(page) == before
    assert page.get_attribute("#serves", "aria-invalid") == "true"
    page.locator("#serves").blur()
    assert page.get_attribute("#serves", "aria-invalid") is None
    assert page.input_value("#serves") == "6"


@pytest.mark.parametrize("asked", ["nonsense", "0", "-1", "1/0", "%3Cb%3E", "1e9", "9" * 400])
def test_a_bad_address_shows_the_recipe_as_written(site, window, asked):
    opened = window()
    opened.page.goto(site + PIE)
    first = shown(opened.page)
    opened.page.goto(f"{site}{PIE}?serves={asked}")
    assert shown(opened.page) == first
    assert opened.complaints == []


def test_scaling_by_what_one_has_of_an_ingredient(site, page):
    page.goto(site + PIE)
    page.click("#by-have summary")
    have = page.locator("#by-have")
    have.locator("select").last.select_option(label="floury potatoes")
    have.locator("select").first.select_option(label="g")
    have.locator("input").fill("800")
    assert page.input_value("#serves") == "4", "800 g of 1.2 kg for 6"
    assert "800 g" in row(page, "floury potatoes")
    assert "floury potatoes" in page.inner_text(".scale-said")


def test_scaling_by_the_tin_goes_by_its_area(demo, site, page):
    page.goto(site + PIE)
    page.click("#by-tin summary")
    page.locator("#by-tin select").last.select_option(label="20 cm square")
    # 400 cm² of 600 cm²: two thirds, 4 portions of 6.
    assert page.input_value("#serves") == "4"
    assert "800 g" in row(page, "floury potatoes")


def test_a_screen_reader_is_told_of_the_change(site, page):
    page.goto(site + PIE)
    said = page.get_by_role("status").first
    assert plain(said.text_content()) == ""
    page.fill("#serves", "3")
    assert "× 0.5" in plain(said.text_content())
