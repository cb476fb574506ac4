"""A recipe file, from text to :class:`~sitegen.reading.recipe.Recipe`."""

from __future__ import annotations

import re
from copy import copy
from dataclasses import dataclass
from difflib import get_close_matches
from fractions import Fraction
from functools import lru_cache
from pathlib import PurePosixPath
from typing import Any

from markdown_it.token import Token

from sitegen.problems import Problem
from sitegen.reading import misread
from sitegen.reading.checking import check_fields
from sitegen.reading.frontmatter import RecipeFields, VideoFields
from sitegen.reading.ingredients import read_ingredients
from sitegen.reading.markdown import LARGEST, blocks, idle_in, parser, read_inline
from sitegen.reading.method import MethodReader
from sitegen.reading.pictures import pictures_of
from sitegen.reading.plain_method import plain_method
from sitegen.reading.recipe import (
    MethodPart,
    Part,
    Photo,
    Question,
    Recipe,
    Section,
    Silence,
    Times,
    Video,
)
from sitegen.reading.source import Place, Source
from sitegen.reading.yamltree import Tree, read_yaml
from sitegen.site import Settings


@dataclass(frozen=True, slots=True)
class Split:
    """A file in two: the YAML text (its lines numbered as in the file) and where the body begins."""

    yaml: str
    body_line: int


def split(source: Source, problems: list[Problem]) -> Split | None:
    """Find the fences around the front matter; None, with a problem, when they are not there."""

    def problem(rule: str, line: int, message: str, hint: str) -> None:
        problems.append(Problem(rule, "error", source.file, line, 1, message, hint, 3))

    lines = source.text.split("\n")
    if not source.text.strip():
        problem("file-empty", 1, "the file is empty", "begin with '---', then 'title: …'")
        return None
    if lines[0].rstrip() != "---":
        first = next((i for i, text in enumerate(lines) if text.rstrip() == "---"), None)
        if first is not None and not "".join(lines[:first]).strip():
            problem("fence", 1, "empty lines stand before '---'", "begin the file with '---'")
        else:
            problem("fence", 1, "the file does not begin with '---'", "put '---' on its first line")
        return None
    for number, text in enumerate(lines[1:], start=2):
        if text.rstrip() == "---":
            return Split("\n" + "\n".join(lines[1 : number - 1]) + "\n", number + 1)
    end = next((i for i, text in enumerate(lines[1:], 2) if text.startswith("#")), len(lines))
    problem(
        "fence",
        end,
        "the fields are never closed: a second '---' is missing",
        "put '---' on a line of its own after the last field",
    )
    return None


def read_recipe(source: Source, settings: Settings) -> tuple[Recipe | None, list[Problem]]:
    """Read one recipe; every problem found, and the recipe where enough of it can be understood.

    A recipe comes back only if it has no error: what is half understood is not shown.
    """
    problems: list[Problem] = []
    if len(source.text) > LARGEST:
        message = f"the file has {len(source.text)} characters; a recipe may have {LARGEST}"
        return None, [Problem("file-large", "error", source.file, 1, 1, message, "split it")]
    halves = split(source, problems)
    if halves is None:
        return None, problems
    tree = read_yaml(source, halves.yaml, problems)
    _second_block(source, halves.body_line, problems)
    if tree is None:
        return None, problems
    fields = check_fields(tree, RecipeFields, source.file, problems)
    parts = read_ingredients(tree, source.file, problems)
    text = _Body(source, halves.body_line, settings, problems).read(parts)
    recipe = _recipe(source, tree, fields, parts, text)
    _cross_check(recipe, tree, settings, problems)
    misread.report(source, problems)
    return (None if any(p.severity == "error" for p in problems) else recipe), problems


@dataclass(frozen=True, slots=True)
class _Text:
    """What stands after the fields."""

    intro: str
    method: tuple[MethodPart, ...]
    sections: tuple[Section, ...]
    pictures: tuple[Photo, ...]


