"""The previewed page in a real browser: it follows saves, keeps its place, and shows the slip."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

from tests.preview.test_preview import Preview, save_by_rename, save_plainly
from tests.sites import SOUP, recipe, write, write_site

pytestmark = pytest.mark.browser

LONG = "\n## Notes\n\n" + "\n\n".join(f"Paragraph number {n}." for n in range(120)) + "\n"


@pytest.fixture
def preview(tmp_path: Path) -> Iterator[Preview]:
    running = Preview(write_site(tmp_path / "site", {SOUP: recipe(more=LONG)}))
    yield running
    running.close()


def open_soup(page: Any, preview: Preview) -> None:
    page.goto(f"{preview.server.address}recipes/lentil-soup.html")


def test_a_save_puts_the_page_in_anew_and_keeps_the_place(page: Any, preview: Preview) -> None:
    open_soup(page, preview)
    page.evaluate("scrollTo({top: 900, behavior: 'instant'})")
    save_by_rename(preview.folder / SOUP, recipe("Quite another soup", more=LONG))
    page.get_by_role("heading", name="Quite another soup").wait_for(state="attached")
    for _ in range(100):
        if abs(page.evaluate("scrollY") - 900) < 60:
            return
        page.wait_for_timeout(50)
    pytest.fail(f"the page stands at {page.evaluate('scrollY')}, not at 900")


def test_another_recipes_save_leaves_the_page_as_it_is(page: Any, preview: Preview) -> None:
    open_soup(page, preview)
    page.evaluate("window.untouched = true")
    write(preview.folder / "content/recipes/bad.md", recipe("Bad").replace("serves", "serve"))
    slip = page.locator("#sitegen-slip details")
    slip.wait_for()
    assert "bad.md" in slip.text_content()
    assert not slip.evaluate("slip => slip.open")
    assert page.evaluate("window.untouched") is True
    (preview.folder / "content/recipes/bad.md").unlink()
    slip.wait_for(state="detached")
    assert page.evaluate("window.untouched") is True


def test_a_broken_recipe_says_why_and_comes_back_when_it_is_mended(
    page: Any, preview: Preview
) -> None:
    open_soup(page, preview)
    save_plainly(preview.folder / SOUP, recipe().replace("serves: 4", "serve: 4"))
    page.get_by_text("there is no field 'serve'").wait_for()
    shown = page.locator("article", has_text="there is no field 'serve'")
    assert f"{SOUP}:7:1" in shown.text_content()
    assert "did you mean 'serves'?" in shown.text_content()
    assert shown.locator("mark").text_content() == "serve"
    save_plainly(preview.folder / SOUP, recipe("Mended soup"))
    page.get_by_role("heading", name="Mended soup").wait_for()


def test_the_policy_lets_all_of_it_work(window: Callable[..., Any], preview: Preview) -> None:
    opened = window()
    write(preview.folder / "content/recipes/bad.md", recipe("Bad").replace("serves", "serve"))
    preview.desk.refresh()
    open_soup(opened.page, preview)
    slip = opened.page.locator("#sitegen-slip details")
    slip.wait_for()
    assert slip.evaluate("slip => getComputedStyle(slip).position") == "fixed"
    assert not [text for text in opened.complaints if "Content Security Policy" in text]


def test_the_slip_is_there_without_scripts(window: Callable[..., Any], preview: Preview) -> None:
    write(preview.folder / "content/recipes/bad.md", recipe("Bad").replace("serves", "serve"))
    preview.desk.refresh()
    page = window(java_script_enabled=False).page
    open_soup(page, preview)
    page.get_by_text("there is no field 'serve'").wait_for(state="attached")
