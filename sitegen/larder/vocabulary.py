"""The closed lists of words that the larder's tables and the sites' own food files may use.

Allergens: Regulation (EU) 1169/2011, Annex II, and the US FD&C Act 201(qq) with the FASTER Act of
2021 (US practice adds pine nuts and chestnuts to the nuts). Nutrients: the fields of the USDA
National Nutrient Database for Standard Reference, Release 28, file ABBREV, in their order there.
"""

from typing import Final


def words(text: str) -> tuple[str, ...]:
    """A list of words written as running text, which is easier to read and to mend."""
    return tuple(text.split())


#: Per 100 g, in the order of SR28's ABBREV file (its fields 3 to 48).
SR28_NUTRIENTS: Final = words(
    "water_g energy_kcal protein_g fat_g ash_g carbohydrate_g fibre_g sugars_g calcium_mg iron_mg "
    "magnesium_mg phosphorus_mg potassium_mg sodium_mg zinc_mg copper_mg manganese_mg selenium_ug "
    "vitamin_c_mg thiamin_mg riboflavin_mg niacin_mg pantothenic_acid_mg vitamin_b6_mg folate_ug "
    "folic_acid_ug food_folate_ug folate_dfe_ug choline_mg vitamin_b12_ug vitamin_a_iu "
    "vitamin_a_ug retinol_ug alpha_carotene_ug beta_carotene_ug beta_cryptoxanthin_ug lycopene_ug "
    "lutein_zeaxanthin_ug vitamin_e_mg vitamin_d_ug vitamin_d_iu vitamin_k_ug saturated_g "
    "monounsaturated_g polyunsaturated_g cholesterol_mg"
)

#: Known for some foods only, from a label or by derivation; SR28's short file lacks them.
EXTRA_NUTRIENTS: Final = words("alcohol_g polyols_g erythritol_g allulose_g added_sugars_g trans_g")

NUTRIENTS: Final = SR28_NUTRIENTS + EXTRA_NUTRIENTS

GLUTEN_CEREALS: Final = words("wheat barley rye oats")
NUTS: Final = words(
    "almonds hazelnuts walnuts cashews pecans brazil-nuts pistachios macadamias pine-nuts chestnuts"
)
ALLERGENS: Final = frozenset(
    words("crustaceans eggs fish peanuts soya milk celery mustard sesame sulphites lupin molluscs")
    + GLUTEN_CEREALS
    + NUTS
)

#: Words of the tables that stand for another (spelt is a wheat by Annex II).
ALLERGEN_ALIASES: Final = {"spelt": "wheat", "kamut": "wheat", "soy": "soya", "egg": "eggs"}

#: Words for several allergens at once, which a label has to name one by one: what to write.
ALLERGEN_GROUPS: Final = {
    "gluten": "name the cereal: wheat, barley, rye or oats",
    "nuts": "name the nuts: " + ", ".join(NUTS),
    "tree-nuts": "name the nuts: " + ", ".join(NUTS),
    "shellfish": "write crustaceans (prawns, crab) or molluscs (mussels, squid), or both",
    "dairy": "write milk",
    "lactose": "write milk",
}

#: What rules a diet out.
CLASSES: Final = frozenset(
    words("meat pork poultry fish shellfish dairy egg honey gelatine alcohol gluten insect rennet")
)

AISLES: Final = frozenset(
    words(
        "vegetables fruit herbs meat fish dairy bakery baking grains pulses pasta tins spices oils "
        "sauces nuts sweet drinks frozen water"
    )
)

TRAITS: Final = frozenset(
    words(
        "liquid spooned weighed fine taste leavening salt spice gelling egg varies raw-poultry "
        "raw-mince raw-game raw-offal raw-cut raw-fish raw-shellfish raw-egg raw-flour "
        "raw-kidney-bean raw-sprouts honey unpasteurised soft-cheese liver much-mercury rice"
    )
)
