"""Ledger rows: each ingredient in both systems."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from pathlib import PurePosixPath
from typing import NamedTuple

from sitegen.dish import Dish, Figure, LedgerRow
from sitegen.kitchen.amid import amid
from sitegen.kitchen.figures import (
    author_figure,
    column_of,
    lead_figure,
    ounce,
    tsp,
    worked_out,
    written,
)
from sitegen.kitchen.foods import Found, identify, made_of
from sitegen.kitchen.nouns import both_forms
from sitegen.kitchen.tables import mixed
from sitegen.kitchen.units import UNITS, dimension_of
from sitegen.kitchen.weighing import Span, Weighed, weigh
from sitegen.larder.food import Food
from sitegen.larder.larder import Larder
from sitegen.problems import Problem
from sitegen.reading.naming import stem
from sitegen.reading.read import slug_of
from sitegen.reading.recipe import IngredientLine, Measure, Recipe
from sitegen.site import Settings

CAUTIONS = ("leavening", "salt", "spice", "gelling", "egg")

# Counts so small that no scale is asked to weigh them.
_UNWEIGHED = frozenset("pinch dash drop splash drizzle grind squeeze".split())

_SMALLEST_OUNCES = Fraction(1, 8)


@dataclass(frozen=True, slots=True)
class Kitchen:
    """What working out needs besides the recipe."""

    larder: Larder
    settings: Settings
    others: Mapping[str, Dish]
    """Slug → dish, of the recipes that may be ingredients."""

    @property
    def region(self) -> str:
        """The site's region."""
        return self.settings.region


class Worked(NamedTuple):
    """A row with what it was made from, for the sums."""

    row: LedgerRow
    found: Found
    weighed: Weighed
    other: Dish | None = None
    swap: Worked | None = None
    alternatives: tuple[Worked, ...] = ()


def work_row(
    index: int, line: IngredientLine, recipe: Recipe, kitchen: Kitchen, problems: list[Problem]
) -> Worked:
    """One line worked out, with its swap and alternatives."""
    region, other = kitchen.settings.region, None
    if line.reference:
        other = _other(line, recipe, kitchen, problems)
        found, weighed = Found(), _weigh_reference(line, other, region)
    elif made := made_of(line, recipe.parts):
        found, weighed = Found(made=made), weigh(line, None, region)
    else:
        found = identify(line, kitchen.larder, recipe.file, problems)
        weighed = weigh(line, found.food, region)
    alternatives: tuple[Worked, ...] = ()
    if line.alternatives:
        alternatives = tuple(
            [work_row(index, alt, recipe, kitchen, problems) for alt in line.alternatives]
        )
    swap = work_row(index, line.swap, recipe, kitchen, problems) if line.swap else None
    food = found.food
    also = kitchen.larder.own_names(food.name) if food else ()
    row = _row(index, line, food, also, weighed, other, region, swap, alternatives)
    if found.made:
        row = replace(row, missing="")
    return Worked(row, found, weighed, other, swap, alternatives)


def target_of(line: IngredientLine, recipe: Recipe) -> str:
    """The path, from the site's folder, of the recipe file that a line's link names."""
    parts: list[str] = []
    for piece in (*PurePosixPath(recipe.file).parent.parts, *line.reference.split("/")):
        if piece == "..":
            parts = parts[:-1]
        elif piece not in ("", "."):
            parts.append(piece)
    return "/".join(parts)


def _other(
    line: IngredientLine, recipe: Recipe, kitchen: Kitchen, problems: list[Problem]
) -> Dish | None:
    target = target_of(line, recipe)
    other = kitchen.others.get(slug_of(target))
    if other is not None and other.recipe.file == target:
        return other
    problems.append(
        Problem(
            "reference-missing",
            "error",
            recipe.file,
            line.place.line,
            line.place.column,
            f"there is no readable recipe at '{line.reference}'",
            "write the path from this file to the other recipe's .md file",
            len(line.text),
        )
    )
    return None


