"""The commands: what they print, what they leave alone, and how they end."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from sitegen.cli import COMMANDS, main
from tests.sites import SITE, SOUP, recipe, write, write_site


def run(*arguments: str) -> Result:
    return CliRunner().invoke(main, arguments, catch_exceptions=False)


def sitegen(*arguments: str, cwd: Path) -> subprocess.CompletedProcess[str]:
    """In a process of its own, as an author runs it."""
    return subprocess.run(
        [sys.executable, "-m", "sitegen", *arguments],
        cwd=cwd,
        capture_output=True,
        text=True,
        check=False,
        env={**os.environ, "COLUMNS": "100", "PYTHONIOENCODING": "utf-8"},
    )


def tree(folder: Path) -> dict[str, bytes]:
    return {
        p.relative_to(folder).as_posix(): p.read_bytes() for p in folder.rglob("*") if p.is_file()
    }


# --- help -----------------------------------------------------------------------------------------


def test_help_lists_every_command() -> None:
    told = run("--help")
    assert told.exit_code == 0
    for name in COMMANDS:
        assert f"  {name} " in told.output


@pytest.mark.parametrize("name", list(COMMANDS))
def test_every_command_explains_itself(name: str) -> None:
    assert "Usage:" in run(name, "--help").output


def test_help_imports_nothing_heavy(tmp_path: Path) -> None:
    heavy = "pint pydantic PIL jinja2 rich yaml watchdog markdown_it babel"
    program = (
        "import sys\nfrom sitegen.cli import main\n"
        "try:\n    main(['--help'], prog_name='sitegen')\nexcept SystemExit:\n    pass\n"
        f"print('LOADED', [m for m in {heavy.split()!r} if m in sys.modules])\n"
    )
    done = subprocess.run(
        [sys.executable, "-c", program], cwd=tmp_path, capture_output=True, text=True, check=True
    )
    assert done.stdout.splitlines()[-1] == "LOADED []"


def test_check_imports_no_pages_and_no_units_library(tmp_path: Path) -> None:
    write_site(tmp_path)
    program = (
        "import sys\nfrom sitegen.cli import main\n"
        f"try:\n    main(['check', '--site', {str(tmp_path)!r}])\nexcept SystemExit:\n    pass\n"
        "print('LOADED', [m for m in ('pint', 'PIL', 'jinja2', 'rich', 'watchdog')"
        " if m in sys.modules])\n"
    )
    done = subprocess.run(
        [sys.executable, "-c", program], capture_output=True, text=True, check=True
    )
    assert done.stdout.splitlines()[-1] == "LOADED []"


def test_a_mistyped_command_gets_the_nearest_one(tmp_path: Path) -> None:
    done = sitegen("chekc", cwd=tmp_path)
    assert done.returncode == 2
    assert "did you mean 'check'?" in done.stderr


# --- the site -------------------------------------------------------------------------------------


def test_the_site_is_found_from_any_folder_inside_it(tmp_path: Path) -> None:
    write_site(tmp_path)
    deep = tmp_path / "content" / "recipes" / "deep"
    deep.mkdir()
    assert sitegen("check", cwd=deep).returncode == 0


def test_the_site_may_be_named_before_or_after_the_command(tmp_path: Path) -> None:
    write_site(tmp_path)
    assert run("--site", str(tmp_path), "check").exit_code == 0
    assert run("check", "--site", str(tmp_path)).exit_code == 0


def test_no_site_is_a_misuse_that_says_what_to_do(tmp_path: Path) -> None:
    for arguments in (("check",), ("check", "--site", "."), ("build",), ("draft", "Soup")):
        done = sitegen(*arguments, cwd=tmp_path)
        assert done.returncode == 2
        assert "content/site.yaml" in done.stderr
        assert "sitegen start" in done.stderr
        assert not tree(tmp_path)


# --- start and draft ------------------------------------------------------------------------------


def test_a_new_site_has_no_problems_and_builds(tmp_path: Path) -> None:
    assert run("start", str(tmp_path / "new")).exit_code == 0
    checked = run("check", "--site", str(tmp_path / "new"))
    assert (checked.exit_code, checked.output) == (0, "No problems.\n")
    assert run("build", "--site", str(tmp_path / "new")).exit_code == 0
    assert (tmp_path / "new" / "output" / "recipes" / "white-bean-soup.html").is_file()


def test_start_refuses_a_folder_that_has_files(tmp_path: Path) -> None:
    write(tmp_path / "mine.txt", "mine")
    done = run("start", str(tmp_path))
    assert done.exit_code == 2
    assert tree(tmp_path) == {"mine.txt": b"mine"}


def test_start_takes_an_empty_folder_and_one_with_only_git_in_it(tmp_path: Path) -> None:
    (tmp_path / ".git").mkdir()
    assert run("start", str(tmp_path)).exit_code == 0
    assert (tmp_path / "content" / "site.yaml").is_file()


@pytest.mark.parametrize(
    ("title", "name"),
    [
        ("Crème brûlée & tea", "creme-brulee-tea"),
        ("Grandmother's soup: the second day", "grandmothers-soup-the-second-day"),
        ('A "quoted" \\ title #1', "a-quoted-title-1"),
        ("yes: - no", "yes-no"),
        ("../../up", "up"),
        ("Žemlovka", "zemlovka"),
    ],
)
def test_a_draft_is_a_file_that_the_reader_accepts(tmp_path: Path, title: str, name: str) -> None:
    write_site(tmp_path)
    assert run("draft", title, "--site", str(tmp_path)).exit_code == 0
    assert (tmp_path / "content" / "recipes" / f"{name}.md").is_file()
    checked = run("check", "--site", str(tmp_path), "--format", "json")
    assert json.loads(checked.output) == {"problems": []}
    from sitegen.gathering import Gatherer

    dishes = Gatherer(tmp_path).gather(drafts=True).collection.dishes
    assert dishes[name].recipe.title == title
    assert dishes[name].recipe.draft


def test_a_draft_never_overwrites(tmp_path: Path) -> None:
    write_site(tmp_path, {"content/recipes/soups/pea-soup.md": recipe("Pea soup")})
    before = tree(tmp_path)
    for title in ("Lentil soup", "Pea soup"):
        done = run("draft", title, "--site", str(tmp_path))
        assert done.exit_code == 1
        assert "left as it is" in done.output
    assert tree(tmp_path) == before


def test_a_title_without_letters_is_a_misuse(tmp_path: Path) -> None:
    write_site(tmp_path)
    assert run("draft", "!!!", "--site", str(tmp_path)).exit_code == 2


# --- check ----------------------------------------------------------------------------------------

BROKEN = recipe().replace("serves: 4", "serve: 4").replace("[onion]", "[union]")


def test_check_as_text_shows_the_line_and_a_caret(tmp_path: Path) -> None:
    write_site(tmp_path, {SOUP: BROKEN})
    done = run("check", "--site", str(tmp_path))
    assert done.exit_code == 1
    lines = done.output.splitlines()
    at = lines.index("    7 | serve: 4")
    assert lines[at - 1].startswith(f"{SOUP}:7:1: error: ")
    assert lines[at + 1] == "      | ^^^^^"
    assert "did you mean 'serves'?" in lines[at + 2]
    assert lines[-1].endswith("in 1 file.")


def test_check_as_json_has_seven_values_for_each_problem(tmp_path: Path) -> None:
    write_site(tmp_path, {SOUP: BROKEN, "content/site.yaml": SITE + "x: y\n"})
    done = sitegen("check", "--format", "json", cwd=tmp_path / "content")
    assert done.returncode == 1
    problems = json.loads(done.stdout)["problems"]
    assert {p["file"] for p in problems} == {SOUP, "content/site.yaml"}
    for problem in problems:
        assert list(problem) == ["rule", "severity", "file", "line", "column", "message", "hint"]
        assert (tmp_path / problem["file"]).is_file()


def test_advice_alone_ends_with_nought(tmp_path: Path) -> None:
    from PIL import Image

    folder = write_site(
        tmp_path,
        {SOUP: recipe().replace("serves: 4", "serves: 4\nphoto: {file: soup.png, alt: A bowl}")},
    )
    Image.new("RGB", (400, 300), (90, 60, 30)).save(folder / "content/recipes/soup.png")
    done = run("check", "--site", str(folder), "--format", "json")
    assert [p["severity"] for p in json.loads(done.output)["problems"]] == ["advice"]
    assert done.exit_code == 0


def test_check_of_paths_tells_of_those_only(tmp_path: Path) -> None:
    other = "content/recipes/other.md"
    write_site(tmp_path, {SOUP: BROKEN, other: recipe("Other")})
    assert run("check", "--site", str(tmp_path), str(tmp_path / other)).exit_code == 0
    assert sitegen("check", other, cwd=tmp_path).returncode == 0
    assert sitegen("check", SOUP, cwd=tmp_path).returncode == 1
    assert sitegen("check", "recipes", cwd=tmp_path / "content").returncode == 1
    # The site is the one that the path lies in, wherever one stands.
    assert sitegen("check", str(tmp_path / SOUP), cwd=tmp_path.parent).returncode == 1


@pytest.mark.parametrize("arguments", [("nowhere.md",), ("--format", "xml"), ("--frmat", "json")])
def test_a_misuse_of_check_ends_with_two(tmp_path: Path, arguments: tuple[str, ...]) -> None:
    write_site(tmp_path)
    assert sitegen("check", *arguments, cwd=tmp_path).returncode == 2


def test_a_path_outside_the_site_is_a_misuse(tmp_path: Path) -> None:
    write_site(tmp_path / "site")
    write(tmp_path / "other.md", recipe())
    assert sitegen("check", "../other.md", cwd=tmp_path / "site").returncode == 2


def test_check_says_what_would_stop_a_build(tmp_path: Path) -> None:
    write_site(tmp_path)
    settings = tmp_path / "content" / "site.yaml"
    settings.write_text(settings.read_text("utf-8") + "theme: sheets\n", "utf-8")
    done = run("check", "--site", str(tmp_path))
    assert done.exit_code == 1
    assert "there is no theme 'sheets'" in done.output


def test_a_build_that_stops_speaks_of_the_last_site_only_if_there_is_one(tmp_path: Path) -> None:
    write_site(tmp_path, {SOUP: BROKEN})
    assert "The last site" not in run("build", "--site", str(tmp_path)).output
    write(tmp_path / "output" / "index.html", "built earlier")
    assert "The last site" in run("build", "--site", str(tmp_path)).output


def test_check_changes_nothing_of_the_authors(tmp_path: Path) -> None:
    write_site(tmp_path, {SOUP: BROKEN})
    before = tree(tmp_path)
    run("check", "--site", str(tmp_path))
    after = {n: c for n, c in tree(tmp_path).items() if not n.startswith(".sitegen/")}
    assert after == before


# --- larder ---------------------------------------------------------------------------------------


def test_the_larder_is_looked_up_without_a_site(tmp_path: Path) -> None:
    done = sitegen("larder", "find", "spring", "onions", cwd=tmp_path)
    assert done.returncode == 0
    assert "spring onion" in done.stdout
    shown = sitegen("larder", "show", "plain", "flour", cwd=tmp_path)
    # USDA SR28 20081: 364 kcal in 100 g, 125 g to the cup.
    assert "364 kcal" in shown.stdout
    assert "125 g" in shown.stdout


def test_a_food_that_is_not_there_ends_with_one_and_names_what_is_near(tmp_path: Path) -> None:
    assert sitegen("larder", "find", "xyzzy", cwd=tmp_path).returncode == 1
    shown = sitegen("larder", "show", "plane flour", cwd=tmp_path)
    assert shown.returncode == 1
    assert "plain flour" in shown.stderr


def test_the_sites_own_foods_are_in_its_larder(tmp_path: Path) -> None:
    food = "foods:\n  - {name: harbour biscuit, source: the packet, aisle: bakery}\n"
    write_site(tmp_path, {"content/larder/own.yaml": food})
    done = sitegen("larder", "show", "harbour biscuit", cwd=tmp_path)
    assert done.returncode == 0
    assert "the packet" in done.stdout
