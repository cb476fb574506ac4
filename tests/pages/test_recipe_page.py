"""What a recipe page says, without scripts."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from fractions import Fraction

import pytest

from sitegen.dish import Figure
from sitegen.pages import lay_out
from sitegen.pages.figures import draw_figure, tight
from sitegen.pages.view import tin_area
from tests.pages.fixtures import broth, collection, fig

BROTH = "recipes/barley-broth.html"


@pytest.fixture
def page(soups):
    return soups[BROTH]


def text(tag) -> str:
    return " ".join(tag.get_text().replace("\xa0", " ").split())


def test_the_ledger_holds_every_row_with_both_figures(page):
    rows = page.select(".ledger tbody tr:not(.part)")
    assert len(rows) == len(broth().rows)
    first = [text(cell) for cell in rows[0].find_all(["td", "th"])]
    assert first == ["", "40 g", "3 tbsp", "butter, divided"]
    assert [text(p) for p in page.select(".ledger .part")] == ["Broth", "Dumplings"]


def test_author_and_worked_out_figures_look_different(page):
    butter = page.select(".ledger tbody tr:not(.part)")[0]
    metric, us = butter.select(".fig")
    assert "worked" not in metric["class"]
    assert "worked" in us["class"]


def test_a_live_figure_carries_its_exact_value():
    drawn = str(draw_figure(fig("us-volume", "5/4", "1¼ tsp", worked=True), "sys-u"))
    assert 'data-ladder="us-volume" data-value="5/4"' in drawn
    assert 'class="fig sys-u worked"' in drawn
    assert "data-upto" not in drawn
    assert "data-noun" not in drawn


def test_a_range_an_about_and_a_suffix_are_carried():
    figure = Figure(
        "count", Fraction(2), Fraction(3), "2–3 tins", about=True, noun="tin", suffix=" × 400 g"
    )
    drawn = str(draw_figure(figure))
    assert 'data-upto="3"' in drawn
    assert 'data-noun="tin"' in drawn
    assert 'data-prefix="about "' in drawn
    assert 'data-suffix=" × 400 g"' in drawn


def test_a_figure_does_not_part_from_its_unit():
    assert tight("1 cup + 2 tbsp") == "1\xa0cup\xa0+ 2\xa0tbsp"
    assert tight("220 °C conventional, gas mark 7") == "220\xa0°C\xa0conventional, gas\xa0mark\xa07"


def test_a_column_without_a_figure_shows_a_dash_and_says_why(page):
    dill = next(r for r in page.select(".ledger tr") if "dill" in r.get_text())
    assert text(dill.select_one(".void")) == "–no US figure"
    assert "no measured weight of a cup of chopped dill" in text(page.select_one(".reckoned"))


def test_the_swap_stands_under_its_row_with_its_own_figures(page):
    assert text(page.select(".choice")[0]) == "or 45 g · 3 tbsp butter"


def test_steps_can_be_linked_to_and_keep_their_numbers(page):
    assert [li["id"] for li in page.select(".step")] == [f"step-{n}" for n in range(1, 6)]
    assert [ol["start"] for ol in page.select("ol.steps")] == ["1", "4"]
    assert page.select_one("#step-4 .no")["href"] == "#step-4"


def test_amounts_in_the_method_are_live(page):
    first = page.select_one("#step-1 .text")
    assert "half the butter (20 g · 1½ tbsp) in a wide" in text(first)
    assert len(first.select("data.fig")) == 7


def test_times_carry_their_seconds_and_are_no_buttons_yet(page):
    time = page.select_one("#step-1 .time")
    assert (time.name, time["data-seconds"], time["data-upto"]) == ("span", "720", "900")


def test_the_margin_says_what_the_eye_looks_for(page):
    notes = [text(li) for li in page.select("#step-5 .notes li")]
    assert notes == ["fan 200 °C", "220 °C", "gas 7", "425 °F", "15 min", "93 °C core"]


def test_temperatures_and_lengths_show_the_other_system(page):
    words = text(page.select_one("#step-5 .text"))
    assert "200 °C fan (220 °C conventional, gas mark 7, 400 °F fan)" in words
    assert "23 cm (9 in)" in words


def test_nutrition_is_a_table_with_heads_both_ways(page):
    table = page.select_one("table.facts")
    assert table.caption
    assert [th["scope"] for th in table.thead.find_all("th")] == ["col", "col"]
    assert all(row.th["scope"] == "row" for row in table.tbody.find_all("tr"))
    rows = {text(r.th): [text(td) for td in r.find_all("td")] for r in table.tbody.find_all("tr")}
    assert rows["Energy"] == ["1710 kJ / 408 kcal", "354 kJ / 85 kcal"]


def test_what_is_not_known_is_said(page):
    table = text(page.select_one("table.facts"))
    assert "Fibre at least 8.1 g" in table
    assert "Salt not known" in table
    assert "94 % of the weight" in text(page.select_one(".rests-on"))


def test_the_energy_split_is_drawn_to_scale_and_said_in_words(page):
    bars = [float(r["width"]) for r in page.select(".energy > svg rect")]
    assert len(bars) == 3
    assert 97 <= sum(bars) <= 100
    assert [text(li) for li in page.select(".energy li")] == [
        "Protein 11 %", "Fat 29 %", "Carbohydrate 60 %",
    ]  # fmt: skip


def test_allergens_name_their_law_and_the_caution_stands_beside(page, theme):
    safety = text(page.select_one(".safety"))
    assert "cereals containing gluten (barley, wheat)" in safety
    assert "Regulation (EU) No 1169/2011" in safety
    assert "ask a doctor or dietitian" in safety
    assert "ask a doctor or dietitian" in text(page.select_one(".nutrition"))


def test_no_allergen_is_denied_while_an_ingredient_is_unknown(theme):
    dish = broth()
    unsure = replace(dish.allergens, contains=(), unsure=("sea lettuce",))
    words = page_text(theme, replace(dish, allergens=unsure))
    assert "sea lettuce: this statement may be incomplete" in words
    assert "none of those that the law lists" not in words


def page_text(theme, dish) -> str:
    from bs4 import BeautifulSoup

    site = collection()
    alone = replace(site, dishes={dish.recipe.slug: dish}, used_in={}, plain_pages=())
    pages = {p.path: p for p in lay_out(alone, theme, {}, preview=True)}
    return text(BeautifulSoup(pages[f"recipes/{dish.recipe.slug}.html"].content, "lxml").main)


def test_a_recipe_with_almost_nothing_still_has_a_page(theme):
    dish = broth()
    bare = replace(
        dish.recipe, summary="", intro="", author="", course="", cuisine="", tags=(), tools=(),
        published=None, updated=None, times=type(dish.recipe.times)(),
    )  # fmt: skip
    empty = replace(
        dish, recipe=bare, ledger=(), method=(), sections=(), fields=(), cautions=(), diets=(),
        scaling_notes=(), tins=(), uses=(),
        label=replace(dish.label, per_serving=(), per_100g=(), energy_split=(), sources=()),
    )  # fmt: skip
    words = page_text(theme, empty)
    assert "Barley broth with dill dumplings" in words
    assert "Draft" in words


def test_markup_in_an_authors_words_is_only_words(theme):
    evil = '<script>alert("x")</script>'
    dish = broth()
    recipe = replace(dish.recipe, title=evil, summary=evil, tags=(evil,), tools=(evil,))
    from bs4 import BeautifulSoup

    site = replace(collection(), dishes={"barley-broth": replace(dish, recipe=recipe)}, used_in={})
    for page in lay_out(site, theme, {}, preview=False):
        if page.path.endswith(".html"):
            soup = BeautifulSoup(page.content, "lxml")
            assert not [s for s in soup.find_all("script") if s.string == 'alert("x")'], page.path


def test_the_first_photo_is_asked_for_before_the_style_sheet_in_the_picture_s_own_words(page):
    early, sheet = page.select_one("link[rel=preload]"), page.select_one("link[rel=stylesheet]")
    source = page.select_one(".plate source")
    for named in ("srcset", "sizes"):
        assert early[f"image{named}"] == source[named], "else it would be fetched twice"
    assert early["type"] == source["type"] == "image/webp"
    assert sheet in early.find_all_next("link")


def test_the_photo_has_formats_sizes_and_words(page):
    picture = page.select_one(".plate picture")
    assert picture.source["type"] == "image/webp"
    img = picture.img
    assert (img["width"], img["height"]) == ("1200", "900")
    assert img["alt"] == 'A deep bowl, "three" dumplings & dill'


def test_the_time_bar_is_in_proportion(page):
    rects = page.select(".timebar rect")
    assert [r["class"] for r in rects] == [["bar-prep"], ["bar-cook"]]
    assert abs(float(rects[1]["x"]) - 25) < 0.01


def test_used_in_and_recipe_links(soups):
    assert text(soups["recipes/green-sauce.html"].select_one("#used-in").parent) == (
        "Used in Barley broth with dill dumplings"
    )


def test_the_card_is_one_sheet_of_everything_a_cook_needs(soups):
    card = soups["recipes/barley-broth-card.html"]
    words = text(card.main)
    for needed in ("40 g", "3 tbsp", "12 to 15 minutes", "Contains", "table.example/kitchen"):
        assert needed in words
    assert card.find("meta", attrs={"name": "robots"})["content"] == "noindex"
    assert not card.select(".site-nav")


def test_tin_areas_are_those_of_geometry():
    assert tin_area("round", (Fraction(20),)) == Fraction(100) * Fraction(355, 113)
    assert tin_area("oblong", (Fraction(20), Fraction(30))) == 600


def test_dates_are_said_in_the_sites_language(theme):
    from sitegen.pages.environment import long_date

    assert long_date(date(2026, 10, 4), "en-GB") == "4 October 2026"
    assert long_date(date(2026, 10, 4), "de") == "4. Oktober 2026"
