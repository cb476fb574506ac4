"""Atom (RFC 4287) and JSON Feed 1.1, newest first. A site without an address has none."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping, Sequence
from datetime import date
from functools import partial
from typing import Any
from xml.etree import ElementTree as Xml

from markupsafe import Markup

from sitegen.dish import Dish
from sitegen.images.photoset import PhotoSet
from sitegen.late import noted
from sitegen.pages import address
from sitegen.pages.address import instant
from sitegen.pages.disclosing import disclosure
from sitegen.pages.links import link_writer
from sitegen.site import Settings

LATEST = 30
_ATOM = "http://www.w3.org/2005/Atom"


def feeds(
    settings: Settings,
    dishes: Sequence[Dish],
    pages: Mapping[str, str],
    photos: Mapping[str, PhotoSet],
) -> Iterator[tuple[str, bytes]]:
    """Path and content of each feed. ``dishes`` are published ones, the newest first."""
    if not settings.address:
        return
    latest = dishes[:LATEST]
    entries = [(dish, _content(dish, settings, pages, photos)) for dish in latest]
    yield address.ATOM, _atom(settings, entries)
    yield address.JSON_FEED, _json_feed(settings, entries, photos)


def changed(dish: Dish) -> date:
    """When a dish was last revised, or else published."""
    recipe = dish.recipe
    return recipe.updated or recipe.published or date.min


def _content(
    dish: Dish, settings: Settings, pages: Mapping[str, str], photos: Mapping[str, PhotoSet]
) -> Markup:
    """The recipe as a feed reader shows it: summary, ingredients, method."""
    recipe = dish.recipe
    full = link_writer(
        recipe.file,
        address.recipe(recipe.slug),
        pages,
        root=lambda path: address.absolute(settings.address, path),
        paying=settings.paid_hosts,
        photos=photos,
        draw=partial(_drawn, settings.address),
    )
    out = Markup("<p>{}</p>").format(recipe.summary) if recipe.summary else Markup()
    said = disclosure(dish, settings)
    out += Markup("<p><em>{}</em></p>").format(said) if said else Markup()
    intro, ingredients, method = _words(dish)
    out += full(intro)
    out += Markup("<p>Serves {}.</p><ul>").format(recipe.serves)
    out += Markup("").join(Markup("<li>{}</li>").format(line) for line in ingredients)
    out += Markup("</ul>")
    for name, first, steps in method:
        if name:
            out += Markup("<h3>{}</h3>").format(name)
        out += Markup('<ol start="{}">').format(first)
        out += Markup("").join(Markup("<li>{}</li>").format(step) for step in steps)
        out += Markup("</ol>")
    contains = ", ".join(dish.allergens.contains)
    if contains:
        out += Markup("<p>Contains {}.</p>").format(contains)
    return out


@noted(Dish, of_new=True)
def _words(dish: Dish) -> tuple[str, tuple[str, ...], tuple[tuple[str, int, tuple[str, ...]], ...]]:
    """Introduction (HTML), ingredients, and each part of the method: name, first number, steps."""
    method = tuple(
        (part.name, part.steps[0].number if part.steps else 1, tuple(s.text for s in part.steps))
        for part in dish.method
    )
    return dish.recipe.intro, dish.ingredient_texts, method


def _atom(settings: Settings, entries: Sequence[tuple[Dish, Markup]]) -> bytes:
    Xml.register_namespace("", _ATOM)
    home = address.absolute(settings.address, address.HOME)

    def add(parent: Xml.Element, name: str, text: str = "", **attributes: str) -> Xml.Element:
        child = Xml.SubElement(parent, f"{{{_ATOM}}}{name}", attributes)
        child.text = text or None
        return child

    feed = Xml.Element(f"{{{_ATOM}}}feed", {"xml:lang": settings.language})
    add(feed, "title", settings.title)
    if settings.description:
        add(feed, "subtitle", settings.description)
    add(feed, "id", home)
    add(feed, "link", rel="alternate", type="text/html", href=home)
    own = address.absolute(settings.address, address.ATOM)
    add(feed, "link", rel="self", type="application/atom+xml", href=own)
    newest = max((changed(dish) for dish, _ in entries), default=date(1970, 1, 1))
    add(feed, "updated", instant(newest))
    if not entries:
        add(add(feed, "author"), "name", settings.title)
    for dish, content in entries:
        recipe = dish.recipe
        url = address.absolute(settings.address, address.recipe(recipe.slug))
        entry = add(feed, "entry")
        add(entry, "title", recipe.title)
        add(entry, "id", url)
        add(entry, "link", rel="alternate", type="text/html", href=url)
        add(entry, "published", instant(recipe.published or changed(dish)))
        add(entry, "updated", instant(changed(dish)))
        add(add(entry, "author"), "name", _author(dish, settings))
        for term in filter(None, (recipe.course, *recipe.tags)):
            add(entry, "category", term=term)
        if recipe.summary:
            add(entry, "summary", recipe.summary)
        add(entry, "content", str(content), type="html")
    Xml.indent(feed)
    written: bytes = Xml.tostring(feed, encoding="utf-8", xml_declaration=True)
    return written + b"\n"


def _json_feed(
    settings: Settings, entries: Sequence[tuple[Dish, Markup]], photos: Mapping[str, PhotoSet]
) -> bytes:
    feed: dict[str, Any] = {
        "version": "https://jsonfeed.org/version/1.1",
        "title": settings.title,
        "home_page_url": address.absolute(settings.address, address.HOME),
        "feed_url": address.absolute(settings.address, address.JSON_FEED),
        "language": settings.language,
    }
    if settings.description:
        feed["description"] = settings.description
    feed["items"] = []
    for dish, content in entries:
        recipe = dish.recipe
        url = address.absolute(settings.address, address.recipe(recipe.slug))
        photo = photos.get(recipe.slug)
        item: dict[str, Any] = {
            "id": url,
            "url": url,
            "title": recipe.title,
            "summary": recipe.summary,
            "content_html": str(content),
            "image": address.absolute(settings.address, photo.crops["16x9"]) if photo else "",
            "date_published": instant(recipe.published or changed(dish)),
            "date_modified": instant(changed(dish)),
            "authors": [{"name": _author(dish, settings)}],
            "tags": [term for term in (recipe.course, *recipe.tags) if term],
        }
        feed["items"].append({key: value for key, value in item.items() if value})
    return (json.dumps(feed, ensure_ascii=False, indent=1) + "\n").encode()


def _drawn(base: str, photo: PhotoSet, alt: str) -> str:
    """A picture as a feed reader shows it: one JPEG."""
    path, width = photo.sources["jpeg"][-1]
    return Markup('<img src="{}" alt="{}" width="{}" height="{}">').format(
        address.absolute(base, path), alt, width, photo.height
    )


def _author(dish: Dish, settings: Settings) -> str:
    author = settings.authors.get(dish.recipe.author)
    return author.name if author else dish.recipe.author or settings.title
