"""What a page says of itself where it is shared: the Open Graph protocol (ogp.me, from memory).

The protocol asks for a title, a type, an address and an image of every page. A page without a photo
of its own gives the site's icon. A recipe is an ``article``, which names its dates, its author by the
address of their page, its section and its tags; anything else is of the ``website``.
"""

from __future__ import annotations

from collections.abc import Iterator

from sitegen.images.photoset import PhotoSet
from sitegen.media_types import media_type
from sitegen.pages import address
from sitegen.reading.recipe import Recipe
from sitegen.site import Settings

SHAPE = "16x9"
"""The crop that is shared: near to the 1.91 to 1 at which previews are drawn (common practice)."""
ICON = "icon-512.png"
ICON_SIZE = (512, 512)


def properties(
    settings: Settings,
    title: str,
    description: str,
    canonical: str,
    *,
    recipe: Recipe | None = None,
    photo: PhotoSet | None = None,
    icon: str = "",
) -> Iterator[tuple[str, str]]:
    """Properties and their content, in order; none for a site that has no address.

    ``icon`` is the icon's path in the output folder.
    """
    if not canonical:
        return
    yield "og:title", title
    yield "og:type", "website" if recipe is None else "article"
    yield "og:url", canonical
    yield from _image(settings, photo, icon)
    if description:
        yield "og:description", description
    yield "og:site_name", settings.title
    if locale := _locale(settings.language):
        yield "og:locale", locale
    if recipe is not None:
        yield from _article(settings, recipe)


def _image(settings: Settings, photo: PhotoSet | None, icon: str) -> Iterator[tuple[str, str]]:
    path, size, alt = icon, ICON_SIZE, f"The sign of {settings.title}"
    if photo is not None and SHAPE in photo.crops:
        path, size, alt = photo.crops[SHAPE], photo.crop_sizes[SHAPE], photo.alt
    if not path:
        return
    yield "og:image", address.absolute(settings.address, path)
    yield "og:image:type", media_type(path)
    yield "og:image:width", str(size[0])
    yield "og:image:height", str(size[1])
    yield "og:image:alt", alt


def _locale(language: str) -> str:
    """``en-GB`` as the protocol writes it; nothing for a language without a territory.

    >>> _locale("en-GB"), _locale("zh-Hant-TW"), _locale("de")
    ('en_GB', 'zh_TW', '')
    """
    first, *rest = language.split("-")
    territory = next((part for part in rest if len(part) == 2 and part.isalpha()), "")
    return f"{first.lower()}_{territory.upper()}" if territory else ""


def _article(settings: Settings, recipe: Recipe) -> Iterator[tuple[str, str]]:
    if recipe.published:
        yield "article:published_time", recipe.published.isoformat()
    if changed := recipe.updated or recipe.published:
        yield "article:modified_time", changed.isoformat()
    if recipe.author in settings.authors:
        page = address.author(recipe.author)
        yield "article:author", address.absolute(settings.address, page)
    if recipe.course:
        yield "article:section", recipe.course
    for tag in recipe.tags:
        yield "article:tag", tag
