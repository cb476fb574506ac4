"""``sitegen trial`` and ``sitegen draft --like``: what they write, what they show, what they keep."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner, Result

from sitegen.cli import main
from tests.sites import SITE, SOUP, recipe, write, write_site

LOG = SOUP.replace(".md", ".trials.yaml")


@pytest.fixture
def site(tmp_path: Path) -> Path:
    return write_site(tmp_path)


def run(site: Path, *arguments: str) -> Result:
    return CliRunner().invoke(main, ["--site", str(site), *arguments], catch_exceptions=False)


def told(site: Path, *arguments: str) -> dict[str, Any]:
    found: dict[str, Any] = json.loads(run(site, *arguments, "--format", "json").stdout)
    return found


def judge(site: Path, verdict: str, scores: str = "{salt: 7}") -> None:
    """Write in the newest entry, as an author does."""
    text = (site / LOG).read_text(encoding="utf-8")
    head, entry, rest = text.rpartition("  - date:")
    rest = rest.replace("verdict:", f"verdict: {verdict}", 1)
    rest = rest.replace("scores: {}", f"scores: {scores}", 1).replace("salt:\n", "salt: 8\n", 1)
    write(site / LOG, head + entry + rest)


# --- the log --------------------------------------------------------------------------------------


def test_a_new_entry_records_the_recipe_as_it_stands(site: Path) -> None:
    done = run(site, "trial", "lentil-soup", "--date", "2026-11-02")
    assert done.exit_code == 0
    assert f"{LOG}:5: trial 1 is open" in done.stdout
    assert recipe() in (site / LOG).read_text(encoding="utf-8").replace("\n      ", "\n")
    assert run(site, "check").exit_code == 0
    assert told(site, "trial", "lentil-soup", "--list")["trials"][0]["date"] == "2026-11-02"


def test_what_was_changed_is_told_when_the_next_is_opened(site: Path) -> None:
    run(site, "trial", "lentil-soup", "--date", "2026-11-02")
    write(site / SOUP, recipe(ingredient="250 g red lentils"))
    done = run(site, "trial", str(site / SOUP), "--date", "2026-11-09")
    assert "red lentils: 200 g → 250 g" in done.stdout
    listed = told(site, "trial", "lentil-soup", "--list")
    assert [c["what"] for c in listed["trials"][1]["changes"]] == ["red lentils"]


def test_twice_by_mistake_opens_one(site: Path) -> None:
    run(site, "trial", "lentil-soup", "--date", "2026-11-02")
    before = (site / LOG).read_bytes()
    done = run(site, "trial", "lentil-soup", "--date", "2026-11-02")
    assert "open already" in done.stdout
    assert (site / LOG).read_bytes() == before
    judge(site, "again")
    run(site, "trial", "lentil-soup", "--date", "2026-11-02")
    assert (site / LOG).read_text(encoding="utf-8").count("- date:") == 2


def test_a_recipe_with_mistakes_is_recorded_all_the_same(site: Path) -> None:
    broken = recipe().replace("serves: 4", "serve: 4")
    write(site / SOUP, broken)
    done = run(site, "trial", "lentil-soup")
    assert done.exit_code == 0
    assert "can't be compared" in done.stderr
    assert "serve: 4" in (site / LOG).read_text(encoding="utf-8")
    compared = run(site, "trial", "lentil-soup", "--compare", "1", "now")
    assert compared.exit_code == 1


def test_a_broken_log_is_left_alone_and_the_author_told_why(site: Path) -> None:
    write(site / LOG, "trials: [\n")
    done = run(site, "trial", "lentil-soup")
    assert done.exit_code == 1
    assert "left alone" in done.stderr
    assert (site / LOG).read_bytes() == b"trials: [\n"


def test_two_trials_side_by_side(site: Path) -> None:
    run(site, "trial", "lentil-soup", "--date", "2026-11-02")
    write(site / SOUP, recipe(ingredient="250 g red lentils"))
    found = told(site, "trial", "lentil-soup", "--compare", "1", "now")
    assert (found["a"], found["b"]) == ("trial 1", "now")
    [lentils] = [row for row in found["amounts"] if row["what"] == "red lentils"]
    assert (lentils["a"], lentils["b"]) == (200, 250)
    [ratio] = [r for r in found["ratios"]["rows"] if r["what"] == "red lentils"]
    assert found["ratios"]["per_cent_of"] == "water"
    assert ratio["b"] / ratio["a"] == pytest.approx(1.25, abs=1e-3)
    energy = [r for r in found["nutrition_per_serving"] if r["what"] == "Energy"]
    assert all(r["b"] > r["a"] for r in energy)
    assert found["yields"]
    text = run(site, "trial", "lentil-soup", "--compare", "1", "now").stdout
    assert "Per cent of water" in text
    assert "+25 %" in text


def test_the_two_columns_never_touch(site: Path) -> None:
    write(site / SOUP, recipe(ingredient="2 × 400 g tins plum tomatoes"))
    run(site, "trial", "lentil-soup", "--date", "2026-11-02")
    text = run(site, "trial", "lentil-soup", "--compare", "1", "now").stdout
    [row] = [line for line in text.split("\n") if "plum tomatoes" in line and "tins" in line]
    assert row.count("  2 × 400 g tins (800 g)") == 2


@pytest.mark.parametrize(
    ("arguments", "exit_code", "words"),
    [
        (["nettle-soup"], 2, "there is no recipe"),
        (["lentil-soup", "--list"], 1, "no trials yet"),
        (["lentil-soup", "--list", "--compare", "1", "2"], 2, "not both"),
        (["lentil-soup", "--date", "today"], 2, "is not a date"),
        (["lentil-soup", "--format", "json"], 2, "--format goes with"),
    ],
)
def test_misuse_is_answered(site: Path, arguments: list[str], exit_code: int, words: str) -> None:
    done = run(site, "trial", *arguments)
    assert (done.exit_code, words in done.stderr) == (exit_code, True), done.stderr
    assert not (site / LOG).exists()


def test_a_trial_that_is_not_there(site: Path) -> None:
    run(site, "trial", "lentil-soup")
    done = run(site, "trial", "lentil-soup", "--compare", "1", "7")
    assert done.exit_code == 1
    assert "there is no trial '7'; there are 1 and 'now'" in done.stderr


# --- what a site asks of its logs ------------------------------------------------------------------

ASKS = SITE + "trials: {needed: 2, since: 2026-01-01, shown: yes}\n"


def check(site: Path, *paths: str) -> list[dict[str, Any]]:
    problems: list[dict[str, Any]] = told(site, "check", *paths)["problems"]
    return problems


def held(site: Path) -> list[dict[str, Any]]:
    return [p for p in check(site) if p["rule"] == "held-back"]


def test_a_recipe_is_held_back_until_it_has_passed(site: Path) -> None:
    write(site / "content/site.yaml", ASKS)
    [problem] = held(site)
    assert problem["severity"] == "error"
    assert (problem["file"], problem["line"], problem["column"]) == (SOUP, 4, 1)
    assert "after 2 passed trials; this one has none" in problem["message"]
    assert LOG in problem["hint"]
    assert run(site, "build").exit_code == 1
    for day, verdict in (("2026-11-02", "passed"), ("2026-11-03", "again")):
        run(site, "trial", "lentil-soup", "--date", day)
        judge(site, verdict)
    assert "this one has 1" in held(site)[0]["message"]
    run(site, "trial", "lentil-soup", "--date", "2026-11-04")
    assert held(site), "an open trial has not passed"
    judge(site, "passed")
    assert held(site) == []
    assert run(site, "build").exit_code == 0


@pytest.mark.parametrize(
    "free",
    [
        {"content/site.yaml": ASKS.replace("2026-01-01", "2026-02-04")},
        {"content/site.yaml": ASKS, SOUP: recipe().replace("published: 2026-02-03\n", "")},
        {"content/site.yaml": SITE},
    ],
    ids=["published before", "a draft", "a site that asks nothing"],
)
def test_nothing_else_is_held_back(site: Path, free: dict[str, str]) -> None:
    write_site(site, free)
    assert held(site) == []


def test_what_was_changed_since_it_passed_is_pointed_out(site: Path) -> None:
    run(site, "trial", "lentil-soup")
    judge(site, "passed")
    assert check(site) == []
    write(site / SOUP, recipe(title="Red lentil soup").replace("An introduction", "A word"))
    assert check(site) == [], "words are no change of the dish"
    write(site / SOUP, recipe(ingredient="250 g red lentils"))
    [problem] = check(site, str(site / SOUP))
    assert (problem["rule"], problem["severity"]) == ("untested-change", "advice")
    assert "200 g → 250 g" in problem["message"]


def test_mistakes_of_a_log_are_checked_and_stop_no_build(site: Path) -> None:
    run(site, "trial", "lentil-soup")
    judge(site, "pased")
    for paths in ([], [str(site / SOUP)], [str(site / LOG)]):
        [problem] = check(site, *paths)
        assert (problem["file"], problem["rule"]) == (LOG, "trial-verdict")
    assert run(site, "build").exit_code == 0


def test_a_log_without_its_recipe_is_pointed_out(site: Path) -> None:
    write(site / "content/recipes/gone.trials.yaml", "trials:\n")
    [problem] = check(site)
    assert (problem["rule"], problem["severity"]) == ("trials-alone", "advice")


# --- nothing private is published ------------------------------------------------------------------


def test_no_word_of_a_log_is_in_the_site(site: Path) -> None:
    write(site / "content/site.yaml", ASKS.replace("needed: 2", "needed: 1"))
    run(site, "trial", "lentil-soup", "--date", "1987-11-02")
    words = ("zanzibar", "quixotic", "periwinkle", "marmoset", "1987")
    judge(site, "passed", "{periwinkle: 3}")
    text = (site / LOG).read_text(encoding="utf-8")
    text = text.replace("tasters: []", "tasters: [Zanzibar]").replace("aim:", "aim: quixotic", 1)
    write(site / LOG, text.replace("remarks: |\n", "remarks: |\n      A marmoset.\n", 1))
    assert all(word in (site / LOG).read_text(encoding="utf-8").lower() for word in words)
    assert run(site, "build").exit_code == 0, run(site, "build").stderr
    files = [p for p in (site / "output").rglob("*") if p.is_file()]
    assert len(files) > 10
    for file in files:
        content = file.read_bytes().decode("utf-8", "replace").lower()
        found = [word for word in (*words, "trials", "verdict", "/-/") if word in content]
        assert not found, (file.name, found)
        assert "trials" not in file.name
    page = (site / "output/recipes/lentil-soup.html").read_text(encoding="utf-8")
    assert "tested once" in page


def test_a_page_tells_nothing_unless_the_site_does(site: Path) -> None:
    run(site, "trial", "lentil-soup")
    judge(site, "passed")
    assert run(site, "build").exit_code == 0
    assert "tested" not in (site / "output/recipes/lentil-soup.html").read_text(encoding="utf-8")


# --- variations ------------------------------------------------------------------------------------

PHOTO = recipe().replace("course: soup\n", "course: soup\nphoto:\n  file: a.png\n  alt: A bowl\n")


def test_a_variation_says_the_same_under_another_title(site: Path) -> None:
    write(
        site / SOUP,
        PHOTO.replace("\nauthor", "\nupdated: 2026-03-01\nauthor"),
    )
    write(site / LOG, "trials:\n")
    done = run(site, "draft", "--like", "lentil-soup", "Soup: the second day")
    assert done.exit_code == 0
    new = site / "content/recipes/soup-the-second-day.md"
    text = new.read_text(encoding="utf-8")
    assert f"# A variation of Lentil soup ({SOUP})" in text
    assert 'title: "Soup: the second day"' in text
    for gone in ("published:", "updated:", "photo", "a.png", "alt:", "title: Lentil soup"):
        assert gone not in text
    kept = [row for row in recipe().split("\n") if not row.startswith(("title:", "published:"))]
    assert [row for row in text.split("\n") if row in kept] == kept
    assert not new.with_name("soup-the-second-day.trials.yaml").exists()
    assert (site / SOUP).read_text(encoding="utf-8").startswith("---\ntitle: Lentil soup")
    assert not [p for p in check(site) if p["file"].endswith(new.name)]


def test_a_variation_writes_over_nothing(site: Path) -> None:
    before = (site / SOUP).read_bytes()
    assert run(site, "draft", "--like", "lentil-soup", "Lentil soup").exit_code == 1
    assert (site / SOUP).read_bytes() == before


def test_a_variation_of_what_cannot_be_read_is_refused(site: Path) -> None:
    write(site / SOUP, "title: Lentil soup\n")
    done = run(site, "draft", "--like", "lentil-soup", "Another")
    assert done.exit_code == 1
    assert "---" in done.stderr
    assert not (site / "content/recipes/another.md").exists()
    assert run(site, "draft", "--like", "nettles", "Another").exit_code == 2
