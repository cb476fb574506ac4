"""Files for machines at the site's root: sitemap, robots, web manifest."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Mapping
from datetime import date
from typing import TYPE_CHECKING
from xml.etree import ElementTree as Xml

from sitegen.images.photoset import PhotoSet
from sitegen.pages import address
from sitegen.pages.feeds import changed
from sitegen.pages.groups import groups
from sitegen.pages.paging import paged
from sitegen.pages.theme import Theme
from sitegen.reading.pictures import beside
from sitegen.reading.recipe import Photo
from sitegen.site import Settings

if TYPE_CHECKING:
    from sitegen.collection import Collection

_MAP = "http://www.sitemaps.org/schemas/sitemap/0.9"
_IMAGE = "http://www.google.com/schemas/sitemap-image/1.1"


def site_files(
    collection: Collection, theme: Theme, photos: Mapping[str, PhotoSet]
) -> Iterator[tuple[str, bytes, str]]:
    """Path, content and kind of each file."""
    settings = collection.site.settings
    if settings.address:
        yield address.SITEMAP, _sitemap(collection, photos), "sitemap"
    yield address.ROBOTS, _robots(settings), "robots"
    yield address.MANIFEST, _manifest(settings, theme), "manifest"


def _sitemap(collection: Collection, photos: Mapping[str, PhotoSet]) -> bytes:
    """Every page that a reader may look for, with its photos (sitemaps.org protocol 0.9)."""
    base = collection.site.settings.address
    Xml.register_namespace("", _MAP)
    Xml.register_namespace("image", _IMAGE)
    root = Xml.Element(f"{{{_MAP}}}urlset")

    def add(path: str, day: date | None = None, images: tuple[str, ...] = ()) -> None:
        url = Xml.SubElement(root, f"{{{_MAP}}}url")
        Xml.SubElement(url, f"{{{_MAP}}}loc").text = address.absolute(base, path)
        if day:
            Xml.SubElement(url, f"{{{_MAP}}}lastmod").text = day.isoformat()
        for image in images:
            holder = Xml.SubElement(url, f"{{{_IMAGE}}}image")
            Xml.SubElement(holder, f"{{{_IMAGE}}}loc").text = address.absolute(base, image)

    public = {s: d for s, d in collection.dishes.items() if not d.recipe.draft}
    newest = max((changed(dish) for dish in public.values()), default=None)
    add(address.HOME, newest)
    add(address.ALL_RECIPES, newest)
    for slug, dish in public.items():
        photo = photos.get(slug)
        crops = tuple(photo.crops.values()) if photo else ()
        inside = _in_text(dish.recipe.file, dish.recipe.pictures, photos)
        add(address.recipe(slug), changed(dish), tuple(dict.fromkeys((*crops, *inside))))
    length = collection.site.settings.list_length
    for sheet in list(paged(address.ALL_RECIPES, len(collection.dishes), length))[1:]:
        add(sheet.path)
    add(address.INDEX)
    for group in groups(collection):
        for sheet in paged(group.path, len(group.dishes), length):
            add(sheet.path)
    for page in collection.plain_pages:
        add(address.plain(page.slug), images=_in_text(page.file, page.pictures, photos))
    Xml.indent(root)
    written: bytes = Xml.tostring(root, encoding="utf-8", xml_declaration=True)
    return written + b"\n"


def _in_text(
    file: str, pictures: Iterable[Photo], photos: Mapping[str, PhotoSet]
) -> tuple[str, ...]:
    """The whole pictures in the text of a file, each once."""
    found = (photos.get(beside(file, picture.file)) for picture in pictures)
    return tuple(dict.fromkeys(photo.crops["whole"] for photo in found if photo is not None))


def _robots(settings: Settings) -> bytes:
    """RFC 9309: everything may be read."""
    lines = ["User-agent: *", "Disallow:"]
    if settings.address:
        lines += ["", f"Sitemap: {address.absolute(settings.address, address.SITEMAP)}"]
    return ("\n".join(lines) + "\n").encode()


def _manifest(settings: Settings, theme: Theme) -> bytes:
    """The web app manifest; addresses in it are relative to the file itself."""
    icons = [
        {"src": theme.asset(name), "sizes": sizes, "type": kind, "purpose": purpose}
        for name, sizes, kind, purpose in (
            ("icon.svg", "any", "image/svg+xml", "any"),
            ("icon-192.png", "192x192", "image/png", "any"),
            ("icon-512.png", "512x512", "image/png", "any"),
            ("icon-512.png", "512x512", "image/png", "maskable"),
        )
        if theme.has(name)
    ]
    paper = theme.colours.get("paper", "#ffffff")
    data = {
        "name": settings.title,
        "short_name": _short(settings.title),
        "description": settings.description,
        "lang": settings.language,
        "start_url": address.HOME,
        "scope": "./",
        "display": "minimal-ui",
        "background_color": paper,
        "theme_color": paper,
        "icons": icons,
    }
    said = {key: value for key, value in data.items() if value}
    return (json.dumps(said, ensure_ascii=False, indent=1) + "\n").encode()


def _short(title: str) -> str:
    """The words of a title that fit under an icon: twelve letters are usual.

    >>> _short("The Shared Table")
    'The Shared'
    """
    words = title.split()
    while len(words) > 1 and len(" ".join(words)) > 12:
        words.pop()
    return " ".join(words)
