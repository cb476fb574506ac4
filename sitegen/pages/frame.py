"""What all pages of a folder share: links to them are written alike, so it is drawn once for all."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import partial
from typing import Any, Final

from markupsafe import Markup

from sitegen.pages import address
from sitegen.pages.menu import Target
from sitegen.pages.recent import Recent
from sitegen.pages.theme import PAGE_SHEET, Theme
from sitegen.pages.view import Item
from sitegen.site import Settings

PARTS: Final = ("parts/frame-foot.html", "parts/frame-head.html", "parts/frame-links.html")
"""The templates that draw it."""
_MOST: Final = 1024


@dataclass(frozen=True, slots=True)
class Frame:
    """The parts of a page that are the same on every other of its folder."""

    links: Markup
    """Of the document's head: style sheet, script, icon, feeds, manifest."""
    head: Markup
    foot: Markup
    given: dict[str, Any]
    """What templates are told of the site, with ``to`` and ``asset`` for links from that folder."""


def frame_of(
    theme: Theme,
    settings: Settings,
    menu: tuple[Target, ...],
    titles: Sequence[tuple[str, str]],
    here: str,
    rooted: bool,
) -> Frame:
    """The frame of the page ``here``; ``titles`` are path and title of the plain pages.

    It depends on the page's folder, and on the page only where the menu leads to it. ``rooted``:
    links begin at the host's root.
    """
    known, led_to = _known(theme, settings, menu, titles)
    current = here if here in led_to else ""
    key = (here.rpartition("/")[0], current, rooted)
    frame = known.get(key)
    if frame is None:
        if len(known) >= _MOST:
            known.clear()
        frame = known[key] = _drawn(theme, settings, menu, titles, here, current, rooted)
    return frame


def _new(
    _theme: Theme, _settings: Settings, menu: tuple[Target, ...], _titles: Sequence[tuple[str, str]]
) -> tuple[dict[tuple[str, str, bool], Frame], frozenset[str]]:
    return {}, frozenset((address.HOME, *(target.path for target in menu)))


_known = Recent(_new, most=4)
"""The frames of a site, by folder, and the pages that its menu leads to."""


def _drawn(
    theme: Theme,
    settings: Settings,
    menu: tuple[Target, ...],
    titles: Sequence[tuple[str, str]],
    here: str,
    current: str,
    rooted: bool,
) -> Frame:
    to = partial(address.from_root, settings.address) if rooted else address.namer(here)
    addresses = theme.addresses

    def asset(name: str) -> str:
        return to(addresses[name])

    given = {
        "site": settings,
        "to": to,
        "asset": asset,
        "addresses": address,
        "sheets": [PAGE_SHEET],
        "theme_colours": {
            "light": theme.colours.get("paper", "#ffffff"),
            "dark": theme.colours.get("dark-paper", "#000000"),
        },
        "has_feeds": bool(settings.address),
        "menu": [
            {
                "label": target.label,
                "href": target.path if target.outside else to(target.path),
                "current": target.path == here,
            }
            for target in menu
        ],
        "plain_links": [Item(title, to(path)) for path, title in titles],
    }
    foot, head, links = (
        Markup(theme.environment.get_template(part).render({**given, "here": current}))
        for part in PARTS
    )
    return Frame(links, head, foot, given)
