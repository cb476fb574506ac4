"""Draw the film of the table rolls: ``python content/pictures/film.py``.

Sixteen seconds of drawn frames: the balls are set, rise, are brushed and bake.  It needs what
``draw.py`` needs, and FFmpeg.  No sound, and no camera: nothing in it is more than drawn.
"""

import subprocess
from pathlib import Path
from tempfile import TemporaryDirectory

import breads
import draw
from playwright.sync_api import Page, sync_playwright

FRAMES = 8
"""A second."""
WIDTH = 640
TARGET = draw.RECIPES / "breads" / "table-rolls.webm"


def frame(second: float) -> str:
    """The picture at that second."""
    if second < 5:  # one ball after another, in rows
        return breads.tin_of_rolls(92, breads.DOUGH, count=int(second / 5 * 12.99), glazed=0)
    if second < 9:
        part = min((second - 5) / 3.5, 1)
        return breads.tin_of_rolls(92 + 30 * part, breads.DOUGH, glazed=0)
    if second < 12:
        done = int((second - 9) / 3 * 12.99)
        return breads.tin_of_rolls(122, breads.DOUGH, glazed=done, brush=done < 12)
    part = min((second - 12) / 3, 1)
    inks = [mixed(a, b, part) for a, b in zip(breads.DOUGH, breads.BAKED, strict=True)]
    return breads.tin_of_rolls(122 + 2 * part, (inks[0], inks[1], inks[2]))


def mixed(first: str, second: str, part: float) -> str:
    """A colour between two, ``#rrggbb``."""
    levels = [(int(first[i : i + 2], 16), int(second[i : i + 2], 16)) for i in (1, 3, 5)]
    return "#" + "".join(f"{round(a + (b - a) * part):02x}" for a, b in levels)


def film(page: Page, folder: Path, seconds: int = 16) -> None:
    """Draw every frame and join them."""
    for k in range(seconds * FRAMES):
        source = draw.svg(frame(k / FRAMES), draw.SHEET)
        draw.render(page, source, draw.SHEET, WIDTH).save(folder / f"{k:03}.png")
    command = ["ffmpeg", "-y", "-loglevel", "error", "-framerate", str(FRAMES)]
    command += ["-i", str(folder / "%03d.png"), "-an", "-c:v", "libvpx-vp9", "-pix_fmt", "yuv420p"]
    command += ["-crf", "36", "-b:v", "0", "-g", "16", "-fflags", "+bitexact", str(TARGET)]
    subprocess.run(command, check=True)


def main() -> None:
    """Draw it."""
    with sync_playwright() as play, TemporaryDirectory() as folder:
        browser = draw.launched(play)
        film(browser.new_page(), Path(folder))
        browser.close()
    print(f"{TARGET.stat().st_size / 1000:6.1f} kB  {TARGET.name}")


if __name__ == "__main__":
    main()
