"""A browser page that keeps to this machine, and remembers what it asked for and complained of."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any
from urllib.parse import urlsplit

if TYPE_CHECKING:
    from playwright.sync_api import Browser, BrowserContext, Page, Route

FLAGS = (
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
)
"""Chromium in a container, with nothing of its own to ask the network for."""

PHONE = {"width": 390, "height": 844}
TABLET = {"width": 820, "height": 1180}
DESK = {"width": 1280, "height": 900}


@dataclass
class Window:
    """One page in a context of its own."""

    page: Page
    context: BrowserContext
    outside: list[str] = field(default_factory=list)
    """Addresses of other hosts that it asked for. The requests were refused."""
    complaints: list[str] = field(default_factory=list)
    """Console errors and warnings, uncaught exceptions, and answers of 400 or more."""

    @classmethod
    def open(cls, browser: Browser, **options: Any) -> Window:
        """A page in a fresh context; ``options`` as for Playwright's ``new_context``."""
        options.setdefault("viewport", DESK)
        context = browser.new_context(**options)
        window = cls(context.new_page(), context)
        context.route("**/*", window._pass_or_refuse)
        page = window.page
        page.set_default_timeout(10_000)
        page.on("console", lambda m: m.type in ("error", "warning") and window._note(m.text))
        page.on("pageerror", lambda error: window._note(str(error)))
        page.on("response", lambda r: r.status >= 400 and window._note(f"{r.status} {r.url}"))
        return window

    def _note(self, text: str) -> None:
        self.complaints.append(f"{self.page.url}: {text}")

    def _pass_or_refuse(self, route: Route) -> None:
        address = urlsplit(route.request.url)
        if address.scheme in ("file", "data", "blob") or address.hostname == "127.0.0.1":
            route.continue_()
        else:
            self.outside.append(route.request.url)
            route.abort()

    def close(self) -> None:
        """Close the page and forget what it stored."""
        self.context.close()
