"""A build says what readers are told otherwise, of recipes that nobody edited above all."""

from __future__ import annotations

from pathlib import Path

import pytest
from click.testing import CliRunner

from sitegen.building.build import build
from sitegen.cli import main
from tests.sites import SOUP, recipe, write, write_site

FOODS = "content/larder/ours.yaml"
BISCUITS = """\
foods:
  - name: harbour biscuits
    source: the packet
    per 100 g: {energy_kcal: 440, protein_g: 10, fat_g: 18, carbohydrate_g: 56}
    measures: {1 cup: 110 g}
    contains: [wheat]
"""
KEEPING = "\n## Keeping\n\nThree days.\n"
STEW = "content/recipes/stew.md"


def site(tmp_path: Path, ingredient: str = "1 cup harbour biscuits") -> Path:
    files = {SOUP: recipe(ingredient=ingredient), FOODS: BISCUITS}
    return write_site(tmp_path, files)


def test_the_first_build_has_nothing_to_compare_with(tmp_path: Path) -> None:
    assert build(site(tmp_path)).changes.recipes == ()


def test_a_food_that_was_mended_is_told_of_every_dish_that_it_is_in(tmp_path: Path) -> None:
    folder = site(tmp_path)
    build(folder)
    mended = BISCUITS.replace("[wheat]", "[wheat, soya]").replace("110 g", "120 g")
    write(folder / FOODS, mended.replace("440", "500"))
    changes = build(folder).changes
    (one,) = changes.recipes
    assert one.file == SOUP
    assert one.harm == ("contains soybeans now",)
    assert any(said.startswith("Energy") and "was" in said for said in one.figures)
    assert "beside “1 cup harbour biscuits”: 120 g, was 110 g" in one.figures
    assert changes.since == (FOODS,)
    assert build(folder).changes.recipes == ()


def test_of_a_recipe_that_was_edited_only_what_can_harm_is_told(tmp_path: Path) -> None:
    folder = site(tmp_path, "200 g red lentils")
    build(folder)
    write(folder / SOUP, recipe(ingredient="300 g red lentils"))
    assert build(folder).changes.recipes == ()
    write(folder / SOUP, recipe(ingredient="200 g butter"))
    (one,) = build(folder).changes.recipes
    assert any("milk" in said for said in one.harm)
    assert "is no longer vegan" in one.harm
    assert one.figures == ()


def test_an_edited_recipe_is_named_where_it_is_an_ingredient(tmp_path: Path) -> None:
    folder = site(tmp_path, "200 g red lentils")
    write(folder / STEW, recipe("Stew", ingredient="200 g [soup](lentil-soup.md)"))
    build(folder)
    write(folder / SOUP, recipe(ingredient="200 g butter"))
    changes = build(folder).changes
    told = {one.file: one for one in changes.recipes}
    assert told[STEW].edited == (SOUP,)
    assert told[STEW].figures
    assert told[SOUP].edited == ()
    assert changes.since == ()


DAMAGED = (
    "",
    "{",
    "[]",
    '{"form": 1}',
    '{"form": 1, "recipes": 4}',
    '{"form": 0, "recipes": {}}',
    '{"form": 1, "rests on": {}, "recipes": {"content/recipes/lentil-soup.md": ["x"]}}',
    '{"form": 1, "rests on": {}, "recipes": {"content/recipes/lentil-soup.md": ["x", {}]}}',
)


def test_an_edited_recipe_is_named_however_far_down(tmp_path: Path) -> None:
    folder = site(tmp_path, "200 g red lentils")
    pie = "content/recipes/pie.md"
    write(folder / STEW, recipe("Stew", ingredient="200 g [soup](lentil-soup.md)"))
    write(folder / pie, recipe("Pie", ingredient="200 g [stew](stew.md)"))
    build(folder)
    write(folder / SOUP, recipe(ingredient="200 g butter"))
    told = {one.file: one for one in build(folder).changes.recipes}
    assert told[pie].edited == (SOUP,)


def test_a_doubt_that_went_with_its_ingredient_is_not_called_known(tmp_path: Path) -> None:
    folder = site(tmp_path, "200 g quandong dust")
    build(folder)
    write(folder / SOUP, recipe(ingredient="200 g red lentils"))
    (one,) = build(folder).changes.recipes
    assert "is no longer in doubt for quandong dust" in one.harm


def test_an_allergen_that_only_a_swap_brings_is_told(tmp_path: Path) -> None:
    line = "200 g red lentils"
    folder = site(tmp_path, line)
    build(folder)
    swapped = recipe(ingredient=line).replace(
        "    as: extra", "    as: extra\n    swap: 200 g butter"
    )
    write(folder / SOUP, swapped)
    (one,) = build(folder).changes.recipes
    assert any(said.startswith("swaps now bring milk") for said in one.harm)


@pytest.mark.parametrize("kept", DAMAGED)
def test_what_was_kept_may_be_damaged(tmp_path: Path, kept: str) -> None:
    folder = site(tmp_path)
    build(folder)
    file = folder / ".sitegen" / "kept" / "told.json"
    whole = file.read_bytes()
    write(file, kept)
    write(folder / SOUP, recipe(ingredient="1 cup harbour biscuits", more=KEEPING))
    report = build(folder)
    assert report.done
    assert report.changes.recipes == ()
    assert len(file.read_bytes()) == len(whole)


def test_the_same_site_tells_the_same_whatever_was_kept(tmp_path: Path) -> None:
    """What an incremental build tells is what a clean one would."""
    folder = site(tmp_path)
    build(folder)
    write(folder / FOODS, BISCUITS.replace("110 g", "120 g"))
    build(folder)
    file = folder / ".sitegen" / "kept" / "told.json"
    incremental = file.read_bytes()
    for left in (folder / ".sitegen" / "kept").iterdir():
        left.unlink()
    build(folder)
    assert file.read_bytes() == incremental


def test_the_command_says_it(tmp_path: Path) -> None:
    more = {f"content/recipes/soup-{n}.md": recipe(f"Soup {n}") for n in range(3)}
    folder = write_site(tmp_path, {SOUP: recipe(ingredient="1 cup harbour biscuits"), **more})
    write(folder / FOODS, BISCUITS)
    run = CliRunner()
    run.invoke(main, ["build", "--site", str(folder)], catch_exceptions=False)
    write(folder / FOODS, BISCUITS.replace("[wheat]", "[wheat, soya]"))
    said = run.invoke(main, ["build", "--site", str(folder)], catch_exceptions=False).output
    assert "Readers are told otherwise than by the last build:" in said
    assert f"  {SOUP}\n    contains" in said
    assert "soup-1" not in said
    assert f"Changed since then: {FOODS}." in said


def test_a_long_list_is_kept_in_a_file(tmp_path: Path) -> None:
    soups = {
        f"content/recipes/soup-{n}.md": recipe(f"Soup {n}", ingredient="1 cup harbour biscuits")
        for n in range(20)
    }
    folder = write_site(tmp_path, {**soups, FOODS: BISCUITS})
    run = CliRunner()
    run.invoke(main, ["build", "--site", str(folder)], catch_exceptions=False)
    write(folder / FOODS, BISCUITS.replace("[wheat]", "[wheat, soya]"))
    said = run.invoke(main, ["build", "--site", str(folder)], catch_exceptions=False).output
    assert "… and 8 more recipes; all of it is in .sitegen/changes.txt." in said
    assert (folder / ".sitegen" / "changes.txt").read_text("utf-8").count("soybeans") == 20
