"""Take the exact factors of all units from Pint, once: ``python -m sitegen.kitchen.make_factors``.

Pint's start-up costs a third of a second, so its rational factors are kept in ``factors.json``
beside this file with the version that they came from. A test compares them with the installed Pint.
"""

from __future__ import annotations

import json
from fractions import Fraction
from pathlib import Path

# Our key → Pint's name. Grams for weights, millilitres for volumes, millimetres for lengths.
PINT_NAMES: dict[str, dict[str, str]] = {
    "gram": {
        "mg": "milligram",
        "g": "gram",
        "kg": "kilogram",
        "oz": "ounce",
        "lb": "pound",
    },
    "milliliter": {
        "ml": "milliliter",
        "cl": "centiliter",
        "dl": "deciliter",
        "l": "liter",
        "us_tsp": "teaspoon",
        "us_tbsp": "tablespoon",
        "us_fl_oz": "fluid_ounce",
        "us_cup": "cup",
        "us_pint": "pint",
        "us_quart": "quart",
        "us_gallon": "gallon",
        "imp_fl_oz": "imperial_fluid_ounce",
        "imp_pint": "imperial_pint",
        "imp_quart": "imperial_quart",
    },
    "millimeter": {"mm": "millimeter", "cm": "centimeter", "in": "inch"},
}


def factors() -> dict[str, str]:
    """Every factor as an exact rational in text: ``{"us_cup": "473176473/2000000", …}``."""
    import pint

    registry: pint.UnitRegistry[Fraction] = pint.UnitRegistry(non_int_type=Fraction)
    found: dict[str, str] = {}
    for base, names in PINT_NAMES.items():
        for key, name in names.items():
            quantity = registry.Quantity(Fraction(1), name).to(base)
            found[key] = str(Fraction(quantity.magnitude))
    return found


def main() -> None:
    """Write ``factors.json``."""
    import pint

    data = {"pint": pint.__version__, "factors": factors()}
    path = Path(__file__).with_name("factors.json")
    path.write_text(json.dumps(data, indent=1, sort_keys=True) + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
