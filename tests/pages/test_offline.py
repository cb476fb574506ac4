"""The service worker's version follows what it holds, and the preview has none."""

from __future__ import annotations

import json
import re

from sitegen.pages import lay_out
from sitegen.pages.late_layout import LateLayout
from sitegen.pages.offline import worker
from tests.pages.fixtures import collection


def told(script: bytes) -> dict:
    return json.loads(re.match(r"const WORKER=(.*);\n", script.decode())[1])


def test_the_version_follows_assets_and_page():
    one = worker({"page.css": "assets/page.1.css"}, b"page")
    assert told(one) == told(worker({"page.css": "assets/page.1.css"}, b"page"))
    for other in (
        worker({"page.css": "assets/page.2.css"}, b"page"),
        worker({"page.css": "assets/page.1.css"}, b"another"),
    ):
        assert told(other)["version"] != told(one)["version"]


def test_what_is_held_ready_is_what_the_page_names(pages, theme):
    data = told(pages["worker.js"].content)
    page = pages["offline.html"].content.decode()
    for file in data["files"]:
        assert file == data["page"] or file in page, file
    linked = re.findall(r'(?:src|href)="(assets/[^"]+)"', page)
    assert set(linked) <= set(data["files"])


def test_every_page_but_the_lost_one_names_the_worker(pages):
    for path, page in pages.items():
        if path.endswith(".html"):
            up = "../" * path.count("/")
            wanted = path != "404.html"
            assert (f'data-worker="{up}worker.js"' in page.content.decode()) == wanted, path


def test_the_preview_registers_none(theme):
    page = LateLayout(collection(), theme, {}).find("index.html")
    assert page is not None
    assert b"data-worker" not in page.content
    assert b"data-worker" in next(lay_out(collection(), theme, {}, preview=False)).content
