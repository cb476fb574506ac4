"""One ingredient line, taken apart.

``[about] amount [unit] food[, preparation] [(other measures)] [remarks]``. The reader never guesses:
what it can't understand is a problem with a caret under the place.
"""

from __future__ import annotations

import re
from dataclasses import replace

from sitegen.kitchen.units import dimension_of
from sitegen.problems import Problem
from sitegen.reading.asides import Bracket, find_brackets, read_aside, stroke
from sitegen.reading.measures import Found, scan_measure, tidy
from sitegen.reading.numbers import Unreadable
from sitegen.reading.phrases import (
    DASH,
    EITHER,
    MODIFIERS_ONLY,
    PART_OF,
    REMARK,
    SIZE,
    singular,
    states_in,
)
from sitegen.reading.plain_lines import plain_line
from sitegen.reading.recipe import IngredientLine, Measure
from sitegen.reading.slips import number_not_lost, one_unit
from sitegen.reading.source import Place

_LONGEST = 400

_LINK = re.compile(r"\[([^\[\]]{1,200})\]\(([^()\s]{1,300})\)")
_BEHIND_ANOTHER = re.compile(
    r"[,;][^,;]*\b(?:in|with|into|plus|using|from|to)\s+(?:about\s+|~)?[\d¼-¾⅐-⅞][\d¼-¾⅐-⅞./⁄ –-]*"
    r"(?:k?g|[mcd]?l|lit(?:re|er)s?|(?:fl )?oz|ounces?|lbs?|pounds?|tsp|tbsp|(?:tea|table)spoons?|cups?"
    r"|pints?|quarts?)\.?\s*$",
    re.IGNORECASE,
)
"""``, cooked in 3 l (13 cups) water``: such a bracket measures the water, not the food."""
_PACKETS = frozenset(
    "tin can jar bottle packet package sachet envelope carton tub bag box punnet".split()
)

# No-break, thin and other wide or narrow spaces, and a tab pasted from elsewhere.
_WIDE = str.maketrans(dict.fromkeys("\u00a0\u2009\u202f\u2007\u200a\u2002\u2003\t", " "))

_OPTIONAL = re.compile(r"\((optional)\)\s*|(optional):\s*", re.IGNORECASE)
_FIGURE = re.compile(r"[\d¼-¾⅐-⅞]")
_SPACED_COMMA = re.compile(r",(?=\s)")
_BARE_BRACKET = re.compile(r"[\[\]]")
_BEFORE_STOP = re.compile(r"\s+([,;])")
_STOPS_AT_END = re.compile(r"(?:\s*[,;])+$")
_STOPS_IN_A_ROW = re.compile(r"(?<=,)(?:\s*,)+")
_AND_AMOUNT = re.compile(r"(?:^|\s)(plus|and|\+)\s+(?=\d|[¼½¾⅓⅔])")
_LATER_AMOUNT = re.compile(r"[,;]\s*(plus|and|\+)\s+(?=\d|[¼½¾⅓⅔])", re.IGNORECASE)
_EACH_OF_SEVERAL = re.compile(r"\s*each\s+(?:of\s+)?(?=.*(?:,|\band\b|&))", re.IGNORECASE)


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

    # nearly all lines are written without any of them, and translating is slow
    plain = text if text.isascii() and "\t" not in text else text.translate(_WIDE)
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
        return plain_line(text, place) or _Reader(plain, text, place).read()
    except Unreadable as trouble:
        report(trouble.rule, trouble.at, trouble.length, trouble.message, trouble.hint)
        return None


