"""Gathering a site: every problem of every file in one run, and nothing hides anything else."""

from __future__ import annotations

import os
import random
import shutil
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from PIL import Image

from sitegen.gathering import Gathered, Gatherer
from sitegen.kitchen.work_out import work_out
from sitegen.problems import Problem
from sitegen.reading.read import read_recipe
from tests.sites import SITE, SOUP, recipe, write, write_site


def gather(folder: Path, *, drafts: bool = False, only: list[str] | None = None) -> Gathered:
    return Gatherer(folder).gather(drafts=drafts, only=only)


def of(file: str, problems: tuple[Problem, ...]) -> list[str]:
    return [p.rule for p in problems if p.file == file]


def test_a_sound_site_has_no_problems(tmp_path: Path) -> None:
    gathered = gather(write_site(tmp_path))
    assert gathered.problems == ()
    assert list(gathered.collection.dishes) == ["lentil-soup"]


BROKEN: dict[str, tuple[str | bytes, str, int]] = {
    "empty": ("", "file-empty", 0),
    "blank": (" \n\n", "file-empty", 0),
    "latin": (recipe("Cr\xe8me").encode("latin-1"), "file-not-utf-8", 2),
    "wide": (recipe().encode("utf-16"), "file-not-utf-8", 0),
    "large": (recipe() + "x" * 1_000_000, "file-large", 0),
    "unfenced": (recipe().removeprefix("---\n"), "fence", 1),
    "tab": (recipe().replace("serves: 4", "serves:\n\t4"), "tab", 8),
    "field": (recipe().replace("summary:", "sumary:"), "unknown-field", 3),
    "amount": (recipe(ingredient="1/0 cup lentils"), "", 12),
    "mention": (recipe().replace("[onion]", "[union]"), "", 19),
    "author": (recipe().replace("author: ada", "author: eve"), "author-unknown", 5),
    "elsewhere": (
        recipe("Elsewhere", ingredient='"100 g [sauce](nowhere.md)"'),
        "reference-missing",
        12,
    ),
}


def test_many_broken_files_give_as_many_sets_of_problems_and_hide_nothing(tmp_path: Path) -> None:
    files = {f"content/recipes/{name}.md": text for name, (text, _, _) in BROKEN.items()}
    gathered = gather(write_site(tmp_path, files))
    for name, (_, rule, line) in BROKEN.items():
        found = [p for p in gathered.problems if p.file == f"content/recipes/{name}.md"]
        assert found, name
        assert all(p.severity == "error" for p in found), name
        if rule:
            assert rule in {p.rule for p in found}, name
        assert line in {p.line for p in found}, name
    assert of(SOUP, gathered.problems) == []
    assert list(gathered.collection.dishes) == ["lentil-soup"]
    # What can be understood and worked out is shown in the preview, with what is wrong over it.
    assert set(gathered.unserved) == set(BROKEN) - {"elsewhere"}
    assert set(gather(tmp_path, drafts=True).collection.dishes) == {"lentil-soup", "elsewhere"}


def test_problems_come_by_file_and_line(tmp_path: Path) -> None:
    files = {f"content/recipes/{name}.md": text for name, (text, _, _) in BROKEN.items()}
    found = gather(write_site(tmp_path, files)).problems
    assert list(found) == sorted(found, key=lambda p: (p.file, p.line, p.column))


def test_a_file_that_may_not_be_opened_is_a_problem_of_its_own(tmp_path: Path) -> None:
    folder = write_site(tmp_path)
    (folder / "content" / "recipes" / "folder.md").mkdir()
    (folder / "content" / "recipes" / "nowhere.md").symlink_to(tmp_path / "gone")
    (tmp_path.parent / "outside.md").write_text(recipe())
    (folder / "content" / "recipes" / "out.md").symlink_to(tmp_path.parent / "outside.md")
    found = gather(folder).problems
    assert [(p.file, p.rule) for p in found] == [
        ("content/recipes/nowhere.md", "file-unreadable"),
        ("content/recipes/out.md", "file-outside"),
    ]


