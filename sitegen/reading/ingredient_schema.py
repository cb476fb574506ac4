"""The JSON Schema of the ingredients list, which has more shapes than a model's field can say.

What the list means is read by :mod:`sitegen.reading.ingredients`; editors complete from this.
"""

from __future__ import annotations

from typing import Any

_WORDS = {"type": ["string", "number"]}

_ONE_LINE: dict[str, Any] = {
    "type": "string",
    "minLength": 1,
    "title": "An ingredient",
    "description": "amount, unit, food, preparation, as a cook says it",
    "examples": [
        "200 g pearl barley",
        "3 leeks (about 450 g), finely sliced",
        "30 g (2 tbsp) butter, divided",
        "[green sauce](../sauces/green-sauce.md)",
    ],
}

_WITH_MORE: dict[str, Any] = {
    "type": "object",
    "title": "An ingredient with more to say",
    "required": ["line"],
    "additionalProperties": False,
    "properties": {
        "line": {**_ONE_LINE, "description": "the ingredient itself, as a cook says it"},
        "as": {
            **_WORDS,
            "description": "the name that the method uses in brackets",
            "examples": ["oil"],
        },
        "food": {
            **_WORDS,
            "description": "the larder's entry, where the words alone would find another",
            "examples": ["rapeseed oil"],
        },
        "eaten": {
            "type": "string",
            "pattern": r"^\s*(about\s+)?\d{1,3}(\.\d+)?\s*%\s*$",
            "description": "what is eaten of it: frying oil, brine, a marinade",
            "examples": ["30%"],
        },
        "swap": {
            "type": "string",
            "description": "what may be used in its place, an ingredient line itself",
            "examples": ["30 g butter"],
        },
        "note": {**_WORDS, "description": "a remark for the working of the label"},
    },
}

_LINES = {"anyOf": [{"$ref": "#/$defs/IngredientLine"}, {"$ref": "#/$defs/IngredientFields"}]}

DEFINITIONS: dict[str, Any] = {
    "IngredientLine": _ONE_LINE,
    "IngredientFields": _WITH_MORE,
    "IngredientPart": {
        "type": "object",
        "title": "A part of the list",
        "description": "the part's name, and under it its ingredients",
        "minProperties": 1,
        "maxProperties": 1,
        "propertyNames": {"not": {"const": "line"}},
        "additionalProperties": {"type": "array", "minItems": 1, "items": _LINES},
        "examples": [{"Dumplings": ["150 g plain flour", "1/2 tsp fine salt"]}],
    },
}
"""What :data:`LIST` refers to; they belong among the schema's ``$defs``."""

LIST: dict[str, Any] = {
    "type": "array",
    "minItems": 1,
    "items": {"anyOf": [*_LINES["anyOf"], {"$ref": "#/$defs/IngredientPart"}]},
}
"""The list itself: lines, lines with fields, and parts that hold lines."""
