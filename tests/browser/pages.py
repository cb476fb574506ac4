"""Which files of a built site are what, by the addresses that the site promises."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from bs4 import BeautifulSoup

WHOLE_SITE = ("index.html", "recipes/index.html", "search.html", "404.html", "offline.html")
FOLDERS = ("recipes", "courses", "tags", "authors", "ingredients", "without", "lists")


@cache
def soup(file: Path) -> BeautifulSoup:
    """A page, parsed once."""
    return BeautifulSoup(file.read_text(encoding="utf-8"), "lxml")


def own_address(site: Path) -> str:
    """The address that the site's pages state as its own, ending in a slash."""
    canonical = soup(site / "index.html").find("link", rel="canonical")
    assert canonical is not None, "the home page has no canonical address"
    return str(canonical["href"]).removesuffix("index.html").rstrip("/") + "/"


def html_files(site: Path) -> list[Path]:
    """Every page."""
    return sorted(site.rglob("*.html"))


def recipe_paths(site: Path) -> list[str]:
    """Recipe pages, without their cards and the list."""
    files = (site / "recipes").glob("*.html")
    return sorted(
        f"recipes/{file.name}"
        for file in files
        if file.name != "index.html" and not file.stem.endswith("-card")
    )


def card_of(recipe: str) -> str:
    """The card's path of a recipe page's."""
    return recipe.removesuffix(".html") + "-card.html"


def of_every_kind(site: Path) -> list[str]:
    """One page of each kind: whole-site pages, a recipe, its card, a list of each sort, a plain page."""
    recipe = max(recipe_paths(site), key=lambda path: (site / path).stat().st_size)
    lists = [
        min((site / folder).glob("*.html")) for folder in FOLDERS[1:] if (site / folder).is_dir()
    ]
    plain = sorted(file.name for file in site.glob("*.html") if file.name not in WHOLE_SITE)
    return [
        *WHOLE_SITE,
        recipe,
        card_of(recipe),
        *(file.relative_to(site).as_posix() for file in lists),
        *plain[:1],
    ]
