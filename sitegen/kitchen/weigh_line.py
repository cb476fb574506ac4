"""One ingredient line by itself, as ``sitegen weigh`` shows it: the page's own path, one line long."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from sitegen.dish import Figure, LedgerRow
from sitegen.kitchen.figures import written
from sitegen.kitchen.rows import Kitchen, work_row
from sitegen.kitchen.units import dimension_of, size_of
from sitegen.larder.larder import Larder
from sitegen.problems import Problem
from sitegen.reading.lines import read_line
from sitegen.reading.recipe import Measure, Recipe
from sitegen.reading.source import Place
from sitegen.site import Settings

FILE = "line"


def weigh_line(
    text: str, larder: Larder, settings: Settings
) -> tuple[LedgerRow | None, list[Problem]]:
    """Read and work out one line; None when it can't be read."""
    problems: list[Problem] = []
    line = read_line(text, Place(1, 1), FILE, problems)
    if line is None:
        return None, problems
    recipe = Recipe(FILE, "line", "", 1)
    worked = work_row(0, line, recipe, Kitchen(larder, settings, {}), problems)
    return worked.row, problems


def as_json(
    text: str, row: LedgerRow | None, problems: list[Problem], region: str
) -> dict[str, Any]:
    """The line's parts under the names that the manual gives."""
    told = [p.as_json() for p in problems]
    if row is None:
        return {
            "line": text,
            "amount": None,
            "food": None,
            "preparation": None,
            "remarks": [],
            "author": [],
            "metric": None,
            "us": None,
            "grams": None,
            "millilitres": None,
            "worked_out": [],
            "larder": None,
            "problems": told,
        }
    line = row.line
    columns = {"metric": row.metric, "us": row.us}
    return {
        "line": text,
        "amount": _amount(line.amount, region),
        "food": line.food,
        "preparation": line.preparation,
        "remarks": list(line.remarks),
        "author": [written(m) for m in (line.amount, *line.measures) if m],
        "metric": _text(row.metric),
        "us": _text(row.us),
        "grams": _number(_middle(row.grams, row.grams_upto)),
        "millilitres": _number(row.millilitres),
        "worked_out": [name for name, figure in columns.items() if figure and figure.worked_out],
        "larder": {"name": row.larder_name, "source": row.larder_source}
        if row.larder_name
        else None,
        "problems": told,
    }


def _amount(measure: Measure | None, region: str) -> dict[str, Any] | None:
    """The first amount, exactly; terms that add up are given in the first one's unit."""
    if measure is None:
        return None
    first = measure.terms[0]
    value, upto = first.value, first.upto
    for term in measure.terms[1:]:
        whole, part = size_of(first.unit, region), size_of(term.unit, region)
        if whole and part:
            value += term.value * part / whole
    unit = first.unit.lstrip("=")
    found: dict[str, Any] = {
        "value": str(value),
        "upto": None if upto is None else str(upto),
        "unit": unit,
    }
    if measure.each is not None:
        found["each"] = {
            "value": str(measure.each.value),
            "upto": None if measure.each.upto is None else str(measure.each.upto),
            "unit": measure.each.unit,
        }
    return found


def _text(figure: Figure | None) -> str | None:
    return (
        None
        if figure is None
        else f"{figure.prefix}{'about ' if figure.about else ''}{figure.text}"
    )


def _middle(low: Fraction | None, high: Fraction | None) -> Fraction | None:
    return low if low is None or high is None else (low + high) / 2


def _number(value: Fraction | None) -> float | int | None:
    if value is None:
        return None
    return int(value) if value.denominator == 1 else round(float(value), 6)


def as_text(text: str, row: LedgerRow, region: str) -> list[str]:
    """What the line comes to, for a person at a terminal."""
    line = row.line
    facts: list[tuple[str, str]] = [("food", line.food)]
    if line.amount:
        facts.append(("amount", written(line.amount)))
    if line.measures:
        facts.append(("also given", ", ".join(written(m) for m in line.measures)))
    if line.preparation:
        facts.append(("preparation", line.preparation))
    if line.remarks:
        facts.append(("remarks", ", ".join(line.remarks)))
    for name, figure in (("metric", row.metric), ("US", row.us)):
        if figure:
            how = f"   ({figure.basis})" if figure.worked_out and figure.basis else ""
            whose = "worked out" if figure.worked_out else "yours"
            facts.append((name, f"{_text(figure)}  {whose}{how}"))
    if row.grams is not None:
        spread = f" to {float(row.grams_upto):.6g}" if row.grams_upto is not None else ""
        facts.append(("grams", f"{float(row.grams):.6g}{spread}"))
    if row.millilitres is not None:
        facts.append(("millilitres", f"{float(row.millilitres):.6g}"))
    if row.missing:
        facts.append(("not known", row.missing))
    if row.larder_name:
        facts.append(("larder", f"{row.larder_name} ({row.larder_source})"))
    for unit in {t.unit for m in (line.amount, *line.measures) if m for t in m.terms}:
        size = size_of(unit, region)
        if (
            size
            and dimension_of(unit) == "volume"
            and unit in ("cup", "tsp", "tbsp", "pint", "fl oz")
        ):
            facts.append(("here", f"1 {unit} = {float(size):.6g} ml (region {region})"))
    return [f"{name + ':':<13} {value}" for name, value in facts]
