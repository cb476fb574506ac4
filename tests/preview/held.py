"""A preview whose reading of the whole site can be held up, so that what is shown meanwhile is seen."""

from __future__ import annotations

import threading
from pathlib import Path

import pytest

from sitegen.preview import start
from sitegen.preview.desk import Desk
from sitegen.preview.serving import PreviewServer, open_server
from sitegen.preview.watching import Watch
from tests.preview.test_preview import PATIENCE, Preview
from tests.sites import SOUP, recipe, write_site

STOCK = "content/recipes/stock.md"
STEW = "content/recipes/stew.md"
APART = "content/recipes/apart.md"
LINK = "\n## More\n\nSee [this one](apart.md).\n"
FILES: dict[str, str | bytes] = {
    SOUP: recipe(more=LINK),
    STOCK: recipe("Stock").replace("serves: 4", "serves: 4\nweighs: 1 kg"),
    STEW: recipe("Stew", ingredient='"100 g [x](stock.md)"'),
    APART: recipe("Something apart", ingredient="200 g apples").replace("soup\n", "side\n"),
    "content/pages/about.md": "---\ntitle: About us\n---\nWe cook.\n",
}


class Hold:
    """Lets whoever reads everything ahead go on only when it is told to."""

    def __init__(self, patch: pytest.MonkeyPatch) -> None:
        self.open = threading.Event()
        self.came = threading.Semaphore(0)
        self.progress = (0, 0)
        real = start.Start._read_ahead

        def held(which: start.Start, recipes: int) -> None:
            which._progress("recipes", *self.progress)
            self.came.release()
            assert self.open.wait(PATIENCE)
            real(which, recipes)

        patch.setattr(start, "FEW", 0)
        patch.setattr(start.Start, "_read_ahead", held)

    def wait(self) -> None:
        """Until reading has come here."""
        assert self.came.acquire(timeout=PATIENCE)


class EarlyPreview(Preview):
    """As :class:`Preview`, but there at once, as the command's is."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.desk = Desk(folder, at_once=True)
        self.server: PreviewServer = open_server(self.desk, 0)
        self.watch = Watch([folder / "content", folder / "themes"], self.desk.follow)
        self.watch.start()
        threading.Thread(target=self.server.serve_forever, daemon=True).start()
        self.desk.begin()

    def read(self) -> None:
        """Wait until everything has been."""
        for _ in range(1000):
            if not self.desk.is_reading:
                return
            self.desk.wait_for_news(self.desk.number, PATIENCE / 1000)
        pytest.fail("the site was never read")


def early_preview(folder: Path, files: dict[str, str | bytes] | None = None) -> EarlyPreview:
    """One of a small site, in which recipes have to do with each other."""
    return EarlyPreview(write_site(folder, FILES | (files or {})))
