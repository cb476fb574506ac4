"""In a real browser: a page is there before the site has been read, and becomes whole by itself."""

from __future__ import annotations

import threading
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

from tests.preview.held import EarlyPreview, Hold, early_preview
from tests.preview.test_live_page import LONG, open_soup, reading, until
from tests.preview.test_preview import save_by_rename
from tests.sites import SITE, SOUP, recipe

pytestmark = pytest.mark.browser

NOTE = "#sitegen-slip #note"


@pytest.fixture
def hold(monkeypatch: pytest.MonkeyPatch) -> Hold:
    return Hold(monkeypatch)


@pytest.fixture
def preview(tmp_path: Path, hold: Hold) -> Iterator[EarlyPreview]:
    running = early_preview(tmp_path / "site", {SOUP: recipe(more=LONG)})
    hold.wait()
    yield running
    hold.open.set()
    running.close()


def in_time(page: Any) -> Any:
    """No wait of a page lasts longer than this."""
    page.set_default_timeout(20_000)
    return page


def related(page: Any) -> Any:
    return page.get_by_role("link", name="Stew")


def test_a_recipe_is_there_early_and_becomes_whole_by_itself(
    page: Any, preview: EarlyPreview, hold: Hold
) -> None:
    open_soup(in_time(page), preview)
    page.get_by_role("heading", name="Lentil soup").wait_for()
    note = page.locator(NOTE)
    assert "Reading the site" in note.text_content()
    assert note.is_visible()
    assert related(page).count() == 0
    reading(page)
    hold.open.set()
    related(page).first.wait_for(state="attached")
    until(page, "document.getElementById('sitegen-slip').shadowRoot.getElementById('note').hidden")
    until(page, "Math.abs(scrollY - 900) < 90")
    assert page.locator("#serves").input_value() == "8"
    assert page.locator("input[name=units][value=us]").is_checked()


def test_a_save_is_followed_before_the_site_has_been_read(
    page: Any, preview: EarlyPreview, hold: Hold
) -> None:
    open_soup(in_time(page), preview)
    page.evaluate("window.untouched = true")
    save_by_rename(preview.folder / SOUP, recipe("Quite another soup", more=LONG))
    page.get_by_role("heading", name="Quite another soup").wait_for()
    assert page.evaluate("window.untouched") is True
    assert page.locator(NOTE).is_visible()
    preview.desk._told("recipes", 3, 4)
    page.get_by_text("3 of 4 recipes").wait_for()
    hold.open.set()
    related(page).first.wait_for(state="attached")
    assert page.get_by_role("heading", name="Quite another soup").count() == 1


def test_the_first_page_leads_to_the_recipes_and_gives_way_to_the_real_one(
    window: Callable[..., Any], preview: EarlyPreview, hold: Hold, axe: Callable[[Any], list[str]]
) -> None:
    opened = window(bypass_csp=True, viewport={"width": 360, "height": 800})
    page = in_time(opened.page)
    page.goto(preview.server.address)
    page.get_by_role("heading", name="The site is being read").wait_for()
    assert page.evaluate("document.documentElement.scrollWidth") <= 360
    assert axe(page) == []
    page.get_by_role("link", name="Lentil soup").click()
    page.get_by_role("heading", name="Lentil soup").wait_for()
    page.go_back()
    page.get_by_role("heading", name="The site is being read").wait_for()
    hold.open.set()
    page.get_by_role("heading", name="The test kitchen").first.wait_for()
    assert page.get_by_text("being read").count() == 0
    assert not [text for text in opened.complaints if "Content Security Policy" in text]


def test_without_scripts_the_first_page_gives_way_too(
    window: Callable[..., Any], preview: EarlyPreview, hold: Hold
) -> None:
    page = in_time(window(java_script_enabled=False).page)
    page.goto(preview.server.address)
    page.get_by_role("heading", name="The site is being read").wait_for()
    hold.open.set()
    page.get_by_role("heading", name="The test kitchen").first.wait_for()


def test_other_settings_are_seen_before_every_recipe_is_worked_out(
    page: Any, preview: EarlyPreview, hold: Hold
) -> None:
    hold.open.set()
    preview.read()
    open_soup(in_time(page), preview)
    related(page).first.wait_for(state="attached")
    assert not page.locator(NOTE).is_visible()
    hold.open.clear()
    hold.came = threading.Semaphore(0)
    save_by_rename(preview.folder / "content/site.yaml", SITE.replace("test", "other"))
    page.get_by_text("The other kitchen").first.wait_for(state="attached")
    hold.wait()
    page.locator(NOTE).wait_for()
    assert related(page).count() > 0
    hold.open.set()
    until(page, "document.getElementById('sitegen-slip').shadowRoot.getElementById('note').hidden")
    assert related(page).count() > 0
    assert page.get_by_text("The other kitchen").count() > 0
