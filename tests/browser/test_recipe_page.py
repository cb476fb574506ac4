"""What else a reader does on a recipe page: measures, timers, the worktop view, the keyboard."""

from __future__ import annotations

import pytest

from tests.browser.figures import shown
from tests.browser.themed import each_theme
from tests.browser.windows import PHONE

PIE = "recipes/fish-pie.html"


def choose(page, words):
    page.locator(".units label").filter(has_text=words).click()


def visible(page, selector):
    return [each for each in page.locator(selector).all() if each.is_visible()]


@pytest.mark.parametrize("scripts", [True, False], ids=["scripts", "no scripts"])
def test_the_switch_shows_one_system_or_both(site, window, scripts):
    page = window(java_script_enabled=scripts).page
    page.goto(site + PIE)
    table = ".ledger tbody "
    assert visible(page, table + "td.sys-m")
    assert visible(page, table + "td.sys-u")
    choose(page, "US")
    # A row with a figure in one system only still shows that figure: nothing goes missing.
    assert not [
        cell
        for cell in visible(page, table + "td.sys-m data.fig")
        if cell.locator("xpath=../following-sibling::td[1]//data").count()
    ]
    assert visible(page, table + "td.sys-u data.fig")
    choose(page, "metric")
    assert visible(page, table + "td.sys-m data.fig")
    choose(page, "both")
    assert visible(page, table + "td.sys-u data.fig")


def test_the_device_remembers_its_measures_without_a_cookie(site, window):
    opened = window()
    opened.page.goto(site + PIE)
    choose(opened.page, "US")
    opened.page.goto(site + "index.html")
    opened.page.goto(site + PIE)
    assert opened.page.is_checked("#units-us")
    assert not opened.context.cookies()


def test_with_one_system_every_ingredient_with_an_amount_still_shows_one(site, page):
    page.goto(site + PIE)
    rows = page.locator(".ledger tbody tr:not(.part)")
    measured = [n for n in range(rows.count()) if rows.nth(n).locator("data.fig").count()]
    assert len(measured) > 5
    for words in ("metric", "US"):
        choose(page, words)
        for n in measured:
            figures = rows.nth(n).locator("data.fig").all()
            assert any(each.is_visible() for each in figures), (words, rows.nth(n).inner_text())


def test_a_timer_runs_down_rings_in_words_and_is_stopped(site, window):
    page = window().page
    page.clock.install()
    page.goto(site + PIE)
    start = page.locator("button.time").first
    start.click()
    tray = page.get_by_role("region", name="Timers")
    assert tray.is_visible()
    left = page.get_by_role("timer")
    first = left.inner_text()
    page.clock.run_for(61_000)
    assert left.inner_text() != first
    page.clock.run_for(3 * 3600 * 1000)
    assert "time is up" in page.get_by_role("alert").text_content()
    assert page.title().startswith("Time:")
    tray.get_by_role("button", name="stop").click()
    assert not tray.is_visible()
    assert not page.title().startswith("Time:")


def test_timers_run_side_by_side_and_outlive_a_reload(site, window):
    page = window().page
    page.goto(site + PIE)
    times = page.locator("button.time")
    assert times.count() >= 2
    times.nth(0).click()
    times.nth(1).click()
    times.nth(1).click()
    assert page.get_by_role("timer").count() == 2, "pressing twice does not start a second one"
    page.reload()
    assert page.get_by_role("timer").count() == 2


def test_a_paused_timer_stands_still(site, window):
    page = window().page
    page.clock.install()
    page.goto(site + PIE)
    page.locator("button.time").first.click()
    page.get_by_role("button", name="pause").click()
    left = page.get_by_role("timer").inner_text()
    page.clock.run_for(120_000)
    assert page.get_by_role("timer").inner_text() == left
    page.get_by_role("button", name="go on").click()
    page.clock.run_for(5_000)
    assert page.get_by_role("timer").inner_text() != left


