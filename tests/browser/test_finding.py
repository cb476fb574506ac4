"""Finding a recipe in a browser: typing mistakes, accents, the keyboard, no scripts, from disk."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from sitegen.finding.words import terms
from sitegen.gathering import Gatherer
from tests.benchmarks.make_site import make_site
from tests.benchmarks.search import build_search
from tests.browser.windows import PHONE

FIRST_SEARCH = 100_000
"""What a first search may fetch beyond the page, in bytes, at a thousand recipes."""
RECIPES = 1000


def titles(page) -> list[str]:
    return page.locator("#results .name").all_inner_texts()


def search(page, words: str) -> list[str]:
    """Fill in the words, wait for the answer, give the titles shown."""
    page.fill("#words", "")
    page.locator("#found:empty").wait_for(state="attached")
    page.fill("#words", words)
    page.locator("#found:not(:empty)").wait_for()
    return titles(page)


@pytest.fixture
def opened(site, window):
    opened = window()
    opened.page.goto(site + "search.html")
    return opened


@pytest.mark.parametrize(
    ("typed", "found"),
    [
        ("haddock", "Harbour pie"),  # an ingredient
        ("HARBOUR", "Harbour pie"),  # the title
        ("middle eastern", "Squash and chickpea stew"),  # the cuisine
        ("simmer", "Squash and chickpea stew"),  # the method
        ("tomatoes", "Net-loft meatballs in tomato"),  # another number
        ("lentl", "Red lentil soup with lemon"),  # a letter too few
        ("chikpeas", "Squash and chickpea stew"),
        ("rhubarbb", "Rhubarb and oat crumble"),  # too many
        ("rhubard", "Rhubarb and oat crumble"),  # another
        ("parsinp", "Roasted roots with seeds and yoghurt"),  # two changed about
        ("omlete", "Oven omelette with leeks and potatoes"),  # two slips in a word
        ("purée", "Smoky bean pot"),
        ("puree", "Smoky bean pot"),
        ("pürèe", "Smoky bean pot"),
        ("rhub", "Rhubarb and oat crumble"),  # not finished
        ("leek potato", "Oven omelette with leeks and potatoes"),
        ("scallions", "Cold noodles with sesame dressing"),  # by another name of what goes in
        ("cilantro", "Squash and chickpea stew"),
    ],
)
def test_what_is_typed_finds_what_is_meant(opened, typed, found):
    assert found in search(opened.page, typed)
    assert opened.complaints == []


def test_a_title_comes_before_an_ingredient_and_that_before_the_text(opened):
    found = search(opened.page, "lemon")
    assert set(found[:3]) >= {"Lemon squares", "Red lentil soup with lemon"}
    assert search(opened.page, "barley")[0].startswith("Barley")
    assert search(opened.page, "rye oat")[0] == "Rye and oat loaf"


def test_a_slip_is_told(opened):
    search(opened.page, "lekes")
    assert "“lekes” read as “leek”" in opened.page.inner_text("#found")
    search(opened.page, "leeks")
    assert "read as" not in opened.page.inner_text("#found")


def test_nothing_found_is_said_and_announced(opened):
    page = opened.page
    assert search(page, "qqqqxxxxzzzz") == []
    status = page.locator("#found")
    assert status.get_attribute("role") == "status"
    assert status.inner_text().startswith("Nothing found")
    assert search(page, "leek qqqqxxxxzzzz")  # one of two words is better than nothing
    assert status.inner_text().startswith("No recipe has all of these words")


def test_the_words_are_kept_in_the_address(opened, site):
    page = opened.page
    search(page, "haddock")
    assert page.url == site + "search.html?q=haddock"
    page.reload()
    page.locator("#results .name").first.wait_for()
    assert page.input_value("#words") == "haddock"
    assert "Harbour pie" in titles(page)
    page.locator("#results .name", has_text="Harbour pie").click()
    assert page.locator("h1").inner_text() == "Harbour pie"
    page.go_back()
    page.locator("#results .name").first.wait_for()
    assert page.input_value("#words") == "haddock"


def test_the_keyboard_is_enough(opened):
    page = opened.page
    for _ in range(20):
        if page.evaluate("document.activeElement.id") == "words":
            break
        page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.id") == "words"
    page.keyboard.type("potato")
    page.locator("#results .name").nth(2).wait_for()
    names = titles(page)

    def at() -> str:
        return page.evaluate("document.activeElement.textContent")

    page.keyboard.press("ArrowDown")
    assert at() == names[0]
    page.keyboard.press("ArrowDown")
    assert at() == names[1]
    page.keyboard.press("Tab")
    assert at() == names[2]
    page.keyboard.press("ArrowUp")
    page.keyboard.press("ArrowUp")
    assert at() == names[0]
    page.keyboard.press("ArrowUp")
    assert page.evaluate("document.activeElement.id") == "words"
    page.keyboard.press("Enter")
    assert at() == names[0]
    page.keyboard.press("Escape")
    assert page.evaluate("document.activeElement.id") == "words"
    assert page.input_value("#words") == ""
    page.locator("#everything").wait_for()
    assert titles(page) == []
    page.keyboard.type("haddock")
    page.locator("#results .name").first.wait_for()
    page.keyboard.press("ArrowDown")
    name = at()
    page.keyboard.press("Enter")
    page.wait_for_url("**/recipes/*.html")
    assert page.locator("h1").inner_text() == name


def test_more_than_ten_are_shown_when_asked_for(opened):
    page = opened.page
    found = search(page, "butter")
    count = int(page.inner_text("#found").split()[0])
    assert len(found) == 10 < count
    page.locator("#show-further").click()
    page.locator("#results li").nth(10).wait_for()
    shown = titles(page)
    assert shown[:10] == found
    assert len(shown) == min(count, 20) == len(set(shown))
    assert page.evaluate("document.activeElement.textContent") == shown[10]


def test_without_scripts_everything_is_listed(site, window):
    page = window(java_script_enabled=False).page
    page.goto(site + "search.html")
    assert not page.locator("#words").is_visible()
    assert page.locator("#everything .index a").count() == 28
    page.locator("#everything a", has_text="Harbour pie").click()
    assert page.locator("h1").inner_text() == "Harbour pie"


def test_it_searches_from_disk(demo, window):
    opened = window()
    opened.page.goto((demo / "search.html").as_uri())
    assert "Harbour pie" in search(opened.page, "hadock")
    assert opened.complaints == []


def test_a_part_that_does_not_come_is_no_dead_end(site, window):
    page = window().page
    page.context.route("**/search/found-*", lambda route: route.abort())
    page.goto(site + "search.html")
    search(page, "leek")
    assert "all recipes are below" in page.inner_text("#found")
    assert page.locator("#everything").is_visible()
    page.context.unroute("**/search/found-*")
    assert search(page, "leeks")


def test_both_sides_take_words_apart_alike(opened, demo):
    """Python makes the index, the script takes apart what is typed: any difference would hide things."""
    words = {
        word
        for dish in Gatherer(Path(__file__).parents[2])
        .gather(drafts=False)
        .collection.dishes.values()
        for step in (step for part in dish.method for step in part.steps)
        for word in step.text.split()
    }
    texts = [
        *sorted(words), "Crème brûlée", "SMØRREBRØD", "Straße", "œufs", "ﬁllet", "İnce", "leaves",
        "Tobias’s loaves", "baker's", "½ 200 2x", "quiches", "pies", "a", "ß", "日本 料理", "Ђувеч",
        "naïve—dash", "e\u0301clair", "३ अंडे",
    ]  # fmt: skip
    mine = [terms(text) for text in texts]
    theirs = opened.page.evaluate(
        "async (texts) => Promise.all(texts.map((text) => SEARCH.terms(text)))", texts
    )
    assert {t: b for t, a, b in zip(texts, mine, theirs, strict=True) if a != b} == {}


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_axe_finds_no_violation_in_what_is_found(site, window, axe, scheme):
    page = window(bypass_csp=True, color_scheme=scheme, viewport=PHONE).page
    page.goto(site + "search.html?q=lekes")
    page.locator("#results .name").first.wait_for()
    assert axe(page) == []
    page.set_viewport_size({"width": 320, "height": 640})
    assert page.evaluate("document.documentElement.scrollWidth") <= 320


@pytest.fixture(scope="module")
def thousand(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The search page of a thousand recipes, with its index and nothing else."""
    folder = tmp_path_factory.mktemp("thousand")
    make_site(folder / "site", RECIPES, 1)
    build_search(folder / "site", folder / "built")
    return folder / "built"


