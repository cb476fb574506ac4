"""Lines that name more than one food: none of them may be lost to the allergens."""

from __future__ import annotations

import pytest

from sitegen.kitchen.foods import identify
from sitegen.larder.larder import Larder
from sitegen.problems import Problem
from sitegen.reading.lines import read_line
from sitegen.reading.source import Place


def meant(text: str) -> tuple[list[str], tuple[str, ...]]:
    problems: list[Problem] = []
    line = read_line(text, Place(1, 1), "soup.md", problems)
    assert line is not None
    found = identify(line, Larder.load(), "soup.md", problems)
    return [food.name for food in found.foods], found.unknown


@pytest.mark.parametrize(
    ("text", "foods", "unknown"),
    [
        (
            "sour cream, grated parmesan and sliced scallions, for serving",
            ["soured cream", "parmesan, grated", "spring onion"],
            (),
        ),
        ("basil, walnuts and gobblewort, to serve", ["basil, fresh", "walnuts"], ("gobblewort",)),
        ("parsley, chopped", ["parsley, fresh"], ()),
        ("butter, softened, for the tin", ["butter"], ()),
        ("1 tbsp maple syrup (or honey)", ["maple syrup", "honey"], ()),
        ("200 ml oat milk (or gobblewort milk)", ["oat drink"], ("gobblewort milk",)),
        ("240 ml lemon juice (from 5 to 6 lemons)", ["lemon juice"], ()),
        ("1 (9-inch) pie crust", ["shortcrust pastry"], ()),
        ("200 g yoghurt (gobblewort)", [], ()),
        # whichever of the two the larder knows: the cook may take it
        ("100 g gobblewort or spring onions", ["spring onion"], ("gobblewort",)),
        ("gobblewort or double cream, to serve", ["double cream"], ("gobblewort",)),
        ("custard or double cream, to serve", ["double cream"], ("custard",)),
        # the last word may be both's
        ("250 g cherry or plum tomatoes", ["cherry tomatoes", "plum tomatoes, fresh"], ()),
        ("1 tbsp peanut or almond butter", ["peanut butter, smooth", "almond butter"], ()),
        ("1 tsp fennel or cumin seeds", ["fennel seeds", "cumin seeds"], ()),
        ("2 tbsp lime or lemon juice", ["lime juice", "lemon juice"], ()),
        ("500 ml chicken or vegetable stock", ["chicken stock", "vegetable stock"], ()),
        ("200 ml coconut or almond milk", ["coconut milk, tinned", "almond milk, unsweetened"], ()),
        ("100 g milk or dark chocolate", ["milk chocolate", "dark chocolate, 70%"], ()),
        # or not
        ("50 g butter or olive oil", ["butter", "olive oil"], ()),
        ("100 g sugar or golden syrup", ["granulated sugar", "golden syrup"], ()),
        ("2 tbsp rapeseed or olive oil", ["rapeseed oil", "olive oil"], ()),
        ("100 ml double cream or gobblewort", ["double cream"], ("gobblewort",)),
        # a baker's percentage, an acidity, a remark: what the bracket says leaves the food as it is
        ("400 g strong white bread flour (80%)", ["strong white bread flour"], ()),
        ("375 g water (75 %)", ["water"], ()),
        ("250 g unsalted butter (50%)", ["unsalted butter"], ()),
        ("250 ml cider vinegar (5% acidity)", ["cider vinegar"], ()),
        ("280 g unsalted butter (84% fat if you can find it)", ["unsalted butter"], ()),
        ("25 g active sourdough starter (100% hydration)", ["sourdough starter"], ()),
        # but of milk and chocolate it tells another food
        ("200 ml milk (2%)", ["semi-skimmed milk"], ()),
        ("200 ml cream (90%)", [], ()),
        ("100 g dark chocolate (99%)", [], ()),
        ("200 g rye sourdough starter", [], ()),
        # a measure without a size hides no food, nor its allergens
        ("a large glass of white wine", ["white wine"], ()),
        ("a mug of whole milk", ["whole milk"], ()),
        ("2 ladlefuls of beef stock", ["beef stock"], ()),
        ("a few drops of almond extract", ["almond extract"], ()),
        ("a sprig or two of thyme", ["thyme, fresh"], ()),
        ("250 ml sunflower oil, or a mixture of sunflower and olive", ["sunflower oil"], ()),
        ("1 lb lean ground beef (85/15)", ["beef mince, 15% fat"], ()),
    ],
)
def test_foods_of_a_line(text: str, foods: list[str], unknown: tuple[str, ...]) -> None:
    assert meant(text) == (foods, unknown)
