"""One ingredient line, taken apart.

``[about] amount [unit] food[, preparation] [(other measures)] [remarks]``. The reader never guesses:
what it can't understand is a problem with a caret under the place.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass, replace
from fractions import Fraction

from sitegen.kitchen.units import dimension_of
from sitegen.problems import Problem
from sitegen.reading.measures import Found, scan_measure, tidy
from sitegen.reading.numbers import Unreadable
from sitegen.reading.recipe import Amount, IngredientLine, Measure
from sitegen.reading.source import Place

_LONGEST = 400

_LINK = re.compile(r"\[([^\[\]]{1,200})\]\(([^()\s]{1,300})\)")

# What may stand after the food: each begins a remark that runs to the end of its phrase.
_REMARK = re.compile(
    r"(?:^|(?<=[\s,;]))(?P<remark>"
    r"to taste|to serve|to garnish|to finish|to decorate|to dust|to glaze|to cover|to scatter"
    r"|optional|divided|as needed|if needed|if liked|if you like"
    r"|plus (?:a little |some )?(?:extra|more)\b[^,;]*"
    r"|for (?:the |an? |your )?[a-z]+(?:ing|e)\b[^,;]*"
    r"|for (?:the |an? )[^,;]*"
    r"|(?:enough )?to (?:serve|taste|cover)\b[^,;]*"
    r")",
    re.IGNORECASE,
)

_STATES = (
    "chopped sliced diced minced grated packed sifted melted drained undrained whole ground crushed "
    "shredded mashed cubed halved quartered cooked raw dry peeled pitted stoned crumbled flaked "
    "toasted softened cold loose unsifted julienned"
)
_STATE = re.compile(r"\b(" + "|".join(_STATES.split()) + r")\b", re.IGNORECASE)

_SIZE = re.compile(
    r"(?P<size>extra[- ]large|large|medium(?:[- ]sized)?|small|jumbo)\s+(?=\w)", re.IGNORECASE
)

_PART_OF = re.compile(
    r"(?:the )?(?P<what>(?:finely |coarsely )?(?:grated )?"
    r"(?:juice and zest|zest and juice|juice|zest|rind|peel|leaves|yolks?|whites?))\s+"
    r"(?:of|from)\s+(?=\S)",
    re.IGNORECASE,
)

_EITHER = re.compile(r"\s+or\s+(?=(?:about\s+|~\s*)?(?:\d|[¼½¾⅓⅔⅛]|an?\s|half\s))", re.IGNORECASE)

_MEASURE_TAIL = re.compile(
    r"\s*(?:each|in all|in total|total|altogether|(?:total |drained |trimmed |peeled |net )?weight"
    r"|drained|trimmed|peeled|after [a-z]+ing|when [a-z]+|as weighed|[a-z]+ed)?\s*$",
    re.IGNORECASE,
)
_MEASURE_HEAD = re.compile(
    r"(?:(?P<state>drained|trimmed|peeled|net|total)(?: weight)?:?\s+)", re.IGNORECASE
)


@dataclass(slots=True)
class _Bracket:
    start: int
    end: int
    inner: str


def read_line(
    text: str, place: Place, file: str, problems: list[Problem], *, literal: bool = True
) -> IngredientLine | None:
    """Take one line apart; None, with a problem appended, when it can't be understood.

    ``place`` is where the text stands in ``file``; ``literal`` says that columns inside the text
    are columns of the file.

    >>> line = read_line("30 g (2 tbsp) butter, divided", Place(1, 1), "soup.md", [])
    >>> line.food, line.remarks, line.measures[0].text
    ('butter', ('divided',), '2 tbsp')
    """

    def report(rule: str, at: int, length: int, message: str, hint: str) -> None:
        column = place.column + (at if literal else 0)
        problems.append(
            Problem(rule, "error", file, place.line, column, message, hint, max(1, length))
        )

    plain = text.translate(_SPACES)
    if not plain.strip():
        report("line-empty", 0, 1, "an ingredient line is empty", "take it away, or fill it in")
        return None
    if len(plain) > _LONGEST:
        report(
            "line-long",
            0,
            10,
            f"an ingredient line of {len(plain)} characters is too long to be one ingredient",
            "move what is said about it to the method or to a note",
        )
        return None
    try:
        return _Reader(plain, text, place, report).read()
    except Unreadable as trouble:
        report(trouble.rule, trouble.at, trouble.length, trouble.message, trouble.hint)
        return None


# No-break, thin and other wide or narrow spaces, and a tab pasted from elsewhere.
_SPACES = str.maketrans(dict.fromkeys("\u00a0\u2009\u202f\u2007\u200a\u2002\u2003\t", " "))


class _Reader:
    """Reads one line; keeps the working copy as long as the original, so offsets hold."""

    def __init__(self, plain: str, written: str, place: Place, report: Callable[..., None]) -> None:
        self.work = plain
        self.written = written
        self.place = place
        self.report = report
        self.reference = ""
        self.measures: list[Measure] = []
        self.states: list[str] = []
        self.remarks: list[str] = []

    def read(self) -> IngredientLine:
        self._take_link()
        at = self._leading_remark(len(self.work) - len(self.work.lstrip()))
        part = _PART_OF.match(self.work, at)
        found = None if part else scan_measure(self.work, at)
        brackets = self._brackets(found.end if found else 0)
        either = self._either(brackets, found.end if found else at)
        self._take_brackets(brackets)
        if part:
            return self._part_of(part, either)
        rest_at = found.end if found else at
        line = self._rest(rest_at, found)
        return replace(line, alternatives=either) if either else line

    def _take_link(self) -> None:
        link = _LINK.search(self.work)
        if not link:
            return
        self.reference = link[2]
        words = link[1]
        pad = " " * (link.end() - link.start() - len(words) - 1)
        self.work = f"{self.work[: link.start()]} {words}{pad}{self.work[link.end() :]}"

    def _leading_remark(self, at: int) -> int:
        """``(optional) 1 tsp chilli flakes``."""
        found = re.compile(r"\((optional)\)\s*|(optional):\s*", re.IGNORECASE).match(self.work, at)
        if not found:
            return at
        self.remarks.append("optional")
        self.work = self.work[:at] + " " * (found.end() - at) + self.work[found.end() :]
        return found.end()

    def _brackets(self, after: int) -> list[_Bracket]:
        found: list[_Bracket] = []
        opened: int | None = None
        depth = 0
        for i, char in enumerate(self.work):
            if char == "(":
                depth += 1
                if depth == 1:
                    opened = i
            elif char == ")":
                if depth == 0:
                    raise Unreadable(
                        "bracket", i, 1, "a ')' closes nothing", "open it with '(' or take it away"
                    )
                depth -= 1
                if depth == 0 and opened is not None:
                    if i >= after:
                        found.append(_Bracket(opened, i + 1, self.work[opened + 1 : i]))
                    opened = None
        if depth and opened is not None:
            raise Unreadable(
                "bracket", opened, 1, "a '(' is not closed", "close it with ')' on the same line"
            )
        return found

    def _take_brackets(self, brackets: list[_Bracket]) -> None:
        """Brackets that hold measures are lifted out; others stay words of the line."""
        for bracket in brackets:
            remark = _REMARK.fullmatch(bracket.inner.strip())
            if remark:
                self.remarks.append(tidy(remark["remark"]))
                self._blank(bracket)
            elif self._measures_in(bracket):
                self._blank(bracket)

    def _blank(self, bracket: _Bracket) -> None:
        gap = " " * (bracket.end - bracket.start)
        self.work = self.work[: bracket.start] + gap + self.work[bracket.end :]

    def _measures_in(self, bracket: _Bracket) -> bool:
        found: list[Measure] = []
        at = bracket.start + 1
        for piece in re.split(r"([,;/]\s+|\s+/\s+|,\s*or\s+|\s+or\s+)", bracket.inner):
            if re.fullmatch(r"[,;/]\s+|\s+/\s+|,\s*or\s+|\s+or\s+", piece):
                at += len(piece)
                continue
            measure = self._one_measure(piece, at)
            if measure is None:
                return False
            found.append(measure)
            at += len(piece)
        self.measures.extend(found)
        return True

    def _one_measure(self, piece: str, at: int) -> Measure | None:
        lead = len(piece) - len(piece.lstrip())
        head = _MEASURE_HEAD.match(piece, lead)
        begin = head.end() if head else lead
        try:
            found = scan_measure(piece, begin)
        except Unreadable as trouble:
            trouble.at += at
            raise
        if found is None or not _MEASURE_TAIL.match(piece, found.end):
            return None
        if found.bare and not (head or re.search(r"\d\s*$", piece[: found.end])):
            return None
        if found.bare:
            return None  # "(2)" says nothing that can be checked
        self.states.extend(found.states)
        if head and head["state"].lower() == "drained":
            self.states.append("drained")
        tail = piece[found.end :].strip().lower()
        if tail == "each":
            return replace(found.measure, text=f"{found.measure.text} each", apiece=True)
        return found.measure

    def _either(self, brackets: list[_Bracket], after: int) -> tuple[IngredientLine, ...]:
        """``4 cloves garlic or 2 tsp minced garlic``: what follows ``or`` is a line of its own."""
        for joint in _EITHER.finditer(self.work, after):
            if any(b.start < joint.start() < b.end for b in brackets):
                continue
            rest = self.work[joint.end() :]
            other = _Reader(
                rest,
                rest,
                Place(self.place.line, self.place.column + joint.end()),
                self.report,
            )
            try:
                line = other.read()
            except Unreadable as trouble:
                trouble.at += joint.end()
                raise
            brackets[:] = [b for b in brackets if b.end <= joint.start()]
            self.work = self.work[: joint.start()] + " " * (len(self.work) - joint.start())
            return (line,)
        return ()

    def _part_of(self, part: re.Match[str], either: tuple[IngredientLine, ...]) -> IngredientLine:
        """``juice of 1 lemon`` is lemon juice, measured in lemons."""
        found = scan_measure(self.work, part.end())
        what = tidy(part["what"]).lower()
        if found is None:
            return self._rest(part.start(), None)
        line = self._rest(found.end, found)
        whole = line.food
        kind = re.sub(r"^(finely |coarsely )?(grated )?", "", what)
        single = _singular(whole)
        amount = line.amount
        assert amount is not None
        terms = tuple(replace(t, unit=t.unit or f"={single}") for t in amount.terms)
        text = tidy(self.written[part.start() : found.end])
        return replace(
            line,
            food=f"{single} {'juice' if ' and ' in kind else kind}",
            amount=replace(amount, terms=terms, text=text),
            preparation=line.preparation,
            note=line.note,
            part_of=what,
            whole=whole,
            alternatives=either,
        )

    def _rest(self, at: int, found: Found | None) -> IngredientLine:
        """The food's words, the preparation after the first comma, and the remarks."""
        measure = found.measure if found else None
        if measure and any(t.value == 0 for t in measure.terms):
            raise Unreadable(
                "amount-zero",
                0,
                len(measure.text),
                "an amount of nothing",
                "give the amount, or take the line away",
            )
        head, comma, tail = self.work[at:].partition(",")
        food = self._without_remarks(head)
        preparation = self._without_remarks(tail) if comma else ""
        size = measure.size if measure else ""
        sized = _SIZE.match(food)
        if sized and (measure is None or found is None or found.bare):
            size = sized["size"].lower().replace("-sized", "").replace(" sized", "")
            food = food[sized.end() :]
        food, measure = self._food_is_unit(food, measure)
        if not food:
            raise Unreadable(
                "food-missing",
                min(at, max(0, len(self.work) - 1)),
                1,
                "there is no food on this line" if measure else "this line names no food",
                "write what is measured: '200 g flour'",
            )
        joined = re.search(r"\s(plus|and|\+)\s+(?=\d|[¼½¾⅓⅔])", food)
        if joined:
            where = self.work.find(joined.group().strip(), at)
            raise Unreadable(
                "two-ingredients",
                where,
                len(joined[1]),
                "two amounts of two things stand on one line",
                "give the second a line of its own",
            )
        if measure:
            measure = replace(measure, size=size)
            self._check_order(measure)
        states = [*self.states, *(found.states if found else ())]
        states += [m.lower() for m in _STATE.findall(f"{food}, {preparation}")]
        return IngredientLine(
            text=tidy(self.written),
            place=self.place,
            food=food,
            amount=measure,
            measures=tuple(self.measures),
            preparation=preparation,
            remarks=tuple(dict.fromkeys(self.remarks)),
            states=tuple(dict.fromkeys(states)),
            reference=self.reference,
        )

    def _food_is_unit(self, food: str, measure: Measure | None) -> tuple[str, Measure | None]:
        """``4 cloves`` names a spice, not an amount of nothing."""
        if food or measure is None or len(measure.terms) != 1:
            return food, measure
        term = measure.terms[0]
        if not term.unit or dimension_of(term.unit) != "count" or measure.each:
            return food, measure
        words = measure.text.split()
        return words[-1], replace(
            measure, terms=(replace(term, unit=""),), text=" ".join(words[:-1])
        )

    def _check_order(self, measure: Measure) -> None:
        for term in (*measure.terms, *([measure.each] if measure.each else [])):
            if isinstance(term, Amount) and term.value > Fraction(1_000_000):
                raise Unreadable(
                    "amount-huge", 0, len(measure.text), "this amount is beyond any kitchen", ""
                )

    def _without_remarks(self, text: str) -> str:
        kept = text
        for remark in list(_REMARK.finditer(text)):
            self.remarks.append(tidy(remark["remark"]))
            kept = kept.replace(remark["remark"], " ", 1)
        kept = re.sub(r"\s+([,;])", r"\1", tidy(kept))
        return re.sub(r"(?:\s*[,;])+$", "", kept).strip(" ,;-–")


def _singular(word: str) -> str:
    """The singular of a food's last word, well enough for citrus and eggs."""
    word = word.strip()
    if word.endswith("ies"):
        return word[:-3] + "y"
    if word.endswith(("oes", "shes", "ches")):
        return word[:-2]
    if word.endswith("s") and not word.endswith("ss"):
        return word[:-1]
    return word
