"""Redraw the site's pictures: ``python content/pictures/draw.py [name ...]``.

Without names everything is drawn: an SVG of each picture in ``svg/``, and its PNG beside the
recipe that it belongs to.  Rendering needs Playwright and a Chromium; set ``CHROMIUM`` to its
path if it is not at ``/usr/bin/chromium``.
"""

import io
import os
import sys
from collections.abc import Callable
from pathlib import Path
from typing import NamedTuple

import baking
import breads
import house
import mains
import pots
import puddings
import sauces
import sides
from PIL import Image
from playwright.sync_api import Browser, Page, Playwright, sync_playwright

HERE = Path(__file__).resolve().parent
RECIPES = HERE.parent / "recipes"
SHEET = (1600, 1200)
HEAVIEST = 120_000


class Job(NamedTuple):
    """One picture: who draws it, how large, and where its bitmaps go (path and width)."""

    draw: Callable[[], str]
    size: tuple[int, int]
    bitmaps: tuple[tuple[Path, int], ...]


def jobs() -> dict[str, Job]:
    """Every picture by name."""
    table: dict[str, Job] = {}
    for module in (mains, pots, breads, baking, puddings, sauces, sides):
        for place, draw in module.DISHES.items():
            file = RECIPES / f"{place}.png"
            table[file.stem] = Job(draw, SHEET, ((file, SHEET[0]),))
    table["home"] = Job(house.home, (1600, 900), ((HERE / "home.png", 1600),))
    table["icon"] = Job(
        house.icon, (512, 512), ((HERE / "icon-512.png", 512), (HERE / "icon-192.png", 192))
    )
    return table


def svg(art: str, size: tuple[int, int]) -> str:
    """A whole SVG file."""
    w, h = size
    lines = art.replace("><", ">\n<")
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {w} {h}" width="{w}" '
        f'height="{h}">\n{lines}\n</svg>\n'
    )


def render(page: Page, source: str, size: tuple[int, int], width: int) -> Image.Image:
    """The SVG as a bitmap ``width`` pixels wide."""
    height = round(size[1] * width / size[0])
    page.set_viewport_size({"width": width, "height": height})
    page.set_content(
        "<style>html,body{margin:0;background:transparent}svg{display:block;width:100vw;"
        f"height:100vh}}</style>{source}"
    )
    shot = page.screenshot(omit_background=True)
    return Image.open(io.BytesIO(shot)).convert("RGBA")


def packed(image: Image.Image, colours: int) -> bytes:
    """The picture as a palette PNG; as it is if it has transparent parts.

    Half the palette goes to the commonest colours, which are the inks themselves and so stay
    exact; the rest is shared out among the mixtures along the edges.  No dithering: it would
    speckle flat colour.
    """
    out = io.BytesIO()
    if image.getchannel("A").getextrema() != (255, 255):
        image.save(out, "PNG", optimize=True)
        return out.getvalue()
    image = image.convert("RGB")
    counted = image.getcolors(image.width * image.height) or []
    # By count and then by colour, so that equal counts cannot change places.
    ranked = [colour for _, colour in sorted(counted, reverse=True)]
    kept, mixed = ranked[: colours // 2], ranked[colours // 2 :]
    table = Image.new("P", (1, 1))
    flat = [level for colour in kept for level in _levels(colour)]
    if mixed:
        edges = Image.new("RGB", (len(mixed), 1))
        edges.putdata([_levels(colour) for colour in mixed])
        reduced = edges.quantize(colours - len(kept), dither=Image.Dither.NONE)
        flat += (reduced.getpalette() or [])[: 3 * (colours - len(kept))]
    table.putpalette(flat)
    image.quantize(palette=table, dither=Image.Dither.NONE).save(out, "PNG", optimize=True)
    return out.getvalue()


def _levels(colour: object) -> tuple[int, int, int]:
    """The three levels of an RGB colour, as Pillow's loosely typed lists hold it."""
    match colour:
        case (int(red), int(green), int(blue)):
            return red, green, blue
    raise TypeError(f"not an RGB colour: {colour!r}")


def lightest(image: Image.Image) -> bytes:
    """The picture with as many colours as the weight limit allows, 128 at most."""
    for colours in (128, 96, 64, 48):
        data = packed(image, colours)
        if len(data) <= HEAVIEST:
            return data
    raise ValueError(f"picture is {len(data)} bytes even with {colours} colours")


def launched(play: Playwright) -> Browser:
    """A browser that asks for nothing but what it is shown."""
    return play.chromium.launch(
        executable_path=os.environ.get("CHROMIUM", "/usr/bin/chromium"),
        args=[
            "--no-sandbox",
            "--disable-gpu",
            "--disable-quic",
            "--no-first-run",
            "--disable-background-networking",
            "--disable-component-update",
            "--disable-sync",
        ],
    )


def main(names: list[str]) -> None:
    """Draw the named pictures, or all of them."""
    table = jobs()
    unknown = [name for name in names if name not in table]
    if unknown:
        raise SystemExit(f"no such picture: {', '.join(unknown)}; there are: {', '.join(table)}")
    (HERE / "svg").mkdir(exist_ok=True)
    with sync_playwright() as play:
        browser = launched(play)
        page = browser.new_page()
        for name in names or table:
            job = table[name]
            source = svg(job.draw(), job.size)
            target = HERE / "icon.svg" if name == "icon" else HERE / "svg" / f"{name}.svg"
            target.write_text(source, encoding="utf-8")
            for file, width in job.bitmaps:
                data = lightest(render(page, source, job.size, width))
                file.parent.mkdir(parents=True, exist_ok=True)
                file.write_bytes(data)
                print(f"{len(data) / 1000:6.1f} kB  {file.relative_to(HERE.parent)}")
        browser.close()


if __name__ == "__main__":
    main(sys.argv[1:])
