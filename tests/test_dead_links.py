"""Links to pages of the site that do not exist, and to places that they do not have, are found."""

from __future__ import annotations

from pathlib import Path

import pytest

from sitegen.gathering import Gatherer
from sitegen.problems import Problem
from tests.sites import SITE, SOUP, recipe, write, write_site

MORE = "\n## Keeping\n\nAs for {}, it keeps.\n\n## Questions\n\n### Does it freeze?\n\nIt does.\n"
PAGE = "---\ntitle: About\n---\nSee {} for more.\n"
BREAD = "content/recipes/breads/rye.md"
FILES = {
    BREAD: recipe("Rye").replace("course: soup", "course: soup\ntags: [winter, One pot]"),
    "content/pages/safety.md": "---\ntitle: Safety\n---\nWords.\n",
}


def said_of(folder: Path, link: str, *, page: bool = False, site: str = SITE) -> list[Problem]:
    """What is said of a link, in a recipe's text or on a plain page."""
    where = "content/pages/about.md" if page else SOUP
    text = PAGE.format(link) if page else recipe(more=MORE.format(link))
    files = {**FILES, where: text, "content/site.yaml": site}
    return list(Gatherer(write_site(folder, files)).gather(drafts=False).problems)


@pytest.mark.parametrize(
    ("link", "rule", "column", "length", "hint"),
    [
        ("[x](nowhere.html)", "link-missing", 12, 12, "by its file"),
        ("[x](rey.html)", "link-missing", 12, 8, "'breads/rye.md'"),
        ("[x](/recipes/rhye.html)", "link-missing", 12, 18, "'breads/rye.md'"),
        (
            "[x](https://kitchen.example/recipes/rhye.html)",
            "link-missing",
            12,
            41,
            "'breads/rye.md'",
        ),
        ("[x](../safty.html)", "link-missing", 12, 13, "'../pages/safety.md'"),
        ("[x](rye)", "link-missing", 12, 3, "'breads/rye.md'"),
        ("[x](breads/rye.html)", "link-missing", 12, 15, "'breads/rye.md'"),
        ("[x](../tags/wintry.html)", "link-missing", 12, 19, "'../tags/winter.html'"),
        ("[x](menu.pdf)", "link-missing", 12, 8, "by its file"),
        ('[x](<nowhere.html> "words")', "link-missing", 13, 12, "by its file"),
        ("[x](rye.html#keepin)", "link-place-missing", 12, 15, "as a whole"),
        ("[x](breads/rye.md#keepin)", "link-place-missing", 12, 20, "as a whole"),
        ("[x](#keepin)", "link-place-missing", 12, 7, "'#keeping'"),
        ("[x](#step-2)", "link-place-missing", 12, 7, "'#step-1'"),
        ("[x](../pages/safety.md#words)", "link-place-missing", 12, 24, "plain pages"),
        ("[x](breads/rhye.md#keeping)", "link-missing", 12, 14, "'breads/rye.md'"),
    ],
)
def test_a_link_that_leads_nowhere_is_found_at_its_place(
    tmp_path: Path, link: str, rule: str, column: int, length: int, hint: str
) -> None:
    (found,) = said_of(tmp_path, link)
    assert (found.file, found.rule, found.line, found.column, found.length) == (
        SOUP, rule, 23, column, length
    )  # fmt: skip
    assert hint in found.hint
    assert found.severity == ("error" if rule == "link-missing" else "advice")


@pytest.mark.parametrize(
    ("link", "rule"),
    [
        ("[x](nowhere.html)", "link-missing"),
        ("[x](rye.html)", "link-missing"),
        ("[x](/nope/)", "link-missing"),
        ("[x](recipes/rye.html#nowhere)", "link-place-missing"),
        ("[x](#words)", "link-place-missing"),
    ],
)
def test_a_plain_page_is_looked_at_from_where_it_stands(
    tmp_path: Path, link: str, rule: str
) -> None:
    (found,) = said_of(tmp_path, link, page=True)
    assert (found.file, found.rule, found.line, found.column) == (
        "content/pages/about.md", rule, 4, 9
    )  # fmt: skip


