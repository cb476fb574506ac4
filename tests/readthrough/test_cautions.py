"""The safety desk: which cautions stand on a page, and which must not.

What must fire follows the published advice that each caution names (USDA FSIS, FDA, CDC, UK FSA, UK
NHS); what must not is judged from the same advice: what is cooked through is not raw.
"""

from __future__ import annotations

import pytest

from sitegen.kitchen.cautions import KEYS, TEXTS
from sitegen.kitchen.work_out import work_out
from sitegen.reading.read import read_recipe
from sitegen.reading.source import Source
from sitegen.site import Settings
from tests.readthrough.desk import larder


def cautions(
    lines: str, steps: str, *, course: str = "main", more: str = "", title: str = "A dish"
) -> set[str]:
    """The keys on the page of a recipe of these lines (by ``;``) and steps (by ``/``)."""
    listed = "\n".join(f"  - {line.strip()}" for line in lines.split(";"))
    numbered = "\n".join(f"{i}. {s.strip()}" for i, s in enumerate(steps.split(" / "), 1))
    text = f"""---
title: {title}
course: {course}
serves: 4
ingredients:
{listed}
---
## Method

{numbered}

{more}
"""
    recipe, problems = read_recipe(Source("content/recipes/a-dish.md", text), Settings())
    assert recipe is not None, [p.headline() for p in problems]
    dish, _ = work_out(recipe, larder(), Settings(), {})
    return {c.key for c in dish.cautions}


MAYONNAISE = "2 large egg yolks; 200 ml rapeseed oil; 1 tbsp lemon juice"

