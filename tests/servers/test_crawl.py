"""The crawl itself: it sees what is broken."""

from __future__ import annotations

from pathlib import Path

from tests.browser.served import serving
from tests.servers.crawl import crawl


def site(folder: Path, home: str) -> Path:
    folder.mkdir()
    (folder / "index.html").write_text(home, encoding="utf-8")
    (folder / "a page.html").write_text("<p>A page</p>", encoding="utf-8")
    (folder / "404.html").write_text("<p>Not here</p>", encoding="utf-8")
    return folder


def test_a_sound_site_has_nothing_broken(tmp_path: Path) -> None:
    folder = site(tmp_path / "s", '<a href="a%20page.html">1</a><a href="a page.html#top">2</a>')
    with serving(folder, "/food") as address:
        found = crawl(address.rstrip("/"))
    assert found.broken == []
    assert set(found.answers) == {"", "a page.html"}


def test_broken_links_pictures_and_ways_out_are_named(tmp_path: Path) -> None:
    home = (
        '<a href="gone.html">1</a><img srcset="small.avif 400w, large.avif 800w">'
        '<a href="/elsewhere.html">2</a><a href="https://other.example/">3</a>'
    )
    with serving(site(tmp_path / "s", home), "/food") as address:
        found = crawl(address.rstrip("/"))
    told = " ".join(found.broken)
    assert len(found.broken) == 4
    for name in ("gone.html", "small.avif", "large.avif"):
        assert f"{name}: status 404" in told
    assert "/elsewhere.html: leads out of the site's path" in told
