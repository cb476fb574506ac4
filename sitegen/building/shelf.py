"""What a build leaves for the next: leaves and laid pages, in one file under ``.sitegen/kept/``.

The file may be deleted at any time. It begins with the SHA-256 of what follows and with a mark of
the program that wrote it; one that is damaged, or of another program, is as good as none. Only the
few classes that are kept can be read from it, whoever wrote it.
"""

from __future__ import annotations

import io
import pickle
from collections.abc import Mapping
from contextlib import suppress
from dataclasses import dataclass, field
from hashlib import sha256
from pathlib import Path
from typing import Any

from sitegen.building.leaf import Leaf
from sitegen.pages.asking import Laid
from sitegen.wholefile import put_whole

_ALLOWED = {
    "sitegen.building.leaf": {"Leaf"},
    "sitegen.building.shelf": {"Shelf"},
    "sitegen.pages.asking": {"Laid"},
    "sitegen.late": {"_revive", "LateRecipe", "LateDish", "LateSource"},
    "sitegen.problems": {"Problem"},
    "sitegen.references": {"Reference"},
    "sitegen.reading.source": {"Place"},
    "sitegen.reading.recipe": {"Times", "Photo", "Video"},
    "sitegen.dish": {"Allergens"},
    "datetime": {"date"},
    "fractions": {"Fraction"},
    "builtins": {"frozenset", "set"},
}


@dataclass(slots=True)
class Shelf:
    """Everything that is kept."""

    leaves: dict[str, Leaf] = field(default_factory=dict)
    """By file."""
    pages_of: str = ""
    """The mark of what all pages share: settings and theme."""
    laid: dict[str, Laid] = field(default_factory=dict)
    """By the name in the plan."""


def take(path: Path, program: str) -> Shelf:
    """What is kept at ``path`` by this very program; an empty shelf if there is nothing sound."""
    try:
        raw = path.read_bytes()
    except OSError:
        return Shelf()
    body = raw[32:]
    if sha256(body).digest() != raw[:32] or body[:64] != program.encode():
        return Shelf()
    try:
        shelf = _Reader(io.BytesIO(body[64:])).load()
    except Exception:  # a pickle of whatever kind may raise anything
        return Shelf()
    return shelf if isinstance(shelf, Shelf) else Shelf()


def put(path: Path, program: str, shelf: Shelf) -> None:
    """Keep a shelf; a folder that can't be written is no reason to fail."""
    body = program.encode() + dumped(shelf)
    with suppress(OSError):
        path.parent.mkdir(parents=True, exist_ok=True)
        put_whole(path, sha256(body).digest() + body)


def dumped(thing: object) -> bytes:
    """Leaves as bytes."""
    return pickle.dumps(thing, 5)


def loaded(raw: bytes) -> Any:
    """Leaves from bytes that another process of the same build wrote."""
    return _Reader(io.BytesIO(raw)).load()


class _Reader(pickle.Unpickler):
    def find_class(self, module: str, name: str) -> Any:
        if name not in _ALLOWED.get(module, ()):
            raise pickle.UnpicklingError(f"{module}.{name} is not kept here")
        return super().find_class(module, name)


def pruned(laid: Mapping[str, Laid], plan: Mapping[str, Any]) -> dict[str, Laid]:
    """Without the pages that the site has no longer."""
    return {name: one for name, one in laid.items() if name in plan}
