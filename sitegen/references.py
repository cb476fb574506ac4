"""How recipes and pages refer to one another: the order to work recipes out in, and dead ends."""

from __future__ import annotations

import posixpath
import re
from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import PurePosixPath
from urllib.parse import unquote

from sitegen.late import noted
from sitegen.problems import Problem, nearest
from sitegen.reading.read import slug_of
from sitegen.reading.recipe import IngredientLine, Recipe
from sitegen.reading.source import Place, Source

_LINK = re.compile(r"\]\(<?(?P<target>[^()\s<>:?#]+\.md)(?:#[^()\s<>]*)?>?(?:\s+[\"'][^)]*)?\)")


@dataclass(frozen=True, slots=True)
class Reference:
    """One file's naming of another, by a relative path to its Markdown file."""

    target: str
    """As the author wrote it: ``../sauces/green-sauce.md``."""
    file: str
    """The file that is meant, relative to the site's folder: ``content/recipes/sauces/…``."""
    place: Place
    length: int

    @property
    def slug(self) -> str:
        """The slug of the recipe that is meant."""
        return slug_of(self.file)


@noted(Recipe)
def dish_references(recipe: Recipe) -> tuple[Reference, ...]:
    """The recipes that a recipe has among its ingredients, swaps and alternatives."""
    return tuple(
        _reference(recipe.file, line.reference, line.place, len(line.text))
        for top in recipe.lines
        for line in _with_choices(top)
        if line.reference
    )


def _with_choices(line: IngredientLine) -> Iterator[IngredientLine]:
    yield line
    for other in (*line.alternatives, *((line.swap,) if line.swap else ())):
        yield from _with_choices(other)


@noted(Source)
def links(source: Source) -> tuple[Reference, ...]:
    """The links to Markdown files in the text after the front matter."""
    return tuple(
        _reference(source.file, m["target"], source.place(m.start("target")), len(m["target"]))
        for m in _LINK.finditer(source.text, _body_start(source))
    )


_ADDRESS = re.compile(r"\]\(<?(?P<target>[^()\s<>]{1,500})>?(?:\s+[\"'][^)]*)?\)")
_FILE_LINK = re.compile(r"[^:?#]+\.md(?:[?#]|$)")
_ELSEWHERE = re.compile(r"[a-z][a-z0-9+.-]*:(?!//)|//", re.IGNORECASE)


@noted(Source)
def page_links(source: Source) -> tuple[Reference, ...]:
    """The links in the text that name a page, or a place in one, by its address.

    Those to Markdown files are among them only if they name a place: the files are :func:`links`.
    """
    found: list[Reference] = []
    for m in _ADDRESS.finditer(source.text, _body_start(source)):
        target = m["target"]
        if _ELSEWHERE.match(target) or (_FILE_LINK.match(target) and "#" not in target):
            continue
        if not _is_shown(source.text, m.start()):
            continue
        found.append(_reference(source.file, target, source.place(m.start("target")), len(target)))
    return tuple(found)


def _is_shown(text: str, at: int) -> bool:
    """Whether the bracket that ends at ``at`` is a link: no picture's, and not quoted as code."""
    depth, begin = 0, at
    for begin in range(at, max(-1, at - 400), -1):
        depth += (text[begin] == "]") - (text[begin] == "[")
        if depth == 0:
            break
    if depth or text[begin - 1 : begin] in ("!", "\\"):
        return False
    line = text.rfind("\n", 0, begin) + 1
    return text.count("`", line, begin) % 2 == 0 and not text.startswith(("    ", "\t"), line)


def _body_start(source: Source) -> int:
    """Where the text after the front matter begins."""
    if not source.text.startswith("---"):
        return 0
    fence = source.text.find("\n---", 3)
    return fence + 1 if fence >= 0 else len(source.text)


def _reference(file: str, target: str, place: Place, length: int) -> Reference:
    path = unquote(target.partition("#")[0])
    meant = posixpath.normpath(posixpath.join(posixpath.dirname(file), path))
    return Reference(target, meant, place, length)


