"""What a page knows of a photo: where its files stand, how large they are, and what they show."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class PhotoSet:
    """One photo in every size and format that a page asks for.

    Paths are relative to the output folder, with ``/``. A photo is never enlarged, so a small one
    has fewer widths.
    """

    alt: str
    """What the picture shows, in the author's words."""
    focus: tuple[int, int]
    """The point that crops keep, in per cent from the left and the top."""
    width: int
    """Of the largest 4:3 picture, in pixels; with ``height``, what keeps a page from jumping."""
    height: int
    sources: Mapping[str, tuple[tuple[str, int], ...]]
    """The 4:3 picture by format, the best format first: ``{"avif": ((path, width), …), …}``.

    Keys are ``avif`` (where Pillow can write it), ``webp`` and ``jpeg``; widths rise.
    """
    crops: Mapping[str, str]
    """One JPEG for each shape that search engines ask for: ``1x1``, ``4x3``, ``16x9``; of a picture
    inside a text only ``whole``, and ``sources`` are whole too."""
    colour: str
    """``#rrggbb``: the photo's mean colour, to stand in its place until it has come."""
    crop_sizes: Mapping[str, tuple[int, int]]
    """Width and height of each of ``crops``, in pixels."""
