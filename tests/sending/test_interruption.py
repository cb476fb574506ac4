"""A send that is cut off leaves a site that holds together, and the next one finishes it."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
from contextlib import suppress
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sitegen.sending.store import Files
from tests.sending.conftest import Place, folder_place
from tests.sending.sites import SITE, built, pages, send_to

REPO = Path(__file__).resolve().parents[2]
AFTER = {
    **{path: content for path, content in SITE.items() if not path.startswith(("assets", "feed"))},
    "assets/sheet.9876543210.css": b"body { color: navy }",
    "recipes/rye-loaf.html": b"rye, water, salt, caraway",
    "recipes/new.html": b"new",
}
"""The site after a day's work: a style, a page, a new page; a feed and the old style gone."""


def killed_at(step: int, place: Place, folder: Path) -> int:
    command = ["-m", "tests.sending.cut_off", str(folder), place.target.to, place.target.endpoint]
    run = subprocess.run(
        [sys.executable, *command, str(step)],
        cwd=REPO,
        env={**os.environ, "PYTHONPATH": str(REPO)},
        capture_output=True,
        check=False,
    )
    assert run.returncode in (0, -signal.SIGKILL), run.stderr.decode()
    return run.returncode


MOMENTS = {"folder": (0, 1, 5, 9, 13), "sftp": (4, 10), "s3": (5,)}
"""Fourteen there are: before and after the record, three files, two removals, and the record again."""


def test_a_killed_send_is_finished_by_the_next(place: Place, tmp_path: Path) -> None:
    before, after = built(tmp_path / "a"), built(tmp_path / "b", AFTER)
    send_to(place.target, before)
    place.drop("theirs.txt", b"theirs")
    for moment in MOMENTS[place.kind]:
        send_to(place.target, before)
        assert killed_at(moment, place, tmp_path / "b") == -signal.SIGKILL
        outcome = send_to(place.target, after)
        assert outcome.wrong == ()
        assert outcome.set_aside == ()  # nothing of ours is taken for somebody else's
        assert pages(place.there()) == {**AFTER, "theirs.txt": b"theirs"}
        assert send_to(place.target, after).plan.empty


def test_a_killed_first_send_is_finished_by_the_next(place: Place, tmp_path: Path) -> None:
    site = built(tmp_path)
    assert killed_at(7, place, tmp_path) == -signal.SIGKILL
    assert send_to(place.target, site).wrong == ()
    assert pages(place.there()) == SITE


class Cut(Exception):
    """The line went dead."""


@settings(max_examples=25)
@given(cuts=st.lists(st.integers(0, 14), min_size=1, max_size=3))
def test_whatever_is_cut_off_the_pages_there_find_what_they_need(
    cuts: list[int], tmp_path_factory: pytest.TempPathFactory
) -> None:
    folder = tmp_path_factory.mktemp("cut")
    root = folder / "www"
    place = folder_place(root, str(root), "folder")
    send_to(place.target, built(folder / "a"))
    after = built(folder / "b", AFTER)
    for last in cuts:
        steps = iter(range(1_000))
        with pytest.MonkeyPatch.context() as patch:
            for name in ("put", "remove"):
                real = getattr(Files, name)

                def cut(*arguments: object, real: object = real) -> object:
                    if next(steps) == last:  # noqa: B023  # called within this turn only
                        raise Cut
                    return real(*arguments)  # type: ignore[operator]

                patch.setattr(Files, name, cut)
            with suppress(Cut):
                send_to(place.target, after)
        there = pages(place.there())
        # Either style is enough for either page; the new page's own must have come before it.
        if there["recipes/rye-loaf.html"] == AFTER["recipes/rye-loaf.html"]:
            assert "assets/sheet.9876543210.css" in there
        if "assets/sheet.0123456789.css" not in there:
            assert {path: there.get(path) for path in AFTER} == AFTER
    assert send_to(place.target, after).wrong == ()
    assert pages(place.there()) == AFTER


def test_pages_go_after_what_they_need_and_lists_after_pages(
    place: Place, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    from sitegen.sending.store import Objects

    order: list[str] = []
    for kind in (Files, Objects):
        real = kind.put

        def noted(*arguments: object, real: object = real) -> object:
            answer = real(*arguments)  # type: ignore[operator]
            order.append(str(arguments[1]))  # when it has arrived
            return answer

        monkeypatch.setattr(kind, "put", noted)
    send_to(place.target, built(tmp_path))
    sent = [path for path in order if not path.startswith(".")]
    assert sorted(sent) == sorted(SITE)
    assert [sorted(sent[start:end]) for start, end in ((0, 2), (2, 3), (3, 6), (6, 9))] == [
        ["assets/sheet.0123456789.css", "photos/rye-loaf-4x3-400.0123456789.avif"],
        ["site.webmanifest"],
        ["404.html", "recipes/café au lait.html", "recipes/rye-loaf.html"],
        ["feed.xml", "index.html", "recipes/index.html"],
    ]
    assert (order[0], order[-1]) == (".sitegen-sent.json", ".sitegen-sent.json")
