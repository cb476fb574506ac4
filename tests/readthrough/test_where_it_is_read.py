"""What the read-through showed to be misread, held fast: names by their part, heats by their words."""

from __future__ import annotations

from sitegen.reading.read import read_recipe
from sitegen.reading.recipe import Mention, Temperature
from sitegen.reading.source import Source
from sitegen.site import Settings
from tests.readthrough.desk import base_text


def _pieces(text: str, kind: type) -> list[object]:
    recipe, problems = read_recipe(Source("content/recipes/one.md", text), Settings())
    assert recipe is not None, problems
    return [p for s in recipe.steps for p in s.pieces if isinstance(p, kind)]


def test_a_name_under_a_part_means_that_parts_ingredient() -> None:
    """[butter] under Pastry is its cold butter, though the Filling has plain butter."""
    text = base_text("tart")
    butters = [m.line for m in _pieces(text, Mention) if getattr(m, "words", "") == "butter"]  # type: ignore[attr-defined]
    assert butters == [2, 4]


def test_the_heat_of_oil_named_in_brackets_is_no_oven() -> None:
    text = base_text("burgers").replace(
        "Fry them in [the remaining oil] for", "Heat [the remaining oil] to 170 °C. Fry them for", 1
    )
    assert [t.use for t in _pieces(text, Temperature)] == ["core", "core"]  # type: ignore[attr-defined]


def test_the_setting_point_of_a_jam_is_no_oven() -> None:
    assert [t.use for t in _pieces(base_text("jam"), Temperature)] == ["core"]  # type: ignore[attr-defined]
