"""Lighthouse's four scores of a built site's home page and a recipe, on a phone's profile.

    python tests/benchmarks/lighthouse.py FOLDER …

``FOLDER`` holds a built site, which is put on a plain static server. Prints the scores, and of the
performance what it is made of. Nothing is asserted: performance is a matter of the clock.
"""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
from pathlib import Path
from typing import Any

from tests.browser.pages import recipe_paths
from tests.browser.served import serving
from tests.browser.windows import FLAGS

PROGRAM = Path(__file__).parents[1] / "node" / "node_modules" / "lighthouse" / "cli" / "index.js"
PARTS = (
    ("first-contentful-paint", "first paint"),
    ("largest-contentful-paint", "largest paint"),
    ("total-blocking-time", "blocked"),
    ("cumulative-layout-shift", "shift"),
    ("speed-index", "speed index"),
)


def report(address: str) -> dict[str, Any]:
    """Lighthouse's own report on an address."""
    node = shutil.which("node") or str(Path(sys.executable).parent / "node")
    chromium = shutil.which("chromium") or "chromium"
    run = subprocess.run(
        [node, str(PROGRAM), address, "--quiet", "--no-enable-error-reporting", "--output=json",
         f"--chrome-flags=--headless {' '.join(FLAGS)}"],
        env={**os.environ, "CHROME_PATH": chromium},
        capture_output=True, text=True, check=True, timeout=180,
    )  # fmt: skip
    found: dict[str, Any] = json.loads(run.stdout)
    return found


def main(folders: list[str]) -> int:
    """The command line."""
    for name in folders:
        folder = Path(name).resolve()
        heaviest = max(recipe_paths(folder), key=lambda path: (folder / path).stat().st_size)
        with serving(folder) as address:
            for path in ("index.html", heaviest):
                said = report(address + path)
                scores = " / ".join(
                    f"{round(count['score'] * 100)}" for count in said["categories"].values()
                )
                parts = ", ".join(
                    f"{words} {said['audits'][key]['displayValue']}" for key, words in PARTS
                )
                print(f"{name} {path}: {scores} ({', '.join(said['categories'])}); {parts}")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