def test_the_worktop_view_is_large_and_left_by_escape(site, page):
    page.goto(site + PIE)
    size = "parseFloat(getComputedStyle(document.querySelector('.step .text')).fontSize)"
    small = page.evaluate(size)
    page.click("#worktop")
    assert page.get_attribute("#worktop", "aria-pressed") == "true"
    assert page.evaluate(size) > small * 1.15
    assert page.locator(".step").first.is_visible()
    assert page.locator(".ledger").is_visible()
    assert not page.locator("section.nutrition").is_visible()
    page.keyboard.press("Escape")
    assert page.get_attribute("#worktop", "aria-pressed") == "false"
    assert page.evaluate(size) == small


def test_boxes_are_ticked_by_their_words(site, page):
    page.goto(site + PIE)
    box = page.locator(".ledger input[type=checkbox]").first
    page.locator(".ledger label").first.click()
    assert box.is_checked()


def test_a_step_can_be_linked_to(site, page):
    page.goto(site + PIE + "#step-3")
    assert page.locator("#step-3").evaluate("step => step.matches(':target')")
    assert page.locator("#step-3").is_visible()


def test_the_keyboard_alone_does_it_all(site, page):
    page.goto(site + PIE)
    page.keyboard.press("Tab")
    skip = page.locator("a.skip")
    assert skip.evaluate("link => link === document.activeElement")
    assert skip.is_visible()
    page.keyboard.press("Enter")
    assert page.evaluate("document.activeElement.id") == "main"
    reached = set()
    for _ in range(200):
        page.keyboard.press("Tab")
        reached.add(
            page.evaluate(
                "(e => e.id || e.getAttribute('aria-label') || e.textContent.trim())"
                "(document.activeElement)"
            )
        )
        outline = page.evaluate(
            "(e => e === document.body ? 'none' : getComputedStyle(e).outlineStyle)"
            "(document.activeElement)"
        )
        if page.evaluate("document.activeElement === document.body"):
            break
        small = page.evaluate("document.activeElement.closest('.units, .tick') !== null")
        assert outline != "none" or small, "what has the focus shows it"
    assert {"serves", "worktop", "to-card", "One portion more", "tick-1"} <= reached


def test_the_card_keeps_the_scale_and_so_does_the_way_back(site, page):
    page.goto(site + PIE)
    page.fill("#serves", "3")
    table = shown(page, ".ledger")
    page.click("#to-card")
    page.wait_for_load_state()
    assert page.input_value("#serves") == "3"
    assert shown(page, ".card-ledger") == table
    page.click("#to-recipe")
    page.wait_for_load_state()
    assert page.input_value("#serves") == "3"


def test_on_a_phone_steps_and_table_fill_the_width_in_reading_order(site, window):
    page = window(viewport=PHONE).page
    page.goto(site + PIE)
    table, step = page.locator(".ledger").bounding_box(), page.locator("#step-1").bounding_box()
    assert table["y"] + table["height"] < step["y"]
    for box in (table, step):
        assert box["x"] >= 0
        assert box["x"] + box["width"] <= PHONE["width"]


@each_theme
@pytest.mark.parametrize("path", ["index.html", "recipes/fish-pie.html"])
def test_the_first_photo_is_fetched_once_and_does_not_wait_for_the_sheet(built, window, name, path):
    _, start = built(name)
    opened = window(viewport=PHONE)
    asked = []
    opened.page.on("request", lambda request: asked.append(request.url.rsplit("/", 2)[-2:]))
    opened.page.goto(start + path, wait_until="load")
    photos = [file for folder, file in asked if folder == "photos"]
    kinds = [file.rsplit(".", 1)[-1] for _, file in asked]
    assert kinds.index("avif") < kinds.index("css")
    assert len(photos) == len(set(photos))
    shown = opened.page.evaluate("document.querySelector('main img[fetchpriority]').currentSrc")
    assert shown.endswith(photos[0])
    assert opened.complaints == []
