"""Structured data says what the page shows, no more, and can't break out of its element."""

from __future__ import annotations

import json
from dataclasses import replace

import pytest

from sitegen.pages import lay_out
from sitegen.pages.jsonld import iso_duration, script_text
from tests.pages.fixtures import collection, settings

BROTH = "recipes/barley-broth.html"
BASE = "https://table.example/kitchen/"


def nodes(soup) -> list[dict]:
    block = soup.find("script", type="application/ld+json")
    return json.loads(block.string)["@graph"]


def of_type(soup, kind: str) -> dict:
    found = [node for node in nodes(soup) if node["@type"] == kind]
    assert len(found) == 1
    return found[0]


@pytest.fixture
def recipe(soups):
    return of_type(soups[BROTH], "Recipe")


@pytest.fixture
def shown(soups):
    return soups[BROTH]


def test_it_agrees_with_the_page(recipe, shown):
    assert recipe["name"] == shown.h1.string
    assert recipe["description"] == shown.select_one(".summary").string
    assert recipe["author"]["name"] == shown.select_one("[rel=author]").string
    times = [t["datetime"] for t in shown.select(".byline time")]
    assert [recipe["datePublished"], recipe["dateModified"]] == [f"{t}T00:00:00Z" for t in times]
    assert recipe["recipeYield"][0] == shown.select_one(".field-serves .fig").string
    assert recipe["tool"] == [li.get_text(strip=True) for li in shown.select("#tools ~ ul li")]
    facts = {
        row.th.get_text(): row.td.get_text().replace("\xa0", " ")
        for row in shown.select(".facts tbody tr")
    }
    nutrition = recipe["nutrition"]
    assert nutrition["calories"] == facts["Energy"].split(" / ")[1]
    assert nutrition["saturatedFatContent"] == facts["of which saturates"]
    assert nutrition["fatContent"] == facts["Fat"]
    assert nutrition["proteinContent"] == facts["Protein"]
    assert nutrition["servingSize"] in shown.select_one(".serving-is").get_text()


def test_steps_have_addresses_that_are_on_the_page(recipe, shown):
    sections = recipe["recipeInstructions"]
    assert [s["name"] for s in sections] == [h.string for h in shown.select(".part-name")]
    steps = [step for section in sections for step in section["itemListElement"]]
    assert len(steps) == len(shown.select(".step"))
    for step in steps:
        page, _, fragment = step["url"].partition("#")
        assert page == BASE + BROTH
        assert shown.find(id=fragment)
        assert step["text"]


def test_what_is_not_known_is_left_out(recipe):
    assert "fiberContent" not in recipe["nutrition"]  # only known to be at least 8.1 g
    assert "sodiumContent" not in recipe["nutrition"]
    assert "aggregateRating" not in recipe


def test_three_shapes_of_the_photo_with_full_addresses(recipe):
    assert len(recipe["image"]) == 3
    assert all(image.startswith(BASE + "photos/") for image in recipe["image"])


def test_a_site_without_an_address_says_nothing_that_needs_one(theme):
    site = replace(collection(), site=replace(collection().site, settings=settings(address="")))
    found = {p.path: p.content.decode() for p in lay_out(site, theme, {}, preview=False)}
    assert "feed.xml" not in found
    assert "sitemap.xml" not in found
    assert '"url":' not in found[BROTH]
    assert 'rel="canonical"' not in found[BROTH]
    assert "feed" not in found["index.html"]


def test_diets_are_those_the_dish_may_claim(recipe):
    assert recipe["suitableForDiet"] == ["https://schema.org/VegetarianDiet"]


def test_breadcrumbs_are_those_of_the_page(soups, shown):
    crumbs = of_type(soups[BROTH], "BreadcrumbList")["itemListElement"]
    words = [li.get_text(strip=True) for li in shown.select(".crumbs li")]
    assert [c["name"] for c in crumbs] == words
    assert [c["position"] for c in crumbs] == [1, 2, 3]


def test_lists_are_those_of_the_page(soups):
    listed = of_type(soups["tags/winter.html"], "ItemList")
    titles = [h.get_text(strip=True) for h in soups["tags/winter.html"].select(".entry h2")]
    assert [item["name"] for item in listed["itemListElement"]] == titles


def test_the_home_page_names_the_site(soups):
    assert of_type(soups["index.html"], "WebSite")["url"] == BASE


def test_nothing_in_a_string_ends_the_element():
    text = str(script_text({"a": "</script><!-- & \u2028\u2029"}))
    assert not set(text) & set("<>&\u2028\u2029")
    assert json.loads(text) == {"a": "</script><!-- & \u2028\u2029"}


@pytest.mark.parametrize(
    ("minutes", "text"), [(0, "PT0M"), (25, "PT25M"), (60, "PT1H"), (100, "PT1H40M")]
)
def test_durations_are_iso_8601(minutes, text):
    assert iso_duration(minutes) == text
