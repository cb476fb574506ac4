"""While everything is being read, pages are there at once, and are put right when it has been."""

from __future__ import annotations

import os
import random
import shutil
import threading
from collections.abc import Iterator
from pathlib import Path

import pytest

from sitegen.images.cache import Cache
from sitegen.preview import start
from sitegen.preview.desk import Desk
from sitegen.preview.early import Early
from sitegen.preview.serving import look_up
from sitegen.preview.themes import Themes
from sitegen.workroom import Workroom
from tests.preview.held import APART, FILES, STEW, STOCK, EarlyPreview, Hold, early_preview
from tests.preview.test_preview import PAGE
from tests.sites import SITE, SOUP, recipe, write
from tests.test_gathering import FOOD

REPO = Path(__file__).parents[2]
OWN_FOODS = "content/larder/own.yaml"
PATHS = (
    *("index.html", "recipes/index.html", "search.html", "404.html", "about.html", "feed.xml"),
    *(f"recipes/{Path(f).stem}{end}.html" for f in (SOUP, *FILES) for end in ("", "-card")),
)


@pytest.fixture
def hold(monkeypatch: pytest.MonkeyPatch) -> Iterator[Hold]:
    made = Hold(monkeypatch)
    yield made
    made.open.set()


@pytest.fixture
def preview(tmp_path: Path, hold: Hold) -> Iterator[EarlyPreview]:
    running = early_preview(tmp_path / "site")
    hold.wait()
    yield running
    hold.open.set()
    running.close()


def contents(desk: Desk) -> list[object]:
    found = [(path, look_up(desk.edition, path)) for path in PATHS]
    pages = [(path, status, page.content if page else b"") for path, (status, page) in found]
    return [*pages, desk.edition.problems, list(desk.edition.gathered.collection.dishes)]


