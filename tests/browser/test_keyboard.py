"""Every widget by the keyboard alone: reached by Tab, worked by its own keys, and the focus is seen."""

from __future__ import annotations

import pytest

from tests.browser.themed import each_theme
from tests.browser.windows import DESK, PHONE

PIE = "recipes/fish-pie.html"
ROLLS = "recipes/table-rolls.html"
CAKE = "recipes/orange-almond-cake.html"


def tab_to(page, selector, most=150):
    """Press Tab until the first of ``selector`` has the focus."""
    for _ in range(most):
        page.keyboard.press("Tab")
        if page.evaluate("s => document.activeElement.matches(s)", selector):
            return
    raise AssertionError(f"Tab does not reach {selector}")


def is_seen(page) -> bool:
    """Whether what has the focus, or what stands for it, is drawn with an outline."""
    return page.evaluate(
        """() => {
          const e = document.activeElement;
          const drawn = (each) => each && getComputedStyle(each).outlineStyle !== "none"
            && parseFloat(getComputedStyle(each).outlineWidth) >= 2;
          return drawn(e) || drawn(e.nextElementSibling);
        }"""
    )


@each_theme
@pytest.mark.parametrize("size", [PHONE, DESK], ids=["phone", "desk"])
def test_a_whole_recipe_is_walked_and_the_focus_is_always_seen(built, window, name, size):
    _, start = built(name)
    page = window(viewport=size).page
    page.goto(start + PIE)
    unseen, reached, stops = [], set(), 0
    for _ in range(300):
        page.keyboard.press("Tab")
        if page.evaluate("document.activeElement === document.body"):
            break
        stops += 1
        shown = page.evaluate("document.activeElement.outerHTML.slice(0, 90)")
        reached.add(page.evaluate("document.activeElement.id"))
        if not is_seen(page):
            unseen.append(shown)
        box = page.evaluate(
            "(b => [b.width, b.height])((document.activeElement.closest('label') ||"
            " document.activeElement).getBoundingClientRect())"
        )
        assert min(box) > 0, shown
    assert stops > 40
    assert not unseen, unseen[:5]
    boxes = page.eval_on_selector_all(
        ".ledger input, .steps input", "boxes => boxes.map(box => box.id)"
    )
    assert {"serves", "worktop", "to-card", "time-0", *boxes} <= reached


@each_theme
def test_measures_are_chosen_with_the_arrows(built, window, name):
    _, start = built(name)
    page = window().page
    page.goto(start + PIE)
    tab_to(page, "input[name=units]")
    assert page.evaluate("document.activeElement.value") == "both"
    page.keyboard.press("ArrowLeft")
    assert page.evaluate("document.documentElement.dataset.units") == "us"
    page.keyboard.press("ArrowLeft")
    assert page.evaluate("document.documentElement.dataset.units") == "metric"


@each_theme
def test_a_recipe_is_scaled_in_each_way_and_put_back(built, window, name):
    _, start = built(name)
    page = window().page
    page.goto(start + CAKE)
    own = page.input_value("#serves")
    tab_to(page, "button[data-by='1']")
    page.keyboard.press("Enter")
    page.keyboard.press("Space")
    assert page.input_value("#serves") == str(int(own) + 2)
    page.keyboard.press("Shift+Tab")
    page.keyboard.type("3")  # the number was selected when the focus came
    assert "serves=3" in page.url
    tab_to(page, "#scale-reset", 3)
    page.keyboard.press("Enter")
    assert page.input_value("#serves") == own
    assert page.evaluate("document.activeElement.id") == "serves"
    tab_to(page, "#by-have summary", 6)
    page.keyboard.press("Enter")
    page.locator("#by-have input").wait_for()
    tab_to(page, "#by-have input", 2)
    page.keyboard.type("100")
    assert page.locator(".scale-said").inner_text()
    tab_to(page, "#by-tin summary", 6)
    page.keyboard.press("Enter")
    page.locator("#by-tin select").first.wait_for()
    assert not page.locator("#by-have input").is_visible(), "one way at a time"
    tab_to(page, "#by-tin select", 3)
    tab_to(page, "#by-tin select", 3)
    page.keyboard.press("ArrowDown")
    assert page.locator(".scale-said").inner_text().startswith("For that tin")


@each_theme
def test_a_timer_is_started_answered_and_left(built, window, name):
    _, start = built(name)
    page = window().page
    page.clock.install()
    page.goto(start + PIE)
    tab_to(page, "button.time")
    first = page.evaluate("document.activeElement.id")
    page.keyboard.press("Enter")
    tray = page.get_by_role("region", name="Timers")
    tab_to(page, ".tray a")
    tab_to(page, ".tray button", 1)
    assert is_seen(page)
    page.keyboard.press("Space")
    assert tray.get_by_role("button", name="go on").count() == 1
    page.keyboard.press("Space")
    page.clock.run_for(60 * 60_000)
    assert "time is up" in page.get_by_role("alert").text_content()
    for _ in range(5):
        if page.evaluate("document.activeElement.textContent") == "stop":
            break
        page.keyboard.press("Tab")
    page.keyboard.press("Enter")
    assert not tray.is_visible()
    assert page.evaluate("document.activeElement.id") == first, "the focus goes back to the step"


@each_theme
def test_the_worktop_view_is_entered_worked_in_and_left(built, window, name):
    _, start = built(name)
    page = window().page
    page.goto(start + PIE)
    tab_to(page, "#worktop")
    page.keyboard.press("Enter")
    assert page.get_attribute("#worktop", "aria-pressed") == "true"
    tab_to(page, "#done-1", 10)
    page.keyboard.press("Space")
    assert page.is_checked("#done-1")
    page.keyboard.press("Escape")
    assert page.get_attribute("#worktop", "aria-pressed") == "false"
    assert page.evaluate("document.activeElement.id") == "done-1"


@each_theme
def test_what_is_folded_is_unfolded(built, window, name):
    _, start = built(name)
    page = window().page
    page.goto(start + PIE)
    for selector in (".reckoned summary", ".safety summary", ".rests-on summary"):
        tab_to(page, selector)
        page.keyboard.press("Enter")
        assert page.evaluate("document.activeElement.parentElement.open"), selector


@each_theme
def test_a_film_is_moved_from_a_step(built, window, name):
    _, start = built(name)
    page = window().page
    page.goto(start + ROLLS)
    tab_to(page, ".note-film a")
    page.keyboard.press("Enter")
    assert page.evaluate("document.activeElement.id") == "film-player"


@each_theme
def test_the_card_is_set_and_printed(built, window, name):
    _, start = built(name)
    page = window().page
    page.add_init_script("window.print = () => { window.printed = true; }")
    page.goto(start + PIE.replace(".html", "-card.html"))
    tab_to(page, "input[name=paper]")
    page.keyboard.press("ArrowRight")
    assert page.evaluate("document.activeElement.value") == "a4"
    assert is_seen(page)
    tab_to(page, "#print")
    page.keyboard.press("Enter")
    assert page.evaluate("window.printed") is True


@each_theme
def test_search_is_typed_walked_and_cleared(built, window, name):
    _, start = built(name)
    page = window().page
    page.goto(start + "search.html")
    tab_to(page, "#words")
    page.keyboard.type("leek")
    page.locator("#results a").nth(1).wait_for()
    page.keyboard.press("ArrowDown")
    page.keyboard.press("ArrowDown")
    assert page.evaluate("document.activeElement.closest('#results') !== null")
    assert is_seen(page)
    page.keyboard.press("Escape")
    assert page.evaluate("document.activeElement.id") == "words"
    assert page.input_value("#words") == ""
