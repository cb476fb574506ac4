"""A recipe's photo → its :class:`PhotoSet`, and the files that the set names.

The names depend on the photo's bytes, the focus and the program that makes them, not on the made
bytes, so a page can be laid out before a single picture has been made.
"""

from __future__ import annotations

import io
import json
import os
from collections.abc import Iterator
from dataclasses import dataclass, replace
from hashlib import sha256
from pathlib import Path, PurePosixPath

import PIL
from PIL import Image

from sitegen.images.cache import Cache
from sitegen.images.opening import Refusal, open_upright
from sitegen.images.photoset import PhotoSet
from sitegen.images.shapes import (
    CROP_WIDTH,
    CROPS,
    FORMATS,
    MAIN,
    SUFFIXES,
    TEXT_WIDTHS,
    WHOLE,
    Rendition,
    crop_box,
    height_for,
    whole_box,
    widths_for,
    writable_formats,
)
from sitegen.problems import Problem, Severity, did_you_mean
from sitegen.reading.pictures import beside
from sitegen.reading.read import slugify
from sitegen.reading.recipe import Photo, Recipe
from sitegen.reading.source import Place

_MAKER = f"1;{PIL.__version__};{FORMATS!r}"
"""Part of every key: another Pillow or other settings make other pictures."""


@dataclass(frozen=True, slots=True)
class Photograph:
    """A recipe's photo, checked; its files can be made when they are wanted."""

    photo_set: PhotoSet
    renditions: tuple[Rendition, ...]
    source: Path
    digest: str

    def made(self, cache: Cache) -> Iterator[tuple[str, bytes]]:
        """Every file of the set: its path and its bytes. The photo is decoded at most once."""
        upright: Image.Image | None = None
        for rendition in self.renditions:
            content = cache.get(self._key(rendition))
            if content is None:
                if upright is None:
                    upright = open_upright(self.source.read_bytes())
                content = make(upright, rendition)
                cache.put(self._key(rendition), content)
            yield rendition.path, content

    def make_one(self, path: str, cache: Cache) -> bytes | None:
        """One file of the set, for the preview; None if the set has no such file."""
        rendition = next((r for r in self.renditions if r.path == path), None)
        if rendition is None:
            return None
        content = cache.get(self._key(rendition))
        if content is None:
            content = make(open_upright(self.source.read_bytes()), rendition)
            cache.put(self._key(rendition), content)
        return content

    def cached_as(self) -> Iterator[str]:
        """What the cache may hold of this photo."""
        yield _facts_key(self.digest)
        yield from map(self._key, self.renditions)

    def _key(self, rendition: Rendition) -> str:
        return (
            f"picture;{_MAKER};{self.digest};{rendition.box};{rendition.width};{rendition.format}"
        )


def make(upright: Image.Image, rendition: Rendition) -> bytes:
    """Cut, scale and write one picture; the same input gives the same bytes."""
    size = (rendition.width, rendition.height)
    scaled = upright.resize(size, Image.Resampling.LANCZOS, box=rendition.box, reducing_gap=3.0)
    name, settings = FORMATS[rendition.format]
    out = io.BytesIO()
    scaled.save(out, name, **settings)
    return out.getvalue()


def photograph(
    recipe: Recipe, folder: Path, cache: Cache
) -> tuple[Photograph | None, list[Problem]]:
    """Check a recipe's photo and plan its files. ``folder`` is the site's.

    Returns None when the recipe has no photo, or one that can't be used.
    """
    photo = recipe.photo
    if photo is None:
        return None, []
    if not photo.place.line:
        photo = replace(photo, place=recipe.places.get("photo", Place(0, 0)))
    seen = _look(photo, recipe.file, folder, cache)
    if isinstance(seen, Problem):
        return None, [seen]
    found = _plan(recipe.slug, photo.alt, photo.focus, seen)
    return found, list(_advice(photo, recipe.file, seen.facts.width, seen.facts.height))


def picture_in_text(
    picture: Photo, file: str, folder: Path, cache: Cache
) -> tuple[Photograph | None, list[Problem]]:
    """Check a picture inside the text of ``file`` and plan its files: whole, in fewer widths."""
    seen = _look(picture, file, folder, cache)
    if isinstance(seen, Problem):
        return None, [seen]
    return _plan_whole(beside(file, picture.file), picture.alt, seen), []


@dataclass(frozen=True, slots=True)
class _Seen:
    source: Path
    digest: str
    facts: _Facts


def _look(photo: Photo, file: str, folder: Path, cache: Cache) -> _Seen | Problem:
    """Open a picture's file once, or say why it can't be used."""
    try:
        source = _find(photo.file, folder, file)
        raw = source.read_bytes()
        digest = sha256(raw).hexdigest()
        return _Seen(source, digest, _facts(raw, digest, cache))
    except Refusal as refusal:
        return _problem(photo, file, "error", refusal.rule, refusal.message, refusal.hint)
    except OSError as error:
        why = (error.strerror or str(error)).lower()
        message = f"the photo {photo.file!r} can't be opened: {why}"
        return _problem(photo, file, "error", "photo-unreadable", message, "check it")


@dataclass(frozen=True, slots=True)
class _Facts:
    width: int
    height: int
    colour: str