class _Reader:
    """Reads one line; keeps the working copy as long as the original, so offsets hold."""

    def __init__(self, plain: str, written: str, place: Place) -> None:
        self.work = plain
        self.written = written
        self.place = place
        self.reference = ""
        self.measures: list[Measure] = []
        self.states: list[str] = []
        self.remarks: list[tuple[int, str]] = []

    def read(self) -> IngredientLine:
        either = self._take_link_and_choice()
        at = self._leading_remark(len(self.work) - len(self.work.lstrip()))
        part = PART_OF.match(self.work, at)
        start = part.end() if part else at
        found = scan_measure(self.work, start)
        if part and found is None:
            part, start = None, at  # "juice of lemons": a name
        if found is None and part is None:
            number_not_lost(self.work, start)
        if found and not found.bare and not part:
            one_unit(self.work, found)
        after = found.end if found else start
        while found and not found.bare and (other := stroke(self.work, after)):
            self.measures.append(other[0])
            after = other[1]
        if found and not all(t.value for t in found.measure.terms):
            raise Unreadable(
                "amount-zero",
                start,
                after - start,
                "an amount of nothing",
                "give the amount, or take the line away",
            )
        self._take_brackets(find_brackets(self.work, after), found)
        line = self._rest(after, found)
        if part and found:
            line = self._part_of(line, part, found)
        return replace(line, alternatives=either) if either else line

    def _take_link_and_choice(self) -> tuple[IngredientLine, ...]:
        """Lift out a link's target, and what follows ``or`` as a line of its own."""
        links = list(_LINK.finditer(self.work)) if "[" in self.work else []
        whole = self.work
        for link in links:
            pad = " " * (link.end() - link.start() - len(link[1]) - 1)
            self.work = f"{self.work[: link.start()]} {link[1]}{pad}{self.work[link.end() :]}"
        first = scan_measure(self.work, len(self.work) - len(self.work.lstrip()))
        brackets = find_brackets(self.work, 0)
        end = len(self.work)
        either: tuple[IngredientLine, ...] = ()
        for joint in EITHER.finditer(self.work, first.end if first else 0):
            if any(b.start < joint.start() < b.end for b in brackets):
                continue
            end = joint.start()
            either = (self._choice(whole, joint.end()),)
            self.work = self.work[:end] + " " * (len(self.work) - end)
            break
        own = [link for link in links if link.start() < end]
        if len(own) > 1:
            raise Unreadable(
                "two-ingredients",
                own[1].start(),
                len(own[1][0]),
                "two links stand on one line",
                "give the second recipe a line of its own",
            )
        stray = _BARE_BRACKET.search(self.work, 0, end)
        if stray:
            raise Unreadable(
                "link",
                stray.start(),
                1,
                f"a '{stray[0]}' that belongs to no link",
                "write another recipe as [its name](its-file.md), without spaces between",
            )
        self.reference = own[0][2] if own else ""
        return either

    def _choice(self, whole: str, at: int) -> IngredientLine:
        place = Place(self.place.line, self.place.column + at)
        try:
            return _Reader(whole[at:], self.written[at:], place).read()
        except Unreadable as trouble:
            trouble.at += at
            raise

    def _leading_remark(self, at: int) -> int:
        """``(optional) 1 tsp chilli flakes``."""
        found = _OPTIONAL.match(self.work, at)
        if not found:
            return at
        self.remarks.append((at, "optional"))
        self._blank(at, found.end())
        return found.end()

    def _blank(self, start: int, end: int) -> None:
        self.work = self.work[:start] + " " * (end - start) + self.work[end:]

    def _take_brackets(self, brackets: list[Bracket], found: Found | None) -> None:
        """Brackets that hold measures or a remark are lifted out; others stay words of the line."""
        for bracket in brackets:
            remark = REMARK.fullmatch(bracket.inner.strip())
            if remark:
                self.remarks.append((bracket.start, tidy(remark["remark"])))
                self._blank(bracket.start, bracket.end)
                continue
            aside = read_aside(bracket.inner, bracket.start + 1)
            if aside is None or _BEHIND_ANOTHER.search(self.work, 0, bracket.start):
                continue
            if not (aside.of_all or aside.of_each):
                self._each_or_all(bracket, aside.measures[0], found)
            self.measures.extend(aside.measures)
            self.states.extend(aside.states)
            self._blank(bracket.start, bracket.end)

    def _each_or_all(self, bracket: Bracket, measure: Measure, found: Found | None) -> None:
        """``2 tins (400 g) beans`` may be 400 g or 800 g of beans: not to be guessed."""
        if found is None or found.measure.each or dimension_of(measure.unit) == "count":
            return
        amount = found.measure.terms[0]
        if amount.value == 1 and amount.upto is None:
            return
        next_to = found.bare and not self.work[found.end : bracket.start].strip()
        if next_to or amount.unit in _PACKETS:
            raise Unreadable(
                "measure-ambiguous",
                bracket.start,
                bracket.end - bracket.start,
                f"'{measure.text}' may be the measure of each, or of all together",
                f"write ({measure.text} each) or ({measure.text} in all)",
            )

    def _part_of(self, line: IngredientLine, part: re.Match[str], found: Found) -> IngredientLine:
        """``juice of 1 lemon`` is lemon juice, measured in lemons."""
        what = tidy(part["what"]).lower()
        kind = re.sub(r"^(finely |coarsely )?(grated )?", "", what)
        single = singular(line.food)
        amount = line.amount
        assert amount is not None
        terms = tuple(replace(t, unit=t.unit or f"={single}") for t in amount.terms)
        return replace(
            line,
            food=f"{single} {'juice' if ' and ' in kind else kind}",
            amount=replace(amount, terms=terms, text=tidy(self.written[part.start() : found.end])),
            part_of=what,
            whole=line.food,
        )

    def _rest(self, at: int, found: Found | None) -> IngredientLine:
        """The food's words, the preparation after the first comma, and the remarks."""
        measure = found.measure if found else None
        comma = self._comma(at)
        food = self._without_remarks(at, comma)
        preparation = self._preparation(comma + 1)
        size = measure.size if measure else ""
        sized = SIZE.match(food)
        if sized and found is not None and found.bare:
            size = sized["size"].lower().replace("-sized", "").replace(" sized", "")
            food = food[sized.end() :]
        food, measure = _food_is_unit(food, measure)
        if not food:
            raise Unreadable(
                "food-missing",
                _first_after(self.written, at),
                1,
                "there is no food on this line" if measure else "this line names no food",
                "write what is measured: '200 g flour'",
            )
        self._one_ingredient(at, comma)
        if measure and measure.size != size:
            measure = replace(measure, size=size)
        states = [*self.states, *(found.states if found else ())]
        states += states_in(f"{food}, {preparation}")
        self.remarks.sort()
        if found and found.loose:
            self.remarks.insert(0, (at, found.loose))
        return IngredientLine(
            text=tidy(self.written),
            place=self.place,
            food=food,
            amount=measure,
            measures=tuple(self.measures),
            preparation=preparation,
            remarks=tuple(dict.fromkeys(words for _, words in self.remarks)),
            states=tuple(dict.fromkeys(states)),
            reference=self.reference,
        )

    def _comma(self, at: int) -> int:
        """Where the food's name ends: at a comma or dash that is not a part of it."""
        inside = find_brackets(self.work, at)
        dashes = any(dash in self.work for dash in "-–—")
        begin = at
        while begin < len(self.work):
            dash = DASH.search(self.work, begin) if dashes else None
            comma = self.work.find(",", begin)
            if dash and (comma < 0 or dash.start() < comma):
                comma = dash.start() + len(dash.group()) - 2
            if comma < 0:
                break
            begin = comma + 1
            if any(b.start < comma < b.end for b in inside):
                continue
            head = self.work[at:comma].strip()
            if MODIFIERS_ONLY.fullmatch(head) and not REMARK.match(self.work[begin:].lstrip()):
                continue
            return comma
        return len(self.work)

    def _preparation(self, at: int) -> str:
        """What follows the name, without remarks and without a measure between commas."""
        if at > len(self.work):
            return ""  # no comma: nothing follows
        begin = at
        commas = [m.start() for m in _SPACED_COMMA.finditer(self.work, at)]
        for stop in (*commas, len(self.work)):
            piece = self.work[begin:stop]
            aside = read_aside(piece, begin) if _FIGURE.search(piece) else None
            if aside and dimension_of(aside.measures[0].unit) != "count":
                self.measures.extend(aside.measures)
                self.states.extend(aside.states)
                self._blank(begin, stop)
            begin = stop + 1
        return _STOPS_IN_A_ROW.sub("", self._without_remarks(at, len(self.work)))

    def _one_ingredient(self, at: int, comma: int) -> None:
        """An amount after ``and`` or ``plus`` is a second ingredient, and must not be lost."""
        joined = None
        figures = _FIGURE.search(self.work, at)
        if figures:
            joined = _AND_AMOUNT.search(self.work[:comma], at)
        for found in _LATER_AMOUNT.finditer(self.work, comma) if figures else ():
            measure = scan_measure(self.work, found.end())
            if found[1].lower() != "and" or (measure and not measure.bare):
                joined = joined or found
        each = _EACH_OF_SEVERAL.match(self.work, at)
        if each and not self.work[:at].rstrip().endswith(","):
            raise Unreadable(
                "two-ingredients",
                at + len(each[0]) - len(each[0].lstrip()),
                4,
                "several ingredients share one amount on this line",
                "give each of them a line of its own, with its amount",
            )
        if joined:
            raise Unreadable(
                "two-ingredients",
                joined.start(1),
                len(joined[1]),
                "a second amount stands behind the food on this line",
                "give it a line of its own; spoons and cups of the same food may both stand in front, "
                "as in '3/4 cup plus 1 tbsp buttermilk, divided'",
            )

    def _without_remarks(self, start: int, end: int) -> str:
        text = self.work[start:end]
        kept = text
        for remark in REMARK.finditer(text):
            words = remark["remark"]
            self.remarks.append((start + remark.start("remark"), tidy(words)))
            self._blank(start + remark.start("remark"), start + remark.end("remark"))
            kept = kept[: remark.start("remark")] + " " * len(words) + kept[remark.end("remark") :]
        kept = tidy(kept)
        if "," in kept or ";" in kept:
            kept = _STOPS_AT_END.sub("", _BEFORE_STOP.sub(r"\1", kept))
        return kept.strip(" ,;-–—")


def _food_is_unit(food: str, measure: Measure | None) -> tuple[str, Measure | None]:
    """``4 cloves`` names a spice, not an amount of nothing."""
    if food or measure is None or len(measure.terms) != 1:
        return food, measure
    term = measure.terms[0]
    if not term.unit or dimension_of(term.unit) != "count" or measure.each:
        return food, measure
    words = measure.text.split()
    bare = replace(measure, terms=(replace(term, unit=""),), text=" ".join(words[:-1]))
    return words[-1], bare


def _first_after(text: str, at: int) -> int:
    """Where the food should have stood: what comes after ``at``, or else the line's last word."""
    left = len(text) - len(text[at:].lstrip())
    return left if left < len(text) else len(text.rstrip()) - 1