def _recipe(
    source: Source, tree: Tree, fields: dict[str, Any], parts: tuple[Part, ...], text: _Text
) -> Recipe:
    time, photo = fields.get("time"), fields.get("photo")
    return Recipe(
        file=source.file,
        slug=slug_of(source.file),
        title=fields.get("title") or "",
        serves=fields.get("serves") or 1,
        summary=fields.get("summary") or "",
        published=fields.get("published"),
        updated=fields.get("updated"),
        author=fields.get("author") or "",
        course=fields.get("course") or "",
        cuisine=fields.get("cuisine") or "",
        tags=tuple(fields.get("tags") or ()),
        makes=fields.get("makes"),
        weighs=fields.get("weighs"),
        volume=fields.get("volume"),
        times=Times(time.prep, time.cook, time.rest) if time else Times(),
        tools=tuple(fields.get("tools") or ()),
        photo=Photo(photo.file, photo.alt, tree.place(("photo", "file")), photo.focus or (50, 50))
        if photo
        else None,
        disclosure=fields.get("disclosure") or "",
        video=_video(fields.get("video"), tree),
        may_contain=tuple(fields.get("may_contain") or ()),
        parts=parts,
        intro=text.intro,
        method=text.method,
        sections=text.sections,
        pictures=text.pictures,
        silences=tuple(
            Silence(
                s.rule, s.why, tree.place(("silence", i, "rule")), s.ingredient or "", s.step or 0
            )
            for i, s in enumerate(fields.get("silence") or ())
        ),
        places={str(path[0]): place for path, place in tree.keys.items() if len(path) == 1},
    )


def _video(fields: VideoFields | None, tree: Tree) -> Video | None:
    if fields is None:
        return None
    return Video(
        title=fields.title,
        alt=fields.alt,
        poster=Photo(fields.poster, fields.alt, tree.place(("video", "poster"))),
        seconds=fields.length,
        file=fields.file or "",
        address=fields.address or "",
        published=fields.published,
        captions=fields.captions or "",
        transcript=fields.transcript or "",
        steps=tuple(sorted(fields.steps.items(), key=lambda step: (step[1], step[0]))),
        place=tree.key_place(("video",)),
    )


@lru_cache(maxsize=65536)
def slug_of(file: str) -> str:
    """The last part of a recipe's address: its file's name in small letters and hyphens."""
    return slugify(PurePosixPath(file).stem)


def slugify(text: str) -> str:
    """Letters, digits and hyphens of ``text``; letters of every script are kept.

    >>> slugify("Barley broth, with dill!")
    'barley-broth-with-dill'
    """
    return re.sub(r"[\W_]+", "-", text.lower()).strip("-")


