"""Hidden allergens, the laws' own names, and claims that are made only when all is known.

EU: Regulation (EU) 1169/2011, Annex II. US: FD&C Act 201(qq) with the FASTER Act of 2021. That the
foods here bring what they are said to bring is common practice.
"""

from __future__ import annotations

import pytest

from sitegen.dish import Dish
from sitegen.larder.vocabulary import ALLERGENS, GLUTEN_CEREALS, NUTS
from sitegen.nutrition.allergens import DIETS, diets
from sitegen.nutrition.contents import Contents, Portion
from sitegen.nutrition.laws import LAWS
from tests.nutrition.cook import cook


def within(line: str, **more: str) -> dict[str, Dish]:
    return {"sauce": cook([line], name="sauce", **more)}  # type: ignore[arg-type]


GLUTEN = "cereals containing gluten"
SULPHITES = "sulphur dioxide and sulphites"

# What hides it: lines, EU names that must be there, and the claims that it must not make.
HIDDEN = {
    "anchovy in a sauce": (["4 anchovy fillets", "50 ml olive oil"], {"fish"}, {"vegetarian"}),
    "fish in Worcestershire sauce": (["1 tbsp Worcestershire sauce"], {"fish"}, {"vegetarian"}),
    "molluscs in oyster sauce": (
        ["2 tbsp oyster sauce"],
        {"molluscs", "soybeans", f"{GLUTEN} (wheat)"},
        {"vegetarian", "gluten-free ingredients"},
    ),
    "mustard and egg in mayonnaise": (["50 g mayonnaise"], {"mustard", "eggs"}, {"vegan"}),
    "sulphites in wine": (["200 ml white wine"], {SULPHITES}, {"vegan"}),
    "sulphites in dried apricots": (["100 g dried apricots"], {SULPHITES}, set()),
    "wheat in soy sauce": (["1 tbsp soy sauce"], {"soybeans", f"{GLUTEN} (wheat)"}, {"vegan"}),
    "barley in beer": (
        ["330 ml beer"],
        {f"{GLUTEN} (barley)"},
        {"gluten-free ingredients", "vegan"},
    ),
    "barley in malt extract": (
        ["2 tbsp barley malt extract"],
        {f"{GLUTEN} (barley)"},
        {"gluten-free ingredients"},
    ),
    "egg wash": (["{line: '1 egg, beaten', eaten: 10%}"], {"eggs"}, {"vegan"}),
    "milk in butter of which nothing is eaten": (
        ["{line: 10 g butter, eaten: 0%}"],
        {"milk"},
        {"vegan", "dairy-free ingredients"},
    ),
    "rennet in parmesan": (["20 g parmesan"], {"milk"}, {"vegan", "vegetarian"}),
    "celery in the soffritto": (["1 celery stick"], {"celery"}, set()),
    "almonds in marzipan": (["100 g marzipan"], {"nuts (almonds)"}, {"vegan"}),
    "gelatine in marshmallows": (["50 g marshmallows"], set(), {"vegetarian", "vegan"}),
    "either of two": (["1 tbsp butter or olive oil"], {"milk"}, {"vegan"}),
    "the second of two amounts": (["1 tbsp olive oil or 20 g butter"], {"milk"}, {"vegan"}),
    "milk in a swap": (["{line: 2 tbsp olive oil, swap: 30 g butter}"], {"milk"}, {"vegan"}),
}


@pytest.mark.parametrize("case", HIDDEN)
def test_hidden_allergens_are_found_at_any_depth(case: str) -> None:
    lines, expected, barred = HIDDEN[case]
    dish = cook(lines)
    inner = {"sauce": cook(lines, name="sauce")}
    outer = {"dip": cook(["50 g [sauce](sauce.md)", "10 g salt"], name="dip", others=inner)}
    depths = [dish, *outer.values(), cook(["20 g [dip](dip.md)"], others=outer)]
    for made in depths:
        assert expected <= set(made.allergens.contains)
        assert not barred & set(made.diets)
        assert all(made.allergens.because[name] for name in made.allergens.contains)


