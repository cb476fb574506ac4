"""Open Graph on every page of the demo (the protocol of ogp.me, from memory).

The four properties that it asks for; the picture's size as the file has it; dates, author, section
and tags of recipes as their own files say them.
"""

from __future__ import annotations

from datetime import date

import pytest
import yaml
from PIL import Image

from sitegen.pages.sharing import _locale
from tests.browser.pages import html_files, own_address, recipe_paths, soup
from tests.conftest import REPO


def said(page) -> dict[str, list[str]]:
    found: dict[str, list[str]] = {}
    for tag in page.find_all("meta", property=True):
        found.setdefault(tag["property"], []).append(tag["content"])
    return found


def hidden(page) -> bool:
    return page.find("meta", attrs={"name": "robots", "content": "noindex"}) is not None


def test_every_page_that_may_be_found_says_what_the_protocol_asks_for(demo):
    base, told, pictures = own_address(demo), 0, {}
    for file in html_files(demo):
        page = soup(file)
        properties = said(page)
        if hidden(page):
            assert not properties, file
            continue
        told += 1
        for name in ("title", "type", "url", "image", "image:width", "image:height", "image:alt",
                     "image:type", "site_name", "locale"):  # fmt: skip
            assert len(properties[f"og:{name}"]) == 1, (file, name)
        once = {name: values[0] for name, values in properties.items()}
        assert once["og:url"] == page.find("link", rel="canonical")["href"]
        assert once["og:locale"] == "en_GB"
        assert once["og:image:alt"].strip()
        if once.get("og:description") is not None:
            described = page.find("meta", attrs={"name": "description"})["content"]
            assert once["og:description"] == described.strip() != ""
        image = once["og:image"]
        assert image.startswith(base)
        if image not in pictures:
            with Image.open(demo / image.removeprefix(base)) as opened:
                pictures[image] = (*map(str, opened.size), Image.MIME[opened.format])
        assert pictures[image] == tuple(once[f"og:image:{n}"] for n in ("width", "height", "type"))
    assert told > 100
    assert len(pictures) > 20


def test_a_recipe_is_an_article_with_its_dates_author_section_and_tags(demo):
    base = own_address(demo)
    recipes = set(recipe_paths(demo))
    assert len(recipes) > 20
    for file in html_files(demo):
        page, path = soup(file), file.relative_to(demo).as_posix()
        if hidden(page):
            continue
        properties = said(page)
        if path not in recipes:
            assert properties["og:type"] == ["website"], path
            assert not [name for name in properties if name.startswith("article:")], path
            continue
        assert properties["og:type"] == ["article"], path
        [source] = (REPO / "content/recipes").rglob(f"{file.stem}.md")
        matter = yaml.safe_load(source.read_text("utf-8").split("---\n")[1])
        [published], [modified] = (
            [date.fromisoformat(day) for day in properties[f"article:{which}_time"]]
            for which in ("published", "modified")
        )
        assert published == matter["published"] <= modified == matter.get("updated", published)
        [author] = properties["article:author"]
        assert (demo / author.removeprefix(base)).is_file()
        assert author.endswith(f"/{matter['author']}.html")
        assert properties["article:section"] == [matter["course"]]
        assert properties.get("article:tag", []) == matter.get("tags", [])


@pytest.mark.parametrize(
    ("language", "locale"),
    [("en-GB", "en_GB"), ("de", ""), ("pt-br", "pt_BR"), ("zh-Hant-TW", "zh_TW"), ("es-419", "")],
)
def test_a_locale_has_a_territory_or_is_left_out(language, locale):
    assert _locale(language) == locale
