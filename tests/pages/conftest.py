"""The site of ``fixtures.py`` laid out once, in memory and on disk."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

import pytest
from bs4 import BeautifulSoup

from sitegen.images.photoset import PhotoSet
from sitegen.pages import Page, lay_out
from sitegen.pages.theme import Theme, load_theme
from tests.pages.fixtures import collection

PHOTO = PhotoSet(
    alt='A deep bowl, "three" dumplings & dill',
    focus=(50, 50),
    width=1200,
    height=900,
    sources={
        "webp": (("photos/barley-broth-480.webp", 480), ("photos/barley-broth-1200.webp", 1200)),
        "jpeg": (("photos/barley-broth-480.jpg", 480), ("photos/barley-broth-1200.jpg", 1200)),
    },
    crops={
        "1x1": "photos/barley-broth-1x1.jpg",
        "4x3": "photos/barley-broth-1200.jpg",
        "16x9": "photos/barley-broth-16x9.jpg",
    },
    colour="#a9c2b8",
    crop_sizes={"1x1": (1200, 1200), "4x3": (1200, 900), "16x9": (1200, 675)},
)
PHOTOS: Mapping[str, PhotoSet] = {"barley-broth": PHOTO}


def photo_files() -> set[str]:
    """Every file that the one photo promises."""
    listed = {path for files in PHOTO.sources.values() for path, _ in files}
    return listed | set(PHOTO.crops.values())


@pytest.fixture(scope="session")
def theme(tmp_path_factory: pytest.TempPathFactory) -> Theme:
    loaded, problems = load_theme(collection(tmp_path_factory.mktemp("site")).site)
    assert loaded is not None
    assert problems == []
    return loaded


@pytest.fixture(scope="session")
def pages(theme: Theme) -> dict[str, Page]:
    """Every page by its path."""
    listed = list(lay_out(collection(), theme, PHOTOS, preview=False))
    found = {page.path: page for page in listed}
    assert len(found) == len(listed), "two pages have one path"
    return found


@pytest.fixture(scope="session")
def soups(pages: dict[str, Page]) -> dict[str, BeautifulSoup]:
    """Every HTML page, parsed."""
    return {
        path: BeautifulSoup(page.content, "lxml")
        for path, page in pages.items()
        if path.endswith(".html")
    }


@pytest.fixture(scope="session")
def built(tmp_path_factory: pytest.TempPathFactory, pages: dict[str, Page], theme: Theme) -> Path:
    """The site on disk, with an empty file for each photo."""
    folder = tmp_path_factory.mktemp("built")
    files = {path: page.content for path, page in pages.items()} | dict(theme.assets())
    for path, content in (files | dict.fromkeys(photo_files(), b"")).items():
        (folder / path).parent.mkdir(parents=True, exist_ok=True)
        (folder / path).write_bytes(content)
    return folder
