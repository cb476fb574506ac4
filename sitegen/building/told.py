"""What readers are told of each dish, kept so that the next build can say what has changed by itself.

An author knows what they edited. They don't know that a newer program, a mended food or another
recipe's edit has given a dish they never touched another allergen, another label or other amounts. A
build compares what it tells with what the last one told, and says so: of a recipe that was edited only
what can harm a reader (allergens, claims, cautions), of every other recipe all of it.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from contextlib import suppress
from pathlib import Path
from typing import TYPE_CHECKING, Any

from sitegen.building.program import program_mark
from sitegen.building.report import Changes, Otherwise
from sitegen.dish import Dish
from sitegen.late import noted
from sitegen.memory import mark
from sitegen.stores import LARDER
from sitegen.textfile import list_files, read_bytes
from sitegen.workroom import Workroom, read_json, write_json

if TYPE_CHECKING:
    from sitegen.building.leaf import Leaf

FORM = 1
"""Raise it when a fact is written down in another way: what an older form says is not compared."""
PROGRAM = "sitegen itself"
SETTINGS = "content/site.yaml"

Facts = Mapping[str, Any]


@noted(Dish)
def told(dish: Dish) -> Facts:
    """What a page says of a dish that a reader acts on, in plain values."""
    allergens = dish.allergens
    return {
        "contains": list(allergens.contains),
        "packets": list(allergens.check_packet),
        "unsure": list(allergens.unsure),
        "swaps": list(allergens.swaps),
        "beyond": list(allergens.beyond),
        "diets": list(dish.diets),
        "cautions": [caution.key for caution in dish.cautions],
        "figures": {figure.label: figure.printed for figure in dish.label.per_serving},
        "amounts": {
            row.line.text: said
            for row in dish.rows
            if (said := " · ".join(f.text for f in (row.metric, row.us) if f and f.worked_out))
        },
    }


def renew(workroom: Workroom, leaves: Mapping[str, Leaf], dishes: Sequence[Dish]) -> Changes:
    """Compare with what the last build told, and keep what this one tells.

    What was kept may be missing, damaged or of another form: then nothing is compared.
    """
    file = workroom.folder / "kept" / "told.json"
    recipes = {d.recipe.file: [leaves[d.recipe.file].mark, dict(told(d))] for d in dishes}
    now = {"form": FORM, "rests on": _rests_on(workroom.folder.parent), "recipes": recipes}
    before = read_json(file) or {}
    try:
        changes = _compared(before, now, leaves) if before.get("form") == FORM else Changes()
    except (LookupError, TypeError, ValueError, AttributeError):
        changes = Changes()  # damaged
    if before != now:
        with suppress(OSError):
            write_json(file, now)
    return changes


def _rests_on(folder: Path) -> dict[str, str]:
    found = {PROGRAM: program_mark()}
    for file in (SETTINGS, *list_files(folder, LARDER, ".yaml")):
        raw = read_bytes(folder, file)
        found[file] = mark(raw) if isinstance(raw, bytes) else ""
    return found


def _compared(
    before: Mapping[str, Any], now: Mapping[str, Any], leaves: Mapping[str, Leaf]
) -> Changes:
    old, new = before["recipes"], now["recipes"]
    edited = {file for file in new if file in old and old[file][0] != new[file][0]}
    found = []
    for file, (_, facts) in new.items():
        if file not in old or old[file][1] == facts:
            continue
        harm = tuple(_harm(old[file][1], facts))
        figures = () if file in edited else tuple(_figures(old[file][1], facts))
        inside = () if file in edited else tuple(u for u in _within(file, leaves) if u in edited)
        if harm or figures:
            found.append(Otherwise(file, harm, figures, inside))
    was, are = before["rests on"], now["rests on"]
    since = [name for name in {**are, **was} if was.get(name) != are.get(name)]
    return Changes(tuple(sorted(found, key=lambda o: (not o.harm, o.file))), tuple(since))


def _within(file: str, leaves: Mapping[str, Leaf]) -> list[str]:
    """The files of the recipes in one, and in those, and so on, each once."""
    found: list[str] = []
    waiting = [file]
    while waiting:
        leaf = leaves.get(waiting.pop(0))
        new = [u for u in (leaf.uses if leaf else ()) if u not in found and u != file]
        found += new
        waiting += new
    return found


def _harm(old: Facts, new: Facts) -> Iterator[str]:
    for key, come, gone in _HARM:
        yield from (come.format(name) for name in new[key] if name not in old[key])
        yield from (gone.format(name) for name in old[key] if name not in new[key])


_HARM = (
    ("contains", "contains {} now", "no longer says that it contains {}"),
    ("packets", "packets are now to be checked for {}", "packets need no check for {} any more"),
    ("unsure", "is in doubt for {} now", "is no longer in doubt for {}"),
    ("swaps", "swaps now bring {}", "swaps no longer bring {}"),
    ("beyond", "contains {} now, which the law need not name", "no longer contains {}"),
    ("diets", "is {} now", "is no longer {}"),
    ("cautions", "has the caution {} now", "no longer has the caution {}"),
)
"""Fact, what to say of a name that has come, and of one that has gone."""


def _figures(old: Facts, new: Facts) -> Iterator[str]:
    for label in (
        *new["figures"],
        *(name for name in old["figures"] if name not in new["figures"]),
    ):
        was, now = old["figures"].get(label, "none"), new["figures"].get(label, "none")
        if was != now:
            yield f"{label}, a serving: {now}, was {was}"
    for line, now in new["amounts"].items():
        was = old["amounts"].get(line, "nothing")
        if was != now:
            yield f"beside “{line}”: {now}, was {was}"
    for line, was in old["amounts"].items():
        if line not in new["amounts"]:
            yield f"beside “{line}”: nothing, was {was}"
