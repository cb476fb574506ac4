"""While everything is being read, pages are there at once, and are put right when it has been."""

from __future__ import annotations

import json
import os
import random
import re
import subprocess
import sys
import threading
from collections.abc import Iterator
from pathlib import Path
from urllib.request import urlopen

import pytest

from sitegen.building.leaf import Bench
from sitegen.gathering import Gatherer
from sitegen.preview import start
from sitegen.preview.desk import Desk
from sitegen.preview.reading_ahead import read_ahead
from sitegen.preview.serving import look_up
from tests.preview.held import APART, FILES, STEW, STOCK, EarlyPreview, Hold, early_preview
from tests.preview.test_preview import PAGE, PATIENCE
from tests.sites import SITE, SOUP, recipe, write, write_site
from tests.test_gathering import FOOD

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


# --- the process that reads ahead ---------------------------------------------------------------


def many(folder: Path) -> Path:
    return write_site(folder, {f"content/recipes/r{n}.md": recipe(f"R {n}") for n in range(60)})


def test_all_is_kept_by_a_process_of_its_own(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = many(tmp_path)
    before = contents_of(Gatherer(folder))
    monkeypatch.setattr(Bench, "leaf", lambda *_: pytest.fail("not here"))
    far: list[tuple[int, int]] = []
    begun = start.Start(folder, lambda _, done, whole: far.append((done, whole)))
    leaves = begun.leaves(*Gatherer(folder).outset())
    assert len(leaves) == 61
    assert far[0] == (0, 61)
    assert far[-1] == (61, 61)
    assert contents_of(Gatherer(folder, lambda *_: leaves)) == before


def contents_of(gatherer: Gatherer) -> object:
    gathered = gatherer.gather(drafts=True)
    dishes = gathered.collection.dishes
    return gathered.problems, [(s, d.recipe.title, d.allergens) for s, d in dishes.items()]


def test_it_keeps_what_holds_and_makes_the_rest(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    folder, room = many(tmp_path / "site"), tmp_path / "room"
    room.mkdir()
    for words in ("0 61", "0 0", "0 1"):
        read_ahead(folder, room)
        assert words in capsys.readouterr().out.splitlines()
        if words == "0 0":
            write(folder / SOUP, recipe("Another soup"))


@pytest.mark.parametrize("call", ["import sys; sys.exit(3)", "print('1 2'); raise OSError"])
def test_without_it_all_is_worked_out_here(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, call: str
) -> None:
    monkeypatch.setattr(start, "_CALL", call)
    desk = Desk(many(tmp_path))
    assert len(desk.edition.gathered.collection.dishes) == 61


def test_it_ends_with_the_preview(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A process that would read for ever is gone when the preview is."""
    monkeypatch.setattr(start, "_CALL", "import time; print('0 9', flush=True); time.sleep(600)")
    told, begun = threading.Event(), start.Start(tmp_path, lambda *_: told.set())
    files = [f"{n}.md" for n in range(60)]
    ended: list[str] = []

    def ask() -> None:
        try:
            begun.leaves(*Gatherer(many(tmp_path)).outset()[:3], files)
        except start.Overtaken:
            ended.append("overtaken")

    asking = threading.Thread(target=ask, daemon=True)
    asking.start()
    assert told.wait(PATIENCE)
    begun.stop()
    asking.join(PATIENCE)
    assert ended == ["overtaken"]
    with pytest.raises(start.Overtaken):
        begun._read_ahead(60)


@pytest.mark.skipif(sys.platform == "win32", reason="signals of another kind")
@pytest.mark.parametrize("wait", [False, True])
def test_the_command_answers_at_once_and_ends_when_it_is_told(tmp_path: Path, wait: bool) -> None:
    process = subprocess.Popen(
        [sys.executable, "-m", "sitegen", "preview", "--port", "0", "--site", many(tmp_path)],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
    )
    assert process.stdout is not None
    try:
        address = re.search(r"http://127\.0\.0\.1:\d+/", process.stdout.readline())
        assert address
        with urlopen(f"{address[0]}recipes/r7.html", timeout=PATIENCE) as answer:
            assert b"R 7" in answer.read()
        if wait:
            assert process.stdout.readline().strip()  # what is to be said of the whole site
    finally:
        process.terminate()
        out, err = process.communicate(timeout=PATIENCE)  # nobody else holds the pipes any more
    assert (process.returncode, err) == (0, "")
    assert "Traceback" not in out


def test_it_ends_when_nobody_listens(tmp_path: Path) -> None:
    room = tmp_path / "room"
    room.mkdir()
    process = subprocess.Popen(
        [sys.executable, "-c", start._CALL, json.dumps(sys.path), many(tmp_path / "site"), room],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
    )
    assert process.stdout is not None
    assert process.stderr is not None
    process.stdout.close()
    assert process.wait(PATIENCE) == 1
    assert process.stderr.read() == b""
    process.stderr.close()
