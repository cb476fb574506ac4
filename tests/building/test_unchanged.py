"""A build of a site in which nothing has changed looks at it, and knows."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from sitegen.building import unchanged
from sitegen.building.build import build
from sitegen.building.report import BuildReport
from tests.sites import SITE, SOUP, recipe, write, write_site
from tests.test_gathering import DRAFT


@pytest.fixture
def built(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A site that has been built, and has left a note."""
    monkeypatch.setattr(unchanged, "MOMENTS", 0)
    folder = write_site(
        tmp_path / "site",
        {
            "content/recipes/plain.md": recipe("Plain").replace("summary", "# summary"),
            "content/recipes/draft.md": DRAFT,
            "themes/sheet/assets/own.css": "p { margin: 1px }",
        },
    )
    build(folder)
    return folder


def in_full(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """Names the builds that had to look into files."""
    from sitegen.gathering import Gatherer

    seen: list[str] = []
    whole = Gatherer.gather

    def gather(self: Gatherer, **how: object) -> object:
        seen.append("gathered")
        return whole(self, **how)  # type: ignore[arg-type]

    monkeypatch.setattr(Gatherer, "gather", gather)
    return seen


def test_nothing_is_read_and_the_report_says_what_a_full_one_says(
    built: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    seen = in_full(monkeypatch)
    again = build(built)
    assert seen == []
    (built / ".sitegen/kept/note.json").unlink()
    full = build(built)
    assert seen == ["gathered"]

    def told(report: BuildReport) -> tuple[object, ...]:
        return (report.folder, report.problems, report.recipes, report.photos, report.drafts,
                dict(report.pages), report.placed, report.done)  # fmt: skip

    assert full.problems  # the advice is given every time
    assert full.drafts == 1
    assert told(again) == told(full)


def rewrite_with_the_same_size_and_date(folder: Path) -> None:
    path = folder / SOUP
    seen = path.stat()
    path.write_text(path.read_text("utf-8").replace("lentils", "lentilz"), "utf-8")
    os.utime(path, ns=(seen.st_atime_ns, seen.st_mtime_ns))


CHANGES: dict[str, Callable[[Path], object]] = {
    "a recipe": lambda f: write(f / SOUP, recipe("Another")),
    "a recipe, secretly": rewrite_with_the_same_size_and_date,
    "a new file": lambda f: write(f / "content/recipes/new.md", recipe("New")),
    "a new folder": lambda f: (f / "content/recipes/deep").mkdir(),
    "a file gone": lambda f: (f / SOUP).unlink(),
    "a file renamed": lambda f: (f / SOUP).rename(f / "content/recipes/other.md"),
    "the settings": lambda f: write(f / "content/site.yaml", SITE + "units: us\n"),
    "the theme": lambda f: write(f / "themes/sheet/assets/own.css", "p { margin: 2px }"),
    "a page of the output": lambda f: (f / "output/index.html").write_text("x"),
    "the output gone": lambda f: (f / "output/index.html").unlink(),
    "the note": lambda f: (f / ".sitegen/kept/note.json").write_text("{"),
    "a link": lambda f: (f / "content/pages").symlink_to(f / "themes"),
}


@pytest.mark.parametrize("what", CHANGES)
def test_whatever_changes_is_seen(built: Path, monkeypatch: pytest.MonkeyPatch, what: str) -> None:
    CHANGES[what](built)
    seen = in_full(monkeypatch)
    build(built)
    assert seen == ["gathered"]


def test_another_output_folder_and_another_program_are_other_builds(
    built: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    seen = in_full(monkeypatch)
    build(built, built.parent / "elsewhere")
    assert len(seen) == 1
    build(built, built.parent / "elsewhere")
    assert len(seen) == 1
    monkeypatch.setattr(unchanged, "program_mark", lambda: "another")
    build(built, built.parent / "elsewhere")
    assert len(seen) == 2


def test_a_file_written_just_before_the_build_is_not_trusted(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(unchanged, "MOMENTS", 3_600_000_000_000)  # however slow the machine is
    folder = write_site(tmp_path)
    build(folder)
    assert not (folder / ".sitegen/kept/note.json").exists()


def test_the_reading_part_of_the_program_is_not_even_loaded(built: Path) -> None:
    program = (
        "import sys; from pathlib import Path; from sitegen.building.build import build;"
        f"build(Path({str(built)!r})); heavy = {{'pydantic', 'jinja2', 'sitegen.gathering'}};"
        "sys.exit(str(heavy & set(sys.modules)) if heavy & set(sys.modules) else 0)"
    )
    said = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True)
    assert said.returncode == 0, said.stderr