def _weigh_reference(line: IngredientLine, other: Dish | None, region: str) -> Weighed:
    """Grams of another recipe: by weight, by its volume, by portions or by batches."""
    plain = weigh(line, None, region)
    batch = other.contents.batch_grams if other else None
    if plain.grams is not None or other is None or batch is None or line.amount is None:
        return plain
    whole = Fraction(batch).limit_denominator(10_000)
    term = line.amount.terms[0]
    count: Span = (term.value, term.upto if term.upto is not None else term.value)
    if plain.millilitres is not None and other.recipe.volume is not None:
        from sitegen.kitchen.units import size_of

        size = size_of(other.recipe.volume.unit, region) or Fraction(1)
        per_ml = whole / (other.recipe.volume.value * size)
        ml = plain.millilitres
        basis = f"from the batch's weight and volume in {other.recipe.title}"
        return Weighed((ml[0] * per_ml, ml[1] * per_ml), ml, basis)
    share = None
    if term.unit in ("portion", "serving"):
        share = Fraction(1, other.recipe.serves)
    elif term.unit in ("batch", ""):
        share = Fraction(1)
    if share is None:
        return plain
    each = whole * share
    return Weighed((count[0] * each, count[1] * each), None, f"from {other.recipe.title}")


def _row(
    index: int,
    line: IngredientLine,
    food: Food | None,
    also: tuple[str, ...],
    weighed: Weighed,
    other: Dish | None,
    region: str,
    swap: Worked | None,
    alternatives: tuple[Worked, ...],
) -> LedgerRow:
    traits = food.traits if food else frozenset()
    fine = "fine" in traits
    measures = _measures(line)
    apiece = [m for m in measures if m.apiece]
    grams, millilitres = weighed.grams, weighed.millilitres
    metric = us = lead = None
    leading: Measure | None = None
    count = line.amount.terms[0] if line.amount else None
    for measure in measures:
        if measure.apiece and count is not None:
            continue
        column = column_of(measure.terms[0].unit, region)
        if column == "metric" and metric is None:
            metric = author_figure(measure, region, fine)
        elif column == "us" and us is None:
            us = author_figure(measure, region, fine)
        elif column == "lead" and lead is None:
            # a count in brackets leads too: "500 g potatoes (about 3)" is about 3 potatoes, 500 g
            lead, leading = _lead(line, measure, region, "egg" in traits), measure
    shown, noun_in_lead = line.food, lead is not None and "|" in lead.noun
    if line.part_of or (noun_in_lead and leading and leading.unit == ""):
        shown = ""
    weightless = count is not None and (count.unit in _UNWEIGHED or _featherweight(weighed))
    if line.amount is not None and not weightless:
        about = any(m.about for m in apiece)
        metric = metric or _metric(weighed, food, about or (us is not None and us.about), fine)
        us = us or _us(weighed, food, about)
    preparation = _preparation(line, apiece) if apiece else line.preparation
    return LedgerRow(
        index=index,
        line=line,
        food=shown,
        metric=metric,
        us=us,
        lead=lead,
        size="" if noun_in_lead else (line.amount.size if line.amount else ""),
        preparation=preparation,
        remarks=line.remarks,
        missing=_missing(line, food, other, metric, us, weightless),
        cautions=tuple([c for c in CAUTIONS if c in traits]) if traits else (),
        grams=grams[0] if grams else None,
        grams_upto=_upper(grams) if grams else None,
        millilitres=millilitres[0] if millilitres else None,
        larder_name=food.name if food else "",
        also=also,
        larder_source=food.source if food else "",
        reference=other.recipe.slug if other else "",
        swap=swap.row if swap else None,
        alternatives=tuple([a.row for a in alternatives]),
        optional="optional" in line.remarks,
        aisle=food.aisle if food else "",
        amid=amid((preparation, *line.remarks, line.note), region)
        if preparation or line.remarks or line.note
        else (),
    )


def _measures(line: IngredientLine) -> tuple[Measure, ...]:
    """The author's measures of a line, the one that leads first."""
    return line.measures if line.amount is None else (line.amount, *line.measures)


def _upper(span: Span) -> Fraction | None:
    """The upper end of a range; None where there is none."""
    return None if span[0] is span[1] or span[0] == span[1] else span[1]


def _over(span: Span, unit: Fraction) -> Span:
    low = span[0] / unit
    return low, low if span[0] is span[1] else span[1] / unit


def _preparation(line: IngredientLine, apiece: list[Measure]) -> str:
    return ", ".join([*map(_each_words, apiece), *filter(None, [line.preparation])])


