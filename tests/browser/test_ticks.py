"""Ingredients and steps that are ticked off: by keyboard, by screen reader, kept while the tab lives."""

from __future__ import annotations

import pytest

from sitegen.building.build import build
from tests.browser.themed import each_theme
from tests.browser.windows import DESK, PHONE
from tests.sites import SOUP, recipe, write_site

PIE = "recipes/fish-pie.html"


def ticked(page):
    return page.eval_on_selector_all(
        ".ledger input:checked, .steps input:checked", "boxes => boxes.map(box => box.id)"
    )


def test_every_step_has_a_box_that_says_which_step_it_is(site, page):
    page.goto(site + PIE)
    steps = page.locator(".step").count()
    assert steps > 3
    for number in range(1, steps + 1):
        box = page.get_by_role("checkbox", name=f"Step {number} is done", exact=True)
        assert box.count() == 1
        assert not box.is_checked()


def test_the_keyboard_ticks_a_step_and_takes_it_back(site, page):
    page.goto(site + PIE)
    page.locator("#step-2 .no").focus()
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.id") == "done-2"
    page.keyboard.press("Space")
    assert ticked(page) == ["done-2"]
    page.keyboard.press("Space")
    assert ticked(page) == []


def test_ticks_outlive_a_reload_and_a_walk_but_not_the_tab(site, window):
    opened = window()
    page = opened.page
    page.goto(site + PIE)
    page.check("#tick-1")
    page.check("#done-1")
    page.reload()
    assert ticked(page) == ["tick-1", "done-1"]
    page.goto(site + "recipes/lentil-soup.html")
    assert ticked(page) == [], "each recipe has its own"
    page.goto(site + PIE)
    assert ticked(page) == ["tick-1", "done-1"]
    other = opened.context.new_page()
    other.goto(site + PIE)
    assert ticked(other) == []


def test_a_tick_and_a_timer_stay_with_their_step_though_another_is_put_before_it(
    tmp_path, serve, window
):
    """The author puts in a step and an ingredient while a reader cooks, and mends one that was done."""
    first = recipe(more="2. Stir for 5 minutes.\n3. Leave it alone.\n4. Leave it alone.\n")
    folder = write_site(tmp_path, {SOUP: first})
    assert build(folder).done
    page = window().page
    page.goto(serve(folder / "output") + "recipes/lentil-soup.html")
    for box in ("#tick-1", "#done-1", "#done-2", "#done-4"):
        page.check(box)
    page.get_by_role("button", name="Start a timer: 5 minutes").click()
    mended = first.replace("1. Put", "1. Fetch a 3 l pot and the [salt].\n2. Put").replace(
        "\n2. Stir", "\n3. Stir"
    )
    mended = mended.replace("\n3. Leave", "\n4. Leave").replace("\n4. Leave", "\n5. Leave")
    mended = mended.replace("ingredients:\n", "ingredients:\n  - 1 tsp fine salt\n")
    (folder / SOUP).write_text(mended, "utf-8")
    assert build(folder).done
    page.reload()
    words = page.eval_on_selector_all(
        ".steps input:checked", "boxes => boxes.map(box => box.closest('.step').textContent)"
    )
    assert [("Put the" in w, "Stir" in w, "alone" in w) for w in words] == [
        (True, False, False), (False, True, False), (False, False, True),
    ]  # fmt: skip
    assert page.locator(".ledger tr:has(input:checked)").get_attribute("data-name") == "water"
    assert "Step 3" in page.locator(".tray li").inner_text()
    page.get_by_role("button", name="stop, step 3").click()
    assert page.evaluate("document.activeElement.textContent") == "5\N{NO-BREAK SPACE}minutes"
    changed = mended.replace("Stir for", "Stir with great care for")
    (folder / SOUP).write_text(changed, "utf-8")
    assert build(folder).done
    page.reload()
    left = page.locator(".steps .step:has(input:checked)").all_text_contents()
    assert not any("great care" in text for text in left), (
        "what reads otherwise is to be read again"
    )


def test_ticks_are_cleared_apart_and_the_focus_stays_near(site, page):
    page.goto(site + PIE)
    goods = page.get_by_role("button", name="Untick the ingredients")
    steps = page.get_by_role("button", name="Untick the steps")
    assert not goods.is_visible()
    assert not steps.is_visible()
    for box in ("#tick-1", "#tick-2", "#done-1"):
        page.check(box)
    steps.press("Enter")
    assert ticked(page) == ["tick-1", "tick-2"]
    assert not steps.is_visible()
    assert page.evaluate("document.activeElement.id") == "done-1"
    goods.press("Enter")
    page.reload()
    assert ticked(page) == []


@each_theme
@pytest.mark.parametrize("size", [PHONE, DESK], ids=["phone", "desk"])
def test_boxes_stand_in_the_worktop_view_and_are_large(built, window, name, size):
    _, start = built(name)
    page = window(viewport=size).page
    page.goto(start + PIE)
    before = page.locator("#done-1").bounding_box()["width"]
    page.check("#done-1")
    page.click("#worktop")
    for box in ("#tick-1", "#done-1", "#done-3"):
        assert page.locator(box).is_visible()
        assert page.locator(box).bounding_box()["width"] >= max(24, before)
    page.check("#done-3")
    assert ticked(page) == ["done-1", "done-3"]


@each_theme
def test_on_paper_there_are_no_boxes_and_no_ticks(built, window, name):
    _, start = built(name)
    page = window().page
    page.goto(start + PIE)
    page.emulate_media(media="print")
    look = "getComputedStyle(document.querySelector('#step-1 .text')).color"
    plain = page.evaluate(look)
    page.evaluate("document.getElementById('done-1').click()")
    page.evaluate("document.getElementById('tick-1').click()")
    assert page.evaluate(look) == plain
    lines = "getComputedStyle(document.querySelector('.food label')).textDecorationLine"
    assert page.evaluate(lines) == "none"
    assert not page.locator("#step-1 .no").evaluate(
        "number => getComputedStyle(number).textDecorationLine.includes('line-through')"
    )
    for box in ("#done-1", "#tick-1", ".untick"):
        assert not page.locator(box).first.is_visible()


def test_without_scripts_boxes_can_be_ticked(site, window):
    page = window(java_script_enabled=False).page
    page.goto(site + PIE)
    page.check("#done-1")
    page.check("#tick-1")
    assert page.locator("#done-1").is_checked()
    assert not page.locator(".untick").first.is_visible()


def test_a_shut_or_spoilt_storage_leaves_the_boxes_working(site, window):
    opened = window()
    page = opened.page
    page.goto(site + PIE)
    page.evaluate("sessionStorage.setItem(`ticks ${location.pathname}`, '{half')")
    page.reload()
    page.check("#done-1")
    assert ticked(page) == ["done-1"]
    assert opened.complaints == []
