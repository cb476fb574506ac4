"""The label: nutrients per serving and per 100 g in the region's form, with what they rest on.

Energy is the food tables' own (measured, or by factors of each food), not what Annex XIV's factors
give for the sum: they suit a packet's declaration, the tables suit the food. Kilojoules are the same
energy in the other unit, so that the two never tell different stories. ``sitegen label`` prints
what the factors of Annex XIV would give beside it.

Carbohydrate is the whole by difference, fibre included, as USDA and the US label have it. The EU's is
what the body uses (Annex I), so its line has the fibre taken off, under a key of its own.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from sitegen.dish import Label, LabelLine, NutrientFigure, SwapFigures
from sitegen.nutrition.amounts import Amounts, at_hand, in_full, times
from sitegen.nutrition.atwater import KCAL_PER_GRAM, KJ_PER_GRAM, energy
from sitegen.nutrition.contents import Contents
from sitegen.nutrition.net_carbohydrate import PARTS, net_carbohydrate
from sitegen.nutrition.rounding import at_least, at_most, daily, printed, rule_for
from sitegen.reading.recipe import Recipe

KJ_PER_KCAL = 4.184
"""The thermochemical calorie."""

SALT_PER_SODIUM = 2.5
"""Regulation (EU) 1169/2011, Annex I."""

_FACTORED = {
    "energy_kj": ("energy_kcal", KJ_PER_KCAL),
    "salt_g": ("sodium_mg", SALT_PER_SODIUM / 1000),
}

_SPLIT = {"protein": 4.0, "fat": 9.0, "carbohydrate": 4.0, "alcohol": 7.0}
"""kcal per g for the picture of where the energy comes from: Regulation (EU) 1169/2011, Annex XIV."""


@dataclass(frozen=True, slots=True)
class _Row:
    key: str
    label: str
    indent: bool = False


# The order of 21 CFR 101.9(d) and (c).
_US_ROWS = (
    _Row("energy_kcal", "Calories"),
    _Row("fat_g", "Total fat"),
    _Row("saturated_g", "Saturated fat", True),
    _Row("trans_g", "Trans fat", True),
    _Row("cholesterol_mg", "Cholesterol"),
    _Row("sodium_mg", "Sodium"),
    _Row("carbohydrate_g", "Total carbohydrate"),
    _Row("fibre_g", "Dietary fiber", True),
    _Row("sugars_g", "Total sugars", True),
    _Row("added_sugars_g", "Includes added sugars", True),
    _Row("protein_g", "Protein"),
    _Row("vitamin_d_ug", "Vitamin D"),
    _Row("calcium_mg", "Calcium"),
    _Row("iron_mg", "Iron"),
    _Row("potassium_mg", "Potassium"),
)
# The order of Regulation (EU) 1169/2011, Annex XV.
_EU_ROWS = (
    _Row("energy_kj", "Energy"),
    _Row("energy_kcal", "Energy"),
    _Row("fat_g", "Fat"),
    _Row("saturated_g", "of which saturates", True),
    _Row("available_carbohydrate_g", "Carbohydrate"),
    _Row("sugars_g", "of which sugars", True),
    _Row("fibre_g", "Fibre"),
    _Row("protein_g", "Protein"),
    _Row("salt_g", "Salt"),
)
_POLYOLS = {
    "us": _Row("polyols_g", "Sugar alcohol", True),
    "eu": _Row("polyols_g", "of which polyols", True),
}
_ALCOHOL = _Row("alcohol_g", "Alcohol")
_SMALLEST_GRAMS = 0.05

Form = str
"""``us`` or ``eu``."""


def make_label(
    recipe: Recipe,
    contents: Contents,
    region: str,
    net_parts: Sequence[str] = (),
    swaps: Sequence[tuple[str, str, Contents]] = (),
) -> Label:
    """The label of one recipe; figures follow the portion, never the scaling.

    ``net_parts`` are what the site takes off for net carbohydrate; none: the line is not shown.
    ``swaps`` are the words of each swap, of what it stands for, and the batch made with it.
    """
    form = "us" if region == "us" else "eu"
    batch, portion = contents.batch_grams, 1 / recipe.serves
    rows = _rows(form, contents)
    known = [(row, _between(row.key, contents)) for row in rows]
    totals = contents.totals
    serving = times(totals, portion)
    net, formula = net_carbohydrate(contents, portion, net_parts or PARTS)
    ends = contents.ends
    return Label(
        form=form,  # type: ignore[arg-type]
        serving=_serving(recipe, batch),
        serves=recipe.serves,
        batch_grams=batch,
        per_serving=tuple([_figure(row, of, portion, form) for row, of in known]),
        per_100g=tuple([_figure(row, of, 100 / batch, form) for row, of in known]) if batch else (),
        covers=round(contents.covers, 4),
        lines=tuple([LabelLine(p, portion) for p in contents.portions]),
        sources=tuple(_sources(contents)),
        energy_split=_split(serving),
        per_serving_values=serving,
        per_100g_values=_of_100g(totals, batch) if batch else {},
        net_carbohydrate_g=net,
        net_carbohydrate=formula if net_parts else "",
        ranges=_ranges(form, ends, portion) if ends else (),
        swaps=tuple(
            SwapFigures(
                use,
                instead,
                tuple([_figure(row, _between(row.key, made), portion, form) for row in rows]),
            )
            for use, instead, made in swaps
        ),
        by_factors=_by_factors(contents, portion),
    )


def _of_100g(totals: Amounts, batch: float) -> Amounts:
    def share(of: Mapping[str, float]) -> dict[str, float]:
        return {key: value / batch * 100 for key, value in of.items()}

    return Amounts(share(at_hand(totals)), lambda: share(in_full(totals)))


def figure_of(key: str, contents: Contents, share: float, form: Form) -> NutrientFigure:
    """The figure of any nutrient of a part of the batch, whether or not the label prints it."""
    return _figure(_Row(key, key), _between(key, contents), share, form)


def _rows(form: Form, contents: Contents) -> list[_Row]:
    rows = list(_US_ROWS if form == "us" else _EU_ROWS)
    if (contents.total("polyols_g") or 0) > _SMALLEST_GRAMS:
        after = "added_sugars_g" if form == "us" else "sugars_g"
        rows.insert([row.key for row in rows].index(after) + 1, _POLYOLS[form])
    if (contents.total("alcohol_g") or 0) > _SMALLEST_GRAMS:
        rows.append(_ALCOHOL)
    return rows


class _Between(NamedTuple):
    """What is known of a figure: the sum of what is known, and the bounds of the truth."""

    value: float
    low: float
    high: float | None


def _between(key: str, contents: Contents) -> _Between | None:
    """Of the whole batch; None if nothing at all is known of it."""
    if key in _FACTORED:
        whole, factor = _FACTORED[key]
        found = _between(whole, contents)
        if found is None:
            return None
        value, low, high = found
        return _Between(value * factor, low * factor, None if high is None else high * factor)
    if key == "available_carbohydrate_g":
        carbohydrate = _between("carbohydrate_g", contents)
        if carbohydrate is None:
            return None
        fibre = _between("fibre_g", contents) or _Between(0, 0, contents.gap("fibre_g"))
        most = carbohydrate.high
        return _Between(
            max(0.0, carbohydrate.value - fibre.value),
            0.0 if fibre.high is None else max(0.0, carbohydrate.low - fibre.high),
            None if most is None else max(0.0, most - fibre.low),
        )
    total = contents.total(key)
    if total is None:
        return None
    gap = contents.gap(key)
    return _Between(total, total, None if gap is None else total + gap)


def _figure(row: _Row, of_batch: _Between | None, share: float, form: Form) -> NutrientFigure:
    """One line of the label; ``share`` is what part of the batch it is for.

    A gap too small to change what is printed is no gap to the reader. Any other shows: "at least",
    "at most", or not known.
    """
    if of_batch is None:
        return _not_known(row)
    exact = of_batch.low == of_batch.value == of_batch.high
    value, low = of_batch.value * share, of_batch.low * share
    high = None if of_batch.high is None else of_batch.high * share
    rule = rule_for(row.key, form)
    text = printed(rule, value)
    low_holds = exact or low == value or printed(rule, low) == text
    high_holds = exact or (high is not None and printed(rule, high) == text)
    if low_holds and high_holds:
        per_cent = daily(row.key, value) if form == "us" else ""
        return NutrientFigure(row.key, row.label, value, text, True, per_cent, row.indent)
    text = ""
    if low_holds:
        text = at_least(rule, value)
    elif high_holds:
        text = at_most(rule, value)
    if not text:
        return _not_known(row)
    return NutrientFigure(row.key, row.label, value, text, False, "", row.indent)


def _not_known(row: _Row) -> NutrientFigure:
    return NutrientFigure(row.key, row.label, None, "not known", False, "", row.indent)


_SR28 = "USDA SR28 "
_SR28_IN_FULL = "USDA National Nutrient Database for Standard Reference, Release 28"


def _sources(contents: Contents) -> Iterator[str]:
    """Each source with the foods it answers for; USDA's foods with their numbers in one line."""
    foods: dict[str, list[str]] = {}
    for portion in contents.portions:
        if portion.source.startswith(_SR28):
            numbered = f"{portion.food} ({portion.source.removeprefix(_SR28)})"
            foods.setdefault(_SR28_IN_FULL, []).append(numbered)
        elif portion.source:
            foods.setdefault(portion.source, []).append(portion.food)
    for source, names in foods.items():
        listed = ", ".join(dict.fromkeys(names))
        yield f"{source}: {listed}" if source == _SR28_IN_FULL else f"{listed}: {source}"


