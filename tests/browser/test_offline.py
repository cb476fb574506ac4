"""Reading without a network: what was read is there, what was not is said in the site's own words."""

from __future__ import annotations

import shutil

import pytest

from tests.browser.served import serving

PIE, SOUP = "recipes/fish-pie.html", "recipes/lentil-soup.html"


@pytest.fixture
def copy(demo, tmp_path):
    """The demo, to be written to: another site on another host, with nothing kept."""
    return shutil.copytree(demo, tmp_path / "site")


def settle(page):
    """Until the worker has the page and what it is made of."""
    page.evaluate(
        """async () => {
            const late = new Promise((_, fail) => setTimeout(fail, 30000, new Error('no worker')));
            await Promise.race([navigator.serviceWorker.ready, late]);
            const key = location.origin + location.pathname;
            const made = performance.getEntriesByType('resource').map(each => each.name);
            for (let n = 0; n < 200; n++) {
                const there = await Promise.all([key, ...made].map(each => caches.match(each)));
                if (there.every(Boolean)) return;
                await new Promise(done => setTimeout(done, 50));
            }
            throw new Error('not kept');
        }"""
    )


def test_a_page_that_was_read_is_there_without_a_network_and_another_is_not(copy, window):
    opened = window()
    page = opened.page
    with serving(copy, "/food") as start:
        page.goto(start + PIE)
        settle(page)
        assert not opened.complaints
        opened.context.set_offline(True)
        page.reload()
        assert page.locator("h1").inner_text() == "Harbour pie"
        assert page.evaluate("getComputedStyle(document.body).margin") == "0px", (
            "its style is there"
        )
        page.get_by_role("button", name="One portion more").click()
        assert "serves=7" in page.url
        page.reload()
        assert page.locator("#serves").input_value() == "7"
        answer = page.goto(start + SOUP)
        assert answer.status == 503
        assert page.locator("h1").inner_text() == "No network just now"
        assert page.evaluate("getComputedStyle(document.body).margin") == "0px"
        page.get_by_role("link", name="Harbour pie").click()
        assert page.locator("h1").inner_text() == "Harbour pie"
        opened.context.set_offline(False)
        page.goto(start + SOUP)
        assert page.locator(".ledger").is_visible()


def test_what_is_kept_is_never_shown_while_the_network_answers(copy, window):
    page = window().page
    with serving(copy) as start:
        page.goto(start + PIE)
        settle(page)
        file = copy / PIE
        file.write_text(file.read_text("utf-8").replace("Harbour pie", "Quay pie"), "utf-8")
        page.reload()
        assert page.locator("h1").inner_text() == "Quay pie"


def test_a_new_build_takes_over_and_keeps_what_was_read(copy, window):
    opened = window()
    page = opened.page
    with serving(copy) as start:
        page.goto(start + PIE)
        settle(page)
        worker = copy / "worker.js"
        worker.write_text(worker.read_text("utf-8").replace('"version":"', '"version":"2'), "utf-8")
        page.reload()
        shells = page.evaluate(
            """async () => {
                const mine = await navigator.serviceWorker.getRegistration();
                await mine.update();
                for (let n = 0; n < 200; n++) {
                    const shells = (await caches.keys()).filter(each => each.includes(' shell '));
                    if (shells.length === 1 && shells[0].includes(' shell 2')) return shells;
                    await new Promise(done => setTimeout(done, 50));
                }
                return await caches.keys();
            }"""
        )
        assert len(shells) == 1
        opened.context.set_offline(True)
        page.reload()
        assert page.locator("h1").inner_text() == "Harbour pie"


def test_no_more_pages_are_kept_than_the_worker_says(copy, window):
    page = window().page
    worker = copy / "worker.js"
    text = worker.read_text("utf-8")
    assert "page: 60" in text
    worker.write_text(text.replace("page: 60", "page: 2"), "utf-8")
    with serving(copy) as start:
        page.goto(start + PIE)
        settle(page)
        for path in ("index.html", SOUP, "search.html"):
            page.goto(start + path)
            settle(page)
        kept = page.evaluate(
            """async () => {
                const name = (await caches.keys()).find(each => each.endsWith(' pages'));
                return (await (await caches.open(name)).keys()).map(each => each.url);
            }"""
        )
        assert kept == [start + SOUP, start + "search.html"]


def test_from_disk_nothing_is_registered(demo, window):
    opened = window()
    opened.page.goto((demo / PIE).as_uri())
    assert opened.complaints == []
