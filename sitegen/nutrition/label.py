"""The label: nutrients per serving and per 100 g in the region's form, with what they rest on."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from sitegen.dish import Label, LabelLine, NutrientFigure
from sitegen.nutrition.contents import Contents
from sitegen.nutrition.rounding import EU, US, daily, printed
from sitegen.reading.recipe import Recipe

KJ_PER_KCAL = 4.184
"""The thermochemical calorie; EU labels sum 17 kJ/g and 37 kJ/g factors, which differs by < 1 %."""

SALT_PER_SODIUM = 2.5
"""Regulation (EU) 1169/2011, Annex I."""

ATWATER = {"protein": 4.0, "fat": 9.0, "carbohydrate": 4.0, "alcohol": 7.0}
"""kcal per g for the picture of where the energy comes from: Regulation (EU) 1169/2011, Annex XIV."""


@dataclass(frozen=True, slots=True)
class _Row:
    key: str
    label: str
    indent: bool = False


_US_ROWS = (
    _Row("energy_kcal", "Calories"),
    _Row("fat_g", "Total fat"),
    _Row("saturated_g", "Saturated fat", True),
    _Row("cholesterol_mg", "Cholesterol"),
    _Row("sodium_mg", "Sodium"),
    _Row("carbohydrate_g", "Total carbohydrate"),
    _Row("fibre_g", "Dietary fiber", True),
    _Row("sugars_g", "Total sugars", True),
    _Row("protein_g", "Protein"),
    _Row("vitamin_d_ug", "Vitamin D"),
    _Row("calcium_mg", "Calcium"),
    _Row("iron_mg", "Iron"),
    _Row("potassium_mg", "Potassium"),
)
_EU_ROWS = (
    _Row("energy_kj", "Energy"),
    _Row("energy_kcal", "Energy"),
    _Row("fat_g", "Fat"),
    _Row("saturated_g", "of which saturates", True),
    _Row("carbohydrate_g", "Carbohydrate"),
    _Row("sugars_g", "of which sugars", True),
    _Row("fibre_g", "Fibre"),
    _Row("protein_g", "Protein"),
    _Row("salt_g", "Salt"),
)
_ALCOHOL = _Row("alcohol_g", "Alcohol")


def make_label(recipe: Recipe, contents: Contents, region: str) -> Label:
    """The label of one recipe; figures follow the portion, never the scaling."""
    form = "us" if region == "us" else "eu"
    totals = contents.totals
    serving = {k: v / recipe.serves for k, v in totals.items()}
    batch = contents.batch_grams
    hundred = {k: v / batch * 100 for k, v in totals.items()} if batch else {}
    rows = list(_US_ROWS if form == "us" else _EU_ROWS)
    if totals.get("alcohol_g", 0) > 0.05:
        rows.append(_ALCOHOL)
    return Label(
        form=form,  # type: ignore[arg-type]
        serving=_serving(recipe, batch),
        serves=recipe.serves,
        batch_grams=batch,
        per_serving=tuple(_figure(row, serving, contents, form, 1 / recipe.serves) for row in rows),
        per_100g=tuple(_figure(row, hundred, contents, form, 100 / batch) for row in rows)
        if batch
        else (),
        covers=round(contents.covers, 4),
        lines=tuple(
            LabelLine(
                p.index,
                p.text,
                p.grams,
                p.eaten,
                p.food,
                p.source,
                {k: v / recipe.serves for k, v in p.nutrients.items()},
                p.note,
            )
            for p in contents.portions
        ),
        sources=tuple(dict.fromkeys(p.source for p in contents.portions if p.source)),
        energy_split=_split(serving),
        per_serving_values=serving,
        per_100g_values=hundred,
    )


def _figure(
    row: _Row, values: Mapping[str, float], contents: Contents, form: str, share: float
) -> NutrientFigure:
    """One line of the label; ``share`` is what part of the batch it is for."""
    source = {"energy_kj": "energy_kcal", "salt_g": "sodium_mg"}.get(row.key, row.key)
    known = values.get(source)
    if known is None:
        return NutrientFigure(row.key, row.label, None, "not known", False, "", row.indent)
    factor = {"energy_kj": KJ_PER_KCAL, "salt_g": SALT_PER_SODIUM / 1000}.get(row.key, 1.0)
    value = known * factor
    rule = (US if form == "us" else EU)[row.key]
    text = printed(rule, value)
    complete = row.key == "alcohol_g" or not contents.incomplete(source)
    if not complete:
        # a gap too small to change what is printed is no gap to the reader
        gap = contents.gap(source)
        complete = gap is not None and printed(rule, value + gap * share * factor) == text
    if not complete:
        text = f"at least {text.removeprefix('less than ')}"
    per_cent = daily(row.key, value) if form == "us" and complete else ""
    return NutrientFigure(row.key, row.label, value, text, complete, per_cent, row.indent)


def _serving(recipe: Recipe, batch: float | None) -> str:
    share = "the whole batch" if recipe.serves == 1 else f"1 of {recipe.serves} portions"
    if batch is None:
        return share
    grams = batch / recipe.serves
    step = 5 if grams < 250 else 10
    return f"{share}, about {max(1, round(grams / step)) * step} g"


def _split(serving: Mapping[str, float]) -> tuple[tuple[str, float], ...]:
    energy = {
        name: max(0.0, serving.get(f"{name}_g", 0.0)) * factor for name, factor in ATWATER.items()
    }
    whole = sum(energy.values())
    if not whole:
        return ()
    return tuple((name, part / whole) for name, part in energy.items() if part / whole >= 0.005)