def _serving(recipe: Recipe, batch: float | None) -> str:
    share = "the whole batch" if recipe.serves == 1 else f"1 of {recipe.serves} portions"
    if batch is None:
        return share
    grams = batch / recipe.serves
    step = 5 if grams < 250 else 10
    return f"{share}, about {max(1, round(grams / step)) * step} g"


def _split(serving: Mapping[str, float]) -> tuple[tuple[str, float], ...]:
    parts = {n: max(0.0, serving.get(f"{n}_g", 0.0)) * factor for n, factor in _SPLIT.items()}
    whole = sum(parts.values())
    if not whole:
        return ()
    return tuple((name, part / whole) for name, part in parts.items() if part / whole >= 0.005)


_RANGED = ("energy_kcal", "fat_g", "carbohydrate_g", "protein_g")


def _ranges(
    form: Form, ends: tuple[Mapping[str, float], Mapping[str, float]], share: float
) -> tuple[tuple[str, str, str], ...]:
    """What the main figures are at both ends of the amounts that the recipe gives as ranges."""
    found = []
    for key in _RANGED:
        rule = rule_for(key, form)
        low, high = (printed(rule, end.get(key, 0.0) * share) for end in ends)
        if low != high:
            found.append((key, low, high))
    return tuple(found)


def _by_factors(contents: Contents, share: float) -> tuple[float, float] | None:
    """kcal and kJ by the factors of Annex XIV, where the parts are known of every ingredient."""
    if any(contents.incomplete(key) for key in ("protein_g", "fat_g", "carbohydrate_g", "fibre_g")):
        return None
    totals = at_hand(contents.totals)
    kcal, kj = energy(totals, KCAL_PER_GRAM), energy(totals, KJ_PER_GRAM)
    return None if kcal is None or kj is None else (kcal * share, kj * share)