def test_two_recipes_with_one_address_are_a_problem_of_both(tmp_path: Path) -> None:
    other = "content/recipes/soups/Lentil Soup.md"
    gathered = gather(write_site(tmp_path, {other: recipe("Another soup")}))
    assert of(SOUP, gathered.problems) == ["same-address"]
    assert of(other, gathered.problems) == ["same-address"]
    for problem in gathered.problems:
        assert (other if problem.file == SOUP else SOUP) in problem.message


@pytest.mark.parametrize(
    "file",
    ["content/recipes/index.md", "content/recipes/lentil-soup-card.md", "content/pages/search.md"],
)
def test_addresses_of_the_sites_own_pages_are_taken(tmp_path: Path, file: str) -> None:
    page = "---\ntitle: A page\n---\nText.\n"
    text = page if "pages" in file else recipe("Another")
    assert of(file, gather(write_site(tmp_path, {file: text})).problems) == ["taken-address"]


def test_a_recipe_is_worked_out_with_the_one_it_uses(tmp_path: Path) -> None:
    files = {
        "content/recipes/a-dish.md": recipe(
            "A dish", ingredient='"120 g [stock](sauces/zest.md)"'
        ).replace("author: ada\n", ""),
        "content/recipes/sauces/zest.md": recipe("Zest").replace(
            "serves: 4", "serves: 4\nweighs: 1 kg"
        ),
    }
    gathered = gather(write_site(tmp_path, files))
    assert gathered.problems == ()
    assert gathered.collection.dishes["a-dish"].uses == ("zest",)
    assert gathered.collection.used_in == {"zest": ("a-dish",)}


def test_a_reference_to_nothing_is_said_once_with_the_nearest_file(tmp_path: Path) -> None:
    files = {
        "content/recipes/dish.md": recipe("Dish", ingredient='"120 g [stock](zest.md)"'),
        "content/recipes/sauces/zest.md": recipe("Zest"),
    }
    found = gather(write_site(tmp_path, files)).problems
    assert [(p.rule, p.line) for p in found] == [("reference-missing", 12)]
    assert "'sauces/zest.md'" in found[0].hint


def test_recipes_that_need_each_other_are_named_and_others_are_served(tmp_path: Path) -> None:
    def uses(name: str, other: str) -> str:
        return recipe(name, ingredient=f'"100 g [{other}]({other}.md)"')

    files = {
        "content/recipes/a.md": uses("A", "b"),
        "content/recipes/b.md": uses("B", "c"),
        "content/recipes/c.md": uses("C", "a"),
        "content/recipes/self.md": uses("Self", "self"),
    }
    gathered = gather(write_site(tmp_path, files))
    rounds = {p.file: p.message for p in gathered.problems if p.rule == "reference-round"}
    assert set(rounds) == set(files)
    assert "a → b → c → a" in rounds["content/recipes/a.md"]
    assert "self → self" in rounds["content/recipes/self.md"]
    assert list(gathered.collection.dishes) == ["lentil-soup"]


def test_a_recipe_that_uses_a_broken_one_says_so_and_the_broken_one_says_why(
    tmp_path: Path,
) -> None:
    files = {
        "content/recipes/dish.md": recipe("Dish", ingredient='"120 g [stock](zest.md)"'),
        "content/recipes/zest.md": recipe("Zest").replace("serves: 4", "serves: some"),
    }
    gathered = gather(write_site(tmp_path, files))
    assert of("content/recipes/zest.md", gathered.problems) == ["wrong-type"]
    assert of("content/recipes/dish.md", gathered.problems) == ["reference-broken"]


HEAVY = "weighs: 2 kg\ncourse: soup"


