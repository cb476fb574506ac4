"""The label's forms, its honest gaps, net carbohydrate, and its working as JSON."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner

from sitegen.cli import main
from sitegen.commands.label import as_json, as_text
from sitegen.gathering import Gatherer
from sitegen.larder import Larder
from sitegen.larder.site import foods_from_mapping
from sitegen.nutrition.net_carbohydrate import NOT_A_TERM
from sitegen.reading.source import Source
from sitegen.settings import read_settings
from tests.nutrition.cook import cook, figure

REPO = Path(__file__).resolve().parent.parent.parent


def larder_with(**per_100_g: float) -> Larder:
    data = {"foods": [{"name": "moonflour", "source": "packet", "per 100 g": per_100_g}]}
    return Larder.load().with_foods(foods_from_mapping(data, lambda *told: pytest.fail(str(told))))


def rows(region: str, *lines: str) -> list[str]:
    return [f.label for f in cook(lines, region=region).label.per_serving]


def test_the_us_form_has_the_order_of_21_cfr_101_9() -> None:
    assert rows("us", "100 g butter") == [
        "Calories", "Total fat", "Saturated fat", "Trans fat", "Cholesterol", "Sodium",
        "Total carbohydrate", "Dietary fiber", "Total sugars", "Includes added sugars", "Protein",
        "Vitamin D", "Calcium", "Iron", "Potassium",
    ]  # fmt: skip


def test_the_eu_form_has_the_order_of_annex_xv() -> None:
    expected = [
        "Energy", "Energy", "Fat", "of which saturates", "Carbohydrate", "of which sugars", "Fibre",
        "Protein", "Salt",
    ]  # fmt: skip
    assert rows("eu", "100 g butter") == rows("uk", "100 g butter") == expected
    with_more = rows("eu", "100 g xylitol", "100 ml red wine")
    assert with_more[6] == "of which polyols"
    assert with_more[-1] == "Alcohol"
    assert rows("us", "100 g xylitol")[10] == "Sugar alcohol"


def test_eu_energy_salt_and_carbohydrate() -> None:
    """SR28 20078, whole-grain wheat flour: sodium 2 mg; 20081 white: 364 kcal, carbohydrate 76.31 g,
    fibre 2.7 g. Annex I: salt is sodium × 2.5, and carbohydrate is what is metabolised."""
    dish = cook(["100 g plain flour", "1 g salt"])
    assert figure(dish, "energy_kcal") == "364 kcal"
    assert figure(dish, "energy_kj") == f"{364 * 4.184:.0f} kJ"
    assert figure(dish, "available_carbohydrate_g") == "74 g"  # 76.31 − 2.7
    # 02047: 38,758 mg of sodium in 100 g
    assert figure(dish, "salt_g") == "0.97 g"
    assert cook(["100 g plain flour"], region="us").label.per_serving_values[
        "carbohydrate_g"
    ] == pytest.approx(76.31)


def test_factors_of_annex_xiv_are_told_beside() -> None:
    dish = cook(["100 g plain flour"])
    # 20081: protein 10.33, fat 0.98, carbohydrate 76.31 of which fibre 2.7
    kj = 17 * (10.33 + 73.61) + 37 * 0.98 + 8 * 2.7
    assert dish.label.by_factors is not None
    assert dish.label.by_factors[1] == pytest.approx(kj)
    assert any(f"{kj:.0f} kJ" in line for line in as_text(dish))


def test_daily_values_stand_only_where_the_figure_is_complete() -> None:
    dish = cook(["100 g butter", "100 g balsamic vinegar"], region="us")
    by_key = {f.key: f for f in dish.label.per_serving}
    assert by_key["fat_g"].daily == "104%"  # 81.11 g of 78
    assert not by_key["fibre_g"].complete  # 02069 has no figure
    assert by_key["fibre_g"].daily == ""
    assert by_key["protein_g"].daily == ""


@pytest.mark.parametrize(
    ("lines", "printed"),
    [
        (["100 g caster sugar"], "100 g"),  # a sweetener's are all added
        (["100 g apple", "10 g honey"], "8 g"),  # a fruit's are not
        (["100 g butter"], "0 g"),
        (["100 g caster sugar", "100 g ketchup"], "at least 99 g"),  # a made food's: no telling
        (["100 g ketchup"], "not known"),
    ],
)
def test_added_sugars_are_given_only_as_far_as_they_are_known(
    lines: list[str], printed: str
) -> None:
    assert figure(cook(lines, region="us"), "added_sugars_g") == printed


def test_a_gap_shows_unless_it_cannot_change_what_is_printed() -> None:
    larder = larder_with(energy_kcal=300, protein_g=10, fat_g=2, carbohydrate_g=60, sugars_g=40)
    large = cook(["100 g moonflour", "100 g red lentils"], larder=larder)
    # red lentils 16069 have 10.8 g of fibre; moonflour's may be up to 60 − 40 g
    assert figure(large, "fibre_g") == "at least 10 g"
    assert figure(large, "available_carbohydrate_g") == "at most 113 g"
    assert figure(large, "salt_g") == "at least 0.01 g"
    small = cook(["0.1 g moonflour", "100 g red lentils"], larder=larder)
    assert figure(small, "fibre_g") == "11 g"
    alone = cook(["100 g moonflour"], larder=larder)
    assert figure(alone, "fibre_g") == "not known"
    assert next(f for f in alone.label.per_serving if f.key == "fibre_g").value is None


def test_what_a_food_has_none_of_is_known_whatever_it_weighs() -> None:
    dish = cook(["100 g plain flour", "1/2 tsp kosher salt"])  # SR28 02047: nothing but minerals
    assert dish.label.lines[1].grams is None
    assert figure(dish, "available_carbohydrate_g") == "74 g"  # SR28 20081: 76.31 − 2.7
    assert figure(dish, "protein_g") == "10 g"
    assert figure(dish, "energy_kcal") == "364 kcal"
    assert figure(dish, "salt_g") == "not known"


@pytest.mark.parametrize(("lines", "told"), [(["1 rabbit"], False), (["30 g butter"], True)])
def test_the_head_tells_no_energy_where_much_of_the_weight_is_not_known(
    lines: list[str], told: bool
) -> None:
    """At least 133 kcal was said of a rabbit in cream, of which neither was weighed."""
    dish = cook(
        [*lines, "a glass of white wine", "200 g mushrooms", "100 g carrots", "100 g potatoes"]
    )
    assert any(field.key == "serving" for field in dish.fields) is told


def test_net_carbohydrate_is_shown_only_where_the_site_asks_for_it() -> None:
    lines = ["100 g plain flour", "50 g xylitol", "20 g allulose"]
    silent = cook(lines)
    assert silent.label.net_carbohydrate == ""
    assert silent.label.net_carbohydrate_g == pytest.approx(76.31 - 2.7)
    shown = cook(lines, net=("fibre", "polyols", "allulose")).label.net_carbohydrate
    assert shown == (
        "Net carbohydrate 73.6 g = carbohydrate 146.3 g − fibre 2.7 g − polyols 50.0 g − allulose "
        f"20.0 g. {NOT_A_TERM}"
    )
    only_fibre = cook(lines, net=("fibre",)).label
    assert only_fibre.net_carbohydrate_g == pytest.approx(146.31 - 2.7)
    assert "polyols" not in only_fibre.net_carbohydrate


def test_net_carbohydrate_errs_upwards_and_is_left_out_where_carbohydrate_is_not_known() -> None:
    most = cook(["100 g balsamic vinegar", "100 g plain flour"], net=("fibre",)).label
    assert "Net carbohydrate at most 90.6 g" in most.net_carbohydrate
    assert cook(["100 g moonstone", "100 g plain flour"]).label.net_carbohydrate_g is None


@pytest.mark.parametrize(
    ("written", "read", "rule"),
    [
        ("{net carbohydrate: [fibre, polyols]}", ("fibre", "polyols"), ""),
        ("{net carbohydrate: []}", (), ""),
        ("{net carbohydrate: [polyol]}", (), "site-choice"),
        ("{net carb: [fibre]}", (), "unknown-field"),
        ("[fibre]", (), "field-shape"),
    ],
)
def test_the_setting(written: str, read: tuple[str, ...], rule: str) -> None:
    settings, problems = read_settings(Source("content/site.yaml", f"nutrition: {written}\n"))
    assert settings.net_carbohydrate == read
    assert [p.rule for p in problems] == ([rule] if rule else [])


KEYS = {
    "serves", "batch_grams", "per_serving", "per_100g", "covers", "ingredients", "allergens", "diets",
    "net_carbohydrate_g",
}  # fmt: skip
NAMED = {
    "energy_kcal", "protein_g", "fat_g", "saturated_g", "carbohydrate_g", "fibre_g", "sugars_g",
    "cholesterol_mg", "sodium_mg",
}  # fmt: skip


@pytest.mark.parametrize("region", ["us", "uk"])
def test_json_has_its_keys_and_each_figure_can_be_traced(region: str) -> None:
    told = as_json(cook(["100 g plain flour", "2 eggs", "50 g butter"], serves=3, region=region))
    assert told.keys() == KEYS
    assert told["allergens"].keys() == {"contains", "unsure"}
    for part in ("per_serving", "per_100g"):
        assert told[part].keys() >= NAMED
        assert all(f.keys() == {"value", "printed", "complete"} for f in told[part].values())
        assert all(f["printed"] for f in told[part].values())
    for key in NAMED:
        parts = [line["per_serving"].get(key, 0) for line in told["ingredients"]]
        assert sum(parts) == pytest.approx(told["per_serving"][key]["value"], abs=1e-3)
    assert all(line["source"].startswith("USDA SR28 ") for line in told["ingredients"])
    assert json.loads(json.dumps(told)) == told


def test_the_command_prints_both_forms() -> None:
    run = CliRunner().invoke
    told = json.loads(
        run(main, ["--site", str(REPO), "label", "lemon-squares", "--format", "json"]).output
    )
    assert told.keys() == KEYS
    text = run(
        main, ["--site", str(REPO), "label", "content/recipes/baking/lemon-squares.md"]
    ).output
    assert "USDA SR28 20081" in text
    assert told["per_serving"]["energy_kcal"]["printed"] in text


def test_every_recipe_of_the_demo_is_covered_and_known() -> None:
    dishes = Gatherer(REPO).gather(drafts=True).collection.dishes
    assert len(dishes) >= 25
    assert {slug: d.label.covers for slug, d in dishes.items() if d.label.covers < 0.95} == {}
    assert {slug: d.contents.unweighed for slug, d in dishes.items() if d.contents.unweighed} == {}
    assert {slug: d.allergens.unsure for slug, d in dishes.items() if d.allergens.unsure} == {}
    # what the tables say and what Annex XIV's factors give is one energy, within a tolerance
    for slug, dish in dishes.items():
        if dish.label.by_factors:
            stated = dish.label.per_serving_values["energy_kcal"]
            assert dish.label.by_factors[0] == pytest.approx(stated, rel=0.08), slug
