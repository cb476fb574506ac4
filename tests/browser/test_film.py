"""A film in the page: nothing of it is fetched before a press, and a step's link moves it."""

from __future__ import annotations

import subprocess
import sys
from io import BytesIO

import pytest
from PIL import Image

from tests.browser.served import serving
from tests.conftest import REPO
from tests.sites import recipe, write_site

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


@pytest.fixture(scope="module")
def elsewhere(tmp_path_factory):
    """A site of two films that stand on other hosts: one that pages can play, one that they can't."""
    folder = tmp_path_factory.mktemp("elsewhere")
    still = BytesIO()
    Image.new("RGB", (1280, 960), "#aa7744").save(still, "PNG")

    def soup(title: str, film: str) -> str:
        said = f"""video:
  address: {film}
  title: The pot
  alt: A pot that simmers
  length: 0:35
  poster: pot.png
  steps: {{1: 0:07}}
ingredients:
"""
        return recipe(title).replace("ingredients:\n", said)

    site = write_site(
        folder / "site",
        {
            "content/recipes/played.md": soup("Played", "https://films.example/pot.webm"),
            "content/recipes/told.md": soup("Told", "https://tube.example/watch/pot"),
            "content/recipes/pot.png": still.getvalue(),
        },
    )
    run = subprocess.run(
        [sys.executable, "-m", "sitegen", "build", "--site", str(site), "--to", str(folder / "to")],
        cwd=REPO, capture_output=True, text=True, check=False, timeout=120,
    )  # fmt: skip
    assert run.returncode == 0, run.stdout + run.stderr
    with serving(folder / "to", policy=False) as address:
        yield address


def asked_of(page, host):
    """What the page asks of a host, answered with nothing."""
    asked: list[str] = []

    def answer(route):
        asked.append(route.request.url)
        route.fulfill(status=200, content_type="video/webm", body=b"\x1a\x45\xdf\xa3")

    page.route(f"https://{host}/**", answer)
    return asked


def policy(page):
    return page.get_attribute("meta[http-equiv='Content-Security-Policy']", "content")


@pytest.mark.parametrize("way", ["press", "step"])
def test_another_hosts_film_is_asked_for_only_after_a_press(elsewhere, window, way):
    page = window().page
    asked = asked_of(page, "films.example")
    page.goto(elsewhere + "recipes/played.html")
    page.wait_for_load_state("networkidle")
    assert asked == []
    assert page.locator("video").count() == 0
    stand = page.locator("a.film-stand")
    assert "films.example" in stand.inner_text()
    assert stand.get_attribute("rel") == "noreferrer"
    if way == "press":
        stand.focus()
        page.keyboard.press("Enter")
    else:
        page.locator(".note-film a").first.press("Enter")
    page.wait_for_function("document.querySelector('video') !== null")
    page.wait_for_timeout(200)
    assert asked
    assert set(asked) == {"https://films.example/pot.webm"}
    assert page.evaluate("document.activeElement.id") == "film-player"
    assert page.url.startswith(elsewhere), "the reader stays on the page"


def test_only_the_page_that_plays_it_may_ask_the_other_host(elsewhere, window):
    page = window().page
    page.goto(elsewhere + "recipes/played.html")
    assert "media-src 'self' https://films.example;" in policy(page)
    for path in ("recipes/told.html", "recipes/lentil-soup.html", "recipes/played-card.html"):
        page.goto(elsewhere + path)
        assert "media-src 'self';" in policy(page), path
        assert "films.example" not in policy(page)


def test_what_no_page_can_play_is_a_plain_link_to_where_it_is(elsewhere, window):
    page = window().page
    asked = asked_of(page, "tube.example")
    page.goto(elsewhere + "recipes/told.html")
    assert asked == []
    stand = page.locator("a.film-stand")
    assert stand.get_attribute("href") == "https://tube.example/watch/pot"
    assert stand.get_attribute("data-media") is None
    assert page.locator(".note-film a").first.get_attribute("href").endswith("#t=7")
    stand.click()
    assert set(asked) == {"https://tube.example/watch/pot"}


def test_without_scripts_another_hosts_film_is_a_link(elsewhere, window):
    page = window(java_script_enabled=False).page
    page.goto(elsewhere + "recipes/played.html")
    href = page.locator("a.film-stand").get_attribute("href")
    assert href == "https://films.example/pot.webm"
