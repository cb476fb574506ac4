"""Every link is relative and leads somewhere; nothing is inline that a strict policy forbids."""

from __future__ import annotations

import gzip
import posixpath
from urllib.parse import unquote

import pytest

from sitegen.pages import address
from sitegen.pages.links import link_writer
from tests.pages.conftest import photo_files
from tests.pages.fixtures import collection


def links(soup):
    """Every address that a page names, but for those in metadata for other machines."""
    for tag in soup.find_all(True):
        for name in ("href", "src"):
            if tag.get(name) and tag.get("rel") != ["canonical"]:
                yield tag[name]
        if tag.get("srcset"):
            yield from (part.split()[0] for part in tag["srcset"].split(", "))


def test_every_link_is_relative_and_resolves(pages, soups, theme):
    there = set(pages) | set(theme.assets()) | photo_files()
    for path, soup in soups.items():
        if path == address.NOT_FOUND:
            continue
        for link in links(soup):
            assert "://" not in link, (path, link)
            assert not link.startswith("/"), (path, link)
            file, _, fragment = unquote(link).partition("#")
            target = path
            if file:
                target = posixpath.normpath(posixpath.join(posixpath.dirname(path), file))
            assert target in there, (path, link)
            if fragment:
                assert soups[target].find(id=fragment), (path, link)


def test_the_404_page_works_at_any_depth(soups, pages, theme):
    there = set(pages) | set(theme.assets())
    found = list(links(soups["404.html"]))
    assert found
    for link in found:
        if link.startswith("#"):
            continue
        assert link.startswith("/kitchen/"), link
        assert (link.removeprefix("/kitchen/") or "index.html") in there, link


def test_links_between_markdown_files_become_links_between_pages(soups):
    intro = soups["recipes/barley-broth.html"].select_one(".intro a")
    assert intro["href"] == "rye-loaf.html"
    assert soups["about.html"].select_one("main a")["href"] == "recipes/rye-loaf.html"


def test_a_link_to_a_markdown_file_that_is_no_page_stays_as_the_author_wrote_it():
    linked = link_writer("content/recipes/a.md", "recipes/a.html", {})
    assert linked('<a href="gone.md">x</a>') == '<a href="gone.md">x</a>'
    assert linked('<a href="https://a.example/b.md">x</a>') == (
        '<a href="https://a.example/b.md">x</a>'
    )


def test_nothing_is_inline_but_data(soups):
    for path, soup in soups.items():
        assert not soup.find_all("style"), path
        for script in soup.find_all("script"):
            kind = script.get("type", "")
            assert script.get("src") or kind in ("application/ld+json", "application/json"), path
        for tag in soup.find_all(True):
            assert not tag.get("style"), (path, tag)
            assert not [name for name in tag.attrs if name.startswith("on")], (path, tag)


def test_every_page_states_the_policy(soups):
    for path, soup in soups.items():
        stated = soup.find("meta", attrs={"http-equiv": "Content-Security-Policy"})["content"]
        assert "default-src 'none'" in stated, path
        assert "unsafe" not in stated, path


def test_search_engines_are_asked_to_pass_a_preview_by(theme, soups):
    from sitegen.pages import lay_out

    home = next(lay_out(collection(), theme, {}, preview=True))
    assert b'content="noindex"' in home.content
    assert "noindex" not in str(soups["index.html"])


@pytest.mark.parametrize("kind", ["recipe", "card"])
def test_a_page_keeps_to_its_budget(pages, soups, theme, kind):
    """120 kB raw and 40 kB gzipped: HTML, CSS and JS together (the project's own budget)."""
    path = "recipes/barley-broth.html" if kind == "recipe" else "recipes/barley-broth-card.html"
    parts = [pages[path].content]
    for tag in soups[path].find_all(["script", "link"]):
        named = tag.get("src") or (tag["href"] if tag.get("rel") == ["stylesheet"] else None)
        if named:
            parts.append(theme.assets()[posixpath.normpath(posixpath.join("recipes", named))])
    assert len(parts) > 3
    assert sum(map(len, parts)) <= 120_000
    assert sum(len(gzip.compress(part)) for part in parts) <= 40_000


def test_ids_are_unique_and_labels_name_something(soups):
    for path, soup in soups.items():
        ids = [tag["id"] for tag in soup.find_all(id=True)]
        assert len(ids) == len(set(ids)), path
        for tag in soup.find_all(True):
            for name in ("for", "aria-labelledby", "aria-describedby"):
                if tag.get(name):
                    assert tag[name] in ids, (path, tag)


def test_addresses_of_accents_and_spaces():
    assert address.tag("one pot") == "tags/one-pot.html"
    assert address.course("Crêpes & co.") == "courses/crepes-co.html"
    assert address.relative("recipes/a.html", "tags/x.html#y") == "../tags/x.html#y"
    assert address.from_root("https://a.example", "index.html") == "/index.html"


def test_menu_entries_may_name_a_page_in_several_ways(theme):
    from sitegen.pages.menu import targets
    from sitegen.site import MenuItem
    from tests.pages.fixtures import settings

    said = ["recipes", "pages/about.md", "about", "tags/winter", "https://a.example/", "search"]
    menu = tuple(MenuItem(to, to) for to in said)
    found = targets(settings(menu=menu), {"content/pages/about.md": "about.html"})
    assert [(t.path, t.outside) for t in found] == [
        ("recipes/index.html", False), ("about.html", False), ("about.html", False),
        ("tags/winter.html", False), ("https://a.example/", True), ("search.html", False),
    ]  # fmt: skip