FIRES = [
    ("poultry", "1 whole chicken (1.6 kg)", "Roast the [chicken] for 80 minutes.", "main"),
    ("mince", "500 g beef mince", "Fry the [mince] for 10 minutes.", "main"),
    ("mince", "6 pork sausages", "Grill the [sausages] for 15 minutes.", "main"),
    ("cuts", "1 kg pork shoulder", "Roast the [pork] for 2 hours.", "main"),
    ("fish", "600 g cod fillet", "Bake the [cod] for 12 minutes.", "main"),
    ("raw-fish", "300 g salmon fillet; 2 tbsp lime juice",
     "Slice the [salmon] and turn it in the [lime juice]. Chill for 20 minutes.", "starter"),
    ("raw-fish", "100 g smoked salmon; 1 lemon", "Lay out the [salmon] with the [lemon].", "starter"),
    ("raw-fish", "500 g salmon fillet; 100 g salt; 300 g potatoes",
     "Rub the [salmon] with the [salt] and chill for 2 days. / Boil the [potatoes] for 20 minutes.",
     "starter"),
    ("shellfish", "1 kg mussels", "Steam the [mussels] for 5 minutes.", "main"),
    ("raw-shellfish", "12 oysters; 1 lemon", "Open the [oysters] and serve with the [lemon].", "starter"),
    ("soft-cheese", "200 g brie; 100 g rocket", "Slice the [brie] over the [rocket].", "starter"),
    ("soft-cheese", "150 g blue cheese; 4 pears", "Crumble the [blue cheese] over the [pears].", "side"),
    ("soft-cheese", "150 g roquefort; 4 pears", "Crumble the [roquefort] over the [pears].", "side"),
    ("liver", "400 g chicken livers; 100 g butter", "Fry the [livers] in the [butter] for 6 minutes.",
     "starter"),
    ("liver", "200 g chicken liver pate; 4 slices white bread", "Spread the [pate] on the [bread].",
     "starter"),
    ("mercury", "4 swordfish steaks", "Grill the [swordfish] for 8 minutes.", "main"),
    ("rice", "300 g basmati rice; 600 ml water", "Boil the [rice] in the [water] for 12 minutes.", "side"),
    ("rice", "400 g cooked rice; 2 eggs", "Fry the [rice] and the [eggs] for 6 minutes.", "main"),
    ("raw-egg", MAYONNAISE, "Whisk the [yolks] and [lemon juice], and beat in the [oil] drop by drop.",
     "sauce"),
    ("raw-egg", f"{MAYONNAISE}; 500 g potatoes",
     "Whisk the [yolks] with the [lemon juice] and beat in the [oil]. / Boil the [potatoes] for 15 "
     "minutes and serve.", "side"),
    ("raw-egg", "200 g dark chocolate; 4 large eggs",
     "Melt the [chocolate] over simmering water. / Whisk the [eggs] and fold in the chocolate. Chill.",
     "pudding"),
    ("raw-egg", "400 g spaghetti; 3 large eggs; 80 g Parmesan",
     "Boil the [spaghetti] for 9 minutes and drain. / Take the pan off the heat and stir in the [eggs] "
     "and [Parmesan].", "main"),
    ("raw-egg", "4 large egg whites; 100 g caster sugar",
     "Beat the [whites] on high speed, then add the [sugar].", "pudding"),
    ("eggs", "4 large eggs; 20 g butter", "Scramble the [eggs] in the [butter] for 3 minutes.", "breakfast"),
    ("eggs", "8 large eggs; 100 ml milk", "Beat the [eggs] and [milk], and bake for 25 minutes.", "main"),
    ("beans", "300 g dried red kidney beans", "Boil the [beans] hard for 10 minutes.", "main"),
    ("beans", "300 g dried cannellini beans", "Simmer the [beans] for 60 minutes.", "main"),
    ("flour", "300 g plain flour; 200 ml water", "Mix the [flour] and [water] to a dough. Bake.", "bread"),
    ("flour", "100 g plain flour; 60 g butter; 50 g sugar",
     "Mix the [flour], [butter] and [sugar], and eat it from the bowl.", "snack"),
    ("sprouts", "200 g bean sprouts; 1 tbsp rapeseed oil", "Fry the [sprouts] in the [oil].", "side"),
    ("sprouts", "100 g alfalfa sprouts; 1 lettuce", "Toss the [sprouts] and the [lettuce].", "side"),
    ("honey", "2 tbsp honey; 300 g plain yogurt", "Stir the [honey] into the [yogurt].", "breakfast"),
    ("honey", "100 g honey; 200 g plain flour", "Mix the [honey] and [flour] and bake.", "baking"),
    ("oil", "200 ml olive oil; 6 cloves garlic", "Put the [garlic] in a jar and pour on the [oil].", "sauce"),
    ("oil", "150 ml olive oil; 60 g basil; 30 g pine nuts",
     "Pound the [basil] and [pine nuts], and beat in the [oil].", "sauce"),
    ("oil", "300 ml olive oil; 2 heads garlic",
     "Cook the [garlic] in the [oil] over a low heat for 40 minutes. / Keep it covered with the oil.",
     "sauce"),
    ("game", "1 rabbit (about 1.2 kg)", "Brown the [rabbit] and simmer for 75 minutes.", "main"),
    ("game", "600 g lamb's liver; 30 g butter", "Fry the [liver] in the [butter] for 6 minutes.", "main"),
    ("ferment", "1 kg white cabbage; 20 g salt",
     "Rub the [cabbage] with the [salt], pack it and let it ferment for 3 weeks.", "preserve"),
    ("ferment", "1 kg white cabbage; 20 g salt",
     "Rub the [cabbage] with the [salt]. Leave your sauerkraut at 18 °C for 21 days.", "Preserves"),
    ("hot-oil", "500 g potatoes; 1 litre sunflower oil",
     "Heat the [oil] to 180 °C. Fry the [potatoes] for 5 minutes, until crisp.", "side"),
    ("hot-oil", "500 g potatoes; sunflower oil, for deep-frying",
     "Fry the [potatoes] in the [oil] for 5 minutes, until crisp.", "side"),
    ("pressure", "250 g dried chickpeas; 1 litre water",
     "Cook the [chickpeas] in the [water] at high pressure for 25 minutes.", "main"),
    ("keeping", "500 g potatoes", "Boil the [potatoes] for 20 minutes.", "side"),
]  # fmt: skip

