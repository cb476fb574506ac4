"""The built demo on three real static hosts, at the root and under a path: every link, type, and 404."""

from __future__ import annotations

import fcntl
import os
import shutil
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from sitegen.media_types import media_type
from sitegen.sending.headers import ASK_AGAIN, FOR_A_YEAR, headers
from sitegen.sending.served import alike
from tests.servers.crawl import Crawl, Line, crawl, links
from tests.servers.hosts import HOSTS, hosting

REPO = Path(__file__).resolve().parents[2]
PREFIX = "/kitchen/food"
UNLINKED = {"404.html", "offline.html", "robots.txt", "sitemap.xml"}
"""What no page leads to: hosts, search engines and the page's own worker ask for these by name."""


@pytest.fixture(scope="module")
def demo_below(tmp_path_factory: pytest.TempPathFactory, worker_id: str, demo: Path) -> Path:
    """The demo, built for an address with a path; once for all workers."""
    folder = tmp_path_factory.getbasetemp()
    folder = folder if worker_id == "master" else folder.parent
    site, done = folder / "demo-below", folder / "demo-below.built"
    with (folder / "demo-below.lock").open("w") as lock:
        fcntl.flock(lock, fcntl.LOCK_EX)
        if not done.exists():
            shutil.copytree(REPO / "content", site / "content")
            settings = site / "content" / "site.yaml"
            text = settings.read_text(encoding="utf-8")
            assert "address: https://shared-table.example\n" in text
            settings.write_text(text.replace(".example\n", f".example{PREFIX}\n", 1), "utf-8")
            cache = REPO / ".sitegen" / "cache"
            if cache.is_dir():  # the photos, made already
                shutil.copytree(cache, site / ".sitegen" / "cache", copy_function=os.link)
            command = [sys.executable, "-m", "sitegen", "--site", str(site), "build"]
            run = subprocess.run(command, cwd=REPO, capture_output=True, text=True, check=False)
            done.write_text(f"{run.returncode}\n{run.stderr}", encoding="utf-8")
    told = done.read_text(encoding="utf-8")
    assert told.startswith("0\n"), told
    return site / "output"


@pytest.fixture(scope="module", params=[(h, p) for h in HOSTS for p in ("", PREFIX)], ids=str)
def served(request: pytest.FixtureRequest) -> Iterator[tuple[str, Path]]:
    """The address of the demo on a host, and the folder that it serves."""
    name, prefix = request.param
    site: Path = request.getfixturevalue("demo_below" if prefix else "demo")
    with hosting(name, site, prefix) as address:
        yield address, site


@pytest.fixture(scope="module")
def crawled(served: tuple[str, Path]) -> Crawl:
    return crawl(served[0])


def files(site: Path) -> set[str]:
    return {f.relative_to(site).as_posix() for f in site.rglob("*") if f.is_file()}


def test_every_link_is_answered(crawled: Crawl) -> None:
    assert crawled.broken == []


def test_everything_is_reached_and_is_what_was_built(
    crawled: Crawl, served: tuple[str, Path]
) -> None:
    _, site = served
    reached = {path or "index.html": answer for path, answer in crawled.answers.items()}
    pages = {path for path in files(site) if path.endswith(".html")}
    assert pages - UNLINKED <= set(reached)
    assert len(reached) > 100
    for path, answer in reached.items():
        assert answer.body == (site / path).read_bytes(), path


def test_types_and_cache_headers_are_right(crawled: Crawl) -> None:
    wrong, kinds = [], set()
    for path, answer in crawled.answers.items():
        name = path or "index.html"
        if not alike(str(answer.headers.get("Content-Type", "")), media_type(name)):
            wrong.append(f"{name}: {answer.headers.get('Content-Type')}")
        if answer.headers.get_all("Cache-Control") != [headers(name).cache_control]:
            wrong.append(f"{name}: {answer.headers.get_all('Cache-Control')}")
        kinds.add((answer.kind, headers(name).cache_control))
    assert wrong == []
    assert {("text/html", ASK_AGAIN), ("image/avif", FOR_A_YEAR), ("text/css", FOR_A_YEAR)} <= kinds


def test_folders_and_named_files_are_answered(served: tuple[str, Path]) -> None:
    address, site = served
    line = Line(address)
    for asked, file in (
        ("/", "index.html"),
        ("/recipes/", "recipes/index.html"),
        *((f"/{name}", name) for name in sorted(UNLINKED - {"404.html"})),
    ):
        answer = line.get(address + asked)
        assert (answer.status, answer.body) == (200, (site / file).read_bytes()), asked
    line.close()


@pytest.mark.parametrize("missing", ["/nothing.html", "/recipes/deep/down/nothing.html"])
def test_a_missing_page_is_answered_with_the_site_s_own(
    served: tuple[str, Path], missing: str
) -> None:
    address, site = served
    line = Line(address)
    answer = line.get(address + missing)
    assert (answer.status, answer.kind) == (404, "text/html")
    assert answer.body == (site / "404.html").read_bytes()
    origin = address[: address.index("/", len("http://"))] if address.count("/") > 2 else address
    within = [link for link in links(answer.body) if link.startswith("/")]
    assert len(within) > 3
    for link in within:  # from the root, for this page is served at any depth
        assert line.get(origin + link.partition("#")[0]).status == 200, link
    line.close()
