"""The method: numbered steps, their ingredients, times, temperatures and lengths."""

from __future__ import annotations

from collections.abc import Sequence
from html import escape
from typing import Any

from markdown_it.token import Token

from sitegen.problems import Problem
from sitegen.reading.markdown import SLOT, Run, method_parser, plain_runs, read_inline, text_token
from sitegen.reading.mentions import Mentions
from sitegen.reading.pictures import images
from sitegen.reading.plain_method import PlainPart
from sitegen.reading.recipe import (
    NOWHERE,
    Length,
    Mention,
    MethodPart,
    Part,
    Piece,
    Step,
    Temperature,
    TimeSpan,
)
from sitegen.reading.source import Place, Source
from sitegen.reading.spans import one_setting, says_the_same, spot

_COOLEST_OVEN, _HOTTEST_OVEN = 40, 300  # °C; a wood oven is hotter, a kitchen's dial is not


class MethodReader:
    """Reads the tokens under the method's heading."""

    def __init__(
        self, source: Source, parts: tuple[Part, ...], region: str, problems: list[Problem]
    ) -> None:
        self.source = source
        self.problems = problems
        self.mentions = Mentions(parts, region, self._problem)
        self.number = 0
        self.cursor = 0

    def read_plain(self, parts: list[PlainPart]) -> tuple[MethodPart, ...]:
        """The parts of a method that was cut out of the text."""
        found: list[MethodPart] = []
        for name, line, written in parts:
            steps: list[Step] = []
            for begins, text in written:
                self.number += 1
                steps.append(self._paragraph(text, Place(begins, 1), name, {}))
            if steps or name:
                found.append(MethodPart(name, Place(line, 1), tuple(steps)))
        return tuple(found)

    def read(self, tokens: list[Token], env: dict[str, Any]) -> tuple[MethodPart, ...]:
        """The parts of the method, in order."""
        found: list[MethodPart] = []
        name, place = "", Place(1, 1)
        lead: list[Token] = []
        steps: list[Step] = []
        headed = False

        def close() -> None:
            if steps or lead or name:
                html = method_parser().renderer.render(lead, method_parser().options, env)
                found.append(
                    MethodPart(name, place, tuple(steps), _strip_slots(html, lead).strip())
                )

        i = 0
        while i < len(tokens):
            token = tokens[i]
            end = _block_end(tokens, i)
            if token.type == "heading_open" and token.tag == "h3":
                close()
                name, place = tokens[i + 1].content, Place((token.map or [0])[0] + 1, 1)
                lead, steps, headed = [], [], False
            elif token.type == "ordered_list_open":
                steps.extend(self._steps(tokens[i + 1 : end - 1], name, env))
            else:
                read_inline(method_parser(), tokens[i:end], env)
                lead.extend(tokens[i:end])
                # under a smaller heading it is a section that has slipped: another rule tells
                headed = headed or token.type == "heading_open"
                if not headed:
                    self._among_steps(token, tokens[i:end], bool(steps))
            i = end
        close()
        return tuple(found)

    def _among_steps(self, token: Token, block: list[Token], after_a_step: bool) -> None:
        """Text that is no step would move above the steps: its author has to say where it goes."""
        bullets = token.type == "bullet_list_open"
        names = any(c.type == "mention" for t in block for c in t.children or ())
        if not (after_a_step or (bullets and names)):
            return
        place = Place((token.map or [0])[0] + 1, 1)
        length = len(self.source.line(place.line).strip()) if token.map else 1
        self._problem(
            "step-unnumbered",
            place,
            length,
            "this is no step: it has no number, and stands among the steps",
            "number it, as in '2. Stir …'; indent it by three spaces if it belongs to the step above; "
            "or give it a '## ' heading of its own",
        )

    def _steps(self, tokens: list[Token], part: str, env: dict[str, Any]) -> list[Step]:
        steps: list[Step] = []
        i = 0
        while i < len(tokens):
            end = _block_end(tokens, i)
            self.number += 1
            inner = tokens[i + 1 : end - 1]
            line = (tokens[i].map or [0, 0])[0] + 1
            steps.append(self._step(inner, Place(line, 1), part, env))
            i = end
        return steps

    def _step(self, tokens: list[Token], place: Place, part: str, env: dict[str, Any]) -> Step:
        # a step of one paragraph is shown without the paragraph's own tags
        if len(tokens) == 3 and tokens[0].type == "paragraph_open":
            return self._paragraph(tokens[1].content, place, part, env)
        return self._blocks(tokens, place, part, env)

    def _paragraph(self, text: str, place: Place, part: str, env: dict[str, Any]) -> Step:
        runs = plain_runs(text)
        if runs is None:
            written = Token("inline", "", 0, content=text, children=[], block=True)
            return self._blocks([written], place, part, env)
        self.cursor = self.source.offset(place.line)
        return self._plain_step(runs, place, part)

    def _blocks(self, tokens: list[Token], place: Place, part: str, env: dict[str, Any]) -> Step:
        self.cursor = self.source.offset(place.line)
        read_inline(method_parser(), tokens, env)
        slots: list[Piece] = []
        words: list[str] = []
        settings: list[Temperature] = []
        for token in tokens:
            if token.type == "inline":
                if words:
                    words.append(" ")
                token.children = self._inline(token.children or [], part, slots, words, settings)
            elif token.type in ("fence", "code_block"):
                words.append(token.content)
        html = method_parser().renderer.render(tokens, method_parser().options, env)
        text = " ".join("".join(words).split())
        shown = tuple(str(image.attrs["src"]) for image in images(tokens))
        return Step(self.number, place, _pieces(html, slots), text, shown)

    def _plain_step(self, runs: Sequence[Run], place: Place, part: str) -> Step:
        """A step in which nothing but ingredients is marked: what it shows is put together at once."""
        pieces: list[Piece] = []
        words: list[str] = []
        settings: list[Temperature] = []
        shown = ""
        for at, run in enumerate(runs):
            if run is None:
                shown += "\n"
                words.append(" ")
            elif isinstance(run, str):
                slots: list[Piece] = []
                between = self._text(run, slots, settings, "".join(words[-4:]))
                words.append(run)
                shown += _escaped(between[0])
                for slot, text in zip(slots, between[1:], strict=True):
                    pieces.extend((shown, slot))
                    shown = _escaped(text)
            else:
                following = runs[at + 1] if at + 1 < len(runs) else ""
                after = following if isinstance(following, str) else ""
                before = "".join(words[-4:])
                pieces.extend((shown, self._mention(*run, part, before, after)))
                words.append(run[0])
                shown = ""
        pieces.append(shown)
        pieces[0], pieces[-1] = str(pieces[0]).lstrip(), str(pieces[-1]).rstrip()
        text = " ".join("".join(words).split())
        return Step(self.number, place, tuple([piece for piece in pieces if piece != ""]), text)

    def _inline(
        self,
        children: list[Token],
        part: str,
        slots: list[Piece],
        words: list[str],
        settings: list[Temperature],
    ) -> list[Token]:
        kept: list[Token] = []
        for at, child in enumerate(children):
            if child.type == "mention":
                name, raw = child.meta["name"], child.meta["raw"]
                after = children[at + 1].content if at + 1 < len(children) else ""
                before = "".join(words[-4:])
                slots.append(self._mention(child.content, name, raw, part, before, after))
                words.append(child.content)
                kept.append(child)
            elif child.type == "text":
                between = self._text(child.content, slots, settings, "".join(words[-4:]))
                for i, run in enumerate(between):
                    kept.extend([Token("span", "", 0)] if i else [])
                    kept.extend([text_token(run)] if run else [])
                words.append(child.content)
            elif child.type == "image":
                kept.append(child)  # what it shows is said by its alt text, not by the step
            else:
                words.append(" " if child.type in ("softbreak", "hardbreak") else child.content)
                kept.append(child)
        return kept

    def _text(
        self, text: str, slots: list[Piece], settings: list[Temperature], lead: str
    ) -> list[str]:
        """Plain text cut at its times, heats and lengths, which are added to ``slots``."""
        begin = self.source.text.find(text[:20], self.cursor)
        base = begin if begin >= 0 else self.cursor
        self.cursor = base + (len(text) if begin >= 0 else 0)
        found = spot(text, NOWHERE, lead)
        if not found:
            return [text]
        for spotted in found:
            if isinstance(spotted.what, Temperature):
                self._check_oven(spotted.what, self._at(base + spotted.start))
        between: list[str] = []
        at = 0
        for spotted in one_setting(text, found) if len(found) > 1 else found:
            what = spotted.what
            place = self._at(base + spotted.start)
            if isinstance(what, Temperature):
                what = Temperature(
                    place, what.text, what.value, what.unit, what.use, what.air, what.upto
                )
                same = what.use == "oven" and says_the_same(settings, what)
                settings.append(what)
                if same:
                    continue
            elif isinstance(what, TimeSpan):
                what = TimeSpan(place, what.text, what.seconds, what.upto)
            else:
                what = Length(place, what.text, what.sides, what.unit)
            between.append(text[at : spotted.start])
            slots.append(what)
            at = spotted.end
        between.append(text[at:])
        return between

    def _at(self, offset: int) -> Place:
        return self.source.place(min(offset, len(self.source.text)))

    def _check_oven(self, heat: Temperature, place: Place) -> None:
        if heat.unit == "gas":
            if heat.value <= 10:
                return
            message, hint = f"there is no gas mark {heat.value}", "gas marks go from ¼ to 10"
        else:
            celsius = heat.value if heat.unit == "C" else (heat.value - 32) * 5 / 9
            if heat.use == "core" or _COOLEST_OVEN <= celsius <= _HOTTEST_OVEN:
                return
            message = f"an oven at {heat.value} °{heat.unit} is out of a kitchen's range"
            hint = "look for a digit too many, or the wrong scale"
        self._problem("oven-out-of-range", place, len(heat.text), message, hint)

    def _mention(
        self, words: str, name: str, raw: str, part: str, before: str, after: str
    ) -> Mention:
        begin = self.source.text.find(raw, self.cursor)
        place = self.source.place(begin if begin >= 0 else self.cursor)
        if begin >= 0:
            self.cursor = begin + len(raw)
        return self.mentions.read(words, name, place, len(raw), part, before, after)

    def _problem(self, rule: str, place: Place, length: int, message: str, hint: str) -> None:
        self.problems.append(
            Problem(
                rule, "error", self.source.file, place.line, place.column, message, hint, length
            )
        )


def _escaped(text: str) -> str:
    """Plain text in HTML, as the renderer writes it; a plain run holds no other sign of HTML."""
    return text.replace(">", "&gt;").replace('"', "&quot;")


def _block_end(tokens: list[Token], i: int) -> int:
    """The index after the block that opens at ``i``."""
    depth = 0
    for j in range(i, len(tokens)):
        depth += tokens[j].nesting
        if depth == 0:
            return j + 1
    return len(tokens)


def _pieces(html: str, slots: list[Piece]) -> tuple[Piece, ...]:
    runs = html.strip().split(SLOT)
    if len(runs) != len(slots) + 1:  # the author's own text holds the character: keep it as text
        return (html,)
    pieces: list[Piece] = []
    for i, run in enumerate(runs):
        if run:
            pieces.append(run)
        if i < len(slots):
            pieces.append(slots[i])
    return tuple(pieces)


def _strip_slots(html: str, tokens: list[Token]) -> str:
    """Brackets outside steps are plain words."""
    words = [c.content for t in tokens for c in (t.children or []) if c.type == "mention"]
    for word in words:
        html = html.replace(SLOT, escape(word), 1)
    return html
