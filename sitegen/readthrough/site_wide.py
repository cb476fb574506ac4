"""What ``site.yaml`` silences or takes off pages, held against the site as it is."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from sitegen.dish import Dish
from sitegen.kitchen.cautions import KEYS
from sitegen.problems import Problem, did_you_mean
from sitegen.readthrough.table import BY_NAME
from sitegen.site import Settings

_FILE = "content/site.yaml"


def site_problems(settings: Settings, dishes: Mapping[str, Dish]) -> Iterator[Problem]:
    """Silences of rules that there are not, and cautions taken off where none would stand."""
    for hush in settings.silences:
        if hush.rule not in BY_NAME:
            yield _advice(
                hush.line,
                hush.column,
                f"there is no rule '{hush.rule}' in the read-through",
                did_you_mean(hush.rule, BY_NAME) or "'sitegen rules' lists their names",
                len(hush.rule),
            )
    for off in settings.left_out:
        dish = dishes.get(off.recipe)
        if off.caution not in KEYS:
            message = f"there is no caution '{off.caution}'"
            hint = did_you_mean(off.caution, KEYS) or f"the cautions are {', '.join(KEYS)}"
        elif dish is None:
            message = f"there is no recipe '{off.recipe}' in this site"
            hint = did_you_mean(off.recipe, dishes) or "name it as its file is named, without '.md'"
        elif all(c.key != off.caution for c in dish.cautions_left_out):
            message = f"the page of '{off.recipe}' has no caution '{off.caution}' to take off"
            hint = "take this out; a reason that is not needed hides the next one that is"
        else:
            continue
        yield _advice(off.line, off.column, message, hint, len(off.caution))


def _advice(line: int, column: int, message: str, hint: str, length: int) -> Problem:
    return Problem("silence-idle", "advice", _FILE, line, column, message, hint, length)
