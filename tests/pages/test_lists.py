"""Lists: what stands on which, over how many pages, and the index of them all."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path

import pytest
from bs4 import BeautifulSoup

from sitegen.collection import Collection
from sitegen.pages import lay_out
from sitegen.pages.paging import paged, shown_numbers
from sitegen.pages.theme import load_theme
from sitegen.site import Settings, Site
from tests.dishes import cooked


def laid_out(dishes, **more) -> dict[str, BeautifulSoup]:
    settings = Settings(title="A table", address="https://table.example/food", **more)
    site = Site(Path(), settings)
    theme, problems = load_theme(site)
    assert not problems
    by_slug = {dish.recipe.slug: dish for dish in dishes}
    pages = lay_out(Collection(site, by_slug), theme, {}, preview=False)
    return {
        page.path: BeautifulSoup(page.content, "xml" if page.path.endswith("xml") else "lxml")
        for page in pages
        if page.path.endswith((".html", ".xml"))
    }


def titles(page: BeautifulSoup) -> list[str]:
    return [heading.get_text() for heading in page.select(".entries h2")]


def heading(page: BeautifulSoup) -> str:
    return page.h1.get_text()


@pytest.fixture(scope="module")
def larder_site() -> dict[str, BeautifulSoup]:
    made = [
        ("bean-stew", "title: Bean stew\ntags: [One pot]", ["500 g dried haricot beans"]),
        (
            "cheese-toast",
            "title: Cheese toast\ncuisine: Welsh",
            ["200 g Cheddar", "8 slices bread"],
        ),
        ("leek-pie", "title: Leek pie\ncourse: main", ["500 g leeks", "200 g plain flour"]),
        ("leek-soup", "title: Leek soup\ntags: [one-pot]", ["400 g leeks", "300 g potatoes"]),
        ("odd-pot", "title: Odd pot", ["400 g leeks", "50 g glimmerwort"]),
    ]
    return laid_out([cooked(matter, lines, name=slug) for slug, matter, lines in made])


def test_what_can_be_made_with_leeks(larder_site):
    page = larder_site["ingredients/leeks.html"]
    assert heading(page) == "Leeks"
    assert titles(page) == ["Leek pie", "Leek soup", "Odd pot"]
    assert titles(larder_site["ingredients/potatoes.html"]) == ["Leek soup"]
    assert "ingredients/flour.html" not in larder_site


def test_what_is_without_an_allergen_and_the_caution_beside_it(larder_site):
    milk = larder_site["without/milk.html"]
    assert titles(milk) == ["Bean stew", "Leek pie", "Leek soup"]  # not the pot nobody knows
    assert titles(larder_site["without/cereals-containing-gluten.html"]) == [
        "Bean stew",
        "Leek soup",
    ]
    caution = milk.select_one(".list-caution").get_text()
    assert "contains or may contain milk" in caution
    assert Settings().caution in caution
    assert larder_site["diets/vegan.html"].select_one(".list-caution")


def test_a_diets_list_has_what_a_stricter_diet_allows(larder_site):
    assert titles(larder_site["diets/vegetarian.html"]) >= titles(larder_site["diets/vegan.html"])
    assert "Leek soup" in titles(larder_site["diets/vegetarian.html"])


def test_names_of_one_address_share_a_list(larder_site):
    assert titles(larder_site["tags/one-pot.html"]) == ["Bean stew", "Leek soup"]
    assert titles(larder_site["cuisines/welsh.html"]) == ["Cheese toast"]


def test_the_index_links_to_every_list_with_its_count(larder_site):
    page = larder_site["lists/index.html"]
    links = {a["href"]: a.parent.get_text(" ", strip=True) for a in page.select(".index a")}
    folders = ("ingredients", "courses", "cuisines", "tags", "diets", "without")
    lists = {path for path in larder_site if path.startswith(folders)}
    assert lists == {href.removeprefix("../") for href in links}
    assert links["../ingredients/leeks.html"] == "Leeks 3"
    by_food = page.find(id="by-ingredient").find_parent("section")
    names = [a.get_text() for a in by_food.select(".index a")]
    assert names == sorted(names)
    for path, other in larder_site.items():
        if path.endswith(".html") and path != "lists/index.html" and "-card" not in path:
            assert [a for a in other.select("a") if a["href"].endswith("lists/index.html")], path


def test_the_sitemap_names_every_page_of_every_list(larder_site):
    found = {loc.get_text() for loc in larder_site["sitemap.xml"].find_all("loc")}
    for path in larder_site:
        if path.endswith(".html") and path not in (
            "404.html",
            "index.html",
            "offline.html",
            "search.html",
        ):
            listed = f"https://table.example/food/{path}" in found
            assert listed == (not path.endswith("-card.html")), path


def many(count: int):
    plain = cooked("title: Plain\ncourse: main", ["500 g leeks"])
    for number in range(count):
        recipe = replace(
            plain.recipe, slug=f"dish-{number:03}", title=f"Dish {number:03}",
            file=f"content/recipes/dish-{number:03}.md",
        )  # fmt: skip
        yield replace(plain, recipe=recipe)


@pytest.fixture(scope="module")
def long_site() -> dict[str, BeautifulSoup]:
    return laid_out(list(many(23)), list_length=10)


def test_a_long_list_goes_on_over_pages_and_nothing_is_lost(long_site):
    pages = ["courses/main.html", "courses/main/2.html", "courses/main/3.html"]
    assert [len(titles(long_site[path])) for path in pages] == [10, 10, 3]
    together = [title for path in pages for title in titles(long_site[path])]
    assert together == [f"Dish {n:03}" for n in range(23)]
    assert "courses/main/4.html" not in long_site


@pytest.mark.parametrize(
    ("path", "before", "after"),
    [
        ("recipes/index.html", None, "index/2.html"),
        ("recipes/index/2.html", "../index.html", "3.html"),
        ("recipes/index/3.html", "2.html", None),
        ("courses/main/2.html", "../main.html", "3.html"),
    ],
)
def test_each_page_tells_the_one_before_and_the_one_after(long_site, path, before, after):
    page = long_site[path]
    for rel, target in (("prev", before), ("next", after)):
        in_head = [link["href"] for link in page.head.find_all("link", rel=rel)]
        in_body = [a["href"] for a in page.body.find_all("a", rel=rel)]
        assert in_head == in_body == ([target] if target else [])
    current = page.select(".pages [aria-current=page]")
    assert len(current) == 1


def test_each_page_is_its_own_page_to_a_search_engine(long_site):
    page = long_site["courses/main/2.html"]
    canonical = page.find("link", rel="canonical")["href"]
    assert canonical == "https://table.example/food/courses/main/2.html"
    assert page.title.get_text().startswith("Main, page 2 of 3")
    nodes = json.loads(page.find("script", type="application/ld+json").string)["@graph"]
    [items] = [node["itemListElement"] for node in nodes if node["@type"] == "ItemList"]
    assert [item["position"] for item in items] == list(range(11, 21))
    short = long_site["ingredients/leeks.html"]
    assert short.title.get_text().startswith("Leeks –")


def test_a_short_list_has_no_pages(larder_site):
    page = larder_site["ingredients/leeks.html"]
    assert not page.select(".pages")
    assert not page.find_all("link", rel=["prev", "next"])


@pytest.mark.parametrize("last", [1, 2, 3, 7, 40])
def test_the_pages_linked_to_are_the_ends_and_the_neighbours(last):
    for number in range(1, last + 1):
        shown = list(shown_numbers(number, last))
        numbers = [each for each in shown if each]
        assert numbers == sorted(set(numbers))
        assert {1, last, number} <= set(numbers)
        assert {n for n in (number - 1, number + 1) if 1 <= n <= last} <= set(numbers)
        for before, gap, after in zip(shown, shown[1:], shown[2:], strict=False):
            assert gap is not None or after - before > 2


def test_pages_cover_a_list_once():
    for count in (0, 1, 24, 25, 48, 49):
        sheets = list(paged("tags/x.html", count, 24))
        covered = [n for sheet in sheets for n in range(sheet.start, sheet.stop)]
        assert covered == list(range(count))
        assert len(sheets) == max(1, (count + 23) // 24)


def test_a_recipe_links_to_what_is_like_it_and_never_to_itself(larder_site):
    page = larder_site["recipes/leek-soup.html"]
    near = [a["href"] for a in page.select(".related a")]
    assert "leek-pie.html" in near
    assert "leek-soup.html" not in near
    more = {a.get_text(): a["href"] for a in page.select("[aria-labelledby=more-with] a")}
    assert more["leeks"] == "../ingredients/leeks.html"