@pytest.mark.parametrize(
    ("line", "packet"),
    [
        ("1 vegetable stock cube", {"celery", f"{GLUTEN} (wheat, barley)"}),  # barley in a stock
        ("500 ml chicken stock", {"celery", f"{GLUTEN} (wheat, barley)"}),
        ("1 tbsp Worcestershire sauce", {f"{GLUTEN} (wheat, rye, barley)", "celery", "mustard"}),
    ],
)
def test_what_depends_on_the_maker_is_sent_to_the_packet_and_bars_claims(
    line: str, packet: set[str]
) -> None:
    dish, us = cook([line]), cook([line], region="us")
    told = {entry.rpartition(" (")[0] for entry in dish.allergens.check_packet}
    assert packet <= told
    assert dish.diets == ()
    # what the US law does not name is in the packet all the same
    assert "celery" in {entry.rpartition(" (")[0] for entry in us.allergens.check_packet}


def test_sesame_paste_in_a_dressing_used_as_a_recipe() -> None:
    dish = cook(["60 g [dressing](sauce.md)"], others=within("60 g sesame paste"))
    assert dish.allergens.because["sesame seeds"] == ("sesame paste in dressing",)


def test_lupin_is_told_where_the_law_does_not_name_it() -> None:
    assert cook(["100 g lupin flour"]).allergens.contains == ("lupin",)
    assert cook(["100 g lupin flour"], region="au").allergens.contains == ("lupin",)
    us = cook(["100 g lupin flour"], region="us").allergens
    assert us.contains == ()
    assert us.beyond == {"lupin": ("lupin flour",)}


def test_what_only_a_swap_brings_is_in_the_list_and_said_to_be() -> None:
    told = cook(["{line: 2 tbsp olive oil, swap: 30 g butter}"]).allergens
    assert told.contains == ("milk",)
    assert told.swaps == ("milk, only if you use butter",)
    both = cook(["{line: 2 tbsp olive oil, swap: 30 g butter}", "50 ml milk"]).allergens
    assert both.because["milk"] == ("milk",)
    assert both.swaps == ()


@pytest.mark.parametrize(
    "line",
    [
        "100 g grated moonstone",
        "{line: 100 g carrots, swap: 100 g grated moonstone}",
        "1 tbsp olive oil or 20 g moonstone",
        "1 tbsp olive oil or moonstone",
        "50 g [sauce](sauce.md)",
    ],
)
def test_with_an_unknown_food_nothing_is_claimed_and_the_statement_says_so(line: str) -> None:
    dish = cook([line, "100 g carrots"], others=within("100 g grated moonstone"))
    assert dish.diets == ()
    assert len(dish.allergens.unsure) == 1
    assert "moonstone" in dish.allergens.unsure[0]


@pytest.mark.parametrize(
    ("lines", "claims"),
    [
        (["100 g carrots", "1 tbsp olive oil"], ("vegan", "gluten-free ingredients")),
        (["100 g plain flour"], ("vegan",)),
        (["100 g rolled oats"], ("vegan",)),  # oats meet wheat in field and mill
        (["100 ml milk"], ("vegetarian", "gluten-free ingredients")),
        (["2 eggs"], ("vegetarian", "gluten-free ingredients", "dairy-free ingredients")),
        (["1 tbsp honey"], ("vegetarian", "gluten-free ingredients", "dairy-free ingredients")),
        (["200 g minced beef"], ("gluten-free ingredients", "dairy-free ingredients")),
        (["100 g mature Cheddar"], ("gluten-free ingredients",)),  # rennet depends on the maker
        (["100 g ketchup", "100 g carrots"], ()),  # made, and differs
    ],
)
def test_diets(lines: list[str], claims: tuple[str, ...]) -> None:
    assert cook(lines).diets == claims


