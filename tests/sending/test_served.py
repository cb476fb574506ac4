"""Asking the site's address: what is served is what was built, or the difference is named."""

from __future__ import annotations

from pathlib import Path

from sitegen.sending.served import ask
from tests.browser.served import serving
from tests.sending.hosts import free_port
from tests.sending.sites import built


def test_a_site_that_is_served_as_built(tmp_path: Path) -> None:
    site = built(tmp_path)
    with serving(site.folder, "/food") as address:
        found = ask(address.rstrip("/"), site.items)
    assert (found.wrong, found.asked) == ((), len(site.items))
    assert found.advice == () or all("served as" in line for line in found.advice)


def test_pages_that_differ_or_are_missing_are_named(tmp_path: Path) -> None:
    site = built(tmp_path)
    (site.folder / "recipes/rye-loaf.html").write_bytes(b"something else")
    (site.folder / "feed.xml").unlink()
    with serving(site.folder) as address:
        found = ask(address.rstrip("/"), site.items)
    assert sorted(found.wrong) == [
        "feed.xml: status 404",
        "recipes/rye-loaf.html: not what was built (14 bytes)",
    ]


def test_nobody_answers(tmp_path: Path) -> None:
    site = built(tmp_path, {"index.html": b"home"})
    found = ask(f"http://127.0.0.1:{free_port()}", site.items)
    assert len(found.wrong) == 1
    assert found.wrong[0].startswith("index.html: no answer")
