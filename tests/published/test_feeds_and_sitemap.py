"""The built demo's feeds and sitemap, read by others.

Sitemap: the schema of sitemaps.org (protocol 0.9), as the npm package ``sitemap`` carries it; its
``image`` extension has no schema there, so those elements are taken out before. Feeds: feedparser,
and the JSON Feed 1.1 specification's list of fields (jsonfeed.org, from memory).
"""

from __future__ import annotations

import json
from collections.abc import Callable
from datetime import datetime
from pathlib import Path
from urllib.parse import urlsplit

import feedparser
from bs4 import BeautifulSoup
from lxml import etree

ADDRESS = "https://shared-table.example/"
IMAGES = "{http://www.google.com/schemas/sitemap-image/1.1}"
SITEMAPS = "{http://www.sitemaps.org/schemas/sitemap/0.9}"


def test_the_sitemap_keeps_to_its_schema(demo: Path, node_file: Callable[[str], Path]) -> None:
    schema = etree.XMLSchema(etree.parse(node_file("sitemap/schema/sitemap.xsd")))
    tree = etree.parse(demo / "sitemap.xml")
    images = list(tree.iter(f"{IMAGES}image"))
    assert images
    for image in images:
        image.getparent().remove(image)
    schema.assertValid(tree)


def test_the_sitemap_has_each_page_once_with_its_own_date(demo: Path) -> None:
    tree = etree.parse(demo / "sitemap.xml")
    dates = {
        url.findtext(f"{SITEMAPS}loc"): url.findtext(f"{SITEMAPS}lastmod")
        for url in tree.iter(f"{SITEMAPS}url")
    }
    recipes = sorted((demo / "recipes").glob("*.html"))
    shown = [p for p in recipes if not p.stem.endswith("-card") and p.stem != "index"]
    assert len(shown) >= 24
    for page in shown:
        data = BeautifulSoup(page.read_text(encoding="utf-8"), "lxml")
        graph = json.loads(data.select_one('script[type="application/ld+json"]').string)["@graph"]
        recipe = next(node for node in graph if node["@type"] == "Recipe")
        told = recipe.get("dateModified", recipe["datePublished"])[:10]
        assert dates[f"{ADDRESS}recipes/{page.name}"] == told, page.name


def test_every_entry_of_the_atom_feed_has_every_field(demo: Path) -> None:
    feed = feedparser.parse((demo / "feed.xml").read_bytes())
    assert not feed.bozo
    assert feed.version == "atom10"
    assert feed.feed.title == "The Shared Table"
    assert {link.rel for link in feed.feed.links} >= {"self"}
    assert len({entry.id for entry in feed.entries}) == len(feed.entries) > 0
    for entry in feed.entries:
        assert entry.title
        assert entry.summary
        assert entry.author
        assert entry.link.startswith(f"{ADDRESS}recipes/")
        assert (demo / urlsplit(entry.link).path.lstrip("/")).is_file()
        published, updated = (
            datetime.fromisoformat(entry[key]) for key in ("published", "updated")
        )
        assert published.tzinfo is not None
        assert updated >= published
        assert "<li>" in entry.content[0].value
    order = [entry.published for entry in feed.entries]
    assert order == sorted(order, reverse=True)


def test_the_json_feed_has_what_its_specification_asks_for(demo: Path) -> None:
    feed = json.loads((demo / "feed.json").read_text(encoding="utf-8"))
    assert feed["version"] == "https://jsonfeed.org/version/1.1"
    assert feed["title"] == "The Shared Table"
    assert feed["home_page_url"] == ADDRESS
    assert feed["feed_url"] == f"{ADDRESS}feed.json"
    atom = feedparser.parse((demo / "feed.xml").read_bytes())
    assert [item["url"] for item in feed["items"]] == [entry.link for entry in atom.entries]
    for item in feed["items"]:
        assert isinstance(item["id"], str)
        assert item["content_html"]
        assert all(author["name"] for author in item["authors"])
        assert datetime.fromisoformat(item["date_published"]).tzinfo is not None
        assert all(isinstance(tag, str) for tag in item["tags"])
        assert urlsplit(item["image"]).netloc == urlsplit(ADDRESS).netloc
