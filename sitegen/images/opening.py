"""Open a picture that may be broken, huge or hostile, and give it upright, in sRGB and bare.

Traps met here (Pillow's documentation): ``Image.open`` reads only the head, so a truncated file
is found by decoding; a camera's rotation lives in metadata; a small file can hold a huge picture.
"""

from __future__ import annotations

import io
import warnings
from functools import lru_cache

from PIL import Image, ImageCms, ImageOps, UnidentifiedImageError

FORMATS = ("JPEG", "PNG", "WEBP", "AVIF", "TIFF")
"""What is tried. Others (PostScript, fonts of icons …) never reach to their decoders."""
MOST_PIXELS = 60_000_000
"""A camera's picture has 12 to 50 million; decoding 60 million takes 180 MB of memory."""
MOST_BYTES = 60_000_000
PAPER = (255, 255, 255)
"""What shows through where a picture is transparent."""


class Refusal(Exception):
    """A picture that can't be used; in words for the author."""

    def __init__(self, rule: str, message: str, hint: str) -> None:
        super().__init__(message)
        self.rule = rule
        self.message = message
        self.hint = hint


def open_upright(raw: bytes) -> Image.Image:
    """Decode a picture wholly: turned as its EXIF says, in sRGB, without metadata or transparency.

    Raises :class:`Refusal`.
    """
    if not raw:
        raise Refusal("photo-empty", "the photo's file is empty", "copy it from the camera again")
    if len(raw) > MOST_BYTES:
        raise Refusal(
            "photo-too-large",
            f"the photo has {len(raw) / 1e6:.0f} MB; the most that is read is "
            f"{MOST_BYTES / 1e6:.0f} MB",
            "export it smaller: 2400 pixels wide is plenty",
        )
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")  # Pillow's own, softer warning about many pixels
            picture = Image.open(io.BytesIO(raw), formats=FORMATS)
            _limit(picture.size)
            Image.open(io.BytesIO(raw), formats=FORMATS).verify()
            picture.load()
            return _bare(picture)
    except Refusal:
        raise
    except Image.DecompressionBombError:
        raise _too_many("more pixels than any camera's") from None
    except UnidentifiedImageError:
        raise Refusal(
            "photo-unknown",
            f"the photo's file is {_guess(raw)}",
            "export the photo as JPEG, PNG, WebP or AVIF",
        ) from None
    except Exception as error:  # a decoder may raise anything on a damaged or hostile file
        raise Refusal(
            "photo-broken",
            f"the photo's file is damaged: {str(error).rstrip('.') or type(error).__name__}",
            "export or copy it again",
        ) from None


def _limit(size: tuple[int, int]) -> None:
    width, height = size
    if width * height > MOST_PIXELS:
        raise _too_many(f"{width} × {height} pixels")
    if min(size) < 16:
        raise Refusal(
            "photo-tiny", f"the photo has only {width} × {height} pixels", "give a larger one"
        )


def _too_many(what: str) -> Refusal:
    return Refusal(
        "photo-too-many-pixels",
        f"the photo has {what}; the most is {MOST_PIXELS // 1_000_000} million",
        "export it smaller: 2400 pixels wide is plenty",
    )


def _guess(raw: bytes) -> str:
    """What a file is that Pillow may not open, from its first bytes."""
    head = raw[:512].lstrip()
    if raw[4:8] == b"ftyp" and raw[8:12] in (b"heic", b"heix", b"mif1", b"msf1"):
        return "a HEIC picture, which browsers can't show"
    if head[:5].lower() in (b"<?xml", b"<svg ") or b"<svg" in head.lower():
        return "a drawing (SVG), not a photo"
    if raw[:4] == b"%PDF":
        return "a PDF"
    if raw[:3] == b"GIF":
        return "a GIF"
    return "not a picture that can be read"


def _bare(picture: Image.Image) -> Image.Image:
    profile = picture.info.get("icc_profile")
    turned = ImageOps.exif_transpose(picture)
    colours = _to_srgb(turned, profile) if profile else None
    flat = _flatten(colours if colours is not None else turned)
    clean = Image.new("RGB", flat.size)  # a new picture carries no metadata
    clean.paste(flat)
    return clean


def _to_srgb(picture: Image.Image, profile: bytes) -> Image.Image | None:
    """The picture's colours converted from ``profile``; None if the profile is unusable."""
    alpha = picture.getchannel("A") if "A" in picture.getbands() else None
    base = picture.convert("RGB") if picture.mode in ("RGBA", "P", "PA", "LA") else picture
    try:
        given = ImageCms.ImageCmsProfile(io.BytesIO(profile))
        result = ImageCms.profileToProfile(base, given, _srgb(), outputMode="RGB")
    except (ImageCms.PyCMSError, OSError, ValueError):
        return None
    if result is not None and alpha is not None:
        result.putalpha(alpha)
    return result


@lru_cache(maxsize=1)
def _srgb() -> ImageCms.ImageCmsProfile:
    return ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB"))


def _flatten(picture: Image.Image) -> Image.Image:
    if picture.mode.startswith("I") or picture.mode == "F":
        # 16-bit grey: keep the upper eight bits, which plain conversion would clip.
        return picture.convert("I").point(lambda value: value / 256).convert("L").convert("RGB")
    if picture.mode == "RGB":
        return picture
    if "A" in picture.getbands() or "transparency" in picture.info:
        seen = picture.convert("RGBA")
        paper = Image.new("RGBA", seen.size, (*PAPER, 255))
        return Image.alpha_composite(paper, seen).convert("RGB")
    return picture.convert("RGB")
