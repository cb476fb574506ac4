"""Where each page stands, and how one page names another.

Every link names a file and is relative to the page that holds it, so that the site also works when
it is opened from disk. Only feeds, the sitemap and structured data use the full address.
"""

from __future__ import annotations

import posixpath
import re
import unicodedata
from collections.abc import Callable
from datetime import date
from functools import lru_cache, partial
from urllib.parse import quote, urlsplit

HOME = "index.html"
ALL_RECIPES = "recipes/index.html"
INDEX = "lists/index.html"
SEARCH = "search.html"
NOT_FOUND = "404.html"
ATOM = "feed.xml"
JSON_FEED = "feed.json"
SITEMAP = "sitemap.xml"
ROBOTS = "robots.txt"
MANIFEST = "site.webmanifest"
OFFLINE = "offline.html"
WORKER = "worker.js"


@lru_cache(maxsize=4096)
def slug(words: str) -> str:
    """Words as the last part of an address; letters of other alphabets are kept.

    >>> slug("Crème brûlée & tea")
    'creme-brulee-tea'
    """
    plain = unicodedata.normalize("NFKD", words.casefold())
    plain = "".join(c for c in plain if not unicodedata.combining(c))
    return re.sub(r"[\W_]+", "-", plain).strip("-") or "unnamed"


def recipe(name: str) -> str:
    """The page of a recipe, by its slug."""
    return f"recipes/{name}.html"


def card(name: str) -> str:
    """The printable sheet of a recipe, by its slug."""
    return f"recipes/{name}-card.html"


def course(name: str) -> str:
    """The list of a course, by the words the author uses."""
    return f"courses/{slug(name)}.html"


def tag(name: str) -> str:
    """The list of a tag, by the words the author uses."""
    return f"tags/{slug(name)}.html"


def page_of(first: str, number: int) -> str:
    """A further page of a list, by its first page's address and its number, which starts at 1.

    >>> page_of("courses/main.html", 2)
    'courses/main/2.html'
    """
    return first if number == 1 else f"{first.removesuffix('.html')}/{number}.html"


def cuisine(name: str) -> str:
    """The list of a cuisine, by the words the author uses."""
    return f"cuisines/{slug(name)}.html"


def ingredient(name: str) -> str:
    """The list of what has an ingredient at its heart, by its plain name."""
    return f"ingredients/{slug(name)}.html"


def diet(name: str) -> str:
    """The list of what a diet allows."""
    return f"diets/{slug(name)}.html"


def without(name: str) -> str:
    """The list of what is free of an allergen, by the law's name for it."""
    return f"without/{slug(name)}.html"


def author(key: str) -> str:
    """The list of an author, by the key in ``site.yaml``."""
    return f"authors/{slug(key)}.html"


def plain(name: str) -> str:
    """A plain page, by its slug."""
    return f"{name}.html"


_PLAIN = re.compile(r"[\w-][\w.~-]*(?:/[\w-][\w.~-]*)*", re.ASCII)
"""A path that needs neither quoting nor tidying: nearly every one."""


def relative(here: str, there: str) -> str:
    """How the page ``here`` names the file ``there``; a query or fragment of ``there`` is kept.

    >>> relative("recipes/rye.html", "assets/sheet.css")
    '../assets/sheet.css'
    """
    return _from(here.rpartition("/")[0], there)


def namer(here: str) -> Callable[[str], str]:
    """What names files for the page ``here``, as :func:`relative` does."""
    return partial(_from, here.rpartition("/")[0])


@lru_cache(maxsize=4096)  # every page names what its frame names
def _from(folder: str, there: str) -> str:
    if _PLAIN.fullmatch(there) and not f"{folder}/".startswith(f"{there}/"):
        up = ""
        while folder and not there.startswith(f"{folder}/"):
            folder, up = folder.rpartition("/")[0], f"../{up}"
        return up + there[len(folder) + 1 :] if folder else up + there
    path, mark, rest = re.match(r"([^?#]*)([?#]?)(.*)", there, re.S).groups()  # type: ignore[union-attr]
    if not path:
        return there
    return quote(posixpath.relpath(path, folder or "."), safe="/~") + mark + rest


@lru_cache(maxsize=16384)  # lists name every recipe again
def absolute(base: str, there: str) -> str:
    """The full address of a file; the home page is the folder itself.

    >>> absolute("https://table.example/food", "recipes/rye.html")
    'https://table.example/food/recipes/rye.html'
    """
    path = "" if there == HOME else there
    return base.rstrip("/") + "/" + (path if _PLAIN.fullmatch(path) else quote(path, safe="/~#?=&"))


def from_root(base: str, there: str) -> str:
    """The address from the host's root, for the 404 page, which may be served at any depth."""
    return urlsplit(base).path.rstrip("/") + "/" + quote(there, safe="/~#?=&")


def instant(day: date) -> str:
    """A day as RFC 3339 has an instant; the day begins in UTC."""
    return f"{day.isoformat()}T00:00:00Z"
