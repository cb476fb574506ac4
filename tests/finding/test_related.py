"""Related recipes: alike, never the same, and always in the same order."""

from __future__ import annotations

from pathlib import Path

from sitegen.finding.related import SHOWN, Relations
from sitegen.gathering import Gatherer
from tests.dishes import cooked
from tests.sites import recipe, write, write_site

REPO = Path(__file__).parents[2]


def shelf() -> dict:
    made = {
        "leek-soup": ("title: Leek soup\ncourse: soup\ntags: [winter]", ["500 g leeks"]),
        "leek-pie": ("title: Leek pie\ncourse: main", ["500 g leeks", "300 g potatoes"]),
        "apple-cake": ("title: Apple cake\ncourse: baking", ["500 g apples"]),
        "bean-stew": ("title: Bean stew\ntags: [winter]", ["500 g dried haricot beans"]),
        "pear-cake": ("title: Pear cake\ncourse: baking", ["500 g pears"]),
        "rice": ("title: Plain rice", ["500 g basmati rice"]),
    }
    return {slug: cooked(matter, lines, name=slug) for slug, (matter, lines) in made.items()}


def slugs(dishes) -> list[str]:
    return [dish.recipe.slug for dish in dishes]


def test_what_has_the_same_at_its_heart_comes_before_what_shares_a_tag():
    relations = Relations(shelf())
    assert slugs(relations.of("leek-soup")) == ["leek-pie", "bean-stew"]
    assert slugs(relations.of("apple-cake")) == ["pear-cake"]
    assert slugs(relations.of("rice")) == []


def test_what_is_shown_elsewhere_on_the_page_is_left_out():
    relations = Relations(shelf())
    assert slugs(relations.of("leek-soup", but=frozenset({"leek-pie"}))) == ["bean-stew"]


def test_the_demos_relations_never_name_the_dish_itself_and_never_change():
    dishes = Gatherer(REPO).gather(drafts=False).collection.dishes
    first, again = Relations(dishes), Relations(dict(dishes))
    for slug in dishes:
        found = slugs(first.of(slug))
        assert slug not in found
        assert len(set(found)) == len(found) <= SHOWN
        assert found == slugs(again.of(slug))
    assert "leek-omelette" in slugs(first.of("fish-pie"))


def test_on_a_large_site_the_nearest_are_found_among_many_that_are_alike():
    leeks = cooked("title: Leek soup\ncourse: main\ntags: [winter, allotment]", ["500 g leeks"])
    dishes = {}
    for number in range(400):  # all leeks, all mains; one of them a winter dish of the allotment
        slug = f"dish-{number:03}"
        tags = "tags: [winter, allotment]" if number == 397 else "tags: [summer]"
        matter = f"title: Dish {number:03}\ncourse: main\n{tags}"
        dishes[slug] = cooked(matter, ["500 g leeks"], name=slug)
    dishes = {"a-leek-soup": leeks, **dishes}
    found = slugs(Relations(dishes).of("a-leek-soup"))
    assert found == ["dish-397", "dish-000", "dish-001", "dish-002"]


def test_relations_after_an_edit_are_those_found_anew(tmp_path: Path) -> None:
    texts = ("200 g red lentils", "200 g leeks", "1 kg apples")
    files = {
        f"content/recipes/r{n}.md": recipe(f"R {n}", ingredient=texts[n % 3]) for n in range(9)
    }
    gatherer = Gatherer(write_site(tmp_path, files))
    known = Relations(gatherer.gather(drafts=True).collection.dishes)
    edits = {
        "content/recipes/r1.md": recipe("R 1", ingredient=texts[1], more="\n## Note\n\nWords.\n"),
        "content/recipes/r2.md": recipe("R 2", ingredient=texts[1]),
        "content/recipes/r0.md": recipe("Z 0", ingredient=texts[0]),
        "content/recipes/new.md": recipe("New", ingredient=texts[2]),
    }
    for file, text in edits.items():
        write(tmp_path / file, text)
        dishes = gatherer.gather(drafts=True, changed=[file]).collection.dishes
        known = Relations.after(dishes, known)
        fresh = Relations(dishes)
        for slug in dishes:
            assert known.of(slug) == fresh.of(slug)
            assert all(dish is dishes[dish.recipe.slug] for dish in known.of(slug))
