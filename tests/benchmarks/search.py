"""How long a search takes in a browser, and what it fetches, at any number of recipes.

    python tests/benchmarks/search.py --recipes 1000

Prints, for each of some searches, the bytes that a first one fetches (the script and the parts of the
index, uncompressed) and the milliseconds from the key to the result on the page, the median and the
slowest of some tries: with nothing fetched yet, and with the parts at hand. Nothing is asserted:
clocks differ.
"""

from __future__ import annotations

import argparse
import json
import re
import sys
import tempfile
import time
from pathlib import Path
from statistics import median
from typing import Any

from sitegen.gathering import Gatherer
from sitegen.pages.late_layout import LateLayout
from sitegen.pages.theme import load_theme
from tests.benchmarks.make_site import make_site
from tests.browser.served import serving
from tests.browser.windows import FLAGS

SEARCHES = (
    "leek", "leek soup", "chikpeas", "tumeric", "winter roots with dill", "co", "butter", "simmer",
    "qqqqxxxxzzzz",
)  # fmt: skip
TRIES = 9


def build_search(site: Path, to: Path) -> None:
    """Write the search page of a site with its index and its style, and nothing else."""
    collection = Gatherer(site).gather(drafts=False).collection
    theme, _ = load_theme(collection.site)
    assert theme is not None
    layout = LateLayout(collection, theme, {})
    files: dict[str, bytes] = dict(theme.assets())

    def add(path: str) -> str:
        page = layout.find(path)
        assert page is not None, path
        files[path] = page.content
        return page.content.decode()

    [terms] = re.findall(r'data-terms="([^"]+)"', add("search.html"))
    index = json.loads(add(terms).partition(",0,")[2].removesuffix(");\n"))
    for kind in ("found", "dishes"):
        for number, mark in enumerate(index[kind]):
            add(f"assets/search/{kind}-{number}.{mark}.js")
    for path, content in files.items():
        (to / path).parent.mkdir(parents=True, exist_ok=True)
        (to / path).write_bytes(content)


# Puts the words in and tells, in milliseconds, when the answer stands on the page, drawn.
_ASK = """async (words) => {
  const field = document.getElementById("words"), told = document.getElementById("found");
  field.value = "";
  field.dispatchEvent(new Event("input"));
  await new Promise(requestAnimationFrame);
  const answered = new Promise((resolve) => {
    new MutationObserver((_, self) => { self.disconnect(); resolve(performance.now()); })
      .observe(told, { childList: true, characterData: true, subtree: true });
  });
  const began = performance.now();
  field.value = words;
  field.dispatchEvent(new Event("input"));
  const ended = await answered;
  document.getElementById("results").getBoundingClientRect();
  return [ended - began, told.textContent];
}"""


def measure(browser: Any, built: Path, address: str, words: str) -> str:
    """One line of the report."""
    cold = []
    fetched: set[str] = set()
    for _ in range(3):
        page = browser.new_page()
        page.on("request", lambda request: fetched.add(request.url.removeprefix(address)))
        page.goto(address + "search.html")
        page.focus("#words")  # as a reader must, and a moment before the first letter
        page.wait_for_timeout(200)
        took, said = page.evaluate(_ASK, words)
        cold.append(took)
        if len(cold) < 3:
            page.close()
    warm = [page.evaluate(_ASK, words)[0] for _ in range(TRIES)]
    page.close()
    of_search = (path for path in fetched if path.startswith("assets/search") and path[-2:] == "js")
    size = sum((built / path).stat().st_size for path in of_search)
    return (
        f"{words:<24} {size / 1000:6.1f} kB {median(cold):7.1f} {max(cold):7.1f} ms "
        f"{median(warm):7.1f} {max(warm):7.1f} ms  {said}"
    )


def main() -> int:
    """The command line."""
    parser = argparse.ArgumentParser(description="Measure searching in a browser.")
    parser.add_argument("--recipes", type=int, default=1000)
    parser.add_argument("--seed", type=int, default=1)
    chosen = parser.parse_args()
    from playwright.sync_api import sync_playwright

    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        make_site(folder / "site", chosen.recipes, chosen.seed)
        began = time.perf_counter()
        build_search(folder / "site", folder / "built")
        print(f"{chosen.recipes} recipes, read and laid out in {time.perf_counter() - began:.1f} s")
        with serving(folder / "built") as address, sync_playwright() as playwright:
            browser = playwright.chromium.launch(
                executable_path="/usr/bin/chromium", args=list(FLAGS)
            )
            print(f"{'':<24} {'fetched':>9} {'first: median, slowest':>18} {'again':>13}")
            for words in SEARCHES:
                print(measure(browser, folder / "built", address, words))
    return 0


if __name__ == "__main__":
    sys.exit(main())
