"""The sites that measurements are made on are sound, of the size asked for, and always the same."""

from pathlib import Path

import pytest

from sitegen.gathering import Gatherer
from tests.benchmarks.make_site import make_site


def files(folder: Path) -> dict[str, bytes]:
    return {
        p.relative_to(folder).as_posix(): p.read_bytes() for p in folder.rglob("*") if p.is_file()
    }


def test_every_recipe_of_a_made_site_reads_without_a_problem(tmp_path: Path) -> None:
    make_site(tmp_path, 90, 3)
    gathered = Gatherer(tmp_path).gather(drafts=False)
    assert len(gathered.collection.dishes) == 90
    assert [str(p) for p in gathered.problems] == []
    titles = [dish.recipe.title for dish in gathered.collection.dishes.values()]
    assert len(set(titles)) == 90
    foods = {row.larder_name for dish in gathered.collection.dishes.values() for row in dish.rows}
    demo = Gatherer(Path(__file__).parents[2]).gather(drafts=False).collection
    assert len(foods - {row.larder_name for d in demo.dishes.values() for row in d.rows}) > 15


def test_the_seed_decides_and_a_folder_in_use_is_left_alone(tmp_path: Path) -> None:
    for name, seed in (("one", 1), ("again", 1), ("other", 2)):
        make_site(tmp_path / name, 40, seed)
    assert files(tmp_path / "one") == files(tmp_path / "again")
    assert files(tmp_path / "one") != files(tmp_path / "other")
    with pytest.raises(FileExistsError):
        make_site(tmp_path / "one", 40, 1)
