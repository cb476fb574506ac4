"""Feeds, sitemap, robots and manifest, read by general libraries."""

from __future__ import annotations

import json
from xml.etree import ElementTree

import feedparser

from tests.browser.pages import own_address, recipe_paths, soup

BASE = "https://table.example/kitchen/"


def test_the_atom_feed_is_well_formed_and_newest_first(pages):
    feed = feedparser.parse(pages["feed.xml"].content)
    assert not feed.bozo
    assert feed.version == "atom10"
    assert [e.title for e in feed.entries] == [
        "Rye loaf & caraway", "Barley broth with dill dumplings", "Green sauce",
    ]  # fmt: skip
    assert feed.entries[1].link == BASE + "recipes/barley-broth.html"
    assert feed.entries[1].updated == "2026-11-02T00:00:00Z"
    assert "<li>200 g (1 cup) pearl barley</li>" in feed.entries[1].content[0].value
    assert f'href="{BASE}recipes/rye-loaf.html"' in feed.entries[1].content[0].value


def test_the_json_feed_says_the_same(pages):
    feed = json.loads(pages["feed.json"].content)
    assert feed["version"] == "https://jsonfeed.org/version/1.1"
    assert next(item["title"] for item in feed["items"]) == "Rye loaf & caraway"
    assert feed["items"][1]["tags"] == ["main", "barley", "leeks", "winter", "one pot"]


def test_the_sitemap_names_pages_that_are_there_with_their_photos(pages):
    tree = ElementTree.fromstring(pages["sitemap.xml"].content)
    names = {
        "s": "http://www.sitemaps.org/schemas/sitemap/0.9",
        "i": "http://www.google.com/schemas/sitemap-image/1.1",
    }
    found = [loc.text for loc in tree.findall("s:url/s:loc", names)]
    assert len(found) == len(set(found))
    for url in found:
        assert (url.removeprefix(BASE) or "index.html") in pages
    assert BASE + "recipes/barley-broth-card.html" not in found
    images = [loc.text for loc in tree.findall("s:url/i:image/i:loc", names)]
    assert BASE + "photos/barley-broth-1x1.jpg" in images


def test_robots_and_manifest(pages, theme):
    assert f"Sitemap: {BASE}sitemap.xml" in pages["robots.txt"].content.decode()
    manifest = json.loads(pages["site.webmanifest"].content)
    assert manifest["name"] == "The Shared Table"
    assert all(icon["src"] in theme.assets() for icon in manifest["icons"])


def test_laying_out_twice_gives_the_same_bytes(pages, theme):
    from sitegen.pages import lay_out
    from tests.pages.conftest import PHOTOS
    from tests.pages.fixtures import collection

    again = {p.path: p.content for p in lay_out(collection(), theme, PHOTOS, preview=False)}
    assert again == {path: page.content for path, page in pages.items()}


def test_a_page_names_what_it_was_made_from(pages):
    inputs = pages["recipes/barley-broth.html"].inputs
    assert "content/recipes/mains/barley-broth/barley-broth.md" in inputs
    assert "content/recipes/green-sauce.md" in inputs  # it is an ingredient
    assert {"theme:recipe.html", "theme:page.html", "theme:parts/ledger.html"} <= set(inputs)


def test_a_site_with_nothing_in_it_yet_still_has_its_pages(theme):
    from sitegen.collection import Collection
    from sitegen.pages import lay_out
    from tests.pages.fixtures import collection

    empty = Collection(collection().site)
    pages = {page.path: page for page in lay_out(empty, theme, {}, preview=False)}
    assert {"index.html", "recipes/index.html", "search.html", "404.html"} <= set(pages)
    assert not feedparser.parse(pages["feed.xml"].content).bozo


def test_pictures_in_a_text_stand_in_the_sitemap_beside_the_photo(demo):
    names = {
        "s": "http://www.sitemaps.org/schemas/sitemap/0.9",
        "i": "http://www.google.com/schemas/sitemap-image/1.1",
    }
    base = own_address(demo)
    tree = ElementTree.parse(demo / "sitemap.xml")
    listed = {
        url.findtext("s:loc", "", names): [str(i.text) for i in url.findall("i:image/i:loc", names)]
        for url in tree.getroot()
    }
    inside = 0
    for path in recipe_paths(demo):
        images = listed[base + path]
        assert len(images) == len(set(images))
        assert all((demo / image.removeprefix(base)).is_file() for image in images)
        for drawn in soup(demo / path).select(".prose picture img, .step picture img"):
            stem = str(drawn["src"]).rpartition("/")[2].rpartition("-")[0]
            assert [image for image in images if image.rpartition("/")[2].startswith(f"{stem}-")]
            inside += 1
    assert inside >= 2
