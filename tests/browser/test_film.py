"""A film in the page: nothing of it is fetched before a press, and a step's link moves it."""

from __future__ import annotations

PAGE = "recipes/table-rolls.html"


def test_nothing_of_a_film_is_fetched_until_it_is_asked_for(browser, site):
    page = browser.new_page()
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    page.goto(site + PAGE)
    page.wait_for_load_state("networkidle")
    assert not [url for url in asked if "films/" in url]
    page.locator(".note-film a[data-at='9']").click()
    player = page.locator("#film-player")
    player.evaluate(
        "film => film.currentTime >= 9 || new Promise((done, fail) => {"
        " film.onseeked = done; setTimeout(fail, 30000, new Error('it did not move')); })"
    )
    assert player.evaluate("film => film.currentTime") >= 9
    assert [url for url in asked if "films/" in url]
    assert all(url.startswith(site.split("/", 3)[0] + "//127.0.0.1") for url in asked)
    assert player.evaluate("film => document.activeElement === film")
    page.close()


def test_without_scripts_a_steps_link_is_the_film_at_that_time(browser, site):
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(site + PAGE)
    link = page.locator(".note-film a").first
    assert link.get_attribute("href").endswith(".webm#t=0")
    assert page.locator("video#film-player[controls][preload=none]").count() == 1
    context.close()