def test_what_follows_from_another_recipes_mistake_is_not_said_again(tmp_path: Path) -> None:
    """Nine tenths of the dish are a recipe that has errors: its weight and figures can't be judged."""
    silent = "course: soup\nsilence:\n  - {rule: nutrition-gaps, why: a test}"
    files = {
        "content/recipes/top.md": recipe("Top", ingredient='"4 kg [dish](dish.md)"'),
        "content/recipes/dish.md": recipe("Dish", ingredient='"4 kg [stock](zest.md)"').replace(
            "course: soup", HEAVY
        ),
        "content/recipes/hushed.md": recipe("Hushed", ingredient='"4 kg [stock](zest.md)"').replace(
            "course: soup", silent
        ),
        "content/recipes/zest.md": recipe("Zest").replace("serves: 4", "serves: some"),
    }
    gathered = gather(write_site(tmp_path, files))
    assert of("content/recipes/zest.md", gathered.problems) == ["wrong-type"]
    assert of("content/recipes/dish.md", gathered.problems) == ["reference-broken"]
    assert of("content/recipes/hushed.md", gathered.problems) == ["reference-broken"]
    assert of("content/recipes/top.md", gathered.problems) == []


def test_gaps_in_the_figures_of_a_recipe_are_said_where_they_are(tmp_path: Path) -> None:
    unknown = '"2 kg xylocarp"'
    files = {
        "content/recipes/dish.md": recipe("Dish", ingredient='"3 kg [paste](paste.md)"'),
        "content/recipes/own.md": recipe("Own", ingredient='"900 g xylocarp"'),
        "content/recipes/paste.md": recipe("Paste", ingredient=unknown),
    }
    gathered = gather(write_site(tmp_path, files))
    assert of("content/recipes/paste.md", gathered.problems) == ["nutrition-gaps", "food-unknown"]
    assert "nutrition-gaps" in of("content/recipes/own.md", gathered.problems)
    assert "nutrition-gaps" not in of("content/recipes/dish.md", gathered.problems)


def test_a_mended_recipe_brings_back_what_is_said_of_those_made_with_it(tmp_path: Path) -> None:
    zest = "content/recipes/zest.md"
    files = {
        "content/recipes/dish.md": recipe("Dish", ingredient='"100 g [stock](zest.md)"').replace(
            "course: soup", "weighs: 5 kg\ncourse: soup"
        ),
        zest: recipe("Zest").replace("serves: 4", "serves: some"),
    }
    gatherer = Gatherer(write_site(tmp_path, files))
    broken = gatherer.gather(drafts=False)
    assert of("content/recipes/dish.md", broken.problems) == ["reference-broken"]
    write(tmp_path / zest, recipe("Zest"))
    mended = gatherer.gather(drafts=False, changed=[zest])
    assert "yield-weight" in of("content/recipes/dish.md", mended.problems)


DRAFT = recipe("Draft").replace("published: 2026-02-03\n", "")


def test_a_draft_is_in_the_preview_only(tmp_path: Path) -> None:
    folder = write_site(tmp_path, {"content/recipes/draft.md": DRAFT})
    assert "draft" in gather(folder, drafts=True).collection.dishes
    assert "draft" not in gather(folder).collection.dishes
    assert gather(folder).drafts == 1


def test_a_broken_draft_is_told_of_and_keeps_nothing_from_being_built(tmp_path: Path) -> None:
    broken = DRAFT.replace("serves: 4", "serve: 4")
    gathered = gather(write_site(tmp_path, {"content/recipes/draft.md": broken}))
    assert of("content/recipes/draft.md", gathered.problems)
    assert gathered.blocking == ()


def test_what_readers_have_must_not_lead_to_a_draft(tmp_path: Path) -> None:
    files = {
        "content/recipes/draft.md": DRAFT.replace("serves: 4", "serves: 4\nweighs: 1 kg"),
        "content/recipes/dish.md": recipe("Dish", ingredient='"120 g [stock](draft.md)"'),
        "content/pages/about.md": "---\ntitle: About\n---\nSee [this](../recipes/draft.md#method).\n",
    }
    gathered = gather(write_site(tmp_path, files))
    assert {(p.file, p.rule, p.line) for p in gathered.blocking} == {
        ("content/recipes/dish.md", "reference-draft", 12),
        ("content/pages/about.md", "link-draft", 4),
    }