def _facts(raw: bytes, digest: str, cache: Cache) -> _Facts:
    """Size and mean colour of a photo, from the cache or by decoding it; or its refusal."""
    key = _facts_key(digest)
    kept = cache.get(key)
    if kept is not None:
        known = json.loads(kept)
        if "rule" in known:
            raise Refusal(known["rule"], known["message"], known["hint"])
        return _Facts(known["width"], known["height"], known["colour"])
    try:
        upright = open_upright(raw)
    except Refusal as refusal:
        told = {"rule": refusal.rule, "message": refusal.message, "hint": refusal.hint}
        cache.put(key, json.dumps(told).encode())
        raise
    pixel = upright.resize((1, 1), Image.Resampling.BOX).getpixel((0, 0))
    assert isinstance(pixel, tuple)
    facts = _Facts(*upright.size, "#" + "".join(f"{int(channel):02x}" for channel in pixel))
    known = {"width": facts.width, "height": facts.height, "colour": facts.colour}
    cache.put(key, json.dumps(known).encode())
    return facts


def _facts_key(digest: str) -> str:
    return f"facts;{_MAKER};{digest}"


def _find(name: str, folder: Path, recipe_file: str) -> Path:
    """The photo's file, beside its recipe and within the content folder, links followed."""
    content = (folder / "content").resolve()
    beside = (folder / recipe_file).parent
    if PurePosixPath(name).is_absolute() or Path(name).is_absolute() or ":" in name:
        raise _outside(name)
    path = Path(os.path.normpath(beside / name))
    if not path.resolve().is_relative_to(content):
        raise _outside(name)
    if not path.is_file():
        pictures = [p.name for p in beside.iterdir() if p.suffix.lower() in _SUFFIXES]
        hint = did_you_mean(name, pictures) or "put the file beside the recipe"
        raise Refusal("photo-missing", f"there is no file {name!r} beside the recipe", hint)
    return path.resolve()


_SUFFIXES = {".jpg", ".jpeg", ".png", ".webp", ".avif", ".tif", ".tiff"}


def _outside(name: str) -> Refusal:
    return Refusal(
        "photo-outside",
        f"the photo {name!r} is not within the site's content folder",
        "copy it beside the recipe and give its name",
    )


def _plan(
    slug: str,
    alt: str,
    focus: tuple[int, int],
    seen: _Seen,
) -> Photograph:
    facts, digest = seen.facts, seen.digest
    size = (facts.width, facts.height)
    stamp = sha256(f"{_MAKER};{digest};{focus}".encode()).hexdigest()[:10]
    planned: dict[str, Rendition] = {}

    def plan(crop: str, width: int, kind: str) -> Rendition:
        height = height_for(width, crop)
        path = f"photos/{slug}-{crop}-{width}.{stamp}.{SUFFIXES[kind]}"
        box = crop_box(size, crop, focus)
        return planned.setdefault(path, Rendition(path, box, width, height, kind))

    main = crop_box(size, MAIN, focus)
    widths = widths_for(main)
    sources = {
        kind: tuple((plan(MAIN, width, kind).path, width) for width in widths)
        for kind in writable_formats()
    }
    crops = {}
    for crop in CROPS:
        box = crop_box(size, crop, focus)
        crops[crop] = plan(crop, min(CROP_WIDTH, box.right - box.left), "jpeg")
    photo_set = PhotoSet(
        alt=alt,
        focus=focus,
        width=widths[-1],
        height=height_for(widths[-1], MAIN),
        sources=sources,
        crops={crop: rendition.path for crop, rendition in crops.items()},
        colour=facts.colour,
        crop_sizes={crop: (r.width, r.height) for crop, r in crops.items()},
    )
    return Photograph(photo_set, tuple(planned.values()), seen.source, digest)


def _plan_whole(file: str, alt: str, seen: _Seen) -> Photograph:
    """A picture inside a text. ``file`` is part of the names: two files may hold one picture."""
    facts = seen.facts
    box = whole_box((facts.width, facts.height))
    stamp = sha256(f"{_MAKER};{seen.digest};{file}".encode()).hexdigest()[:10]
    name = slugify(PurePosixPath(file).stem) or "picture"
    planned: list[Rendition] = []
    sources: dict[str, tuple[tuple[str, int], ...]] = {}
    for kind in writable_formats():
        made = []
        for width in widths_for(box, TEXT_WIDTHS):
            height = max(1, (2 * width * facts.height + facts.width) // (2 * facts.width))
            path = f"photos/{name}-{WHOLE}-{width}.{stamp}.{SUFFIXES[kind]}"
            made.append(Rendition(path, box, width, height, kind))
        planned += made
        sources[kind] = tuple((rendition.path, rendition.width) for rendition in made)
    largest = planned[-1]
    photo_set = PhotoSet(
        alt=alt,
        focus=(50, 50),
        width=largest.width,
        height=largest.height,
        sources=sources,
        crops={WHOLE: largest.path},
        colour=facts.colour,
        crop_sizes={WHOLE: (largest.width, largest.height)},
    )
    return Photograph(photo_set, tuple(planned), seen.source, seen.digest)


def _advice(photo: Photo, file: str, width: int, height: int) -> Iterator[Problem]:
    box = crop_box((width, height), "1x1", (50, 50))
    if box.right - box.left < CROP_WIDTH:
        yield _problem(
            photo,
            file,
            "advice",
            "photo-small",
            f"the photo has {width} × {height} pixels; it will look soft on a large screen",
            f"give one whose shorter side has {CROP_WIDTH} pixels or more, if you can",
        )


def _problem(
    photo: Photo, file: str, severity: Severity, rule: str, message: str, hint: str
) -> Problem:
    place = photo.place
    length = len(photo.file) if place.line else 1
    return Problem(rule, severity, file, place.line, place.column, message, hint, length)
