"""Which food of the larder a line's words mean, with what to say when that is unsure."""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import lru_cache
from typing import NamedTuple

from sitegen.larder.food import Food
from sitegen.larder.larder import Larder
from sitegen.problems import Problem
from sitegen.reading.naming import bare_food, stem, tokens
from sitegen.reading.phrases import singular
from sitegen.reading.recipe import IngredientLine, Part

# A counted word that a line puts after the food: "garlic cloves", "celery sticks".
_TRAILING = frozenset(
    "clove sprig stalk stick rasher slice fillet sheet head bulb leaf stem rib wedge ear".split()
)


class Found(NamedTuple):
    """The foods a line means: one as a rule, several for ``salt and pepper``."""

    foods: tuple[Food, ...] = ()
    unit: str = ""
    """The counted word that stood after the food."""
    unknown: tuple[str, ...] = ()
    """Words of a choice (``lard or xyz``) that the larder does not know: nothing is claimed."""
    made: str = ""
    """The part of the same recipe that it is made of: the dough's levain, the filling's paste."""

    @property
    def food(self) -> Food | None:
        """The first, by which amounts are reckoned."""
        return self.foods[0] if self.foods else None


def made_of(line: IngredientLine, parts: Sequence[Part]) -> str:
    """The name of the part of its own recipe that a line takes up again; empty if it takes none.

    ``100 g levain`` under Dough, where the list has a part Levain: its flour is counted there.
    """
    if len(parts) < 2 or line.reference or line.pinned:
        return ""
    wanted = tokens(bare_food(line.food))
    for part in parts:
        if any(own is line for own in part.lines):
            return ""  # parts are made before they are taken
        named = _named(part.name)
        if named and (wanted == named or (wanted[:-1] == named and wanted[-1] in _MADE)):
            return part.name
    return ""


@lru_cache(maxsize=1024)
def _named(part: str) -> tuple[str, ...]:
    """The words of a part's name: ``For the levain`` is the levain."""
    return tokens(_FOR_THE.sub("", part))


_FOR_THE = re.compile(r"(?:for the|for|the)\s+", re.IGNORECASE)
_MADE = frozenset("dough mixture batter paste".split())


def identify(line: IngredientLine, larder: Larder, file: str, problems: list[Problem]) -> Found:
    """The food of ``line``; advice is appended when there is none, or it is unsure."""
    words = line.pinned or line.food
    vessel = None if line.pinned else _VESSEL.match(words.removeprefix("a "))
    if vessel and not larder.get(words):
        words = words.removeprefix("a ")[vessel.end() :]
    if line.pinned:
        pinned = larder.get(line.pinned)
        if pinned:
            return Found((pinned,), _trailing_unit(line, larder, pinned))
        _advise(line, larder, file, problems, words)
        return Found()
    tries = [f"{words}, {line.preparation}", words] if line.preparation else [words]
    if "drained" in line.states:
        tries = [f"{w}, drained" for w in tries] + tries
    if line.amount and line.amount.unit in ("tin", "can"):
        tries = [f"{words}, tinned, drained", f"{words}, tinned", f"tinned {words}", *tries]
        if "drained" not in line.states:
            tries = tries[1:]
    several = _listed(line, larder)
    if several.foods:
        for missing in several.unknown:
            _advise(line, larder, file, problems, missing)
        return several
    for candidate in tries[:-1]:
        exact = larder.get(candidate)
        if exact:
            return Found((exact,))
    match = larder.find(tries[-1])
    if match.food is not None and match.sure:
        return Found((match.food,), _trailing_unit(line, larder, match.food))
    amount = line.amount
    if amount is not None and not amount.unit and amount.each is None:
        whole = larder.find(f"whole {singular(words)}")  # "1 chicken": not some chicken
        if whole.sure and whole.food is not None and whole.food.name.endswith(", whole"):
            return Found((whole.food,))
    several = _several(line, larder) if "(" not in words else _with_bracket(words, larder)
    if several.foods:
        for missing in several.unknown:
            _advise(line, larder, file, problems, missing)
        return several
    trailing = _without_trailing(words)
    if trailing:
        shorter = larder.find(trailing[0])
        if shorter.food is not None and shorter.sure:
            return Found((shorter.food,), trailing[1])
    _advise(line, larder, file, problems, words)
    return Found()


def _trailing_unit(line: IngredientLine, larder: Larder, food: Food) -> str:
    trailing = _without_trailing(line.food)
    return trailing[1] if trailing and food.grams_per(trailing[1]) else ""


def _without_trailing(words: str) -> tuple[str, str] | None:
    parts = words.split()
    if len(parts) < 2:
        return None
    last = stem(parts[-1])
    return (" ".join(parts[:-1]), last) if last in _TRAILING else None


def _several(line: IngredientLine, larder: Larder) -> Found:
    """``salt and pepper`` without an amount is both; ``butter or oil`` counts as the first.

    Both bring their allergens, for the cook may take either; what is not known of them stays said.
    """
    if line.amount is None and re.search(r"\s(?:and|&)\s", line.food):
        matches = [larder.find(w) for w in re.split(r"\s+(?:and|&)\s+", line.food)]
        if all(m.food is not None and m.sure for m in matches):
            return Found(tuple(m.food for m in matches if m.food is not None))
    if re.search(r"\sor\s", line.food):
        first, second = re.split(r"\s+or\s+", line.food, maxsplit=1)
        return _of_two(first, second, larder)
    return Found()


