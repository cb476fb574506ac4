"""A site made by hand: barley broth, a sauce and a bread, as working out would give them."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from fractions import Fraction
from pathlib import Path
from typing import Any

from sitegen.collection import Collection, PlainPage
from sitegen.dish import (
    Allergens,
    AmountPiece,
    Caution,
    Dish,
    Field,
    Figure,
    Label,
    LedgerPart,
    LedgerRow,
    LengthPiece,
    MarginNote,
    MethodPartView,
    NutrientFigure,
    OvenSetting,
    StepView,
    TemperaturePiece,
    TimePiece,
    Tin,
)
from sitegen.kitchen.printing import print_figure
from sitegen.reading.recipe import (
    NOWHERE,
    IngredientLine,
    Length,
    Photo,
    Recipe,
    Section,
    Temperature,
    Times,
    TimeSpan,
)
from sitegen.site import Author, Settings, Site

NBSP = "\N{NO-BREAK SPACE}"


def fig(ladder: str, value: str, text: str = "", *, worked: bool = False, **more: Any) -> Figure:
    exact = Fraction(value)
    text = text or print_figure(ladder, exact, None, more.get("noun", ""))
    return Figure(ladder, exact, None, text, worked_out=worked, **more)


def g(value: str, *, worked: bool = False, basis: str = "") -> Figure:
    return fig("g", value, worked=worked, basis=basis)


def vol(teaspoons: str, *, worked: bool = False, basis: str = "") -> Figure:
    return fig("us-volume", teaspoons, worked=worked, basis=basis)


def oz(ounces: str, *, worked: bool = True) -> Figure:
    return fig("us-weight", ounces, worked=worked)


def ml(value: str, *, worked: bool = False) -> Figure:
    return fig("ml", value, worked=worked)


def row(index: int, food: str, metric: Figure | None, us: Figure | None, **more: Any) -> LedgerRow:
    return LedgerRow(index, IngredientLine(food, NOWHERE, food), food, metric, us, **more)


def time(text: str, seconds: int, upto: int | None = None) -> TimePiece:
    return TimePiece(text, seconds, upto, TimeSpan(NOWHERE, text, seconds, upto))


def nutrient(
    key: str, label: str, value: float | None, printed: str, **more: Any
) -> NutrientFigure:
    return NutrientFigure(key, label, value, printed, more.pop("complete", True), **more)


LABEL = Label(
    form="eu",
    serving="a sixth of the batch, about 480 g",
    serves=6,
    batch_grams=2900.0,
    per_serving=(
        nutrient("energy_kj", "Energy", 1710.0, "1710 kJ"),
        nutrient("energy_kcal", "Energy", 408.0, "408 kcal"),
        nutrient("fat_g", "Fat", 13.4, "13 g"),
        nutrient("saturated_g", "of which saturates", 4.6, "4.6 g", indent=True),
        nutrient("carbohydrate_g", "Carbohydrate", 61.0, "61 g"),
        nutrient("sugars_g", "of which sugars", 5.2, "5.2 g", indent=True),
        nutrient("fibre_g", "Fibre", 8.1, "8.1 g", complete=False),
        nutrient("protein_g", "Protein", 10.9, "11 g"),
        nutrient("salt_g", "Salt", None, ""),
    ),
    per_100g=(
        nutrient("energy_kj", "Energy", 354.0, "354 kJ"),
        nutrient("energy_kcal", "Energy", 85.0, "85 kcal"),
        nutrient("fat_g", "Fat", 2.8, "2.8 g"),
        nutrient("saturated_g", "of which saturates", 1.0, "1.0 g", indent=True),
        nutrient("carbohydrate_g", "Carbohydrate", 12.7, "13 g"),
        nutrient("sugars_g", "of which sugars", 1.1, "1.1 g", indent=True),
        nutrient("fibre_g", "Fibre", 1.7, "1.7 g", complete=False),
        nutrient("protein_g", "Protein", 2.3, "2.3 g"),
        nutrient("salt_g", "Salt", None, ""),
    ),
    covers=0.94,
    lines=(),
    sources=("USDA National Nutrient Database for Standard Reference, release 28 (2016)",),
    energy_split=(("protein", 0.11), ("fat", 0.29), ("carbohydrate", 0.60)),
    per_serving_values={
        "energy_kcal": 408.0, "fat_g": 13.4, "saturated_g": 4.6, "carbohydrate_g": 61.0,
        "sugars_g": 5.2, "protein_g": 10.9,
    },
)  # fmt: skip

ALLERGENS = Allergens(
    law="the 14 allergens of Regulation (EU) No 1169/2011, Annex II",
    contains=("cereals containing gluten (barley, wheat)", "milk (butter, whole milk)", "celery"),
    because={
        "cereals containing gluten": ("pearl barley", "plain flour"),
        "milk": ("butter", "whole milk"),
        "celery": ("celery sticks",),
    },
    check_packet=("celery, milk, wheat (vegetable stock)",),
    author_may_contain=(),
    unsure=(),
)


def broth() -> Dish:
    cup = "from 125 g to the cup (USDA SR28 20081)"
    ledger = (
        LedgerPart(
            "Broth",
            (
                row(0, "butter", g("40"), vol("9", worked=True), remarks=("divided",)),
                row(1, "leeks", g("450"), oz("16"), lead=fig("count", "3"),
                    preparation="trimmed and finely sliced"),
                row(2, "carrots", g("160"), oz("11/2"), lead=fig("count", "2"),
                    preparation="in 1 cm dice"),
                row(3, "celery", g("80"), oz("11/4"),
                    lead=fig("count", "2", "2 sticks", noun="stick|sticks"),
                    preparation="in 1 cm dice"),
                row(4, "fine salt", fig("g-fine", "3", worked=True), vol("1/2"),
                    cautions=("salt",)),
                row(5, "pearl barley", g("200"),
                    vol("48", worked=True, basis="from 200 g to the cup (USDA SR28 20005)")),
                row(6, "vegetable stock", ml("1800"), vol("365", worked=True)),
                row(7, "bay leaf", None, None, lead=fig("count", "1")),
                row(8, "black pepper", None, None, remarks=("to taste",)),
            ),
        ),
        LedgerPart(
            "Dumplings",
            (
                row(9, "plain flour", g("250"), vol("96", basis=cup)),
                row(10, "baking powder", fig("g-fine", "46/5", worked=True), vol("2"),
                    cautions=("leavening",)),
                row(11, "fine salt", fig("g-fine", "9/2", worked=True), vol("3/4"),
                    cautions=("salt",)),
                row(12, "dill", g("10"), None, preparation="finely chopped",
                    missing="no measured weight of a cup of chopped dill"),
                row(13, "whole milk", ml("160"), vol("32", worked=True)),
                row(14, "rapeseed oil", g("41", worked=True), vol("9"),
                    swap=row(14, "butter", g("45"), vol("9", worked=True))),
            ),
        ),
    )  # fmt: skip
    steps_one = (
        StepView(
            1,
            ("Melt ", AmountPiece("half the butter", 0, g("20"), vol("9/2", worked=True)),
             " in a wide 5 l stockpot over a low heat. Add the ",
             AmountPiece("leeks", 1, lead=fig("count", "3")), ", ",
             AmountPiece("carrots", 2, lead=fig("count", "2")), ", ",
             AmountPiece("celery", 3, lead=fig("count", "2", "2 sticks", noun="stick|sticks")),
             " and ",
             AmountPiece("salt", 4, fig("g-fine", "3", worked=True), vol("1/2")),
             ", cover, and cook for ", time("12 to 15 minutes", 720, 900),
             ", stirring now and then, until the leeks are soft but <em>not</em> coloured."),
            (MarginNote("time", ("12–15 min",)),),
            "Melt half the butter (20 g, 1½ tbsp) in a wide 5 l stockpot over a low heat.",
        ),
        StepView(
            2,
            ("Stir in the ", AmountPiece("barley", 5, g("200"), vol("48", worked=True)),
             ", then pour in the ", AmountPiece("stock", 6, ml("1800"), vol("365", worked=True)),
             " and add the bay leaf. Bring to the boil, lower the heat, cover and simmer for ",
             time("35 to 40 minutes", 2100, 2400),
             ", until the barley is plump with only a little bite left."),
            (MarginNote("time", ("35–40 min",)),),
            "Stir in the barley (200 g, 1 cup), then pour in the stock.",
        ),
        StepView(3, ("Taste, and season with black pepper. The broth should be loose: the "
                     "dumplings will drink some of it.",), (), "Taste, and season."),
    )  # fmt: skip
    oven = OvenSetting(200, 220, 400, 425, "7", "fan")
    steps_two = (
        StepView(
            4,
            ("Whisk the ", AmountPiece("flour", 9, g("250"), vol("96")), ", ",
             AmountPiece("baking powder", 10, fig("g-fine", "46/5", worked=True), vol("2")),
             " and ", AmountPiece("dill", 12, g("10")), " together. Stir the ",
             AmountPiece("milk", 13, ml("160"), vol("32", worked=True)), " and ",
             AmountPiece("oil", 14, g("41", worked=True), vol("9")),
             " together in a jug, pour them in and fold with a fork until no dry flour is left."),
            (),
            "Whisk the flour (250 g, 2 cups) & dill together.",
        ),
        StepView(
            5,
            ("Or bake them: heat the oven to ",
             TemperaturePiece("200 °C fan", "oven", "220 °C conventional, gas mark 7, 400 °F fan",
                              oven, None, None,
                              Temperature(NOWHERE, "200 °C fan", Fraction(200), "C", "oven", "fan")),
             " and set the balls in a ",
             LengthPiece("23 cm", "9 in", Length(NOWHERE, "23 cm", (Fraction(23),), "cm")),
             " round tin for ", time("15 minutes", 900),
             ", until they reach ",
             TemperaturePiece("93 °C", "core", "199 °F", None, 93, 199,
                              Temperature(NOWHERE, "93 °C", Fraction(93), "C", "core")), "."),
            (MarginNote("oven", ("fan 200 °C", "220 °C", "gas 7", "425 °F")),
             MarginNote("time", ("15 min",)), MarginNote("core", ("93 °C core",))),
            "Or bake them: heat the oven to 200 °C fan.",
        ),
    )  # fmt: skip
    recipe = Recipe(
        file="content/recipes/mains/barley-broth/barley-broth.md",
        slug="barley-broth",
        title="Barley broth with dill dumplings",
        serves=6,
        summary="A pot for a wet evening, with dumplings that go in for the last quarter "
        "of an hour.",
        published=date(2026, 10, 4),
        updated=date(2026, 11, 2),
        author="ines",
        course="main",
        cuisine="Nordic",
        tags=("barley", "leeks", "winter", "one pot"),
        times=Times(25, 75, None),
        tools=("wide 5 l stockpot with a lid", "no. 40 scoop", "23 cm round tin"),
        photo=Photo("barley-broth.png", "A deep bowl of barley broth with three dumplings"),
        intro="<p>The nights when the wind takes the last boats in early are broth nights in the "
        "net loft. Barley does most of the work: it thickens the pot as it cooks, and it forgives "
        'a late guest. It goes with a <a href="../../rye-loaf.md">rye loaf</a>.</p>\n',
    )
    return Dish(
        recipe=recipe,
        fields=(
            Field("serves", "Serves", "6", figure=fig("count", "6")),
            Field("makes", "Makes", "18", "dumplings", figure=fig("count", "18")),
            Field("weighs", "Weighs", "2.9 kg", "6 lb 6½ oz", figure=g("2900")),
            Field("prep", "Prepare", "25 min"),
            Field("cook", "Cook", "1 h 15 min"),
            Field("scoop", "Scoop", "no. 40", "24 ml, 1½ tbsp"),
            Field("serving", "A serving", "408 kcal", "11 g protein"),
        ),
        ledger=ledger,
        method=(
            MethodPartView("Broth", "", steps_one),
            MethodPartView("Dumplings", "", steps_two),
        ),
        sections=(
            Section("Keeping", "keeping", "<p>Cool within 2 hours. The broth keeps 3 days in the "
                    "fridge and thickens as it stands, so loosen it with water and bring it back "
                    "to a full simmer before serving.</p>\n", NOWHERE),
            Section("Notes", "notes", "<p>Stock cubes and powders often hold celery, and some hold "
                    "wheat or milk.</p>\n", NOWHERE),
        ),
        label=LABEL,
        allergens=ALLERGENS,
        diets=("vegetarian",),
        cautions=(Caution("cooling", "Cool leftovers within 2 hours and reheat them until they "
                          "steam all through.", "Common practice; follow your local rules."),),
        scaling_notes=("Times and oven settings do not scale.",),
        tins=(Tin("round", (Fraction(23),), None, "23 cm round tin",
                  Fraction(529, 4) * Fraction(355, 113)),),
        uses=("green-sauce",),
        ingredient_texts=(
            "40 g (3 tbsp) butter, divided",
            "3 leeks (450 g, 1 lb), trimmed and finely sliced",
            "200 g (1 cup) pearl barley",
            "250 g (2 cups) plain flour",
        ),
    )  # fmt: skip


def simple(slug: str, title: str, **recipe: Any) -> Dish:
    base = broth()
    made = replace(
        base.recipe, slug=slug, title=title, file=f"content/recipes/{slug}.md", photo=None,
        intro="", cuisine="", updated=None, **recipe,
    )  # fmt: skip
    return replace(
        base, recipe=made, uses=(), cautions=(), tins=(),
        ledger=(LedgerPart("", base.ledger[1].rows),), method=base.method[:1], sections=(),
        diets=("vegan", "vegetarian"),
    )  # fmt: skip


def settings(**more: Any) -> Settings:
    said: dict[str, Any] = {
        "title": "The Shared Table",
        "address": "https://table.example/kitchen",
        "description": "Recipes from the net loft, cooked until the table agrees.",
        "authors": {"ines": Author("ines", "Ines Varga", "Cooks at the net loft on Fridays.")},
    }
    return Settings(**(said | more))


def collection(folder: Path = Path(), **more: Any) -> Collection:
    dishes = [
        broth(),
        simple("green-sauce", "Green sauce", course="sauce", tags=("herbs",),
               published=date(2026, 9, 1), summary="Sharp, for fish and potatoes."),
        simple("rye-loaf", "Rye loaf & caraway", course="bread", tags=("rye", "winter"),
               published=date(2026, 10, 20), summary="A <dense> loaf that keeps a week."),
    ]  # fmt: skip
    return Collection(
        Site(folder, settings(**{"minify": False, **more})),
        {dish.recipe.slug: dish for dish in dishes},
        (PlainPage("about", "About the table", "Who cooks here.",
                   '<p>We cook on <a href="../recipes/rye-loaf.md">Fridays</a>.</p>\n',
                   "content/pages/about.md"),),
        {"green-sauce": ("barley-broth",)},
    )  # fmt: skip