def test_a_first_search_among_a_thousand_recipes_costs_little(thousand, serve, window):
    """Uncompressed: the script and every part of the index; the page with its style is apart."""
    html = (thousand / "search.html").read_bytes()
    assert len(html) < 20_000
    assert html.count(b'"recipes/index') >= -(-RECIPES // 24)  # all of them, by pages of the list
    address = serve(thousand) + "search.html"
    for words in ("leek soup", "chikpeas", "winter roots with dill", "co", "typed: leek soup"):
        opened = window()
        sizes: dict[str, int] = {}

        def note(answer: Any, sizes: dict[str, int] = sizes) -> None:
            name = answer.url.rsplit("/", 1)[-1]
            if "/search/" in answer.url or (name.startswith("search.") and name.endswith(".js")):
                sizes[answer.url] = len(answer.body())

        opened.page.on("response", note)
        opened.page.goto(address)
        if words.startswith("typed: "):  # each letter on its way is a search too
            opened.page.locator("#words").focus()
            for letter in words.removeprefix("typed: "):
                opened.page.keyboard.type(letter)
                opened.page.wait_for_load_state("networkidle")
            opened.page.locator("#found:not(:empty)").wait_for()
            assert titles(opened.page)
        else:
            assert search(opened.page, words)
        assert any("/found-" in url for url in sizes)
        assert sum(sizes.values()) < FIRST_SEARCH, f"{words}: {json.dumps(sizes, indent=1)}"
        assert opened.complaints == []