def test_a_link_to_a_file_that_is_not_there_is_found_at_its_place(tmp_path: Path) -> None:
    more = "\n## Keeping\n\nAs for [the other](lentil-soop.md), or [this](lentil-soup.md).\n"
    found = gather(write_site(tmp_path, {SOUP: recipe(more=more)})).problems
    assert [(p.rule, p.line, p.column, p.length) for p in found] == [("link-missing", 23, 20, 14)]
    assert "'lentil-soup.md'" in found[0].hint


@pytest.mark.parametrize(
    ("picture", "rule", "column", "length"),
    [
        ("![like this](bowl.jpg)", "photo-missing", 23, 8),
        ("![](bowl.jpg)", "picture-undescribed", 14, 8),
        ("![like this](https://pictures.example/bowl.jpg)", "picture-elsewhere", 23, 33),
        ("![like this](../../../../bowl.jpg)", "photo-outside", 23, 20),
    ],
)
def test_a_picture_in_the_text_that_no_page_can_show_is_found_at_its_place(
    tmp_path: Path, picture: str, rule: str, column: int, length: int
) -> None:
    page = f"---\ntitle: About\n---\nAs\n\n{picture}\n"
    more = f"\n## Keeping\n\nIt looks {picture} the day after.\n"
    files = {SOUP: recipe(more=more), "content/pages/about.md": page}
    found = gather(write_site(tmp_path, files)).problems
    assert [(p.file, p.rule, p.line, p.column, p.length) for p in found] == [
        ("content/pages/about.md", rule, 6, column - 9, length),
        (SOUP, rule, 23, column, length),
    ]
    assert all(p.hint for p in found)


def test_a_drafts_pictures_are_not_among_those_of_the_site(tmp_path: Path) -> None:
    Image.new("RGB", (600, 400), "teal").save(_ready(tmp_path) / "bowl.png")
    shown = recipe(more="\n## Keeping\n\n![A bowl, half empty](bowl.png)\n")
    hidden = shown.replace("published: ", "# published: ")
    key = "content/recipes/bowl.png"
    assert key in gather(write_site(tmp_path, {SOUP: shown})).photographs
    site = write_site(tmp_path, {SOUP: hidden})
    assert Gatherer(site).gather(drafts=False).photographs == {}
    assert key in Gatherer(site).gather(drafts=True).photographs


def _ready(folder: Path) -> Path:
    (folder / "content" / "recipes").mkdir(parents=True)
    return folder / "content" / "recipes"


def test_only_the_files_asked_for_are_told_of(tmp_path: Path) -> None:
    files = {f"content/recipes/{name}.md": text for name, (text, _, _) in BROKEN.items()}
    folder = write_site(tmp_path, files)
    for file in (folder / "content" / "recipes").iterdir():
        os.utime(file, (10**9, 10**9))  # written long ago
    found = gather(folder, only=["content/recipes/tab.md"]).problems
    assert {p.file for p in found} == {"content/recipes/tab.md"}
    assert gather(folder, only=["content/recipes"]).problems == gather(folder).problems


def test_settings_that_are_wrong_hide_nothing_in_the_recipes(tmp_path: Path) -> None:
    files = {
        "content/site.yaml": SITE + "regoin: uk\nunits: imperial\n",
        "content/recipes/tab.md": BROKEN["tab"][0],
    }
    found = gather(write_site(tmp_path, files)).problems
    assert {(p.file, p.line) for p in found} == {
        ("content/site.yaml", 5),
        ("content/site.yaml", 6),
        ("content/recipes/tab.md", 8),
    }


@pytest.mark.parametrize(
    "file",
    [
        "content/soup.md",
        "content/recipes/soup.MD",
        "content/recipes/soup.markdown",
        "content/larder/own.yml",
        "content/site.yml",
    ],
)
def test_a_file_that_is_not_read_where_it_stands_is_pointed_at(tmp_path: Path, file: str) -> None:
    others = {"content/README.md": "For us.", "content/pictures/notes.md": "For us."}
    found = gather(write_site(tmp_path, {file: recipe("Stray"), **others})).problems
    assert [(p.file, p.rule, p.severity) for p in found] == [(file, "file-stray", "advice")]


