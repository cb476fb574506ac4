"""What is found only where a site's recipes are set side by side."""

from __future__ import annotations

from pathlib import Path

import pytest

from sitegen.gathering import Gatherer
from sitegen.problems import Problem
from sitegen.readthrough import RULES
from sitegen.readthrough.word_alone import is_slip
from tests.sites import SITE, recipe, write_site

TAGGED = "course: soup\ntags: [store cupboard, beans]"


def soup(title: str, fields: str = TAGGED) -> str:
    return recipe(title).replace("course: soup", fields)


def said(tmp_path: Path, *texts: str, site: str = SITE) -> list[Problem]:
    files: dict[str, str | bytes] = {"content/site.yaml": site}
    files |= {f"content/recipes/soup-{n}.md": text for n, text in enumerate(texts)}
    folder = write_site(tmp_path, files)
    (folder / "content/recipes/lentil-soup.md").unlink()
    problems = Gatherer(folder).gather(drafts=True).problems
    return [p for p in problems if p.rule in ("title-twice", "word-alone", "silence-idle")]


def test_both_rules_are_here() -> None:
    assert {r.name for r in RULES if r.over_site} == {"title-twice", "word-alone"}


def test_two_recipes_of_one_title(tmp_path: Path) -> None:
    found = said(tmp_path, soup("Bean soup"), soup("Leek soup"), soup("bean  Soup"))
    (one,) = found
    assert (one.rule, one.file, one.line) == ("title-twice", "content/recipes/soup-2.md", 2)
    assert one.severity == "advice"
    assert "content/recipes/soup-0.md" in one.message


@pytest.mark.parametrize(
    ("fields", "line", "near"),
    [
        (TAGGED.replace("soup", "soups"), 6, "soup"),
        (TAGGED.replace("soup", "suop"), 6, "soup"),
        (TAGGED.replace("store cupboard", "store cupbord"), 7, "store cupboard"),
        (TAGGED.replace("beans", "bean"), 7, "beans"),
    ],
)
def test_a_word_of_one_recipe_that_is_nearly_one_of_several(
    tmp_path: Path, fields: str, line: int, near: str
) -> None:
    (one,) = said(tmp_path, soup("A"), soup("B"), soup("C"), soup("D", fields))
    assert (one.rule, one.file, one.line) == ("word-alone", "content/recipes/soup-3.md", line)
    assert one.hint == f"did you mean '{near}'?"


@pytest.mark.parametrize(
    "tags", ["[broth, peas]", "[Store Cupboard, Beans]", "[autumn]", "[bears]"]
)
def test_other_words_are_left_alone(tmp_path: Path, tags: str) -> None:
    other = f"course: soup\ntags: {tags}"
    assert said(tmp_path, soup("A"), soup("B"), soup("C"), soup("D", other)) == []


def test_two_recipes_are_not_yet_a_custom(tmp_path: Path) -> None:
    assert said(tmp_path, soup("A"), soup("B"), soup("C", TAGGED.replace("beans", "bean"))) == []


def test_a_silence_holds_and_is_not_called_idle(tmp_path: Path) -> None:
    hush = "silence:\n  - {rule: title-twice, why: one dish in two towns}\n"
    quiet = soup("Bean soup").replace("ingredients:", f"{hush}ingredients:")
    assert said(tmp_path, soup("Bean soup"), quiet) == []


def test_a_site_may_silence_it(tmp_path: Path) -> None:
    site = f"{SITE}silence:\n  - {{rule: title-twice, why: we number them}}\n"
    assert said(tmp_path, soup("Bean soup"), soup("Bean soup"), site=site) == []


def test_after_any_save_it_is_as_if_all_were_read_anew(tmp_path: Path) -> None:
    folder = write_site(tmp_path, {f"content/recipes/s{n}.md": soup(f"Soup {n}") for n in range(4)})
    gatherer = Gatherer(folder)
    gatherer.gather(drafts=True)
    file = "content/recipes/s2.md"
    for text in (soup("Soup 1"), soup("Soup 9", TAGGED.replace("beans", "baens")), soup("Soup 2")):
        (folder / file).write_text(text, encoding="utf-8")
        known = gatherer.gather(drafts=True, changed=[file]).problems
        assert known == Gatherer(folder).gather(drafts=True).problems


@pytest.mark.parametrize(
    "pair",
    [("pear", "peas"), ("corn", "acorn"), ("rye", "rice"), ("fish", "dish"), ("tart", "tarte d")],
)
def test_other_words_are_no_slips(pair: tuple[str, str]) -> None:
    assert not is_slip(*pair)
    assert not is_slip(*reversed(pair))
