"""How long builds and the preview take, as ratios to the floor, all in one run.

    python tests/benchmarks/run.py                 1,000 recipes
    python tests/benchmarks/run.py --large 10000   and the ratio of a larger site, with its memory
    python tests/benchmarks/run.py --browser       and saves, as a browser sees them

Every command is a process of its own, measured by wall time; the floor and the builds take turns, so
that whatever else the machine does falls on both. The best of the turns counts.
"""

from __future__ import annotations

import argparse
import resource
import shutil
import statistics
import subprocess
import sys
import tempfile
import threading
import time
from collections.abc import Sequence
from pathlib import Path

HERE = Path(__file__).parent
ROOT = HERE.parents[1]
TURNS = 2


def timed(*command: str | Path) -> float:
    """Seconds of wall time of one Python process; its output is thrown away."""
    began = time.perf_counter()
    subprocess.run([sys.executable, *command], cwd=ROOT, check=True, capture_output=True)
    return time.perf_counter() - began


def build(site: Path) -> float:
    """One ``sitegen build`` of ``site``."""
    return timed("-m", "sitegen", "build", "--site", site)


def clean(site: Path) -> float:
    """A build with nothing kept and nothing there."""
    for left in (site / "output", site / ".sitegen"):
        shutil.rmtree(left, ignore_errors=True)
    return build(site)


def make(folder: Path, recipes: int) -> Path:
    """A site of that many recipes, the same every time."""
    site = folder / f"site-{recipes}"
    command = (HERE / "make_site.py", site, "--recipes", str(recipes), "--seed", "1")
    timed(*map(str, command))
    return site


def builds(folder: Path, recipes: int) -> tuple[Path, float]:
    """The floor, a clean build, one with nothing changed and one with one recipe changed."""
    site = make(folder, recipes)
    floors, cleans = [], []
    for _ in range(TURNS):
        floors.append(timed(HERE / "floor.py", site, folder / "floor"))
        cleans.append(clean(site))
    floor, whole = min(floors), min(cleans)
    same = min(build(site) for _ in range(TURNS))
    file = sorted((site / "content" / "recipes").rglob("*.md"))[recipes // 2]
    file.write_text(file.read_text("utf-8") + "\n## A note\n\nKeep it cool.\n", "utf-8")
    one = build(site)
    say("floor", f"{floor:.2f} s for {recipes} recipes")
    say("clean build", f"{whole:.2f} s", f"{whole / floor:.2f} × the floor", "2.5 ×")
    say("nothing changed", f"{same:.2f} s", f"{same / whole:.3f} of a clean build", "0.1")
    say("one recipe changed", f"{one:.2f} s", f"{one / whole:.3f} of a clean build")
    return site, whole


def commands(site: Path) -> None:
    """How long the small commands take, start of Python included."""
    file = str(sorted((site / "content" / "recipes").rglob("*.md"))[0])
    checks = [timed("-m", "sitegen", "check", "--site", site, file) for _ in range(5)]
    helps = [timed("-m", "sitegen", "--help") for _ in range(5)]
    say("check of one file", f"{statistics.median(checks):.2f} s", "", "0.5 s")
    say("--help", f"{statistics.median(helps):.2f} s", "", "0.2 s")


def edits(text: str, number: int) -> str:
    """The recipe with other words in it: what changes at most saves."""
    return f"{text}\n## A note\n\nThis is save number {number}.\n"


def amounts(text: str, number: int) -> str:
    """The same with another line among its ingredients too, which scripts of the page hold on to."""
    line = f"ingredients:\n  - {number + 2} g salt\n"
    return edits(text, number).replace("ingredients:\n", line, 1)


def saves(site: Path, times: int = 30) -> None:
    """From the write of a recipe to the changed page in Chromium, at the sites' size."""
    from playwright.sync_api import sync_playwright

    from sitegen.preview.desk import Desk
    from sitegen.preview.serving import open_server
    from sitegen.preview.watching import Watch

    began = time.perf_counter()
    desk = Desk(site)
    say("preview ready", f"{time.perf_counter() - began:.1f} s")
    server = open_server(desk, 0)
    watch = Watch([site / "content"], desk.follow)
    watch.start()
    threading.Thread(target=server.serve_forever, daemon=True).start()
    files = sorted((site / "content" / "recipes").rglob("*.md"))
    file = files[len(files) // 3]
    first = file.read_text("utf-8")
    options = ["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run"]
    options += ["--disable-background-networking", "--disable-component-update", "--disable-sync"]
    goal = "100, 200 ms" if len(files) <= 1000 else "250 ms"
    with sync_playwright() as play:
        browser = play.chromium.launch(executable_path="/usr/bin/chromium", args=options)
        page = browser.new_page()
        page.goto(f"{server.address}recipes/{file.stem}.html")
        for what, written in (("words", edits), ("amounts", amounts)):
            taken: list[float] = []
            for number in range(times):
                page.wait_for_timeout(1000)  # longer than a page waits before it is put in anew
                text = written(first, number)
                began = time.perf_counter()
                file.write_text(text, "utf-8")
                page.get_by_text(f"This is save number {number}.").wait_for(state="attached")
                taken.append((time.perf_counter() - began) * 1000)
            taken.sort()
            middle, late = statistics.median(taken), taken[int(len(taken) * 0.95)]
            say(f"{what} to page", f"median {middle:.0f} ms, 95 % {late:.0f} ms", "", goal)
        browser.close()
    file.write_text(first, "utf-8")
    desk.close()
    watch.stop()
    server.shutdown()


def say(what: str, taken: str, ratio: str = "", goal: str = "") -> None:
    """One line of the report."""
    print(
        f"{what:<20}{taken:<44}{ratio:<28}{f'(goal {goal})' if goal else ''}".rstrip(), flush=True
    )


def main(arguments: Sequence[str] | None = None) -> int:
    """Measure, and print."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").partition("\n")[0])
    parser.add_argument("--recipes", type=int, default=1000)
    parser.add_argument("--large", type=int, default=0)
    parser.add_argument("--browser", action="store_true")
    given = parser.parse_args(arguments)
    sys.path.insert(0, str(ROOT))
    with tempfile.TemporaryDirectory() as name:
        site, whole = builds(Path(name), given.recipes)
        commands(site)
        if given.large:
            large = make(Path(name), given.large)
            taken = clean(large)
            peak = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss / 1024
            size = given.large / given.recipes
            say(
                "larger clean build",
                f"{taken:.1f} s",
                f"{taken / whole:.1f} × for {size:g} ×",
                "12 ×",
            )
            say("largest process", f"{peak:.0f} MiB", "", "1024 MiB")
        if given.browser:
            saves(site)
            if given.large:
                saves(large)
    return 0


if __name__ == "__main__":
    sys.exit(main())