class _Body:
    """The Markdown after the fields: an introduction, the method, other sections."""

    def __init__(
        self, source: Source, line: int, settings: Settings, problems: list[Problem]
    ) -> None:
        self.source = source
        self.settings = settings
        self.problems = problems
        # blank lines in place of the fields keep every line number right
        start = source.offset(line)
        self.text = "\n" * (line - 1) + source.text[start:]

    def read(self, parts: tuple[Part, ...]) -> _Text:
        env: dict[str, Any] = {}
        idle = idle_in(self.text)
        plain = plain_method(self.text, self.settings.method_heading, idle)
        tokens = blocks(plain.rest if plain else self.text, env, idle)
        heads = [i for i, t in enumerate(tokens) if t.type == "heading_open" and t.tag == "h2"]
        self._no_h1(tokens)
        apart = self._method_apart(tokens, heads, env)
        shown = self._as_shown(tokens, apart)
        others = [*tokens[: apart.start], *tokens[apart.stop :]] if apart else tokens
        read_inline(parser(), others, env)
        intro = self._html(tokens[: heads[0]] if heads else tokens, env)
        sections: list[Section] = []
        method: tuple[MethodPart, ...] = ()
        found = False
        for at, head in enumerate(heads):
            end = heads[at + 1] if at + 1 < len(heads) else len(tokens)
            name = tokens[head + 1].content.strip()
            line = (tokens[head].map or [0])[0] + 1
            if self._is_method(tokens[head + 1]):
                if found:
                    self._problem(
                        "method-twice",
                        line,
                        f"'## {name}' stands twice",
                        "put all steps under one of them, in parts with '###' if you like",
                    )
                    continue
                if plain:
                    method = self._reader(parts).read_plain(plain.parts)
                elif apart is not None:
                    method = self._read_method(tokens[apart.start : apart.stop], parts, {})
                else:
                    method = self._method(line, tokens, end, parts)
                found = True
                continue
            sections.append(self._section(name, line, tokens[head + 3 : end], env))
        if not found:
            self._problem(
                "method-missing",
                max(1, len(self.source.text.split("\n"))),
                f"there is no '## {self.settings.method_heading}'",
                self._nearly_method([section.name for section in sections])
                or "write the steps as a numbered list under that heading",
            )
        elif not any(part.steps for part in method):
            self._problem(
                "method-empty",
                next(
                    (tokens[h].map or [0])[0] + 1 for h in heads if self._is_method(tokens[h + 1])
                ),
                "the method has no numbered steps",
                "begin each step with '1. ', '2. ' and so on",
            )
        pictures = pictures_of(shown, self.source, 0, self.problems)
        return _Text(intro, method, tuple(sections), pictures)

    def _nearly_method(self, names: list[str]) -> str:
        """A hint that names the heading which is meant for the method, if one is nearly spelt so."""
        meant = self.settings.method_heading
        near = get_close_matches(meant, names, n=1, cutoff=0.7)
        return f"if '## {near[0]}' is meant for it, spell it '## {meant}'" if near else ""

    def _is_method(self, heading: Token) -> bool:
        return heading.content.strip().casefold() == self.settings.method_heading.casefold()

    def _method_apart(
        self, tokens: list[Token], heads: list[int], env: dict[str, Any]
    ) -> range | None:
        """The blocks of the method, where they are the same for its parser: nearly always.

        They are not where its heading stands inside another block or is underlined, or where a link
        may be defined in one part of the text and used in another: then None is given, and the
        method's lines are parsed anew.
        """
        method = next((i for i in heads if self._is_method(tokens[i + 1])), None)
        end = next((i for i in heads if method is not None and i > method), len(tokens))
        if method is None or env.get("references") or not tokens[method].markup.startswith("#"):
            return None
        if any(t.level for t in (tokens[method], *tokens[end : end + 1])):
            return None
        return range(method + 3, end)

    def _as_shown(self, tokens: list[Token], apart: range | None) -> list[Token]:
        """The blocks with their pictures, as they are when no bracket is an ingredient."""
        if "![" not in self.text:
            return []
        if not apart:
            return tokens
        shown = list(tokens)
        for i in apart:
            shown[i] = copy(tokens[i])
            shown[i].children = [] if "![" in tokens[i].content else None
        with_pictures = [shown[i] for i in apart if shown[i].children is not None]
        read_inline(parser(), with_pictures, {})
        return shown

    def _read_method(
        self, tokens: list[Token], parts: tuple[Part, ...], env: dict[str, Any]
    ) -> tuple[MethodPart, ...]:
        return self._reader(parts).read(tokens, env)

    def _reader(self, parts: tuple[Part, ...]) -> MethodReader:
        return MethodReader(self.source, parts, self.settings.region, self.problems)

    def _method(
        self, line: int, tokens: list[Token], end: int, parts: tuple[Part, ...]
    ) -> tuple[MethodPart, ...]:
        """The method is parsed again by its own parser, in which brackets name ingredients."""
        last = (tokens[end].map or [0])[0] if end < len(tokens) else self.text.count("\n") + 1
        rows = self.text.split("\n")
        text = "\n" * line + "\n".join(rows[line:last])
        env: dict[str, Any] = {}
        return self._read_method(blocks(text, env), parts, env)

    def _section(self, name: str, line: int, tokens: list[Token], env: dict[str, Any]) -> Section:
        """A section; under the heading for questions, every ``###`` is one."""
        asked = []
        if name.casefold() == self.settings.questions_heading.casefold():
            asked = [i for i, t in enumerate(tokens) if t.type == "heading_open" and t.tag == "h3"]
        lead = tokens[: asked[0]] if asked else tokens
        questions: list[Question] = []
        for i, end in zip(asked, [*asked[1:], len(tokens)], strict=False):
            slug = slugify(tokens[i + 1].content) or "question"
            slug += f"-{len(questions) + 1}" if slug in {q.slug for q in questions} else ""
            words = self._html(tokens[i + 1 : i + 2], env)
            questions.append(Question(words, slug, self._html(tokens[i + 3 : end], env)))
        html, place = self._html(lead, env), Place(line, 1)
        return Section(name, slugify(name) or "section", html, place, tuple(questions))

    def _html(self, tokens: list[Token], env: dict[str, Any]) -> str:
        html: str = parser().renderer.render(tokens, parser().options, env)
        return html.strip()

    def _no_h1(self, tokens: list[Token]) -> None:
        for token in tokens:
            if token.type == "heading_open" and token.tag == "h1":
                self._problem(
                    "heading-one",
                    (token.map or [0])[0] + 1,
                    "a '#' heading stands in the text; the title is the page's first heading",
                    "use '##' for sections",
                )

    def _problem(self, rule: str, line: int, message: str, hint: str) -> None:
        self.problems.append(Problem(rule, "error", self.source.file, line, 1, message, hint))


