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


def test_on_a_phone_the_mistake_itself_is_seen_and_not_only_the_line_it_stands_in(
    page: Any, preview: Preview
) -> None:
    page.set_viewport_size({"width": 320, "height": 640})
    late = "and simmer over a low heat, well covered, for 3O minutes"
    save_plainly(preview.folder / SOUP, recipe().replace("and simmer for 30 minutes", late))
    open_soup(page, preview)
    page.locator("mark").first.wait_for()
    place = page.locator("mark").first.bounding_box()
    assert place["x"] >= 0
    assert place["x"] + place["width"] <= 320
    assert page.evaluate("document.documentElement.scrollWidth") == 320


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


def until(page: Any, condition: str) -> None:
    """Wait for a condition of the page, whose policy forbids to hand it over as text."""
    from playwright.sync_api import Error

    for _ in range(200):
        try:
            if page.evaluate(condition):
                return
        except Error as error:
            if "context was destroyed" not in error.message:  # the page is being put in anew
                raise
        page.wait_for_timeout(50)
    pytest.fail(f"it never came to {condition}")


def reading(page: Any) -> None:
    """Do to an open page what a reader does, and mark it so that a new one is told from it."""
    page.locator("tr[data-name=water] input").check()
    page.evaluate("document.querySelectorAll('details').forEach((each) => { each.open = true })")
    page.locator("input[name=units][value=us]").check()
    page.locator("#serves").fill("8")
    page.evaluate("window.untouched = true; scrollTo({top: 900, behavior: 'instant'})")
    page.evaluate("document.querySelector('#serves').focus({preventScroll: true})")


def as_it_was_read(page: Any) -> None:
    until(page, "Math.abs(scrollY - 900) < 90")
    ticked = page.locator(".ledger input:checked")
    assert [row.get_attribute("data-name") for row in ticked.locator("xpath=../..").all()] == [
        "water"
    ]
    assert page.locator("input[name=units][value=us]").is_checked()
    assert page.locator("#serves").input_value() == "8"
    assert page.evaluate("document.activeElement.id") == "serves"
    folded = "[...document.querySelectorAll('details')].filter((each) => !each.open).length"
    assert page.evaluate(folded) == 0


def test_words_are_changed_where_they_stand(page: Any, preview: Preview) -> None:
    open_soup(page, preview)
    reading(page)
    changed = recipe(
        "Another name", more=LONG.replace("number 7.", "number *seven*.\n\nNew words.")
    )
    save_by_rename(preview.folder / SOUP, changed)
    page.get_by_text("New words.").wait_for(state="attached")
    assert page.get_by_role("heading", name="Another name").count() == 1
    assert page.title().startswith("Another name")
    assert page.locator("em", has_text="seven").count() == 1
    assert page.evaluate("window.untouched") is True
    as_it_was_read(page)
    save_plainly(preview.folder / SOUP, recipe("Another name", more=LONG))
    page.get_by_text("New words.").wait_for(state="detached")
    assert page.evaluate("window.untouched") is True
    assert page.get_by_text("Paragraph number 7.", exact=True).count() == 1


def test_a_page_put_in_anew_is_as_its_reader_left_it(page: Any, preview: Preview) -> None:
    open_soup(page, preview)
    reading(page)
    text = recipe(more=LONG)
    assert "- 1 onion" in text
    save_by_rename(preview.folder / SOUP, text.replace("  - 1 onion", "  - 2 leeks\n  - 1 onion"))
    page.locator("tr[data-name=leeks]").wait_for(state="attached")
    assert page.evaluate("window.untouched") is None
    as_it_was_read(page)


def test_an_amount_is_shown_at_once_and_the_scripts_learn_of_it(
    page: Any, preview: Preview
) -> None:
    open_soup(page, preview)
    page.locator("tr[data-name=water] input").check()
    page.evaluate("window.untouched = true")
    page.evaluate(
        """new MutationObserver(() => {
          const row = document.querySelector("tr[data-name=leeks]");
          if (row) sessionStorage.setItem("seen", String(window.untouched));
        }).observe(document.body, { childList: true, subtree: true })"""
    )
    text = recipe(more=LONG).replace("  - 1 onion", "  - 2 leeks\n  - 1 onion")
    save_by_rename(preview.folder / SOUP, text)
    page.locator("tr[data-name=leeks]").wait_for(state="attached")
    until(page, "window.untouched === undefined && document.readyState === 'complete'")
    assert page.evaluate("sessionStorage.getItem('seen')") == "true"
    assert page.locator("tr[data-name=water] input").is_checked()
    assert page.locator(".ledger input:checked").count() == 1
    page.locator("#serves").fill("8")
    row = page.locator("tr[data-name=leeks]")
    assert row.locator(".fig").first.get_attribute("data-value")
    until(page, "document.documentElement.classList.contains('scaled')")
    assert "4" in row.inner_text()


def test_a_mistake_and_its_mending_leave_the_page_as_it_was_read(
    page: Any, preview: Preview
) -> None:
    open_soup(page, preview)
    reading(page)
    save_plainly(preview.folder / SOUP, recipe(more=LONG).replace("serves: 4", "serve: 4"))
    page.get_by_text("there is no field 'serve'").wait_for()
    save_plainly(preview.folder / SOUP, recipe("Mended", more=LONG))
    page.get_by_role("heading", name="Mended").wait_for(state="attached")
    as_it_was_read(page)


def test_a_style_sheet_is_exchanged_in_the_open_page(page: Any, preview: Preview) -> None:
    sheet = preview.folder / "themes/sheet/assets/own.css"
    write(sheet, "h1 { letter-spacing: 3px }")
    preview.desk.refresh()
    open_soup(page, preview)
    reading(page)
    write(sheet, "h1 { letter-spacing: 7px }")
    until(page, "getComputedStyle(document.querySelector('h1')).letterSpacing === '7px'")
    until(page, "document.querySelectorAll('head link[rel=stylesheet]').length === 1")
    assert page.evaluate("window.untouched") is True
    as_it_was_read(page)


def test_a_broken_template_shows_its_own_file_and_line(page: Any, preview: Preview) -> None:
    template = preview.folder / "themes/sheet/templates/recipe.html"
    start = '{% extends "house/recipe.html" %}\n{% block after_method %}\n'
    write(template, f"{start}<p>From the kitchen.</p>\n{{% endblock %}}")
    preview.desk.refresh()
    open_soup(page, preview)
    page.get_by_text("From the kitchen.").wait_for(state="attached")
    write(template, f"{start}{{{{ nothing.at_all }}}}\n{{% endblock %}}")
    page.get_by_text("themes/sheet/templates/recipe.html:3").wait_for()
    write(template, f"{start}<p>\n{{% if %}}\n{{% endblock %}}")
    page.get_by_text("themes/sheet/templates/recipe.html:4").first.wait_for()
    write(template, f"{start}<p>Mended.</p>\n{{% endblock %}}")
    page.get_by_text("Mended.").wait_for(state="attached")