def test_a_fault_of_the_program_in_one_recipe_leaves_the_others(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def failing(name: str, real: Callable[..., Any]) -> Callable[..., Any]:
        def maybe(first: Any, *rest: Any) -> Any:
            if first.file.endswith(f"/{name}.md"):
                raise ZeroDivisionError("a fault of ours")
            return real(first, *rest)

        return maybe

    monkeypatch.setattr("sitegen.gathering.reads.read_recipe", failing("one", read_recipe))
    monkeypatch.setattr("sitegen.gathering.dishes.work_out", failing("two", work_out))
    files = {f"content/recipes/{name}.md": recipe(name) for name in ("one", "two")}
    gathered = gather(write_site(tmp_path, files))
    assert list(gathered.collection.dishes) == ["lentil-soup"]
    assert [(p.file, p.rule) for p in gathered.blocking] == [
        ("content/recipes/one.md", "program-fault"),
        ("content/recipes/two.md", "program-fault"),
    ]


FOOD = """\
foods:
  - name: harbour biscuit
    source: the label of the packet
    per 100 g: {energy_kcal: 441, fat_g: 18.1}
    aisle: bakery
    traits: [weighed]
"""


def test_the_sites_own_foods_are_used_and_their_mistakes_found(tmp_path: Path) -> None:
    bad = FOOD.replace("harbour", "other").replace("bakery", "bakry")
    folder = write_site(
        tmp_path,
        {
            "content/larder/own.yaml": FOOD,
            "content/larder/wrong.yaml": bad,
            SOUP: recipe(ingredient="100 g harbour biscuit"),
        },
    )
    gathered = gather(folder)
    assert [(p.file, p.rule, p.line) for p in gathered.problems] == [
        ("content/larder/wrong.yaml", "larder-food", 5)
    ]
    row = gathered.collection.dishes["lentil-soup"].rows[2]
    assert row.larder_name == "harbour biscuit"


def test_a_gatherer_with_a_memory_finds_what_a_fresh_one_finds(tmp_path: Path) -> None:
    """After any edits: changes, breaks, renames, removals, other settings and foods."""
    chance = random.Random(7)
    folder = write_site(tmp_path)
    known = Gatherer(folder)
    names = [f"content/recipes/{name}.md" for name in ("a", "b", "c", "deep/d")]
    texts: list[str | bytes] = [text for text, _, _ in BROKEN.values()]
    texts += [recipe(f"Title {n}") for n in range(4)]
    texts += [recipe("User", ingredient=f'"100 g [x]({name}.md)"') for name in "abc"]
    texts += [DRAFT, recipe("Heavy").replace("serves: 4", "serves: 4\nweighs: 1 kg")] * 3
    for _ in range(40):
        name = chance.choice(names)
        if chance.random() < 0.2:
            (folder / name).unlink(missing_ok=True)
        else:
            write(folder / name, chance.choice(texts))
        if chance.random() < 0.1:
            write(
                folder / "content/site.yaml", SITE + chance.choice(["region: us\n", "", "x: y\n"])
            )
        drafts = chance.random() < 0.5
        assert known.gather(drafts=drafts) == Gatherer(folder).gather(drafts=drafts)


def test_a_gatherer_that_is_told_what_changed_finds_what_a_fresh_one_finds(tmp_path: Path) -> None:
    """After any edits, one or a few at a time, of files and of whole folders."""
    chance = random.Random(11)
    folder = write_site(
        tmp_path, {"content/pages/about.md": "---\ntitle: A\n---\n[x](../recipes/a.md)"}
    )
    known = Gatherer(folder)
    known.gather(drafts=True)
    names = [f"content/recipes/{name}.md" for name in ("a", "b", "c", "deep/d", "deep/b")]
    texts: list[str | bytes] = [text for text, _, _ in BROKEN.values()]
    texts += [recipe(f"Title {n}") for n in range(4)]
    texts += [recipe("User", ingredient=f'"100 g [x]({name}.md)"') for name in "abc"]
    texts += [recipe("Bowl", more="\n## Keeping\n\n![A bowl](bowl.png), [this](b.md).\n")]
    texts += [
        recipe("Shown").replace("serves: 4", "serves: 4\nphoto: {file: bowl.png, alt: A bowl}")
    ]
    texts += [DRAFT, recipe("Heavy").replace("serves: 4", "serves: 4\nweighs: 1 kg")] * 4
    log = "content/recipes/a.trials.yaml"
    for _ in range(120):
        changed = set()
        for _ in range(chance.choice((0, 1, 1, 1, 3))):
            name = chance.choice([*names, *names, *names, "photo", log, "larder", "site", "folder"])
            if name == "folder":
                name = "content/recipes/deep"
                shutil.rmtree(folder / name, ignore_errors=True)
            elif name == "photo":
                name = "content/recipes/bowl.png"
                if (folder / name).exists():
                    (folder / name).unlink()
                else:
                    Image.new("RGB", (600, 400), "teal").save(folder / name)
            elif name == log:
                write(folder / log, "trials: [{}]\n" if chance.random() < 0.5 else "none\n")
            elif name == "larder":
                name = "content/larder/own.yaml"
                write(folder / name, FOOD.replace("441", str(chance.randint(400, 500))))
            elif name == "site":
                name = "content/site.yaml"
                left_out = (
                    "without cautions: [{recipe: lentil-sop, caution: egg, why: x, signed: A}]\n"
                )
                write(folder / name, SITE + chance.choice(["region: us\n", "", left_out]))
            elif chance.random() < 0.2:
                (folder / name).unlink(missing_ok=True)
            else:
                write(folder / name, chance.choice(texts))
            changed.add(name)
        found = known.gather(drafts=True, changed=changed)
        fresh = Gatherer(folder).gather(drafts=True)
        assert found.problems == fresh.problems
        assert list(found.collection.dishes) == list(fresh.collection.dishes)
        assert list(found.photographs) == list(fresh.photographs)
        assert replace(found, larder=None) == replace(fresh, larder=None)


def test_a_food_in_two_larder_files_is_told(tmp_path: Path) -> None:
    food = "foods: [{name: harbour chutney, source: a jar}]\n"
    files = {"content/larder/a.yaml": food, "content/larder/b.yaml": food}
    problems = gather(write_site(tmp_path, files)).problems
    assert [(p.file, p.rule) for p in problems] == [("content/larder/b.yaml", "larder-food")]
    assert "content/larder/a.yaml" in problems[0].message


def test_a_menu_entry_that_leads_nowhere_is_pointed_out(tmp_path: Path) -> None:
    entries = [
        "recipes", "home", "recipes/lentil-soup.md", "recipes/lentil-soup.html", "courses/soup",
        "pages/about.md", "about", "about.html#team", "/search.html", "lists/index.html",
        "https://elsewhere.example/", "without/milk", "feed.xml",
        "recipes/lentil-sop.html", "courses/supe", "nowhere.html", "pages/abuot.md",
    ]  # fmt: skip
    menu = "menu:\n" + "".join(f"  - Entry {n}: {to}\n" for n, to in enumerate(entries))
    about = "---\ntitle: About\n---\nWe cook.\n"
    folder = write_site(
        tmp_path, {"content/site.yaml": SITE + menu, "content/pages/about.md": about}
    )
    found = Gatherer(folder).gather(drafts=False).problems
    first = SITE.count("\n") + 2
    assert [(p.rule, p.line - first) for p in found] == [
        ("menu-dead-end", n) for n in range(13, 17)
    ]
    assert "did you mean 'recipes/lentil-soup.html'?" in found[0].hint
    assert all(p.column > 10 for p in found)
