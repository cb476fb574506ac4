"""From a Recipe to a Dish: the one place where everything is put together.

Pure: the same recipe, larder, settings and other dishes give the same dish, anywhere and on any day.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from zlib import crc32

from sitegen.dish import (
    Dish,
    DishPiece,
    Field,
    Figure,
    Label,
    LedgerPart,
    LedgerRow,
    MarginNote,
    MethodPartView,
    StepView,
    TemperaturePiece,
    TimePiece,
    Tin,
)
from sitegen.kitchen import ovens
from sitegen.kitchen.batch import add_up, with_swaps
from sitegen.kitchen.cautions import cautions
from sitegen.kitchen.figures import ounce, tsp
from sitegen.kitchen.heat import Reach
from sitegen.kitchen.method import show_mention
from sitegen.kitchen.printing import print_figure
from sitegen.kitchen.rows import Kitchen, Worked, work_row
from sitegen.kitchen.tins import length_piece, read_scoop, read_tin, scoop_ml
from sitegen.kitchen.units import dimension_of, meaning_of, size_of
from sitegen.kitchen.words import duration_words, row_words, step_words, strip_tags
from sitegen.larder.larder import Larder
from sitegen.nutrition.allergens import diets, statement
from sitegen.nutrition.contents import Contents
from sitegen.nutrition.label import make_label
from sitegen.problems import Problem
from sitegen.reading.recipe import (
    Amount,
    Mention,
    Recipe,
    Step,
    Temperature,
    TimeSpan,
)
from sitegen.site import Settings


def work_out(
    recipe: Recipe, larder: Larder, settings: Settings, others: Mapping[str, Dish]
) -> tuple[Dish, list[Problem]]:
    """Everything that follows from ``recipe``; ``others`` are the dishes it may be made with."""
    problems: list[Problem] = []
    kitchen = Kitchen(larder, settings, others)
    parts: list[LedgerPart] = []
    worked: list[Worked] = []
    for part in recipe.parts:
        rows: list[LedgerRow] = []
        for line in part.lines:
            one = work_row(len(worked), line, recipe, kitchen, problems)
            worked.append(one)
            rows.append(one.row)
        parts.append(LedgerPart(part.name, tuple(rows)))
    reach = Reach(recipe)
    contents = add_up(recipe, worked, settings.region, reach)
    swaps = with_swaps(recipe, worked, contents, settings.region, reach)
    label = make_label(recipe, contents, settings.region, settings.net_carbohydrate, swaps)
    rows_by_index = [w.row for w in worked]
    method = tuple(
        MethodPartView(
            part.name, part.lead, tuple(_step(s, rows_by_index, settings) for s in part.steps)
        )
        for part in recipe.method
    )
    tins = tuple(t for t in map(read_tin, recipe.tools) if t is not None)
    stand, left_out = cautions(recipe, worked, reach, settings.left_out)
    return (
        Dish(
            recipe=recipe,
            fields=_fields(recipe, method, label, contents, tins, settings),
            ledger=tuple(parts),
            method=method,
            sections=recipe.sections,
            label=label,
            allergens=statement(contents, recipe.may_contain, settings.region),
            diets=diets(contents, recipe.may_contain),
            cautions=stand,
            cautions_left_out=left_out,
            scaling_notes=_scaling_notes(recipe, rows_by_index, tins),
            tins=tins,
            uses=tuple(dict.fromkeys([r.reference for r in rows_by_index if r.reference])),
            ingredient_texts=tuple([row_words(r, settings.units) for r in rows_by_index]),
            unit_meanings=_unit_meanings(recipe, settings.region),
            contents=contents,
            partial=any(map(_lacks_a_recipe, worked)),
        ),
        problems,
    )


def _lacks_a_recipe(worked: Worked) -> bool:
    if worked.other is None:
        return bool(worked.row.line.reference)
    return worked.other.partial


def _step(step: Step, rows: list[LedgerRow], settings: Settings) -> StepView:
    pieces: list[DishPiece] = []
    times: list[str] = []
    notes: list[MarginNote] = []
    region = settings.region
    said = ""
    for piece in step.pieces:
        if isinstance(piece, str):
            pieces.append(piece)
            said += strip_tags(piece)
            continue
        if isinstance(piece, Mention):
            pieces.append(show_mention(piece, rows, region, said))
            said += piece.words
            continue
        said += piece.text
        if isinstance(piece, TimeSpan):
            pieces.append(TimePiece(piece.text, piece.seconds, piece.upto, piece))
            times.append(duration_words(piece.seconds, piece.upto))
        elif isinstance(piece, Temperature):
            heat = ovens.piece(piece, region)
            pieces.append(heat)
            note = ovens.margin(heat, region)
            if note not in notes:
                notes.append(note)
        else:
            pieces.append(length_piece(piece, region))
    margin = (MarginNote("time", tuple(dict.fromkeys(times))),) if times else ()
    return StepView(
        step.number,
        tuple(pieces),
        (*margin, *notes),
        step_words(pieces, settings.units),
        f"{crc32(step.text.encode()):08x}",
    )


def _unit_meanings(recipe: Recipe, region: str) -> tuple[str, ...]:
    """What each unit that regions differ on holds, in the order in which the list uses them."""
    units = (
        term.unit
        for line in recipe.lines
        for measure in (line.amount, *line.measures)
        if measure
        for term in measure.terms
    )
    return tuple(m for m in (meaning_of(u, region) for u in dict.fromkeys(units)) if m)


_TIMED = (TimeSpan, Temperature)


def _scaling_notes(recipe: Recipe, rows: list[LedgerRow], tins: tuple[Tin, ...]) -> tuple[str, ...]:
    notes: list[str] = []
    steps = recipe.steps
    if any(isinstance(p, _TIMED) for s in steps for p in s.pieces):
        notes.append(
            "Times and oven settings do not scale: a larger batch takes longer to heat through, so go "
            "by the signs in the method."
        )
    if tins:
        notes.append("The tin does not scale: choose one by its area, or bake in several.")
    sensitive = sorted({c for row in rows for c in row.cautions} - {"egg"})
    if sensitive:
        names = {"spice": "spices", "gelling": "setting agents", "leavening": "raising agents"}
        listed = [names.get(c, c) for c in sensitive]
        notes.append(
            f"Beyond twice or below half the recipe, go carefully with {_listed(listed)}: not all of "
            "the change is always needed there."
        )
    if any(row.line.amount is None for row in rows):
        notes.append("What is added to taste is left to you.")
    return tuple(notes)


def _listed(words: list[str]) -> str:
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"


def _fields(
    recipe: Recipe,
    method: tuple[MethodPartView, ...],
    label: Label,
    contents: Contents,
    tins: tuple[Tin, ...],
    settings: Settings,
) -> tuple[Field, ...]:
    found = [Field("serves", "Serves", str(recipe.serves), figure=_count(Fraction(recipe.serves)))]
    if recipe.makes:
        figure = _count(recipe.makes.number)
        found.append(Field("makes", "Makes", figure.text, recipe.makes.noun, figure))
    if recipe.weighs:
        found.append(_amount_field("weighs", "Weighs", recipe.weighs, settings))
    if recipe.volume:
        found.append(_amount_field("volume", "Fills", recipe.volume, settings))
    for key, name, minutes in (
        ("prep", "Prepare", recipe.times.prep),
        ("cook", "Cook", recipe.times.cook),
        ("rest", "Rest", recipe.times.rest),
    ):
        if minutes:
            found.append(Field(key, name, duration_words(minutes * 60)))
    found.extend(_tool_fields(recipe, method, tins, settings))
    energy = next((n for n in label.per_serving if n.key == "energy_kcal"), None)
    protein = next((n for n in label.per_serving if n.key == "protein_g"), None)
    # of five lines one may weigh nobody knows what; with more, "at least" says too little
    known = len(contents.unweighed) * 5 <= len(contents.portions)
    if energy and energy.value is not None and label.covers >= 0.5 and known:
        detail = f"{protein.printed} protein" if protein and protein.value is not None else ""
        found.append(Field("serving", "A serving", energy.printed, detail))
    return tuple(found)


def _tool_fields(
    recipe: Recipe, method: tuple[MethodPartView, ...], tins: tuple[Tin, ...], settings: Settings
) -> list[Field]:
    found: list[Field] = []
    heats = [
        p.oven
        for part in method
        for step in part.steps
        for p in step.pieces
        if isinstance(p, TemperaturePiece) and p.oven
    ]
    if heats:
        oven = heats[0]
        if settings.region == "us":
            found.append(Field("oven", "Oven", f"{oven.conventional_f} °F", f"fan {oven.fan_f} °F"))
        else:
            gas = f", gas {oven.gas}" if settings.region == "uk" and oven.gas else ""
            found.append(
                Field("oven", "Oven", f"fan {oven.fan_c} °C", f"{oven.conventional_c} °C{gas}")
            )
    if tins:
        tin = tins[0]
        sides = " × ".join(f"{float(s):g}" for s in tin.sides)
        found.append(Field("tin", "Tin", f"{sides} cm", tin.shape))
    for tool in recipe.tools:
        number = read_scoop(tool)
        if number:
            ml = scoop_ml(number)
            us = print_figure("us-volume", ml / tsp())
            found.append(Field("scoop", "Scoop", f"no. {number}", f"{round(ml)} ml, {us}"))
            break
    return found


def _count(number: Fraction) -> Figure:
    return _printed("count", number)


def _amount_field(key: str, label: str, amount: Amount, settings: Settings) -> Field:
    size = size_of(amount.unit, settings.region) or Fraction(1)
    base = amount.value * size
    if dimension_of(amount.unit) == "weight":
        metric, us = _printed("g", base), _printed("us-weight", base / ounce())
    else:
        metric, us = _printed("ml", base), _printed("us-volume", base / tsp())
    first, second = (metric, us) if settings.units == "metric" else (us, metric)
    return Field(key, label, first.text, second.text, first, second)


def _printed(ladder: str, value: Fraction) -> Figure:
    return Figure(ladder, value, None, print_figure(ladder, value))
