"""Building a whole site: the same bytes every time, and the last good site never at risk."""

from __future__ import annotations

import io
import os
import random
import shutil
import signal
import subprocess
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from PIL import Image

from sitegen.building.build import Unsuitable, build
from sitegen.building.lock import only_one
from sitegen.building.report import BuildReport
from sitegen.cli import main
from tests import tools
from tests.sites import SITE, SOUP, recipe, write, write_site


def run(folder: Path, *arguments: str) -> Result:
    return CliRunner().invoke(
        main, ["build", "--site", str(folder), *arguments], catch_exceptions=False
    )


def held(folder: Path) -> dict[str, bytes]:
    return {
        p.relative_to(folder).as_posix(): p.read_bytes() for p in folder.rglob("*") if p.is_file()
    }


def picture(colour: tuple[int, int, int]) -> bytes:
    out = io.BytesIO()
    Image.new("RGB", (640, 480), colour).save(out, "PNG")
    return out.getvalue()


PHOTO = recipe("Bean stew").replace(
    "serves: 4", "serves: 4\nphoto: {file: bean-stew.png, alt: A bowl}"
)
FILES: dict[str, str | bytes] = {
    "content/recipes/bean-stew.md": PHOTO,
    "content/recipes/bean-stew.png": picture((120, 60, 30)),
    "content/pages/about.md": "---\ntitle: About\n---\nSee [the soup](../recipes/lentil-soup.md).\n",
}


def test_a_build_reports_what_it_did(tmp_path: Path) -> None:
    report = build(write_site(tmp_path, FILES))
    assert isinstance(report, BuildReport)
    assert report.done
    assert (report.recipes, report.photos) == (2, 1)
    assert report.pages["recipe"] == report.pages["card"] == 2
    assert sum(report.pages.values()) == len(report.placed.written) == len(held(report.folder))
    again = build(tmp_path)
    assert again.placed.written == again.placed.removed == ()


def test_every_picture_that_a_page_names_is_there(tmp_path: Path) -> None:
    from bs4 import BeautifulSoup

    output = build(write_site(tmp_path, FILES)).folder
    page = BeautifulSoup((output / "recipes" / "bean-stew.html").read_text("utf-8"), "html.parser")
    named = [tag["src"] for tag in page("img")]
    for source in page("source"):
        named += [entry.split()[0] for entry in str(source["srcset"]).split(",")]
    assert named
    for name in named:
        assert (output / "recipes" / str(name)).resolve().is_file(), name


@pytest.mark.parametrize("zone", ["Pacific/Kiritimati", "America/Adak"])
def test_the_same_content_gives_the_same_bytes_anywhere(tmp_path: Path, zone: str) -> None:
    first = build(write_site(tmp_path / "one", FILES)).folder
    other = write_site(tmp_path / "another place", FILES)
    subprocess.run(
        [sys.executable, "-m", "sitegen", "build"],
        cwd=other,
        env={**os.environ, "TZ": zone, "PYTHONHASHSEED": str(len(zone)), "LC_ALL": "C"},
        capture_output=True,
        check=True,
    )
    assert held(other / "output") == held(first)


def test_a_locale_with_its_own_letters_and_commas_changes_nothing(tmp_path: Path) -> None:
    """Turkish has a dotless i and a comma among digits; the locale is compiled for this test alone."""
    if not (shutil.which("localedef") and Path("/usr/share/i18n/locales/tr_TR").is_file()):
        tools.missing("localedef with its sources (Debian: locales)")
    made = tmp_path / "locales" / "tr_TR.UTF-8"
    made.parent.mkdir()
    command = ["localedef", "-i", "tr_TR", "-f", "UTF-8", str(made)]
    subprocess.run(command, capture_output=True, check=True)
    env = {**os.environ, "LOCPATH": str(made.parent), "LC_ALL": "tr_TR.UTF-8"}
    say = "import locale; locale.setlocale(locale.LC_ALL, ''); print(locale.str(0.5))"
    said = subprocess.run([sys.executable, "-c", say], env=env, capture_output=True, check=True)
    assert said.stdout.strip() == b"0,5", "the locale is not in force, so this would test nothing"
    first = build(write_site(tmp_path / "one", FILES)).folder
    other = write_site(tmp_path / "two", FILES)
    command = [sys.executable, "-m", "sitegen", "build"]
    subprocess.run(command, cwd=other, env=env, capture_output=True, check=True)
    assert held(other / "output") == held(first)


def test_after_any_edits_a_build_equals_a_clean_one(tmp_path: Path) -> None:
    chance = random.Random(3)
    folder = write_site(tmp_path / "site", FILES)
    edits: list[tuple[str, str | bytes | None]] = [
        (SOUP, recipe("Another name")),
        (SOUP, recipe(ingredient="250 g red lentils")),
        ("content/recipes/bean-stew.png", picture((30, 60, 120))),
        ("content/recipes/deep/new.md", recipe("New", more="\n## Keeping\n\nThree days.\n")),
        ("content/recipes/deep/new.md", None),
        ("content/pages/about.md", "---\ntitle: About us\n---\nWe cook.\n"),
        ("content/pages/about.md", None),
        ("content/site.yaml", SITE + "units: us\nregion: us\n"),
        ("content/site.yaml", SITE.replace("address: https://kitchen.example\n", "")),
        ("content/site.yaml", SITE + "colours: {accent: '#205080'}\n"),
        ("themes/sheet/assets/own.css", "p { color: red }"),
    ]
    for step in range(12):
        name, content = chance.choice(edits)
        if content is None:
            (folder / name).unlink(missing_ok=True)
        else:
            write(folder / name, content)
        assert build(folder).done
        clean = build(folder, tmp_path / f"clean-{step}").folder
        assert held(folder / "output") == held(clean)