@pytest.mark.parametrize(
    "link",
    [
        "[x](rye.html)", "[x](./rye.html?serves=3)", "[x](rye-card.html)", "[x](/recipes/rye.html)",
        "[x](/)", "[x](../)", "[x](./)", "[x](index.html)", "[x](../safety.html)", "[x](../feed.xml)",
        "[x](https://kitchen.example/recipes/rye.html)", "[x](https://kitchen.example)",
        "[x](https://elsewhere.example/nope.html)", "[x](mailto:ada@kitchen.example)",
        "[x](//elsewhere.example/nope.html)", "[x](../tags/winter.html)", "[x](../tags/one-pot.html)",
        "[x](../courses/soup.html)", "[x](../authors/ada.html)", "[x](../courses/soup/2.html)",
        "[x](../diets/vegan.html)", "[x](../ingredients/onions.html)", "[x](../without/milk.html)",
        "[x](breads/rye.md)", "[x](breads/rye.md#method)", "[x](rye.html#step-1)", "[x](#keeping)",
        "[x](#q-does-it-freeze)", "[x](#ingredients)", "[x](#step-1)", "[x](../pages/safety.md#main)",
        "`[x](nowhere.html)`", "\\[x](nowhere.html)", "![x](nowhere.html)", "x](nowhere.html)",
    ],
)  # fmt: skip
def test_what_leads_somewhere_or_out_of_the_site_is_left_alone(tmp_path: Path, link: str) -> None:
    rules = {p.rule for p in said_of(tmp_path, link)}
    assert not rules & {"link-missing", "link-place-missing", "link-draft"}


def test_a_site_under_a_path_knows_which_addresses_are_its_own(tmp_path: Path) -> None:
    site = SITE.replace("https://kitchen.example", "https://kitchen.example/food")
    assert (
        said_of(tmp_path, "[x](/recipes/rye.html)", site=site) == []
    )  # the host's, not the site's
    assert said_of(tmp_path, "[x](/food/recipes/rye.html)", site=site) == []
    (found,) = said_of(tmp_path, "[x](/food/recipes/nope.html)", site=site)
    assert found.rule == "link-missing"


def test_a_draft_is_no_page_for_readers(tmp_path: Path) -> None:
    files = {
        BREAD: recipe("Rye").replace("published: 2026-02-03\n", ""),
        SOUP: recipe(more=MORE.format("[x](rye.html)")),
    }
    found = Gatherer(write_site(tmp_path, files)).gather(drafts=True).problems
    assert [(p.rule, p.line, p.column) for p in found] == [("link-draft", 23, 12)]


def test_a_file_that_goes_or_comes_changes_what_is_said_of_links_to_it(tmp_path: Path) -> None:
    files = {
        **FILES,
        SOUP: recipe(more=MORE.format("[x](rye.html#method) and [y](../tags/winter.html)")),
    }
    gatherer = Gatherer(write_site(tmp_path, files))
    assert gatherer.gather(drafts=False).problems == ()
    (tmp_path / BREAD).unlink()
    found = gatherer.gather(drafts=False, changed=[BREAD]).problems
    assert [p.rule for p in found] == ["link-missing", "link-missing"]
    write(tmp_path / BREAD, FILES[BREAD])
    assert gatherer.gather(drafts=False, changed=[BREAD]).problems == ()
    write(
        tmp_path / BREAD,
        FILES[BREAD].replace("## Method", "## Method\n").replace("winter", "summer"),
    )
    found = gatherer.gather(drafts=False, changed=[BREAD]).problems
    assert [p.rule for p in found] == ["link-missing"]


def test_of_some_files_their_links_to_recipes_are_held_against_the_whole_site(
    tmp_path: Path,
) -> None:
    files = {
        **FILES,
        SOUP: recipe(more=MORE.format("[x](rye.html), [y](rey.html), [z](../tags/no.html)")),
    }
    found = Gatherer(write_site(tmp_path, files)).gather(drafts=False, only=[SOUP]).problems
    assert [(p.rule, p.column) for p in found] == [("link-missing", 27)]