def _each_words(measure: Measure) -> str:
    """``about 150 g each``: of one, so that it stays true when the recipe is scaled."""
    return measure.text if measure.text.endswith("each") else f"{written(measure)} each"


def _featherweight(weighed: Weighed) -> bool:
    """A bay leaf of 0.2 g: the count says all that a cook can use."""
    return bool(weighed.counted and weighed.grams and weighed.grams[1] < 1)


def _lead(line: IngredientLine, measure: Measure, region: str, egg: bool) -> Figure:
    unit = measure.unit
    if measure.each is not None:
        each = Measure((measure.each,), measure.text)
        size = (
            f"{mixed(measure.each.value)} {measure.each.unit}"
            if measure.each.unit in ("cm", "mm", "in")
            else written(each)
        )
        if unit == "piece" and "piece" not in measure.text.lower():
            return lead_figure(measure, region, f"× {size}|× {size}", half=True)  # "2 × 150 g"
        one, many = UNITS[unit].one, UNITS[unit].many
        return lead_figure(measure, region, f"× {size} {one}|× {size} {many}", half=True)
    if unit.startswith("="):
        fruit = unit[1:]
        plural = line.whole if stem(line.whole) == fruit and line.whole != fruit else f"{fruit}s"
        prefix = f"{line.part_of} of "
        return lead_figure(measure, region, f"{fruit}|{plural}", half=False, prefix=prefix)
    if unit:
        noun = unit
        if measure.size and dimension_of(unit) == "count":
            noun = f"{measure.size} {UNITS[unit].one}|{measure.size} {UNITS[unit].many}"
        return lead_figure(measure, region, noun, half=False)
    return lead_figure(measure, region, _food_noun(line, measure), half=egg)


def _food_noun(line: IngredientLine, measure: Measure) -> str:
    """Both forms of a counted food: ``large egg|large eggs``."""
    size = f"{measure.size} " if measure.size else ""
    bracket = re.search(r"\s*\([^()]*\)$", line.food)  # "green onions (shallots)"
    after = bracket[0] if bracket and bracket.start() else ""
    words = line.food.removesuffix(after).split()
    last = words[-1]
    singular, plural = both_forms(last)
    before = " ".join(words[:-1])
    before = f"{before} " if before else ""
    return f"{size}{before}{singular}{after}|{size}{before}{plural}{after}"


def _metric(weighed: Weighed, food: Food | None, about: bool, fine: bool) -> Figure | None:
    liquid = food is not None and "liquid" in food.traits
    if weighed.millilitres and (liquid or weighed.grams is None):
        basis = weighed.volume_basis or "the same volume in millilitres"
        return _worked_out("ml", weighed.millilitres, basis, about)
    if weighed.grams:
        basis = weighed.grams_basis or "the same weight in grams"
        return _worked_out("g-fine" if fine else "g", weighed.grams, basis, about)
    return None


def _worked_out(ladder: str, span: Span, basis: str, about: bool) -> Figure:
    return worked_out(ladder, span[0], _upper(span), basis, about)


def _us(weighed: Weighed, food: Food | None, about: bool) -> Figure | None:
    """Volume for what is spooned, weight for what is weighed; counts get their weight."""
    traits = food.traits if food else frozenset()
    spooned = "weighed" not in traits and (not weighed.counted or "liquid" in traits)
    if weighed.millilitres and spooned:
        basis = weighed.volume_basis or "the same volume in US measures"
        return _worked_out("us-volume", _over(weighed.millilitres, tsp()), basis, about)
    if weighed.grams:
        ounces = _over(weighed.grams, ounce())
        if ounces[0] >= (1 if weighed.counted else _SMALLEST_OUNCES):
            basis = weighed.grams_basis or "the same weight in ounces"
            return _worked_out("us-weight", ounces, basis, about)
    return None


def _missing(
    line: IngredientLine,
    food: Food | None,
    other: Dish | None,
    metric: Figure | None,
    us: Figure | None,
    weightless: bool,
) -> str:
    if line.amount is None or weightless or (metric and us):
        return ""
    if food is None and other is None:
        return "the larder does not know this food"
    if metric is None:
        return "no measured weight of this measure is known"
    return "" if metric.value < 40 else "no measure of this food in cups or spoons is known"