def test_errors_leave_the_last_site_as_it_was(tmp_path: Path) -> None:
    folder = write_site(tmp_path, FILES)
    assert run(folder).exit_code == 0
    before = held(folder / "output")
    write(folder / SOUP, recipe("Renamed"))
    write(folder / "content/recipes/bean-stew.md", PHOTO.replace("serves: 4", "serve: 4"))
    failed = run(folder)
    assert failed.exit_code == 1
    assert "bean-stew.md:7:1: error" in failed.output
    assert "The last site" in failed.output
    assert held(folder / "output") == before


def test_a_template_that_fails_is_a_problem_and_leaves_the_last_site(tmp_path: Path) -> None:
    folder = write_site(tmp_path, FILES)
    build(folder)
    before = held(folder / "output")
    write(
        folder / "themes/sheet/templates/recipe.html",
        '{% extends "house/recipe.html" %}\n{% block after_method %}{{ no.such }}{% endblock %}',
    )
    failed = run(folder)
    assert failed.exit_code == 1
    assert "themes/sheet/templates/recipe.html:2:1: error" in failed.output
    assert held(folder / "output") == before


def test_advice_is_told_and_stops_nothing(tmp_path: Path) -> None:
    built = run(write_site(tmp_path, FILES))  # the photo of 640 pixels is small
    assert built.exit_code == 0
    assert "advice" in built.output


def test_a_recipe_that_is_deleted_takes_its_pages_along(tmp_path: Path) -> None:
    folder = write_site(tmp_path, FILES)
    build(folder)
    write(folder / "output" / "CNAME", "kitchen.example")
    (folder / "content/recipes/bean-stew.md").unlink()
    removed = build(folder).placed.removed
    assert "recipes/bean-stew.html" in removed
    left = held(folder / "output")
    assert not [name for name in left if "bean-stew" in name]
    assert left["CNAME"] == b"kitchen.example"


def test_a_foreign_file_in_the_way_is_named_and_kept(tmp_path: Path) -> None:
    folder = write_site(tmp_path)
    write(folder / "output" / "index.html", "somebody's page")
    failed = run(folder)
    assert failed.exit_code == 1
    assert "  index.html" in failed.output
    assert held(folder / "output") == {"index.html": b"somebody's page"}


_KILL = """
import os, pathlib, signal, sys
from sitegen.building import placing
from sitegen.building.build import build
allowed = int(sys.argv[2])
real = placing.Staging.write
written = 0
def write(self, path, content):
    global written
    if written == allowed:
        os.kill(os.getpid(), signal.SIGKILL)
    written += 1
    return real(self, path, content)
placing.Staging.write = write
build(pathlib.Path(sys.argv[1]))
"""


@pytest.mark.parametrize("allowed", [0, 3, 9])
def test_a_build_that_is_killed_leaves_the_last_site_whole(tmp_path: Path, allowed: int) -> None:
    folder = write_site(tmp_path, FILES)
    build(folder)
    before = held(folder / "output")
    write(folder / "content/site.yaml", SITE + "description: All pages change.\n")
    killed = subprocess.run(
        [sys.executable, "-c", _KILL, str(folder), str(allowed)], check=False, capture_output=True
    )
    assert killed.returncode in (-signal.SIGKILL, 1)  # itself, or one of its processes
    assert held(folder / "output") == before
    assert build(folder).done
    assert held(folder / "output") == held(build(folder, tmp_path / "clean").folder)
    assert {p.name for p in folder.iterdir()} >= {"content", "output"}
    assert not list(folder.glob(".output*"))


def test_two_builds_at_once_do_not_collide(tmp_path: Path) -> None:
    folder = write_site(tmp_path, FILES)
    with only_one(folder / ".sitegen" / "build.lock"):
        kept_out = run(folder)
    assert kept_out.exit_code == 1
    assert f"process {os.getpid()}" in kept_out.output
    assert not (folder / "output").exists()
    at_once = [
        subprocess.Popen(
            [sys.executable, "-m", "sitegen", "build"], cwd=folder, stderr=-3, stdout=-3
        )
        for _ in range(3)
    ]
    codes = [process.wait() for process in at_once]
    assert 0 in codes
    assert set(codes) <= {0, 1}
    assert held(folder / "output") == held(build(folder, tmp_path / "clean").folder)


@pytest.mark.parametrize("to", [".", "..", "content", "content/recipes/x", ".sitegen", SOUP])
def test_a_site_is_never_built_over_the_authors_files(tmp_path: Path, to: str) -> None:
    folder = write_site(tmp_path / "site")
    before = held(folder / "content")
    with pytest.raises(Unsuitable):
        build(folder, folder / to)
    assert run(folder, "--to", str(folder / to)).exit_code == 2
    assert held(folder / "content") == before


def test_another_folder_has_a_record_of_its_own(tmp_path: Path) -> None:
    folder = write_site(tmp_path / "site")
    build(folder)
    build(folder, tmp_path / "elsewhere")
    (folder / SOUP).unlink()
    write(folder / "content/recipes/other.md", recipe("Other"))
    build(folder, tmp_path / "elsewhere")
    assert (folder / "output/recipes/lentil-soup.html").is_file()
    assert not (tmp_path / "elsewhere/recipes/lentil-soup.html").exists()
