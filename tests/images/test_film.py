"""Films: every mistake about one is told at its place, and what is no film does not go out."""

from __future__ import annotations

import pytest

from sitegen.images import film as films
from sitegen.images.film import film
from sitegen.reading.read import read_recipe
from sitegen.reading.source import Source
from sitegen.site import Author, Settings
from tests.sites import recipe

FILE = "content/recipes/lentil-soup.md"
WEBM = b"\x1a\x45\xdf\xa3" + bytes(60)  # the EBML head, RFC 8794
MP4 = b"\x00\x00\x00\x18ftypisom" + bytes(60)  # ISO/IEC 14496-12
SETTINGS = Settings(authors={"ada": Author("ada", "Ada Lind")})
SOUND = {
    "file": "soup.webm",
    "title": "The soup",
    "alt": "A pot that simmers",
    "length": "0:35",
    "poster": "soup.png",
}


def read(**changes: str | None):
    """The recipe with a film, and the problems; a change to None leaves that line out."""
    lines = [f"  {key}: {said}" for key, said in {**SOUND, **changes}.items() if said is not None]
    text = recipe().replace("ingredients:\n", "\n".join(["video:", *lines, "ingredients:\n"]))
    return text, *read_recipe(Source(FILE, text), SETTINGS)


def test_a_sound_film_is_read_with_its_steps_in_order_of_time():
    _, found, problems = read(steps="{1: 0:05}", published="2026-02-01", captions="soup.vtt")
    assert not [problem for problem in problems if problem.rule.startswith("film")]
    video = found.video
    assert (video.file, video.seconds, video.steps) == ("soup.webm", 35, ((1, 5),))
    assert video.poster.file == "soup.png"


@pytest.mark.parametrize(
    ("changes", "rule", "at"),
    [
        ({"length": "35 s"}, "clock", "35 s"),
        ({"length": "0:75"}, "clock", "0:75"),
        ({"file": None, "address": "films.example/soup.webm"}, "film-address", "films.example"),
        ({"file": None, "address": "http://films.example/a.webm"}, "film-address", "http:"),
        ({"file": None, "address": "https://f.example/a;b.webm"}, "film-address", "https:"),
        ({"file": None}, "film-where", "title:"),
        ({"address": "https://films.example/soup.webm"}, "film-where", "file:"),
        ({"steps": "{4: 0:05}"}, "film-step", "{4"),
        ({"steps": "{1: 0:35}"}, "film-step", "{1"),
    ],
)
def test_a_mistake_is_told_at_its_place_with_a_way_to_mend_it(changes, rule, at):
    text, _, problems = read(**changes)
    [told] = [problem for problem in problems if problem.rule == rule]
    assert told.severity == "error"
    assert told.hint
    assert at in text.splitlines()[told.line - 1]


@pytest.mark.parametrize("lacking", ["title", "alt", "length", "poster"])
def test_what_a_film_must_say_is_asked_for(lacking):
    text, _, problems = read(**{lacking: None})
    told = [problem for problem in problems if lacking in problem.message]
    assert told, problems
    assert "video" in "".join(text.splitlines()[told[0].line - 1 :][:2])


def checked(folder, files, **changes):
    beside = folder / "content/recipes"
    beside.mkdir(parents=True)
    for name, content in files.items():
        (beside / name).write_bytes(content)
    return film(read(**changes)[1], folder)


@pytest.mark.parametrize(
    ("name", "content"), [("soup.webm", WEBM), ("soup.mp4", MP4)], ids=["webm", "mp4"]
)
def test_a_film_goes_out_under_a_name_of_its_content(tmp_path, name, content):
    found, problems = checked(tmp_path, {name: content}, file=name)
    assert problems == []
    [(path, source)] = found.files()
    assert source.read_bytes() == content
    stem, mark, ending = path.removeprefix("films/").split(".")
    assert (stem, len(mark), ending) == ("soup", 10, name.rpartition(".")[2])


@pytest.mark.parametrize(
    ("changes", "files", "rule"),
    [
        ({}, {}, "film-missing"),
        ({"file": "../../../away.webm"}, {}, "film-outside"),
        ({}, {"soup.webm": MP4}, "film-unknown"),
        ({"file": "soup.mp4"}, {"soup.mp4": WEBM}, "film-unknown"),
        ({"file": "soup.mov"}, {"soup.mov": MP4}, "film-unknown"),
        ({"captions": "soup.vtt"}, {"soup.webm": WEBM, "soup.vtt": b"1\n00:01"}, "film-unknown"),
        ({"captions": "soup.vtt"}, {"soup.webm": WEBM}, "film-missing"),
    ],
)
def test_what_is_no_film_is_told_and_does_not_go_out(tmp_path, changes, files, rule):
    found, problems = checked(tmp_path, files, **changes)
    assert found is None
    assert [(each.rule, each.severity) for each in problems] == [(rule, "error")]
    assert problems[0].hint


def test_captions_go_out_beside_the_film(tmp_path):
    files = {"soup.webm": WEBM, "soup.vtt": b"\xef\xbb\xbfWEBVTT\n"}
    found, problems = checked(tmp_path, files, captions="soup.vtt")
    assert problems == []
    assert [path.rpartition(".")[2] for path, _ in found.files()] == ["webm", "vtt"]


def test_a_heavy_film_goes_out_with_advice(tmp_path, monkeypatch):
    monkeypatch.setattr(films, "HEAVY", 10)
    found, problems = checked(tmp_path, {"soup.webm": WEBM})
    assert found is not None
    assert [(each.rule, each.severity) for each in problems] == [("film-heavy", "advice")]


def test_a_film_of_another_host_sends_nothing_out(tmp_path):
    found, problems = checked(tmp_path, {}, file=None, address="https://films.example/soup.webm")
    assert problems == []
    assert list(found.files()) == []
