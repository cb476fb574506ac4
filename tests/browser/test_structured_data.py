"""JSON-LD read by others: schema.org's vocabulary (npm ``schema-dts``) and search engines' rules."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.browser.pages import html_files, recipe_paths


@pytest.fixture(scope="module")
def told(demo, structured_data):
    return structured_data(html_files(demo))


def test_no_reader_finds_an_error(told):
    errors = [
        f"{Path(each['file']).name}: {each['source']}: {each['path']}: {each['message']}"
        for each in told["found"]
        if each["severity"] == "error"
    ]
    assert not errors, f"{len(errors)} errors:\n" + "\n".join(errors[:30])


def test_what_search_engines_recommend_is_there_unless_it_would_be_made_up(demo, told):
    """Ratings and films are not invented, nor a cuisine, a time or an energy that is not known; not
    every step has a picture or a name of its own."""
    not_invented = ("aggregateRating", "video", "itemListElement", "image", "name")
    not_invented += ("recipeCuisine", "cookTime", "nutrition.calories")
    not_invented += ("expires", "publication", "ineligibleRegion", "interactionStatistic")  # films
    dishes = {str(demo / path) for path in recipe_paths(demo)}
    advice = [
        f"{Path(each['file']).name}: {each['path']}: {each['message']}"
        for each in told["found"]
        if each["file"] in dishes and each["severity"] == "warning"
        if not any(f'"{word}"' in each["message"] for word in not_invented)
    ]
    assert not advice, f"{len(advice)}:\n" + "\n".join(advice[:30])


def test_every_kind_of_data_is_there(told):
    assert set(told["types"]) >= {"Recipe", "BreadcrumbList", "ItemList", "WebSite"}
    assert told["blocks"] > 50
