"""Which crops, widths and formats a photo is given, and where a crop is cut."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import Any, NamedTuple

CROPS: dict[str, tuple[int, int]] = {"1x1": (1, 1), "4x3": (4, 3), "16x9": (16, 9)}
"""The shapes that search engines ask for; ``4x3`` is the one that pages show."""
MAIN = "4x3"
WHOLE = "whole"
"""Not cut at all: the pictures inside a text."""
WIDTHS = (480, 800, 1200, 1600)
"""Pixel widths of the main crop: phone, large phone, tablet, desk; each at double density half."""
CROP_WIDTH = 1200
"""The width of the one JPEG of each crop; search engines ask for 1200 and more."""
TEXT_WIDTHS = (480, 800, 1200)
"""Pixel widths of a picture inside a text, whose column is 600 wide at most."""

FORMATS: dict[str, tuple[str, dict[str, Any]]] = {
    "avif": ("AVIF", {"quality": 62, "speed": 7, "max_threads": 1, "subsampling": "4:2:0"}),
    "webp": ("WEBP", {"quality": 80, "method": 4}),
    "jpeg": ("JPEG", {"quality": 82, "optimize": True, "progressive": True}),
}
"""Format → Pillow's name and settings. One thread, so that the bytes don't depend on the machine."""
SUFFIXES = {"avif": "avif", "webp": "webp", "jpeg": "jpg"}


class Box(NamedTuple):
    """A part of a picture, in pixels."""

    left: int
    top: int
    right: int
    bottom: int


@dataclass(frozen=True, slots=True)
class Rendition:
    """One file to be made of a photo."""

    path: str
    """Relative to the output folder, with ``/``."""
    box: Box
    width: int
    height: int
    format: str


@lru_cache(maxsize=1)
def writable_formats() -> tuple[str, ...]:
    """The formats that this Pillow can write, the best first."""
    from PIL import features

    return tuple(f for f in FORMATS if f == "jpeg" or features.check(f))


def crop_box(size: tuple[int, int], crop: str, focus: tuple[int, int]) -> Box:
    """The largest box of the crop's shape that lies within the picture and nearest the focus.

    >>> crop_box((1600, 1200), "1x1", (50, 50))
    Box(left=200, top=0, right=1400, bottom=1200)
    >>> crop_box((1600, 1200), "1x1", (100, 50))
    Box(left=400, top=0, right=1600, bottom=1200)
    """
    width, height = size
    across, down = CROPS[crop]
    wide = min(width, height * across // down)
    high = min(height, wide * down // across)
    left = _slide(width, wide, focus[0])
    top = _slide(height, high, focus[1])
    return Box(left, top, left + wide, top + high)


def whole_box(size: tuple[int, int]) -> Box:
    """All of a picture."""
    return Box(0, 0, *size)


def _slide(whole: int, part: int, percent: int) -> int:
    """Where a part begins so that it is centred on the focus without leaving the whole."""
    return min(max((2 * whole * percent - 100 * part) // 200, 0), whole - part)


def widths_for(box: Box, wanted: tuple[int, ...] = WIDTHS) -> tuple[int, ...]:
    """The widths that the box can give without being enlarged; at least one."""
    wide = box.right - box.left
    return tuple(w for w in wanted if w <= wide) or (wide,)


def height_for(width: int, crop: str) -> int:
    """The height of a crop of that width, rounded half up.

    >>> height_for(1200, "16x9")
    675
    """
    across, down = CROPS[crop]
    return (2 * width * down + across) // (2 * across)