def same_as_anew(preview: EarlyPreview) -> bool:
    """Whether what is shown at last is what a preview that begins now, with nothing kept, shows."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(start.Start, "leaves", lambda *_: {})
        return contents(preview.desk) == contents(Desk(preview.folder))


def test_a_recipe_is_whole_but_for_what_others_add(preview: EarlyPreview, hold: Hold) -> None:
    status, body, _ = preview.get(PAGE)
    assert status == 200
    assert "Put the" in body
    assert 'href="apart.html"' in body  # a link to a recipe that nobody has read yet
    assert "About us" in body
    assert "Reading the site" in body
    assert "Stew" not in body
    status, stew, _ = preview.get("/recipes/stew.html")
    assert "stock.html" in stew
    status, stock, _ = preview.get("/recipes/stock.html")
    assert "stew.html" not in stock
    assert preview.get("/recipes/lentil-soup-card.html")[0] == 200
    assert preview.get("/about.html")[0] == 200
    hold.open.set()
    preview.read()
    assert "stew.html" in preview.get("/recipes/stock.html")[1]
    body = preview.get(PAGE)[1]
    assert "Stew" in body  # it is related
    assert "Reading the site" not in body
    assert same_as_anew(preview)


def test_what_an_early_page_says_is_what_it_will_say(tmp_path: Path) -> None:
    """Every recipe of the demo: nothing is taken back, and only what others add is added."""
    from bs4 import BeautifulSoup

    shutil.copytree(REPO / "content", tmp_path / "content")
    desk = Desk(tmp_path)
    early = Early(tmp_path, Cache(Workroom(tmp_path).cache), Themes(tmp_path))
    for slug in desk.edition.gathered.collection.dishes:
        for path in (f"recipes/{slug}.html", f"recipes/{slug}-card.html"):
            first, last = early.at(f"/{path}").find(path), desk.edition.find(path)
            assert first is not None
            assert last is not None
            whole = BeautifulSoup(last.content, "html.parser")
            for added in whole.select("aside.related, [aria-labelledby=used-in]"):
                added.decompose()
            words = list(whole.stripped_strings)
            assert words == list(BeautifulSoup(first.content, "html.parser").stripped_strings), path
            if "card" in path:
                assert first == last


@pytest.mark.parametrize(
    "path", ["/", "/recipes/", "/search.html", "/feed.xml", "/none.html", "/-/trials/index.html"]
)
def test_what_tells_of_the_whole_site_waits(preview: EarlyPreview, hold: Hold, path: str) -> None:
    os.utime(preview.folder / APART, (2e9, 2e9))
    preview.desk.follow({preview.folder / APART})
    status, body, _ = preview.get(path)
    assert status == 503
    assert "is being read" in body
    links = [part.partition('"')[0] for part in body.split('<li><a href="')[1:]]
    assert links[0] == "/recipes/apart.html"
    assert len(links) == len({SOUP, *FILES}) - 1  # one is a page of another kind
    assert all(preview.get(link)[0] == 200 for link in links)
    hold.open.set()
    preview.read()
    assert preview.get(path)[0] == (404 if path in ("/none.html",) else 200)


def test_style_sheets_and_pictures_are_there_early(preview: EarlyPreview) -> None:
    from PIL import Image

    Image.new("RGB", (640, 480), (120, 60, 30)).save(preview.folder / "content/recipes/s.png")
    text = recipe().replace("serves: 4", "serves: 4\nphoto: {file: s.png, alt: A bowl}")
    write(preview.folder / SOUP, text)
    preview.desk.follow({preview.folder / SOUP})
    body = preview.get(PAGE)[1]
    named = [part.partition('"')[0] for part in body.split('="../')[1:]]
    files = [name for name in named if name.startswith(("assets/", "photos/"))]
    assert {name.partition("/")[0] for name in files} == {"assets", "photos"}
    for name in files:
        assert preview.get(f"/{name.split(' ')[0]}")[0] == 200, name


def test_a_mistake_is_told_early(preview: EarlyPreview) -> None:
    write(preview.folder / SOUP, recipe().replace("serves: 4", "serve: 4"))
    preview.desk.follow({preview.folder / SOUP})
    status, body, _ = preview.get(PAGE)
    assert status == 500
    assert "there is no field" in body
    write(preview.folder / SOUP, recipe("Mended"))
    preview.desk.follow({preview.folder / SOUP})
    assert "Mended" in preview.get(PAGE)[1]


def test_a_save_meanwhile_is_shown_and_not_lost(preview: EarlyPreview, hold: Hold) -> None:
    events = preview.events(PAGE)
    first = next(events)
    assert first["note"].startswith("Reading the site")
    write(preview.folder / SOUP, recipe("Saved meanwhile"))
    while "Saved meanwhile" not in next(events).get("html", ""):
        pass
    write(preview.folder / "content/recipes/new.md", recipe("Quite new"))
    while preview.get("/recipes/new.html")[0] != 200:
        next(events)
    assert preview.desk.is_reading
    hold.open.set()
    while (news := next(events))["note"]:
        pass
    assert "Quite new" in news["html"]  # it is related
    assert "Saved meanwhile" in preview.get("/")[1]
    assert same_as_anew(preview)


def test_a_theme_that_is_changed_meanwhile_is_followed(preview: EarlyPreview, hold: Hold) -> None:
    events = preview.events(PAGE)
    next(events)
    head = '{% extends "house/recipe.html" %}{% block after_method %}'
    template = preview.folder / "themes/sheet/templates/recipe.html"
    write(template, f"{head}<p>From the kitchen.</p>{{% endblock %}}")
    while "From the kitchen." not in next(events).get("html", ""):
        pass
    assert preview.desk.is_reading
    hold.open.set()
    preview.read()
    assert "From the kitchen." in preview.get(PAGE)[1]
    assert same_as_anew(preview)


def test_refresh_waits_for_everything(preview: EarlyPreview, hold: Hold) -> None:
    threading.Timer(0.1, hold.open.set).start()
    write(preview.folder / SOUP, recipe("Saved meanwhile"))
    assert preview.desk.refresh({preview.folder / SOUP})
    assert not preview.desk.is_reading
    assert "Saved meanwhile" in preview.get("/")[1]


def test_how_far_reading_is_is_told(preview: EarlyPreview) -> None:
    events = preview.events(PAGE)
    next(events)
    preview.desk._told("recipes", 1234, 5678)
    assert "1,234 of 5,678 recipes" in next(events)["note"]


def test_other_settings_are_in_the_page_at_once(preview: EarlyPreview, hold: Hold) -> None:
    hold.open.set()
    preview.read()
    events = preview.events(PAGE)
    home = preview.events("/")
    before, old_home = next(events), next(home)
    hold.came = threading.Semaphore(0)
    hold.open.clear()
    write(preview.folder / "content/site.yaml", SITE.replace("test kitchen", "other kitchen"))
    while "The other kitchen" not in (early := next(events)).get("html", ""):
        pass
    hold.wait()
    assert early["note"]
    assert "Stew" in early["html"]  # what is related stays as it was
    status, body, _ = preview.get("/")
    assert status == 200
    assert "This page is as it was before" in body
    assert old_home["stamp"] in body
    assert before["stamp"] != early["stamp"]
    hold.open.set()
    while "The other kitchen" not in next(home).get("html", ""):
        pass
    assert "as it was before" not in preview.get("/")[1]
    assert same_as_anew(preview)


def test_an_own_food_is_in_the_page_at_once(preview: EarlyPreview, hold: Hold) -> None:
    text = recipe(ingredient="200 g harbour biscuits")
    write(preview.folder / SOUP, text)
    hold.open.set()
    preview.read()
    preview.desk.follow({preview.folder / SOUP})
    assert "food-unknown" in preview.get(PAGE)[1]
    hold.open.clear()
    hold.came = threading.Semaphore(0)
    write(preview.folder / OWN_FOODS, FOOD)
    hold.wait()
    events = preview.events(PAGE)
    while "food-unknown" in next(events)["slip"]:
        pass
    assert preview.desk.is_reading
    hold.open.set()
    preview.read()
    assert same_as_anew(preview)


def test_settings_that_change_while_everything_is_read_begin_it_again(
    preview: EarlyPreview, hold: Hold
) -> None:
    for words in ("second", "third"):
        write(preview.folder / "content/site.yaml", SITE.replace("test kitchen", words))
        preview.desk.follow({preview.folder / "content/site.yaml"})
        assert f"The {words}" in preview.get(PAGE)[1]
    hold.open.set()
    preview.read()
    assert "The third" in preview.get("/")[1]
    assert same_as_anew(preview)


def test_whatever_is_saved_while_everything_is_read_it_ends_right(
    preview: EarlyPreview, hold: Hold
) -> None:
    chance = random.Random(5)
    texts = [str(FILES[f]) for f in (SOUP, STOCK, STEW)] + [recipe("Another"), "", recipe()[:90]]
    for turn in range(4):
        for _ in range(5):
            name = chance.choice([SOUP, STOCK, STEW, APART, "content/site.yaml"])
            if name.endswith(".yaml"):
                write(preview.folder / name, SITE + chance.choice(["region: us\n", "units: us\n"]))
            elif chance.random() < 0.2:
                (preview.folder / name).unlink(missing_ok=True)
            else:
                write(preview.folder / name, chance.choice(texts))
            preview.desk.follow({preview.folder / name} if chance.random() < 0.7 else None)
            preview.get(f"/recipes/{Path(chance.choice([SOUP, STEW])).stem}.html")
            if chance.random() < 0.3:
                hold.open.set()
        hold.open.set()
        preview.read()
        preview.desk.follow(None)  # whatever the watch has not told of yet
        preview.read()
        assert same_as_anew(preview), turn
        hold.open.clear()


def test_a_fault_in_reading_is_told_and_the_next_save_tries_again(
    preview: EarlyPreview,
    hold: Hold,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    events = preview.events(PAGE)
    next(events)
    with monkeypatch.context() as broken:
        broken.setattr(start, "kept", lambda *_: 1 / 0)
        hold.open.set()
        while "could not be read" not in next(events)["note"]:
            pass
        assert preview.get(PAGE)[0] == 200
        assert "ZeroDivisionError" in capsys.readouterr().err
    write(preview.folder / SOUP, recipe("Saved once more"))
    while next(events)["note"]:
        pass
    assert same_as_anew(preview)