def _second_block(source: Source, body_line: int, problems: list[Problem]) -> None:
    """Fields again right after the closing fence: a second document by mistake."""
    lines = source.text.split("\n")[body_line - 1 :]
    field_like = re.compile(r"(?:[\w ]{1,30}:(?:\s.*)?|\s*-\s.*|\s+\S.*|\s*)$")
    first = next((i for i, text in enumerate(lines) if text.strip()), None)
    if first is None or not re.match(r"[\w ]{1,30}:(?:\s|$)", lines[first]):
        return
    for text in lines[first:]:
        if text.rstrip() == "---":
            message = "more fields stand here, after the '---' that ends the fields"
            hint = "move them above that '---', and keep only two '---' lines"
            place = (body_line + first, 1)
            problems.append(Problem("second-document", "error", source.file, *place, message, hint))
            return
        if not field_like.match(text):
            return


def _cross_check(recipe: Recipe, tree: Tree, settings: Settings, problems: list[Problem]) -> None:
    """What needs two fields, or the settings."""

    def problem(rule: str, path: tuple[str, ...], message: str, hint: str) -> None:
        place = tree.place(path)
        problems.append(
            Problem(rule, "error", recipe.file, place.line, place.column, message, hint)
        )

    if recipe.author and recipe.author not in settings.authors:
        known = ", ".join(sorted(settings.authors)) or "none yet"
        problem(
            "author-unknown",
            ("author",),
            f"there is no author '{recipe.author}' in site.yaml",
            f"the authors are: {known}",
        )
    if recipe.published and recipe.updated and recipe.updated < recipe.published:
        problem(
            "date-order",
            ("updated",),
            f"updated {recipe.updated} is before published {recipe.published}",
            "look at the two dates",
        )
    video = recipe.video
    if video and bool(video.file) == bool(video.address):
        message = "a film has a file or an address, and this one has " + (
            "both" if video.file else "neither"
        )
        problem("film-where", ("video",), message, "give 'file: …' if it is yours to send out")
    for number, second in video.steps if video else ():
        path = ("video", "steps", str(number))
        if number > len(recipe.steps):
            message = f"there is no step {number}; the method has {len(recipe.steps)}"
            problem("film-step", path, message, "look at the step's number")
        elif video and second >= video.seconds:
            message = f"step {number} would begin after the film's end"
            problem("film-step", path, message, "look at the time, and at the film's length")
    if recipe.weighs and recipe.weighs.value <= Fraction(0):
        problem("amount-zero", ("weighs",), "a batch of nothing", "give its weight")
