"""A browser walks the whole demo: nothing is asked of another host, nothing is complained of."""

from __future__ import annotations

from urllib.parse import urljoin

from tests.browser.pages import card_of, html_files, of_every_kind, recipe_paths, soup


def test_no_page_complains_or_asks_another_host(demo, site, window):
    opened = window()
    for file in html_files(demo):
        opened.page.goto(site + file.relative_to(demo).as_posix(), wait_until="load")
    assert opened.outside == []
    assert opened.complaints == []


def test_links_lead_on_from_page_to_page(demo, site, window):
    opened = window()
    for path in of_every_kind(demo):
        if path == "404.html":
            continue
        opened.page.goto(site + path)
        targets = opened.page.eval_on_selector_all("a[href]", "links => links.map(a => a.href)")
        inside = {target.split("#")[0] for target in targets if target.startswith(site)}
        for target in sorted(inside):
            answer = opened.context.request.head(target)
            assert answer.status == 200, f"{path}: {target}"


def test_the_site_stands_under_a_path_too(demo, serve, window):
    opened = window()
    start = serve(demo, "/some/where")
    for path in of_every_kind(demo):
        if path != "404.html":  # its links are made for the site's own address
            opened.page.goto(start + path)
    assert opened.complaints == []


def test_a_missing_page_is_answered_in_the_sites_own_words(demo, site, window):
    page = window().page
    answer = page.goto(site + "recipes/there-is-no/such-page.html")
    assert answer.status == 404
    assert page.locator("h1").count() == 1
    links = page.eval_on_selector_all("a[href]", "links => links.map(a => a.href)")
    assert urljoin(site, "index.html") in links or site in links
    page.locator("a[href$='recipes/index.html']").first.click()
    assert page.url.startswith(site)
    assert page.title() == soup(demo / "recipes/index.html").title.string


def test_the_site_opens_from_the_disk(demo, window):
    opened = window()
    recipe = recipe_paths(demo)[0]
    for path in ("index.html", "recipes/index.html", recipe, card_of(recipe), "search.html"):
        opened.page.goto((demo / path).as_uri(), wait_until="load")
        assert opened.page.locator("h1").is_visible()
    assert opened.complaints == []


def test_without_scripts_every_word_of_the_page_is_there(demo, site, window):
    """What a reader sees without scripts: the whole table, the whole method, the label."""
    page = window(java_script_enabled=False).page
    for path in recipe_paths(demo)[:6]:
        page.goto(site + path)
        figures = page.locator("data.fig")
        assert figures.count() > 10
        hidden = [
            figures.nth(n).text_content()
            for n in range(figures.count())
            if not figures.nth(n).is_visible()
        ]
        # "the bay leaf" is one, and has a place for the number that a larger batch needs.
        assert [words for words in hidden if words] == []
        steps = soup(demo / path).find_all("li", id=True)
        for step in steps:
            assert page.locator(f"[id='{step['id']}']").is_visible()
