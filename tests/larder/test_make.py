"""The larder is made of its tables: the same bytes each time, and every mistake in one run."""

from __future__ import annotations

from pathlib import Path

import pytest

from sitegen.larder.make import HERE, main, make

FOOD = "name | ndb | also | contains | is | aisle | traits"


def test_the_same_tables_give_the_bytes_that_are_in_the_repository(sr28_folder: Path) -> None:
    text, mistakes = make(sr28_folder, HERE / "table")
    assert [str(mistake) for mistake in mistakes] == []
    committed = (HERE / "data" / "foods.json").read_bytes()
    assert text.encode("utf-8") == committed
    again, _ = make(sr28_folder, HERE / "table")
    assert again == text


@pytest.fixture
def mistakes_of(sr28_folder: Path, tmp_path: Path):  # type: ignore[no-untyped-def]
    def found(table: str, **others: str) -> list[str]:
        (tmp_path / "table.txt").write_text(table, encoding="utf-8")
        for name, text in others.items():
            (tmp_path / name.replace("_", ".")).write_text(text, encoding="utf-8")
        return [str(mistake) for mistake in make(sr28_folder, tmp_path)[1]]

    return found


@pytest.mark.parametrize(
    ("row", "told"),
    [
        ("plain flour | 99999 | | wheat | gluten | baking | spooned", "SR28 has no food '99999'"),
        ("plain flour | 2008 | | wheat | gluten | baking | spooned", "not a 5-digit"),
        ("plain flour | 20081 | | wheta | gluten | baking | spooned", "did you mean 'wheat'?"),
        ("plain flour | 20081 | | wheat | gluton | baking | spooned", "did you mean 'gluten'?"),
        ("plain flour | 20081 | | wheat | gluten | bakng | spooned", "did you mean 'baking'?"),
        ("plain flour | 20081 | | wheat | gluten | baking | spooned fin", "unknown trait 'fin'"),
        ("plain flour | 20081 | | wheat | gluten | baking | fine", "exactly one of the traits"),
        ("flour | 20081 | | wheat | gluten | baking | spooned weighed", "exactly one of the"),
        ("plain flour | 20081 | | wheat ?wheat | gluten | baking | spooned", "sure and as unsure"),
        ("plain flour | 20081 | wheat | gluten | baking | spooned", "6 cells; expected 7"),
        ("plain flour | 20081 | | | | baking | spooned", "but no wheat"),
        ("plain flour | 20081 | | wheat | | baking | spooned", "contains wheat but is not gluten"),
        ("cheddar | 01009 | | | | dairy | weighed", "but no milk"),
        ("cheddar | 01009 | | milk | | dairy | weighed", "contains milk but is not dairy"),
        ("cheddar | 01009 | | | dairy | dairy | weighed", "is dairy but does not contain milk"),
        ("oats | 08120 | | oats | | grains | spooned", "oats but is not gluten or ?gluten"),
        ("egg | 01123 | | eggs | | dairy | spooned", "contains eggs but is not egg"),
        ("bacon | 10123 | | | pork | meat | weighed", "is pork but not meat"),
        ("chicken | 05001 | | | | meat | weighed raw-poultry", "raw-poultry but is not poultry"),
        ("tahini | 12166 | | | | sauces | spooned", "but no sesame"),
        ("almond | 12061 | | | | nuts | spooned", "but no almonds"),
    ],
)
def test_a_mistake_in_a_row_is_told_with_its_line(mistakes_of, row: str, told: str) -> None:  # type: ignore[no-untyped-def]
    found = mistakes_of(f"# {FOOD}\n\n{row}\n")
    assert any(told in mistake for mistake in found), found
    assert all(mistake.startswith("table.txt:3: ") for mistake in found)


def test_a_right_row_has_no_mistake(mistakes_of) -> None:  # type: ignore[no-untyped-def]
    assert mistakes_of("plain flour | 20081 | flour | wheat | gluten | baking | spooned\n") == []


def test_all_mistakes_are_told_in_one_run(mistakes_of) -> None:  # type: ignore[no-untyped-def]
    found = mistakes_of(
        "flour | 20081 | white flour | wheat | gluten | baking | spooned\n"
        "flour | 20082 | | wheat | gluten | baking | spooned\n"
        "cake flour | 20084 | White Flours | wheat | gluten | baking | spooned\n"
        "rye | 00000 | | rye | gluten | nowhere | spooned\n",
        measures_txt="flower | 1 cup | 100 | somebody\nflour | a cup | 100 | somebody\n"
        "flour | 1 cup | 130 | somebody\nflour | 1 tbsp | 8 |\n",
        labels_yaml="foods:\n  - name: agar\n    aisle: bakin\n",
    )
    places = [mistake.split(": ")[0] for mistake in found]
    assert places == [
        "labels.yaml:2",  # no source
        "labels.yaml:3",  # unknown aisle
        "measures.txt:1",  # no such food
        "measures.txt:2",  # not an amount
        "measures.txt:3",  # SR28 has a cup
        "measures.txt:4",  # no source
        "table.txt:2",  # the name again
        "table.txt:3",  # the synonym again, in the plural
        "table.txt:4",  # unknown aisle
        "table.txt:4",  # unknown number
    ]


def test_names_that_differ_in_word_order_may_live_together(mistakes_of) -> None:  # type: ignore[no-untyped-def]
    found = mistakes_of(
        "pudding rice | 20452 | | | | grains | spooned\n"
        "rice pudding | 19193 | | milk | dairy | tins | spooned varies\n"
    )
    assert found == []


def test_the_command_tells_of_missing_files(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main([str(tmp_path)]) == 2
    assert "WEIGHT.txt" in capsys.readouterr().err
    assert main([]) == 2
    assert "usage" in capsys.readouterr().err
