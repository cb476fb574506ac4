"""Every link of the demo leads somewhere, and nothing is fetched from elsewhere."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from pathlib import Path
from urllib.parse import unquote, urljoin, urlsplit
from xml.etree import ElementTree

import pytest
from bs4 import BeautifulSoup, Tag

from tests.browser.pages import html_files, own_address, soup

FETCHING = {
    ("img", "src"),
    ("script", "src"),
    ("source", "src"),
    ("video", "src"),
    ("audio", "src"),
    ("iframe", "src"),
    ("object", "data"),
    ("use", "href"),
    ("image", "href"),
}
"""Elements whose address the browser fetches by itself (HTML Living Standard, SVG 2)."""

FETCHING_RELS = {"stylesheet", "icon", "apple-touch-icon", "manifest", "preload", "modulepreload"}


def addresses(page: BeautifulSoup) -> Iterator[tuple[Tag, str, bool]]:
    """Every address in a page, and whether the browser fetches it unasked."""
    for tag in page.find_all(True):
        for name in ("href", "src", "data", "poster", "action"):
            if isinstance(tag.get(name), str):
                rels = set(tag.get("rel") or [])
                unasked = (tag.name, name) in FETCHING or bool(rels & FETCHING_RELS)
                yield tag, str(tag[name]), unasked
        if tag.get("srcset"):
            for candidate in str(tag["srcset"]).split(","):
                yield tag, candidate.split()[0], True


@pytest.fixture(scope="module")
def home(demo: Path) -> str:
    """The site's own address, as its pages state it."""
    return own_address(demo)


def file_of(address: str, home: str, demo: Path) -> Path | None:
    """The file behind an absolute address of the site; None for another host's."""
    if not address.startswith(home):
        return None
    path = unquote(urlsplit(address[len(home) :]).path)
    return demo / (path + "index.html" if path.endswith("/") or not path else path)


def strings(data: object, key: str = "") -> Iterator[str]:
    """Every string in JSON-LD but identifiers, which need not be the address of anything."""
    if isinstance(data, dict):
        for name, value in data.items():
            yield from strings(value, name)
    elif isinstance(data, list):
        for value in data:
            yield from strings(value, key)
    elif isinstance(data, str) and key != "@id":
        yield data


def test_every_link_and_fragment_resolves(demo, home):
    broken = []
    for file in html_files(demo):
        where = home + file.relative_to(demo).as_posix()
        for _tag, address, _unasked in addresses(soup(file)):
            target = urljoin(where, address)
            aim = file_of(target, home, demo)
            if aim is None or urlsplit(address).scheme in ("data", "mailto"):
                continue
            fragment = unquote(urlsplit(target).fragment)
            if not aim.is_file():
                broken.append(f"{where}: {address}: there is no such file")
            elif fragment and aim.suffix == ".html" and not soup(aim).find(id=fragment):
                broken.append(f"{where}: {address}: the page has no such place")
    assert not broken, "\n".join(broken[:40])


def test_links_within_the_site_are_relative_so_that_it_stands_anywhere(demo, home):
    absolute = []
    for file in html_files(demo):
        if file.name == "404.html":  # served in the place of any page, however deep
            continue
        for tag, address, _unasked in addresses(soup(file)):
            states_itself = tag.name == "link" and set(tag.get("rel") or []) & {
                "canonical",
                "alternate",
            }
            if not states_itself and (address.startswith(("/", home))):
                absolute.append(f"{file.relative_to(demo)}: {address}")
    assert not absolute, "\n".join(absolute[:40])


def test_no_page_fetches_from_another_host(demo, home):
    foreign = []
    for file in html_files(demo):
        for _tag, address, unasked in addresses(soup(file)):
            if unasked and urlsplit(address).netloc and not address.startswith(home):
                foreign.append(f"{file.relative_to(demo)}: {address}")
    for sheet in demo.rglob("*.css"):
        for address in re.findall(r"url\(\s*['\"]?([^'\")]+)", sheet.read_text(encoding="utf-8")):
            if address.startswith("data:"):
                continue
            if urlsplit(address).netloc or not (sheet.parent / address.split("#")[0]).is_file():
                foreign.append(f"{sheet.relative_to(demo)}: {address}")
    assert not foreign, "\n".join(foreign[:40])


def test_nothing_is_inline_that_a_strict_policy_forbids(demo):
    inline = []
    for file in html_files(demo):
        page = soup(file)
        for script in page.find_all("script", src=False):
            if script.get("type") not in ("application/ld+json", "application/json"):
                inline.append(f"{file.name}: {script}"[:120])
        inline += [f"{file.name}: <style>" for _ in page.find_all("style")]
        for tag in page.find_all(True):
            inline += [
                f"{file.name}: {tag.name} {name}"
                for name in tag.attrs
                if name == "style" or name.startswith("on")
            ]
    assert not inline, "\n".join(inline[:40])


def test_feeds_map_and_data_blocks_name_files_that_are_there(demo, home):
    stated: set[tuple[str, str]] = set()
    for name in ("feed.xml", "sitemap.xml"):
        tree = ElementTree.parse(demo / name)
        for node in tree.iter():
            for text in (node.text or "", *node.attrib.values()):
                stated |= {(name, word) for word in text.split() if word.startswith(home)}
    for entry in json.loads((demo / "feed.json").read_text(encoding="utf-8"))["items"]:
        stated |= {("feed.json", entry[key]) for key in ("url", "image") if entry.get(key)}
    for file in html_files(demo):
        for block in soup(file).find_all("script", type="application/ld+json"):
            words = strings(json.loads(str(block.string)))
            stated |= {(file.name, word) for word in words if word.startswith(home)}
    assert {where for where, _ in stated} >= {"feed.xml", "sitemap.xml", "feed.json"}
    missing = []
    for where, address in sorted(stated):
        aim = file_of(address, home, demo)
        fragment = urlsplit(address).fragment
        if aim is None or not aim.is_file():
            missing.append(f"{where}: {address}: no file")
        elif fragment and aim.suffix == ".html" and not soup(aim).find(id=fragment):
            missing.append(f"{where}: {address}: no such place")
    assert not missing, "\n".join(missing[:40])


def test_every_page_is_reached_from_the_home_page(demo, home):
    reached, ahead = set(), [demo / "index.html"]
    while ahead:
        file = ahead.pop()
        if file in reached or not file.is_file():
            continue
        reached.add(file)
        where = home + file.relative_to(demo).as_posix()
        for link in soup(file).find_all("a", href=True):
            aim = file_of(urljoin(where, str(link["href"])).split("#")[0], home, demo)
            if aim is not None and aim.suffix == ".html":
                ahead.append(aim)
    asked_by_name = {demo / "404.html", demo / "offline.html"}  # by the host, by the worker
    lost = set(html_files(demo)) - reached - asked_by_name
    assert not lost, sorted(file.relative_to(demo).as_posix() for file in lost)


def test_the_site_map_has_the_pages_and_nothing_else(demo, home):
    listed = {
        file_of(str(node.text), home, demo)
        for node in ElementTree.parse(demo / "sitemap.xml").iter()
        if node.tag == "{http://www.sitemaps.org/schemas/sitemap/0.9}loc"
    }
    recipes = {
        file for file in (demo / "recipes").glob("*.html") if not file.stem.endswith("-card")
    }
    assert recipes <= listed
    for file in listed:
        robots = soup(file).find("meta", attrs={"name": "robots"})
        assert robots is None or "noindex" not in robots["content"]
