"""Sending to a folder, to OpenSSH's SFTP server and to an S3-compatible one: the same promises."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from sitegen.sending.errors import InTheWay, NotSent
from sitegen.sending.headers import ASK_AGAIN, FOR_A_YEAR
from sitegen.sending.opening import open_store
from sitegen.sending.send import compare
from sitegen.sending.store import Store
from tests.sending.conftest import Place
from tests.sending.hosts import S3Host
from tests.sending.sites import RECORD, SITE, built, pages, send_to

RYE = "recipes/rye-loaf.html"


def test_the_whole_site_arrives(place: Place, tmp_path: Path) -> None:
    outcome = send_to(place.target, built(tmp_path))
    assert pages(place.there()) == SITE
    assert outcome.wrong == ()
    assert sorted(outcome.plan.new) == sorted(SITE)


def test_only_differences_go(place: Place, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    send_to(place.target, built(tmp_path))
    now = {**SITE, RYE: b"rye, water, salt, caraway", "recipes/new.html": b"new"}
    del now["feed.xml"]
    outcome = send_to(place.target, built(tmp_path / "b", now))
    assert outcome.plan.changed == [RYE]
    assert outcome.plan.new == ["recipes/new.html"]
    assert outcome.plan.removed == ["feed.xml"]
    assert pages(place.there()) == now
    before = place.there()
    again = send_to(place.target, built(tmp_path / "c", now))
    assert again.plan.empty
    assert place.there() == before


def test_a_comparison_changes_nothing(place: Place, tmp_path: Path) -> None:
    place.drop("theirs.txt", b"theirs")
    site = built(tmp_path)
    with open_store(place.target, tmp_path, site.folder) as store:
        plan, _ = compare(site, store)
    assert sorted(plan.new) == sorted(SITE)
    assert place.there() == {"theirs.txt": b"theirs"}


def test_nothing_foreign_is_removed_or_replaced(place: Place, tmp_path: Path) -> None:
    theirs = {"CNAME": b"kitchen.example", ".well-known/a.txt": b"a", "recipes/theirs.html": b"x"}
    for path, content in theirs.items():
        place.drop(path, content)
    send_to(place.target, built(tmp_path))
    outcome = send_to(place.target, built(tmp_path / "b", {"index.html": b"all that is left"}))
    assert outcome.plan.foreign == 3
    assert pages(place.there()) == {**theirs, "index.html": b"all that is left"}


def test_a_foreign_file_in_the_way_stops_everything_unless_told_otherwise(
    place: Place, tmp_path: Path
) -> None:
    place.drop("index.html", b"Welcome to your new host!")
    with pytest.raises(InTheWay) as stopped:
        send_to(place.target, built(tmp_path))
    assert stopped.value.paths == ("index.html",)
    assert place.there() == {"index.html": b"Welcome to your new host!"}
    outcome = send_to(place.target, built(tmp_path), take_over=True)
    assert pages(place.there()) == SITE
    assert outcome.set_aside == ("index.html",)
    kept = list((tmp_path / "aside").glob("index.html.*"))
    assert [file.read_bytes() for file in kept] == [b"Welcome to your new host!"]


def test_equal_files_that_another_tool_sent_are_taken_for_ours(
    place: Place, tmp_path: Path
) -> None:
    for path, content in SITE.items():
        place.drop(path, content)
    outcome = send_to(place.target, built(tmp_path))
    if place.kind == "s3":  # nobody knows what headers they have there
        assert sorted(outcome.plan.changed) == sorted(SITE)
    else:
        assert sorted(outcome.plan.kept) == sorted(SITE)
    assert send_to(place.target, built(tmp_path)).plan.empty


def test_a_page_that_somebody_changed_there_is_saved_and_mended(
    place: Place, tmp_path: Path
) -> None:
    send_to(place.target, built(tmp_path))
    place.drop(RYE, b"hand-made words that are nowhere else")
    outcome = send_to(place.target, built(tmp_path))
    assert outcome.plan.touched == [RYE]
    assert pages(place.there()) == SITE
    kept = list((tmp_path / "aside" / "recipes").glob("rye-loaf.html.*"))
    assert [file.read_bytes() for file in kept] == [b"hand-made words that are nowhere else"]


def test_a_page_that_went_missing_there_is_sent_again(place: Place, tmp_path: Path) -> None:
    send_to(place.target, built(tmp_path))
    place.wipe(RYE)
    assert send_to(place.target, built(tmp_path)).plan.new == [RYE]
    assert pages(place.there()) == SITE


def test_a_removed_page_that_somebody_changed_is_saved_first(place: Place, tmp_path: Path) -> None:
    send_to(place.target, built(tmp_path))
    place.drop(RYE, b"hand-made words that are nowhere else")
    less = {path: content for path, content in SITE.items() if path != RYE}
    send_to(place.target, built(tmp_path / "b", less))
    assert pages(place.there()) == less
    assert len(list((tmp_path / "b" / "aside" / "recipes").glob("rye-loaf.html.*"))) == 1


@pytest.mark.parametrize("record", [b"{", b"[]", b'{"form": 99}', b'{"form": 1, "files": []}'])
def test_a_damaged_record_costs_nothing_but_time(
    folder_target: Place, tmp_path: Path, record: bytes
) -> None:
    send_to(folder_target.target, built(tmp_path))
    folder_target.drop(RECORD, record)
    outcome = send_to(folder_target.target, built(tmp_path))
    assert outcome.unreadable
    assert sorted(outcome.plan.kept) == sorted(SITE)
    assert send_to(folder_target.target, built(tmp_path)).plan.empty


def test_a_record_can_t_name_files_outside_the_target(folder_target: Place, tmp_path: Path) -> None:
    send_to(folder_target.target, built(tmp_path))
    outside = tmp_path / "precious.txt"
    outside.write_bytes(b"precious")
    record = json.loads(folder_target.there()[RECORD])
    entry = {"sha256": "", "mark": "", "headers": ""}
    for path in ("../precious.txt", str(outside), "a/../../precious.txt"):
        record["files"][path] = entry
        record["sending"][path] = ""
    folder_target.drop(RECORD, json.dumps(record).encode())
    send_to(folder_target.target, built(tmp_path, {"index.html": b"less"}))
    assert outside.read_bytes() == b"precious"


def test_objects_carry_their_type_and_how_long_they_keep(
    s3_target: Place, s3: S3Host, tmp_path: Path
) -> None:
    send_to(s3_target.target, built(tmp_path))
    prefix = s3_target.target.to.removeprefix(f"s3://{s3.bucket}/")
    found = {}
    for path in SITE:
        head = s3.client.head_object(Bucket=s3.bucket, Key=f"{prefix}/{path}")
        found[path] = (head["ContentType"], head["CacheControl"])
    assert found["index.html"] == ("text/html; charset=utf-8", ASK_AGAIN)
    assert found["assets/sheet.0123456789.css"] == ("text/css; charset=utf-8", FOR_A_YEAR)
    assert found["photos/rye-loaf-4x3-400.0123456789.avif"] == ("image/avif", FOR_A_YEAR)
    assert found["feed.xml"] == ("application/atom+xml", ASK_AGAIN)
    assert found["site.webmanifest"] == ("application/manifest+json", ASK_AGAIN)


def test_objects_that_lost_their_headers_get_them_back(
    s3_target: Place, s3: S3Host, tmp_path: Path
) -> None:
    send_to(s3_target.target, built(tmp_path))
    record = json.loads(s3_target.there()[RECORD])
    record["files"]["index.html"]["headers"] = "as an older version would have it"
    s3_target.drop(RECORD, json.dumps(record).encode())
    assert send_to(s3_target.target, built(tmp_path)).plan.changed == ["index.html"]


def test_two_who_send_at_once_are_told(
    folder_target: Place, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    from sitegen.sending.store import Files

    put = Files.put

    def slow(self: Store, path: str, *rest: object) -> object:
        if path == "index.html":  # meanwhile, somewhere else
            folder_target.drop(RECORD, b'{"form": 1, "files": {}, "sending": {"a": "b"}}')
        return put(self, path, *rest)  # type: ignore[arg-type]

    monkeypatch.setattr(Files, "put", slow)
    with pytest.raises(NotSent, match="somebody else is sending"):
        send_to(folder_target.target, built(tmp_path))


def test_what_arrives_damaged_is_found(
    folder_target: Place, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    from sitegen.sending.store import Files

    put = Files.put

    def lossy(self: Files, path: str, content: bytes, headers: object) -> object:
        changed = content.replace(b"rye", b"???") if path == RYE else content
        return put(self, path, changed, headers)  # type: ignore[arg-type]

    with monkeypatch.context() as broken:
        broken.setattr(Files, "put", lossy)
        assert send_to(folder_target.target, built(tmp_path)).wrong == (RYE,)
    send_to(folder_target.target, built(tmp_path), take_over=True)
    assert pages(folder_target.there()) == SITE
