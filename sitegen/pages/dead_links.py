"""Links in recipes and pages that name a page of the site which does not exist, or no place in it."""

from __future__ import annotations

import posixpath
import re
from collections.abc import Callable, Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property, lru_cache
from urllib.parse import unquote, urlsplit

from sitegen.dish import Dish
from sitegen.pages import address
from sitegen.pages.menu import NOT_LOOKED_UP, list_paths
from sitegen.problems import Problem, Severity, nearest
from sitegen.reading.read import slug_of, slugify
from sitegen.references import Reference
from sitegen.site import Settings

_ALWAYS = frozenset(
    {
        *(address.HOME, address.ALL_RECIPES, address.INDEX, address.SEARCH, address.NOT_FOUND),
        *(address.ATOM, address.JSON_FEED, address.SITEMAP, address.ROBOTS, address.OFFLINE),
        address.MANIFEST,
    }
)
_UNKNOWABLE = (*NOT_LOOKED_UP, "assets/", "photos/", "films/")
"""Folders whose files follow from figures or have a hash in their names."""
_LISTS = ("tags", "courses", "cuisines", "authors")
_FURTHER = re.compile(r"/\d+\.html$")

_PLACES = frozenset(
    "main ingredients method worktop scale serves tools nutrition allergens cautions film used-in related "
    "more-with filed on-paper by-have by-tin to-card".split()
)
"""Places that recipes' pages have; some of them only where there is something to show."""
_HEADING = re.compile(r"^ {0,3}(?P<depth>#{2,3})[ \t]+(?P<words>.+?)[ \t#]*$", re.MULTILINE)
_STEP = re.compile(r"^ {0,3}\d+[.)][ \t]", re.MULTILINE)


@dataclass(frozen=True)
class Addresses:
    """The pages of a site, as far as links can be held against them."""

    settings: Settings
    recipes: Collection[str]
    """Files."""
    plain: Collection[str]
    """Files."""
    dishes: Mapping[str, Dish] | None
    """None: not all are known, so that lists are not looked up."""
    text_of: Callable[[str], str | None]
    """A recipe file's text, if it has been read."""
    is_draft: Callable[[str], bool]

    @cached_property
    def by_path(self) -> dict[str, str]:
        """The pages of recipes and their cards, and plain pages, each with its file."""
        found = {address.plain(slug_of(file)): file for file in self.plain}
        for file in self.recipes:
            slug = slug_of(file)
            found[address.recipe(slug)] = found[address.card(slug)] = file
        return found

    @cached_property
    def lists(self) -> frozenset[str]:
        """The lists by tag, course, cuisine and author."""
        if self.dishes is None:
            return frozenset()
        dishes = self.dishes.values()
        return frozenset().union(*[list_paths(folder, dishes) for folder in _LISTS])

    def has(self, path: str) -> bool:
        """Whether there is such a page, or there may be."""
        if path in _ALWAYS or path in self.by_path or path.startswith(_UNKNOWABLE):
            return True
        if not path.startswith(tuple(f"{folder}/" for folder in _LISTS)):
            return False
        return self.dishes is None or _FURTHER.sub(".html", path) in self.lists

    def near(self, path: str) -> str:
        """The page whose address is most like one; empty if none is."""
        pages = (*sorted(self.by_path), *sorted(_ALWAYS), *sorted(self.lists))
        named = {_name(page): page for page in reversed(pages)}
        return named.get(nearest(_name(path), tuple(named)), "")


def _name(path: str) -> str:
    """What tells a page from others: the last part of its address."""
    return path.rpartition("/")[2].removesuffix(".html")