@pytest.mark.parametrize(
    ("told", "claims"),
    [
        ("nuts", ("vegan", "gluten-free ingredients")),
        ("traces of sesame", ("vegan", "gluten-free ingredients")),
        ("egg", ("vegetarian", "gluten-free ingredients", "dairy-free ingredients")),
        ("traces of milk", ("vegetarian", "gluten-free ingredients")),
        ("gluten", ("vegan",)),
        ("shellfish", ("gluten-free ingredients", "dairy-free ingredients")),
        ("who knows what", ()),
    ],
)
def test_what_the_author_says_it_may_contain_bars_claims_also_from_within(
    told: str, claims: tuple[str, ...]
) -> None:
    dish = cook(["100 g carrots"], more=f"may contain: [{told}]")
    assert dish.diets == claims
    assert dish.allergens.author_may_contain == (told,)
    others = within("100 g carrots", more=f"may contain: [{told}]")
    outer = cook(["50 g [sauce](sauce.md)"], others=others)
    assert outer.diets == claims
    assert outer.allergens.author_may_contain == (told,)


FOOD = Portion(0, "x", "x", "s", 1.0, 1.0, {}, True)


@pytest.mark.parametrize("claim", DIETS)
def test_every_class_and_allergen_that_bars_a_claim_does_so_sure_or_not(claim: str) -> None:
    classes, allergens = DIETS[claim]
    clean = Contents(portions=(FOOD,))

    def claimed(contents: Contents) -> set[str]:
        stronger = {"vegetarian", "dairy-free ingredients"}
        found = set(diets(contents, ()))
        return found | stronger if "vegan" in found else found

    assert claim in claimed(clean)
    for word in classes:
        one = frozenset({word})
        assert claim not in claimed(Contents(portions=(FOOD,), classes=one))
        assert claim not in claimed(Contents(portions=(FOOD,), unsure_classes=one))
    for key in allergens:
        brought = {key: ("x",)}
        assert claim not in claimed(Contents(portions=(FOOD,), contains=brought))
        assert claim not in claimed(Contents(portions=(FOOD,), may_contain=brought))
        assert claim not in claimed(Contents(portions=(FOOD,), swapped=brought))
    assert diets(Contents(), ()) == ()


def test_each_law_names_what_it_has_to() -> None:
    eu = {name for name, _ in LAWS["eu"].names.values()}
    assert eu == {
        GLUTEN, "crustaceans", "eggs", "fish", "peanuts", "soybeans", "milk", "nuts", "celery",
        "mustard", "sesame seeds", SULPHITES, "lupin", "molluscs",
    }  # fmt: skip
    assert len(eu) == 14
    us = {name for name, _ in LAWS["us"].names.values()}
    assert us == {
        "milk", "eggs", "fish", "crustacean shellfish", "tree nuts", "peanuts", "wheat", "soybeans",
        "sesame",
    }  # fmt: skip
    assert len(us) == 9
    for region, law in LAWS.items():
        assert law.names.keys() <= ALLERGENS, region
        assert set(NUTS) - {"pine-nuts", "chestnuts"} <= law.names.keys(), region
        assert "wheat" in law.names, region
    assert set(GLUTEN_CEREALS) <= LAWS["eu"].names.keys()
    assert LAWS["uk"].names is LAWS["eu"].names


REGIONS = {
    "us": (
        {"wheat", "tree nuts (pine nuts)"},
        {f"{GLUTEN} (rye)", "celery", "mustard", "molluscs"},
    ),
    "uk": ({f"{GLUTEN} (wheat, rye)", "celery", "mustard", "molluscs"}, {"pine nuts"}),
    "eu": ({f"{GLUTEN} (wheat, rye)", "celery", "mustard", "molluscs"}, {"pine nuts"}),
    "ca": (
        {"wheat", "gluten (rye)", "mustard seeds", "molluscs", "tree nuts (pine nuts)"},
        {"celery"},
    ),
    "au": ({"wheat", "gluten (rye)", "mollusc", "pine nut"}, {"celery", "mustard"}),
}


@pytest.mark.parametrize("region", REGIONS)
def test_regions_differ_and_what_a_law_leaves_out_is_still_told(region: str) -> None:
    lines = ["100 g plain flour", "50 g rye flour", "1 celery stick", "50 g pine nuts"]
    told = cook([*lines, "1 tsp mustard seeds", "200 g squid"], region=region).allergens
    named, beyond = REGIONS[region]
    assert set(told.contains) == named
    assert set(told.beyond) == beyond
