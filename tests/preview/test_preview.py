"""The preview: follows every kind of save, says what is wrong, and keeps to itself."""

from __future__ import annotations

import http.client
import json
import os
import queue
import subprocess
import threading
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

from sitegen.preview.desk import Desk
from sitegen.preview.edition import Edition
from sitegen.preview.serving import PortTaken, PreviewServer, open_server
from sitegen.preview.watching import Watch
from tests.sites import SITE, SOUP, recipe, write, write_site
from tests.test_gathering import BROKEN, DRAFT

PATIENCE = 20.0
"""Seconds after which what must happen is taken not to; it takes a fraction of one."""


class Preview:
    """A preview of one folder, with what a browser would do to it."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.desk = Desk(folder)
        self.server: PreviewServer = open_server(self.desk, 0)
        self.watch = Watch([folder / "content", folder / "themes"], self.desk.follow)
        self.watch.start()
        threading.Thread(target=self.server.serve_forever, daemon=True).start()

    def close(self) -> None:
        self.desk.close()
        self.watch.stop()
        self.server.shutdown()
        self.server.server_close()

    def get(
        self, path: str, method: str = "GET", host: str | None = None
    ) -> tuple[int, str, dict[str, str]]:
        connection = http.client.HTTPConnection("127.0.0.1", self.server.port, timeout=PATIENCE)
        connection.putrequest(method, path, skip_host=host is not None)
        if host is not None:
            connection.putheader("Host", host)
        connection.endheaders()
        answer = connection.getresponse()
        body = answer.read().decode("utf-8", "replace")
        connection.close()
        return answer.status, body, dict(answer.getheaders())

    def events(self, page: str) -> Iterator[dict[str, str]]:
        """What an open page is told, from now on; ends with a failure if nothing is."""
        connection = http.client.HTTPConnection("127.0.0.1", self.server.port, timeout=PATIENCE)
        connection.request("GET", f"/-/events?page={page}")
        answer = connection.getresponse()
        assert answer.getheader("Content-Type") == "text/event-stream"
        heard: queue.Queue[str] = queue.Queue()

        def listen() -> None:
            try:
                for line in answer:
                    heard.put(line.decode())
            except (OSError, ValueError, AttributeError):
                return

        threading.Thread(target=listen, daemon=True).start()
        last = time.monotonic() + 3 * PATIENCE  # the heartbeat alone is no news
        while time.monotonic() < last:
            line = heard.get(timeout=PATIENCE)
            if line.startswith("data: "):
                yield json.loads(line.removeprefix("data: "))
        pytest.fail(f"nothing that was waited for came within {3 * PATIENCE:g} s")


@pytest.fixture
def open_preview(tmp_path: Path) -> Iterator[Callable[..., Preview]]:
    opened: list[Preview] = []

    def start(files: dict[str, str | bytes] | None = None) -> Preview:
        opened.append(Preview(write_site(tmp_path / "site", files)))
        return opened[-1]

    yield start
    for preview in opened:
        preview.close()


PAGE = "/recipes/lentil-soup.html"


def save_plainly(path: Path, text: str) -> None:
    path.write_text(text, encoding="utf-8")


def save_by_rename(path: Path, text: str) -> None:
    beside = path.with_name(f".{path.name}.swp")
    beside.write_text(text, encoding="utf-8")
    beside.replace(path)


def save_twice(path: Path, text: str) -> None:
    path.write_text("", encoding="utf-8")
    path.write_text(text, encoding="utf-8")


def save_with_a_backup(path: Path, text: str) -> None:
    path.rename(path.with_name(f"{path.name}~"))
    path.write_text(text, encoding="utf-8")


@pytest.mark.parametrize("save", [save_plainly, save_by_rename, save_twice, save_with_a_backup])
def test_every_way_of_saving_is_heard_and_the_page_is_new(
    open_preview: Callable[..., Preview], save: Callable[[Path, str], None]
) -> None:
    preview = open_preview()
    events = preview.events(PAGE)
    first = next(events)["stamp"]
    assert first in preview.get(PAGE)[1]
    save(preview.folder / SOUP, recipe("A new name"))
    stamp = first
    while "A new name" not in preview.get(PAGE)[1]:
        stamp = next(events)["stamp"]
    assert stamp in (preview.get(PAGE)[1], first) or stamp in preview.get(PAGE)[1]
    assert next(preview.events(PAGE))["stamp"] != first


def test_many_saves_end_with_the_last_one(open_preview: Callable[..., Preview]) -> None:
    preview = open_preview()
    events = preview.events(PAGE)
    next(events)
    for number in range(15):
        save_by_rename(preview.folder / SOUP, recipe(f"Name number {number}"))
    while "Name number 14" not in preview.get(PAGE)[1]:
        next(events)


def test_a_save_that_changes_nothing_is_no_news(open_preview: Callable[..., Preview]) -> None:
    preview = open_preview()
    preview.get(PAGE)
    write(preview.folder / SOUP, recipe())
    os.utime(preview.folder / SOUP, (1, 1))
    assert preview.desk.refresh() is False
    assert preview.desk.edition.number == 1


def test_an_open_page_is_told_of_others_saves_but_keeps_its_stamp(
    open_preview: Callable[..., Preview],
) -> None:
    def unlike(text: str) -> str:  # else it is among the page's related recipes, which tell of it
        return text.replace("lentils", "apples").replace("course: soup", "course: side")

    preview = open_preview({"content/recipes/other.md": unlike(recipe("Other"))})
    events = preview.events(PAGE)
    first = next(events)
    save_plainly(preview.folder / "content/recipes/other.md", unlike(BROKEN["field"][0]))  # type: ignore[arg-type]
    told = next(events)
    assert told["stamp"] == first["stamp"]
    assert "sumary" in told["slip"]
    assert "content/recipes/other.md:3:1" in told["slip"]


def test_a_new_recipe_a_new_page_and_new_settings_are_seen(
    open_preview: Callable[..., Preview],
) -> None:
    preview = open_preview()
    events = preview.events("/index.html")
    next(events)
    write(preview.folder / "content/recipes/deep/new.md", recipe("New"))
    write(preview.folder / "content/pages/about.md", "---\ntitle: About us\n---\nWe cook.\n")
    write(preview.folder / "content/site.yaml", SITE.replace("test kitchen", "other kitchen"))
    for path, words in (
        ("/recipes/new.html", "New"),
        ("/about.html", "We cook."),
        ("/", "The other kitchen"),
    ):
        while words not in preview.get(path)[1]:
            next(events)


def test_a_sites_own_theme_is_followed(open_preview: Callable[..., Preview]) -> None:
    preview = open_preview({"themes/sheet/assets/own.css": ".first { top: 0 }"})
    events = preview.events(PAGE)
    first = next(events)["stamp"]
    write(preview.folder / "themes/sheet/assets/own.css", ".second { top: 0 }")
    while next(events)["stamp"] == first:
        pass
    write(
        preview.folder / "themes/sheet/templates/recipe.html",
        '{% extends "house/recipe.html" %}{% block after_method %}{{ nothing.at_all }}{% endblock %}',
    )
    while next(events)["stamp"].startswith("barred") is False:
        pass
    status, body, _ = preview.get(PAGE)
    assert status == 500
    assert "nothing" in body
    assert "recipe.html" in body


def test_drafts_are_shown(open_preview: Callable[..., Preview]) -> None:
    preview = open_preview({"content/recipes/draft.md": DRAFT})
    assert preview.get("/recipes/draft.html")[0] == 200


def test_broken_files_say_what_is_wrong_and_the_sound_ones_are_served(
    open_preview: Callable[..., Preview],
) -> None:
    files = {f"content/recipes/{name}.md": text for name, (text, _, _) in BROKEN.items()}
    preview = open_preview(files)
    status, body, _ = preview.get(PAGE)
    assert status == 200
    assert "Put the" in body
    for name in BROKEN:
        status, body, _ = preview.get(f"/recipes/{name}.html")
        assert status == (200 if name == "elsewhere" else 500), name
        assert f"content/recipes/{name}.md" in body, name
        named = [p for p in preview.desk.edition.problems if p.file.endswith(f"/{name}.md")]
        assert named
        for problem in named:
            assert problem.rule in body
    write(preview.folder / "content/recipes/field.md", recipe("Mended"))
    events = preview.events("/recipes/field.html")
    while preview.get("/recipes/field.html")[0] != 200:
        next(events)
    assert "sumary" not in preview.get("/recipes/field.html")[1]


def test_what_a_problem_quotes_is_text_and_never_markup(
    open_preview: Callable[..., Preview],
) -> None:
    bad = recipe().replace("serves: 4", "<img src=x onerror=alert(1)>: 4")
    preview = open_preview({SOUP: bad, "content/recipes/good.md": recipe("Good")})
    for path in (PAGE, "/recipes/good.html"):
        body = preview.get(path)[1]
        assert "&lt;img" in body
        assert "<img src=x" not in body
    assert "<img" not in next(preview.events("/recipes/good.html"))["slip"]


def test_photos_are_made_when_they_are_asked_for(open_preview: Callable[..., Preview]) -> None:
    from PIL import Image

    preview = open_preview(
        {SOUP: recipe().replace("serves: 4", "serves: 4\nphoto: {file: s.png, alt: A bowl}")}
    )
    Image.new("RGB", (640, 480), (120, 60, 30)).save(preview.folder / "content/recipes/s.png")
    preview.desk.refresh()
    photo_set = preview.desk.edition.gathered.photographs["lentil-soup"].photo_set
    status, _, headers = preview.get(f"/{photo_set.crops['4x3']}")
    assert (status, headers["Content-Type"]) == (200, "image/jpeg")
    assert photo_set.crops["4x3"].split("/")[-1] in preview.get(PAGE)[1] or photo_set.sources


def test_nothing_is_written_to_the_output(open_preview: Callable[..., Preview]) -> None:
    preview = open_preview()
    preview.get("/")
    preview.get(PAGE)
    assert {p.name for p in preview.folder.iterdir()} == {"content", ".sitegen"}


@pytest.mark.parametrize(
    "host", ["evil.example", "evil.example:{port}", "127.0.0.1:1", "", "localhost.evil.example"]
)
def test_another_sites_name_is_refused(open_preview: Callable[..., Preview], host: str) -> None:
    preview = open_preview()
    for path in ("/", "/-/events?page=/", "/-/live.js"):
        status, body, _ = preview.get(path, host=host.format(port=preview.server.port))
        assert status == 421
        assert "test kitchen" not in body


def test_its_own_names_are_answered_to(open_preview: Callable[..., Preview]) -> None:
    preview = open_preview()
    for name in ("127.0.0.1", "localhost"):
        assert preview.get("/", host=f"{name}:{preview.server.port}")[0] == 200


def test_it_listens_to_this_machine_only(open_preview: Callable[..., Preview]) -> None:
    assert open_preview().server.server_address[0] == "127.0.0.1"


@pytest.mark.parametrize("method", ["POST", "PUT", "DELETE", "OPTIONS"])
def test_nothing_can_be_sent_to_it(open_preview: Callable[..., Preview], method: str) -> None:
    assert open_preview().get("/", method)[0] == 501


@pytest.mark.parametrize(
    "path",
    [
        "/../content/site.yaml",
        "/..%2f..%2fsecret.txt",
        "/%2e%2e/%2e%2e/secret.txt",
        "/photos/../../secret.txt",
        "/photos/%2e%2e/%2e%2e/content/recipes/lentil-soup.md",
        "//secret.txt",
        "/content/recipes/lentil-soup.md",
        "/-/../../secret.txt",
        "/-/desk.py",
        "/-/%2e%2e/desk.py",
        "/.sitegen/.gitignore",
        "/link.txt",
        "/%00",
        "/" + "a/" * 3000,
    ],
)
def test_nothing_of_the_disk_is_served_by_its_path(
    open_preview: Callable[..., Preview], path: str, tmp_path: Path
) -> None:
    write(tmp_path / "secret.txt", "the secret")
    preview = open_preview()
    (preview.folder / "content" / "link.txt").symlink_to(tmp_path / "secret.txt")
    status, body, _ = preview.get(path)
    assert status in (404, 414)
    assert "the secret" not in body
    assert "title: Lentil soup" not in body


def test_pages_carry_a_strict_policy_and_are_never_kept(
    open_preview: Callable[..., Preview],
) -> None:
    _, body, headers = open_preview().get(PAGE)
    assert headers["Cache-Control"] == "no-store"
    assert headers["X-Content-Type-Options"] == "nosniff"
    assert "script-src 'self'" in headers["Content-Security-Policy"]
    assert "connect-src 'self'" in headers["Content-Security-Policy"]
    assert "<script>" not in body
    assert "style=" not in body


def test_a_folder_is_its_index(open_preview: Callable[..., Preview]) -> None:
    preview = open_preview()
    assert preview.get("/recipes/")[0] == 200
    status, _, headers = preview.get("/recipes")
    assert (status, headers["Location"]) == (307, "/recipes/")


def test_what_is_not_there_gets_the_sites_own_page(open_preview: Callable[..., Preview]) -> None:
    status, body, _ = open_preview().get("/recipes/nothing.html")
    assert status == 404
    assert "The test kitchen" in body


def test_a_head_request_has_no_body(open_preview: Callable[..., Preview]) -> None:
    status, body, headers = open_preview().get(PAGE, "HEAD")
    assert (status, body) == (200, "")
    assert int(headers["Content-Length"]) > 1000


def test_a_taken_port_is_passed_over_unless_it_was_asked_for(tmp_path: Path) -> None:
    desk: Any = object()  # never asked
    first = open_server(desk, None)
    second = open_server(desk, None)
    try:
        assert second.port > first.port >= 8400
        with pytest.raises(PortTaken):
            open_server(desk, first.port)
    finally:
        first.server_close()
        second.server_close()


def test_errors_of_the_whole_site_stop_no_page(open_preview: Callable[..., Preview]) -> None:
    preview = open_preview({"content/site.yaml": SITE + "theme: none-such\n"})
    status, body, _ = preview.get("/")
    assert status == 500
    assert "none-such" in body
    write(preview.folder / "content/site.yaml", SITE)
    events = preview.events("/")
    while preview.get("/")[0] != 200:
        next(events)


def titles(edition: Edition) -> set[str]:
    return {page.title for page in edition.gathered.collection.plain_pages}


def test_a_change_of_branch_comes_as_one_edition(open_preview: Callable[..., Preview]) -> None:
    """500 files written by git itself: nobody sees a site that is half the one, half the other."""

    def git(*words: str) -> None:
        names = ("-c", "user.name=a", "-c", "user.email=a@kitchen.example")
        subprocess.run(["git", *names, *words], cwd=folder, check=True, capture_output=True)

    def page(title: str) -> str:
        return f"---\ntitle: {title}\n---\nWords.\n"

    files = [f"content/pages/page-{number}.md" for number in range(500)]
    preview = open_preview({file: page("Before") for file in files})
    folder = preview.folder
    git("init", "-q", "-b", "before")
    git("add", "content")
    git("commit", "-qm", "before")
    git("checkout", "-qb", "after")
    for file in files:
        write(folder / file, page("After"))
    git("commit", "-qam", "after")
    preview.desk.refresh()
    number = preview.desk.edition.number
    time.sleep(0.5)  # what the commit did is over
    assert preview.desk.edition.number == number
    git("checkout", "-q", "before")
    edition = preview.desk.wait_after(number, PATIENCE)
    assert edition is not None
    assert edition.number == number + 1
    assert titles(edition) == {"Before"}


def test_nothing_is_read_while_git_is_at_work(open_preview: Callable[..., Preview]) -> None:
    """However long git is held up between two files, and however few it has written."""
    files = [f"content/pages/page-{number}.md" for number in range(8)]
    preview = open_preview(dict.fromkeys(files, "---\ntitle: Before\n---\nWords.\n"))
    lock = preview.folder / ".git" / "index.lock"
    write(lock, "")
    number = preview.desk.edition.number
    for file in files:
        write(preview.folder / file, "---\ntitle: After\n---\nWords.\n")
        time.sleep(0.25)
    assert preview.desk.edition.number == number
    lock.unlink()
    edition = preview.desk.wait_after(number, PATIENCE)
    assert edition is not None
    assert (edition.number, titles(edition)) == (number + 1, {"After"})


def test_a_lock_that_git_has_left_behind_holds_nothing_up(
    open_preview: Callable[..., Preview],
) -> None:
    preview = open_preview()
    lock = preview.folder / ".git" / "index.lock"
    write(lock, "")
    os.utime(lock, (1, 1))
    save_plainly(preview.folder / SOUP, recipe("A new name"))
    edition = preview.desk.wait_after(1, PATIENCE)
    assert edition is not None
    assert edition.gathered.collection.dishes["lentil-soup"].recipe.title == "A new name"


def test_a_save_in_two_halves_is_seen_whole(open_preview: Callable[..., Preview]) -> None:
    """An editor that empties the file, writes the first half, and takes its time over the rest."""
    preview = open_preview()
    text = recipe("A new name")
    with (preview.folder / SOUP).open("w") as file:
        for part in (text[:120], text[120:]):
            file.write(part)
            file.flush()
            time.sleep(0.015)
    edition = preview.desk.wait_after(1, PATIENCE)
    assert edition is not None
    assert edition.number == 2
    assert edition.problems == ()
    assert edition.gathered.collection.dishes["lentil-soup"].recipe.title == "A new name"


def test_a_slip_of_very_many_problems_tells_the_worst_and_counts_the_rest(
    open_preview: Callable[..., Preview],
) -> None:
    wrong = {f"content/recipes/r{n}.md": BROKEN["field"][0] for n in range(60)}
    preview = open_preview(wrong)
    slip = next(preview.events(PAGE))["slip"]
    assert len(preview.desk.edition.problems) == 60
    assert slip.count("<article") == 40
    assert "60 errors" in slip
    assert "And 20 more" in slip