def dependency_order(
    recipes: Mapping[str, Recipe],
    known: Collection[str],
    references: Mapping[str, Sequence[Reference]] | None = None,
) -> tuple[list[str], list[Problem]]:
    """The files of ``recipes`` so that what a recipe uses comes before it.

    ``known`` are all recipe files, among them those that can't be read. Recipes that need
    themselves, however far round, are left out, and a problem at each of their references says so.
    ``references`` are those of each file, if they have been found already.
    """
    if references is None:
        references = {file: dish_references(recipe) for file, recipe in recipes.items()}
    problems: list[Problem] = []
    needs: dict[str, list[Reference]] = {}
    for file, recipe in recipes.items():
        needs[file] = []
        for reference in references[file]:
            if reference.file in recipes:
                needs[file].append(reference)
                if recipes[reference.file].draft and not recipe.draft:
                    problems.append(_uses_draft(file, reference))
            elif reference.file not in known:
                problems.append(missing(file, reference, known, "reference-missing"))
    order, rounds = _sorted(needs)
    for file, reference in rounds:
        way = _way_round(file, reference.file, needs)
        message = f"this recipe needs itself: {' → '.join(slug_of(f) for f in way)}"
        hint = "take one of these out of the other's ingredients"
        problems.append(_at(file, reference, "reference-round", message, hint))
    return order, problems


def _sorted(
    needs: Mapping[str, list[Reference]],
) -> tuple[list[str], list[tuple[str, Reference]]]:
    """Files in order, and the references that lie on a way round."""
    order: list[str] = []
    waiting = dict(needs)
    while waiting:
        ready = [f for f, refs in waiting.items() if not any(r.file in waiting for r in refs)]
        if not ready:
            break
        order += ready
        for file in ready:
            del waiting[file]
    on_round = [
        (file, reference)
        for file, references in waiting.items()
        for reference in references
        if _reaches(reference.file, file, needs)
    ]
    caught = {file for file, _ in on_round}
    # What only uses a recipe on a way round is no part of it; it is worked out after all.
    order += [file for file in waiting if file not in caught]
    return order, on_round


def _reaches(start: str, goal: str, needs: Mapping[str, list[Reference]]) -> bool:
    return bool(_path(start, goal, needs))


def _way_round(file: str, first: str, needs: Mapping[str, list[Reference]]) -> list[str]:
    return [file, *_path(first, file, needs)]


def _path(start: str, goal: str, needs: Mapping[str, list[Reference]]) -> list[str]:
    """The shortest way of references from ``start`` to ``goal``, both included; or nothing."""
    came_from: dict[str, str] = {start: ""}
    waiting = [start]
    for file in waiting:
        if file == goal:
            way = [file]
            while came_from[way[0]]:
                way.insert(0, came_from[way[0]])
            return way
        for reference in needs.get(file, ()):
            if reference.file not in came_from:
                came_from[reference.file] = file
                waiting.append(reference.file)
    return []


def link_problems(
    file: str,
    found: Iterable[Reference],
    known: Collection[str],
    is_draft: Callable[[str], bool],
    draft: bool,
) -> Iterator[Problem]:
    """Links to Markdown files that are not there, or that readers will not see.

    ``found`` are the links of ``file``; ``draft`` says whether the file itself is one, which may link
    to drafts.
    """
    for reference in found:
        if reference.file not in known:
            yield missing(file, reference, known, "link-missing")
        elif is_draft(reference.file) and not draft:
            message = f"{reference.target} is a draft, so this link would lead nowhere"
            hint = "give it a published date, or take the link out"
            yield _at(file, reference, "link-draft", message, hint)


def missing(file: str, reference: Reference, known: Collection[str], rule: str) -> Problem:
    """A reference to a file that is not there, with the nearest one that is."""
    names = {path.rpartition("/")[2]: path for path in sorted(known)}
    near = nearest(PurePosixPath(reference.file).name, tuple(names))
    hint = "write the way from this file to the other, such as ../sauces/green-sauce.md"
    if near:
        hint = f"did you mean '{posixpath.relpath(names[near], posixpath.dirname(file))}'?"
    return _at(file, reference, rule, f"there is no file {reference.target}", hint)


def _uses_draft(file: str, reference: Reference) -> Problem:
    message = f"{reference.target} is a draft, so readers will not have it"
    return _at(file, reference, "reference-draft", message, "give it a published date")


def _at(file: str, reference: Reference, rule: str, message: str, hint: str) -> Problem:
    place = reference.place
    return Problem(rule, "error", file, place.line, place.column, message, hint, reference.length)