LEAVES_ALONE = [
    ("raw-egg", "500 ml milk; 4 large egg yolks; 50 g sugar",
     "Heat the [milk]. Whisk the [yolks] and [sugar]; pour on the hot milk, return to the pan and stir "
     "until it coats the spoon, 82 °C.", "pudding"),
    ("mince", "1 rabbit (about 1.2 kg)", "Brown the [rabbit] and simmer for 75 minutes.", "main"),
    ("ferment", "400 g strong white bread flour; 8 g salt; 300 g water",
     "Mix the [flour], [salt] and [water]. Leave to ferment for 2 days. Bake for 40 minutes.", "bread"),
    ("ferment", "200 g kimchi; 400 g cooked rice; 1 tsp salt",
     "Fry the [kimchi] and [rice] with the [salt] for 5 minutes.", "main"),
    ("hot-oil", "500 g potatoes; 2 tbsp sunflower oil", "Fry the [potatoes] in the [oil].", "side"),
    ("hot-oil", "500 ml sunflower oil; 3 egg yolks; 300 g chips",
     "Beat the [oil] into the [yolks]. Serve with the [chips].", "sauce"),
    ("pressure", "500 g potatoes", "Press the [potatoes] with gentle pressure.", "side"),
    ("keeping", "1 kg plums; 1 kg sugar", "Boil the [plums] and [sugar] for 15 minutes.", "Preserves"),
    ("keeping", "1 lemon; 500 ml water", "Boil the [lemon] in the [water].", "Drinks"),
    ("raw-egg", "500 ml milk; 4 large egg yolks; 50 g sugar",
     "Warm the [milk]. / Whisk the [yolks] and [sugar], and pour on the milk. / Cook over a low heat "
     "until it coats the spoon.", "sauce"),
    ("raw-egg", "200 g self-raising flour; 3 large eggs; 200 g butter",
     "Beat the [butter] and [eggs], fold in the [flour]. / Bake for 40 minutes.", "baking"),
    ("eggs", "200 g self-raising flour; 3 large eggs; 200 g butter; 200 g caster sugar",
     "Beat the [butter], [sugar] and [eggs], fold in the [flour]. / Bake for 40 minutes.", "baking"),
    ("raw-egg", "500 g beef mince; 1 large egg",
     "Mix the [mince] and [egg], shape into balls. / Fry them for 10 minutes.", "main"),
    ("raw-egg", "1 large egg; 300 g puff pastry",
     "Brush the [pastry] with the [egg]. / Bake for 20 minutes.", "baking"),
    ("raw-egg", "200 g mayonnaise; 1 lemon", "Stir the juice of the [lemon] into the [mayonnaise].", "sauce"),
    ("raw-egg", "300 g egg noodles", "Boil the [noodles] for 4 minutes.", "main"),
    ("raw-fish", "600 g cod fillet; 30 g butter", "Fry the [cod] in the [butter] for 6 minutes.", "main"),
    ("raw-fish", "100 g hot-smoked salmon; 1 lemon", "Lay out the [salmon] with the [lemon].", "starter"),
    ("fish", "2 × 120 g tins tuna, drained; 1 lemon", "Flake the [tuna] with the [lemon].", "main"),
    ("raw-shellfish", "1 kg mussels", "Steam the [mussels] for 5 minutes.", "main"),
    ("shellfish", "150 g cooked peeled prawns; 1 lemon", "Serve the [prawns] with the [lemon].", "starter"),
    ("beans", "2 × 400 g tins red kidney beans, drained", "Simmer the [beans] for 10 minutes.", "main"),
    ("beans", "300 g red lentils", "Simmer the [lentils] for 20 minutes.", "main"),
    ("flour", "1 tbsp plain flour; 500 g stewing beef; 500 ml beef stock",
     "Toss the [beef] in the [flour]. / Simmer in the [stock] for 2 hours.", "main"),
    ("oil", "30 ml olive oil; 2 cloves garlic; 400 g tinned tomatoes",
     "Fry the [garlic] in the [oil]. / Add the [tomatoes] and simmer for 20 minutes.", "sauce"),
    ("oil", "120 ml olive oil; 40 ml cider vinegar; 1 tsp dried oregano",
     "Shake the [oil], [vinegar] and [oregano].", "sauce"),
    ("oil", "500 ml rapeseed oil; 4 cloves garlic; 300 g chicken breast",
     "Fry the [garlic] and [chicken] in the [oil] for 10 minutes.", "main"),
    ("honey", "2 tbsp golden syrup; 300 g plain yogurt", "Stir the [syrup] into the [yogurt].", "breakfast"),
    ("poultry", "400 ml chicken stock; 200 g rice", "Simmer the [rice] in the [stock].", "main"),
    ("cuts", "80 g Parma ham; 1 melon", "Lay the [ham] over the [melon].", "starter"),
    ("keeping", "200 g plain flour; 100 g butter", "Mix the [flour] and [butter]. Bake.", "baking"),
    ("soft-cheese", "200 g brie; 300 g puff pastry", "Wrap the [brie] in the [pastry]. / Bake for 25 "
     "minutes, until the cheese runs.", "starter"),
    ("soft-cheese", "200 g mature cheddar; 4 apples", "Eat the [cheddar] with the [apples].", "side"),
    ("mercury", "600 g cod fillet", "Bake the [cod] for 12 minutes.", "main"),
    ("liver", "500 g chicken thighs", "Roast the [chicken] for 35 minutes.", "main"),
    ("rice", "1 tbsp cooked rice; 1 kg tomatoes", "Simmer the [tomatoes] and [rice].", "soup"),
    ("rice", "200 g pudding rice; 1 l whole milk", "Simmer the [rice] in the [milk].", "baking"),
    ("rice", "100 g rice flour; 1 l whole milk", "Simmer the [flour] in the [milk].", "sauce"),
    ("canning", "500 g carrots", "Boil the [carrots] in a jar-shaped pan for 10 minutes.", "side"),
]  # fmt: skip