def dead_links(file: str, named: Iterable[Reference], there: Addresses) -> Iterator[Problem]:
    """What of the links of ``file`` leads nowhere."""
    is_page = file in there.plain
    here = address.plain(slug_of(file)) if is_page else address.recipe(slug_of(file))
    for reference in named:
        target, _, place = reference.target.partition("#")
        if target.partition("?")[0].endswith(".md") and "://" not in target:
            to: str | None = reference.file.partition("?")[0]
            to = (
                to if to in there.recipes or to in there.plain else None
            )  # another rule tells of the file
        else:
            path = _path(target, here, there.settings.address)
            if path is None:
                continue
            if not there.has(path):
                yield _missing(file, reference, path, here, there)
                continue
            to = there.by_path.get(path)
            draft = to is not None and to in there.recipes and there.is_draft(to)
            if draft and (is_page or not there.is_draft(file)):
                yield _problem(
                    file, reference, "link-draft", "error",
                    f"the recipe at '{target}' is a draft, so this link would lead nowhere",
                    "give it a published date, or take the link out",
                )  # fmt: skip
                continue
            if path.endswith("-card.html"):
                continue
        if place and to is not None:
            yield from _place(file, reference, unquote(place), to, to in there.plain, there)


def _path(target: str, here: str, base: str) -> str | None:
    """The site's file that an address on the page ``here`` names; None if it leads out of the site."""
    path = unquote(target.partition("?")[0])
    root = urlsplit(base).path.rstrip("/")
    if "://" in path:
        if not base or not f"{path}/".startswith(f"{base.rstrip('/')}/"):
            return None
        path = path[len(base.rstrip("/")) :] or "/"
    elif path.startswith("/"):
        if not f"{path}/".startswith(f"{root}/"):
            return None
        path = path[len(root) :] or "/"
    elif not path:
        return here
    else:
        path = f"/{posixpath.dirname(here)}/{path}"
    whole = posixpath.normpath("/" + path.lstrip("/")).lstrip("/")
    return f"{whole}/index.html".lstrip("/") if path.endswith(("/", "/..", "/.")) else whole


def _missing(file: str, reference: Reference, path: str, here: str, there: Addresses) -> Problem:
    near = there.near(path)
    hint = "link to a recipe or a page by its file, as in ../sauces/green-sauce.md"
    if near:
        source = there.by_path.get(near)
        if source and not near.endswith("-card.html"):
            known = posixpath.relpath(source, posixpath.dirname(file))
            hint = f"did you mean '{known}'? A file's name is right wherever the site stands"
        else:
            hint = f"did you mean '{address.relative(here, near)}'?"
    message = f"the site has no page at '{reference.target}'"
    return _problem(file, reference, "link-missing", "error", message, hint)


def _place(
    file: str, reference: Reference, place: str, to: str, is_page: bool, there: Addresses
) -> Iterator[Problem]:
    if is_page:
        known: frozenset[str] = frozenset({"main"})
    else:
        text = there.text_of(to)
        if text is None:
            return
        known = places(text)
    if place in known or re.sub(r"-\d+$", "", place) in known:
        return
    near = nearest(place, tuple(sorted(known)))
    hint = f"did you mean '#{near}'?" if near else "link to the page as a whole"
    if is_page:
        hint = "headings of plain pages have no address of their own: link to the page as a whole"
    where = "this page" if to == file else f"the page of {posixpath.basename(to)}"
    message = f"{where} has no place '#{place}', so the link leads to its beginning"
    yield _problem(file, reference, "link-place-missing", "advice", message, hint)


@lru_cache(maxsize=256)
def places(text: str) -> frozenset[str]:
    """The places that a recipe's page has, told from its text: parts, sections, questions, steps."""
    found = set(_PLACES)
    for heading in _HEADING.finditer(text):
        slug = slugify(heading["words"])
        found |= {slug, f"{slug}-section"} if heading["depth"] == "##" else {f"q-{slug}"}
    return frozenset(found | {f"step-{n + 1}" for n, _ in enumerate(_STEP.finditer(text))})


def _problem(
    file: str, reference: Reference, rule: str, severity: Severity, message: str, hint: str
) -> Problem:
    place = reference.place
    return Problem(rule, severity, file, place.line, place.column, message, hint, reference.length)
