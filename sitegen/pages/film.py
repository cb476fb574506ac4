"""A recipe's film on its page: nothing of it is loaded, here or from another host, before a press."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from urllib.parse import urlsplit

from sitegen.dish import Dish
from sitegen.images.film import Film
from sitegen.images.photoset import PhotoSet
from sitegen.media_types import media_type
from sitegen.pages import address
from sitegen.reading.pictures import beside

PLAYED = (".webm", ".mp4")
"""Endings of what a page plays itself; of any other address it only says where the film is."""
POSTER_WIDTH = 800


@dataclass(frozen=True, slots=True)
class FilmStep:
    """A step that the film shows."""

    number: int
    second: int
    clock: str
    href: str


@dataclass(frozen=True, slots=True)
class FilmView:
    """What a template needs of a film."""

    title: str
    alt: str
    transcript: str
    length: str
    href: str
    """The film itself: relative to the page, or on another host."""
    media: str
    """Its media type; empty where the page can't play it."""
    host: str
    """The other host's name; empty for a film of the site's own."""
    captions: str
    poster: str
    width: int
    height: int
    steps: Mapping[int, FilmStep]


def film_view(
    dish: Dish, film: Film | None, photos: Mapping[str, PhotoSet], here: str
) -> FilmView | None:
    """The film of a dish on the page ``here``; None if it has none."""
    video = dish.recipe.video
    if video is None or film is None:
        return None
    still = photos.get(beside(dish.recipe.file, video.poster.file))
    if still is None:
        return None
    href = address.relative(here, film.path) if film.path else video.address
    path = film.path or urlsplit(video.address).path
    poster = min(still.sources["jpeg"], key=lambda file: abs(file[1] - POSTER_WIDTH))
    return FilmView(
        title=video.title,
        alt=video.alt,
        transcript=video.transcript,
        length=clock(video.seconds),
        href=href,
        media=media_type(path) if path.lower().endswith(PLAYED) else "",
        host="" if film.path else urlsplit(video.address).hostname or "",
        captions=address.relative(here, film.captions) if film.captions else "",
        poster=address.relative(here, poster[0]),
        width=still.width,
        height=still.height,
        steps={
            number: FilmStep(number, second, clock(second), f"{href}#t={second}")
            for number, second in video.steps
        },
    )


def film_origin(view: FilmView | None) -> str:
    """The other host that a page may play its film from, as a policy names it; or nothing."""
    if view is None or not view.host or not view.media:
        return ""
    parts = urlsplit(view.href)
    return f"{parts.scheme}://{parts.netloc}"


def clock(seconds: int) -> str:
    """Seconds as a player shows them.

    >>> clock(65)
    '1:05'
    """
    minutes, rest = divmod(seconds, 60)
    hours, minutes = divmod(minutes, 60)
    return f"{hours}:{minutes:02}:{rest:02}" if hours else f"{minutes}:{rest:02}"
