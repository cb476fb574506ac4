"""How soon `sitegen preview` shows a recipe: with nothing kept, and after a change of settings.

    python tests/benchmarks/opening.py SITE [--kept]

The command is a process of its own; times are from its start, or from the write of `site.yaml`, to the
recipe's page, and to the same page when the whole site has been read. What earlier runs have kept is
thrown away first, unless `--kept`. The last figure of a line is the slowest answer in between.
"""

from __future__ import annotations

import argparse
import re
import shutil
import subprocess
import sys
import time
from collections.abc import Callable, Sequence
from pathlib import Path
from urllib.error import HTTPError
from urllib.request import urlopen

ROOT = Path(__file__).parents[2]
EARLY = "Reading the site"


def get(address: str) -> str:
    """A page, whatever its status."""
    try:
        with urlopen(address, timeout=300) as answer:
            return str(answer.read(), "utf-8")
    except HTTPError as error:
        return str(error.read(), "utf-8")


def times(what: str, page: str, began: float, there: Callable[[str], bool]) -> None:
    """Ask for the page until it is there, and until it is whole."""
    while not there(body := get(page)):
        time.sleep(0.005)
    first, slowest = time.perf_counter() - began, 0.0
    while EARLY in body:
        time.sleep(0.1)
        asked = time.perf_counter()
        body = get(page)
        slowest = max(slowest, time.perf_counter() - asked)
    whole = time.perf_counter() - began
    print(
        f"{what:<20}page {first:.2f} s, whole {whole:.1f} s, in between {slowest:.2f} s", flush=True
    )


def opening(site: Path) -> None:
    """One preview, opened and told of other settings."""
    files = sorted((site / "content" / "recipes").rglob("*.md"))
    began = time.perf_counter()
    process = subprocess.Popen(
        [sys.executable, "-m", "sitegen", "preview", "--port", "0", "--site", str(site)],
        cwd=ROOT,
        stdout=subprocess.PIPE,
        text=True,
    )
    settings = site / "content" / "site.yaml"
    before = settings.read_text("utf-8")
    try:
        assert process.stdout is not None
        address = re.search(r"http://\S+/", process.stdout.readline())
        assert address
        page = f"{address[0]}recipes/{files[len(files) // 3].stem}.html"
        times("opened", page, began, lambda _: True)
        time.sleep(1)
        began = time.perf_counter()
        settings.write_text(re.sub("(?m)^title: .*", "title: Marked", before), "utf-8")
        times("other settings", page, began, lambda body: "Marked" in body)
    finally:
        settings.write_text(before, "utf-8")
        process.terminate()
        process.wait()


def main(arguments: Sequence[str] | None = None) -> int:
    """Measure, and print."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").partition("\n")[0])
    parser.add_argument("site", type=Path)
    parser.add_argument("--kept", action="store_true", help="begin with what is kept")
    given = parser.parse_args(arguments)
    if not given.kept:
        shutil.rmtree(given.site / ".sitegen", ignore_errors=True)
    opening(given.site)
    return 0


if __name__ == "__main__":
    sys.exit(main())