_WHOLE = frozenset("butter ghee lard margarine sugar honey cream milk cheese bacon".split())
"""Foods that stand alone before "or": "butter or olive oil" is no "butter oil"."""


def _of_two(first: str, second: str, larder: Larder) -> Found:
    """``cherry or plum tomatoes``: the last word may belong to both, and then names no cherries."""
    tail = second.split()
    other = larder.find(second)
    known = other.food if other.food is not None and other.sure else None
    alone = larder.find(first)
    whole = stem(first.split()[-1].lower()) in _WHOLE and tail[-1] != "chocolate"
    if known is not None and len(tail) > 1 and not whole:
        both = larder.find(f"{first} {tail[-1]}")
        if both.food is not None and both.sure:
            # a food of another shelf by itself: "coconut or almond milk" means no coconut
            apart = alone.food is not None and alone.sure and alone.food.aisle
            if both.food.aisle == known.aisle or apart not in (False, known.aisle, both.food.aisle):
                return Found((both.food, known))
    if alone.food is not None and alone.sure:
        return Found((alone.food, known)) if known else Found((alone.food,), unknown=(second,))
    if known is not None:
        return Found((known,), unknown=(first,))
    both = larder.find(f"{first} {tail[-1]}") if len(tail) > 1 else alone
    if both.food is not None and both.sure:
        return Found((both.food,), unknown=(second,))
    return Found()


# What a bracket may say of a food and leave it what it is.
_NOTE = re.compile(
    r"(?:from|about|see|depending|i like|any|home-?made|shop-bought|store-bought|bought)\b.*"
    r"|\d+(?:[./]\d+)?[ -]?(?:inch|in|cm|mm|measures?|shots?)\b.*"
    r"|.*\bif (?:you (?:can|like|have)|possible|available)\b.*"
    r"|\d+(?:[.,]\d+)?\s?% (?:acidity|hydration|acetic acid)",
    re.IGNORECASE,
)
_PER_CENT = re.compile(r"\d+(?:[.,]\d+)?\s?%")
_VESSEL = re.compile(
    r"(?:(?:large|small|good|generous|heaped|level|big|few|scant)\s+)*(?:glass(?:es)?|mugs?|bowl(?:ful)?s?"
    r"|ladle(?:ful)?s?|dollops?|glugs?|spoonfuls?|teacup(?:ful)?s?|cupfuls?|capfuls?|shots?|jugs?|lots?"
    r"|bits?|drops?|sprigs?|lumps?|wine ?glass(?:es)?|tumblers?)\s+of\s+(?=\w)",
    re.IGNORECASE,
)
"""Measures without a size: what stands in them is known all the same, and so are its allergens."""


def _with_bracket(words: str, larder: Larder) -> Found:
    """``maple syrup (or honey)``: what the bracket names counts too; a mere note is left aside.

    A bracket that is neither leaves the line unknown, for it may change the food: "flour (rice)".
    """
    foods: list[Food] = []
    unknown: list[str] = []
    outer = " ".join(re.sub(r"\([^()]*\)", " ", words).split())
    for i, piece in enumerate((outer, *re.findall(r"\(([^()]*)\)", words))):
        if i and (
            _NOTE.fullmatch(piece.strip())
            or (_PER_CENT.fullmatch(piece.strip()) and foods and _ungraded(foods[0]))
        ):
            continue
        choice = re.sub(r"^or\s+", "", piece.strip())
        match = larder.find(choice)
        if match.food is not None and match.sure:
            foods.append(match.food)
        elif i and choice != piece.strip():
            unknown.append(choice)
        else:
            return Found()
    return Found(tuple(foods), unknown=tuple(unknown))


def _ungraded(food: Food) -> bool:
    """Whether a bare percentage behind it is a baker's, and not its fat or its cocoa."""
    if food.aisle in ("dairy", "meat", "fish") or "chocolate" in food.name:
        return food.name.endswith("butter")
    return True


def _listed(line: IngredientLine, larder: Larder) -> Found:
    """``parsley, grated parmesan and toasted almonds, to serve``: each brings its allergens.

    Only of lines without an amount, and only if something after the first comma is a food.
    """
    if line.amount is not None or not line.preparation or line.part_of:
        return Found()
    whole = f"{line.food}, {line.preparation}"
    if larder.get(whole):
        return Found()
    pieces = [p for p in re.split(r",\s*|\s+(?:and|&|or)\s+", whole) if p.strip()]
    matches = [larder.find(p) for p in pieces]
    sure = [m.food if m.sure else None for m in matches]
    if sure[0] is None or not any(sure[1:]):
        return Found()
    return Found(
        tuple(food for food in sure if food is not None),
        unknown=tuple(p for p, food in zip(pieces, sure, strict=True) if food is None),
    )


def _advise(
    line: IngredientLine, larder: Larder, file: str, problems: list[Problem], words: str
) -> None:
    match = larder.find(words)
    names = [f.name for f in match.candidates[:4]]
    if names:
        hint = "pin one of these with 'food: …': " + "; ".join(names)
    else:
        hint = "pin a food with 'food: …', or add it to content/larder with its source"
    what = "may be any of several foods" if match.food or len(names) > 1 else "is not in the larder"
    column = line.place.column + max(0, line.text.find(line.food.split(" ")[0]))
    problems.append(
        Problem(
            "food-unknown",
            "advice",
            file,
            line.place.line,
            column,
            f"'{words}' {what}: its weight, nutrition and allergens are not counted",
            hint,
            len(line.food),
        )
    )
