"""The private page of a test log: in the preview, in full, and nowhere else."""

from __future__ import annotations

import re
import shutil
import threading
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path
from typing import Any

import pytest

from sitegen.preview.desk import Desk
from sitegen.preview.serving import PreviewServer, open_server
from sitegen.preview.testlog import log_page
from sitegen.trials.chart import chart
from sitegen.trials.log import Log
from tests.browser.windows import Window
from tests.preview.test_preview import PAGE, Preview, open_preview
from tests.sites import SOUP, recipe

__all__ = ["open_preview"]  # the fixture

REPO = Path(__file__).resolve().parents[2]
LOG = SOUP.replace(".md", ".trials.yaml")
LOG_PAGE = "/-/trials/lentil-soup.html"


def block(text: str) -> str:
    return "".join(f"      {line}\n" if line else "\n" for line in text.split("\n")[:-1])


def log(remarks: str = "Thin <b>& grey</b>.") -> str:
    return (
        "trials:\n  - date: 2026-01-05\n    scores: {salt: 4, body: [3, 5]}\n    verdict: again\n"
        f"    remarks: {remarks}\n    recipe: |\n{block(recipe(ingredient='150 g red lentils'))}"
        "  - date: 2026-01-12\n    scores: {salt: 8, body: 7}\n    verdict: passed\n"
        f"    recipe: |\n{block(recipe())}"
    )


def test_the_page_has_scores_changes_and_two_trials_side_by_side(
    open_preview: Callable[..., Preview],
) -> None:
    preview = open_preview({LOG: log()})
    status, page, headers = preview.get(LOG_PAGE)
    assert status == 200
    assert "style-src 'self'" in headers["Content-Security-Policy"]
    assert "<svg" in page
    assert "red lentils: 150 g → 200 g" in page
    assert "Thin &lt;b&gt;&amp; grey&lt;/b&gt;." in page
    assert re.search(
        r'<th scope="row">red lentils</th><td>150 g</td><td>200 g</td><td>\+33 %', page
    )
    assert "2 trials, 1 passed" in page
    _, now, _ = preview.get("/-/trials/lentil-soup/2-now.html")
    assert re.search(r'<th scope="row">red lentils</th><td>200 g</td><td>200 g</td><td></td>', now)
    for none in (
        "/-/trials/nettle.html",
        "/-/trials/lentil-soup/2-9x.html",
        "/-/trials/../site.yaml",
    ):
        assert preview.get(none)[0] == 404
    assert "there is no trial" in preview.get("/-/trials/lentil-soup/1-9.html")[1]
    assert preview.get("/-/testlog.css")[2]["Content-Type"].startswith("text/css")
    assert "Lentil soup" in preview.get("/-/trials/")[1]


def test_a_recipe_with_a_log_leads_to_it_and_one_without_does_not(
    open_preview: Callable[..., Preview],
) -> None:
    other = "content/recipes/other.md"
    preview = open_preview({LOG: log(), other: recipe(title="Other")})
    assert f'href="{LOG_PAGE}"' in preview.get(PAGE)[1]
    assert "/-/trials/" not in preview.get("/recipes/other.html")[1]
    assert "/-/trials/" not in preview.get("/recipes/lentil-soup-card.html")[1]


def test_a_remark_that_is_saved_is_on_the_open_page(open_preview: Callable[..., Preview]) -> None:
    preview = open_preview({LOG: log()})
    events = preview.events(LOG_PAGE)
    stamp = next(events)["stamp"]
    (preview.folder / LOG).write_text(log("Better than it looked."), encoding="utf-8")
    while next(events)["stamp"] == stamp:
        pass
    assert "Better than it looked." in preview.get(LOG_PAGE)[1]


def test_a_log_with_a_mistake_still_has_its_page_and_says_what_is_wrong(
    open_preview: Callable[..., Preview],
) -> None:
    preview = open_preview({LOG: log().replace("verdict: passed", "verdict: yes")})
    status, page, _ = preview.get(LOG_PAGE)
    assert status == 200
    assert "&#x27;yes&#x27; is no verdict" in page


def test_a_chart_needs_two_trials_with_scores() -> None:
    assert chart(Log("a.trials.yaml")) == ""


def test_only_paths_of_logs_are_answered(open_preview: Callable[..., Preview]) -> None:
    gathered = open_preview({LOG: log()}).desk.edition.gathered
    assert log_page("recipes/lentil-soup.html", gathered) is None
    assert log_page("-/trials/lentil-soup.html", gathered) is not None


# --- the demo's, as an author sees it ---------------------------------------------------------------


@pytest.fixture(scope="module")
def server(tmp_path_factory: pytest.TempPathFactory) -> Iterator[PreviewServer]:
    site = tmp_path_factory.mktemp("demo")
    shutil.copytree(REPO / "content", site / "content")
    desk = Desk(site)
    opened = open_server(desk, 0)
    threading.Thread(target=opened.serve_forever, daemon=True).start()
    yield opened
    desk.close()
    opened.shutdown()
    opened.server_close()


@pytest.mark.browser
@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_axe_finds_nothing_and_nothing_overflows(
    server: PreviewServer,
    window: Callable[..., Window],
    axe: Callable[[Any], list[str]],
    scheme: str,
) -> None:
    page = window(bypass_csp=True, color_scheme=scheme, viewport={"width": 360, "height": 800}).page
    page.goto(f"{server.address}-/trials/rye-loaf/1-4.html")
    assert page.locator("svg.chart polyline").count() == 5
    assert page.evaluate("document.documentElement.scrollWidth") <= 360
    assert axe(page) == []


@pytest.mark.browser
def test_the_checker_finds_nothing(
    server: PreviewServer, tmp_path: Path, vnu: Callable[[Sequence[Path]], list[dict[str, Any]]]
) -> None:
    gathered = server.desk.edition.gathered
    files = []
    for path in ("-/trials/rye-loaf.html", "-/trials/index.html"):
        found = log_page(path, gathered)
        assert found is not None
        files.append(tmp_path / path.rsplit("/", 1)[1])
        files[-1].write_bytes(found[0])
    assert [m["message"] for m in vnu(files)] == []


@pytest.mark.browser
def test_no_remark_of_the_demo_is_in_its_pages(demo: Path, server: PreviewServer) -> None:
    logs = server.desk.edition.gathered.logs
    assert len(logs) >= 3
    private = [
        t.remarks.split(".")[0].replace("\n", " ") for log in logs.values() for t in log.trials
    ]
    private += [t.aim for log in logs.values() for t in log.trials]
    assert all(len(words) > 10 for words in private)
    for file in demo.rglob("*"):
        if file.suffix in (".html", ".json", ".xml", ".js", ".txt"):
            text = " ".join(file.read_text(encoding="utf-8").split())
            assert not [words for words in private if words in text], file