@pytest.mark.parametrize(("key", "lines", "steps", "course"), FIRES, ids=lambda x: str(x)[:40])
def test_it_fires(key: str, lines: str, steps: str, course: str) -> None:
    assert key in cautions(lines, steps, course=course)


@pytest.mark.parametrize(
    ("key", "lines", "steps", "course"), LEAVES_ALONE, ids=lambda x: str(x)[:40]
)
def test_it_leaves_alone(key: str, lines: str, steps: str, course: str) -> None:
    assert key not in cautions(lines, steps, course=course)


@pytest.mark.parametrize(
    "words",
    [
        "## Keeping\n\nSeal the jars while hot and store them in a cupboard.",
        "## Potting\n\nPot into hot jars and seal at once.",
        "## Potting\n\nFill the jars.\n\n## Keeping\n\nA year in a cool dark cupboard.",
        "## Keeping\n\nStored in the pantry the jars last for months.",
        "## Keeping\n\nProcess the jars in a boiling-water bath.",
        "## Keeping\n\nThese jars have not been processed for the shelf; keep them cold.",
    ],
)
def test_jars_for_the_shelf_bring_the_canning_caution(words: str) -> None:
    assert "canning" in cautions("1 kg plums", "Boil the [plums] for 20 minutes.", more=words)


@pytest.mark.parametrize(
    "words",
    [
        "## Keeping\n\nKeep the jar in the fridge for 2 weeks.",
        "## Keeping\n\nThe jar keeps for 2 weeks in the fridge. Clear a shelf.",
    ],
)
def test_a_jar_for_the_fridge_does_not(words: str) -> None:
    assert "canning" not in cautions("1 kg plums", "Boil the [plums] for 20 minutes.", more=words)


def test_every_caution_is_plain_names_its_source_and_is_tested_both_ways() -> None:
    assert len(set(KEYS)) == len(KEYS)
    for caution in TEXTS:
        assert caution.text.endswith(".")
        assert caution.source
    fired = {key for key, *_ in FIRES} | {"canning"}
    assert fired == set(KEYS)


def test_the_published_temperatures_stand_in_the_texts() -> None:
    """USDA FSIS, safe minimum internal temperature chart."""
    texts = {c.key: c.text for c in TEXTS}
    for key, celsius, fahrenheit in (
        ("poultry", 74, 165), ("mince", 71, 160), ("game", 71, 160), ("cuts", 63, 145),
        ("fish", 63, 145), ("eggs", 71, 160),
        ("keeping", 74, 165),
    ):  # fmt: skip
        assert f"{celsius} °C ({fahrenheit} °F)" in texts[key]
