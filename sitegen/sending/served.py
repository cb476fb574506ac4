"""Ask the site's address for every page and compare what comes with what was built."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from email.message import Message
from hashlib import sha256
from urllib.error import HTTPError, URLError
from urllib.parse import quote
from urllib.request import Request, urlopen

from sitegen import __version__
from sitegen.sending.built import Item
from sitegen.sending.headers import FOR_A_YEAR, headers

_PATIENCE = 20.0
_ASKERS = 8
_NOWHERE = "no-such-page-as-this.html"


@dataclass(frozen=True, slots=True)
class Served:
    """What a host was found to serve."""

    asked: int
    wrong: tuple[str, ...] = ()
    """``path: what is wrong``. A reader would see something else than what was built."""
    advice: tuple[str, ...] = ()
    """What the host could do better."""


def ask(
    address: str,
    items: Mapping[str, Item],
    progress: Callable[[str, int, int], None] = lambda *_: None,
) -> Served:
    """Fetch every file of the site from ``address`` (no slash at its end), bypassing caches."""
    wrong: list[str] = []
    types: list[str] = []
    fresh: list[str] = []

    def one(item: Item) -> tuple[Item, int, Message, bytes]:
        return (item, *_get(f"{address}/{quote(item.path)}"))

    with ThreadPoolExecutor(_ASKERS) as pool:
        for done, (item, status, said, body) in enumerate(pool.map(one, items.values()), start=1):
            progress("asking", done, len(items))
            expected = 404 if item.path == "404.html" and status == 404 else 200
            if status != expected:
                what = f"status {status}" if status else f"no answer ({said['why']})"
                wrong.append(f"{item.path}: {what}")
            elif sha256(body).hexdigest() != item.digest:
                wrong.append(f"{item.path}: not what was built ({len(body)} bytes)")
            else:
                if not alike(said.get("Content-Type", ""), headers(item.path).content_type):
                    types.append(f"{item.path} is served as {said.get('Content-Type', 'nothing')}")
                kept = said.get("Cache-Control", "")
                lasting = headers(item.path).cache_control == FOR_A_YEAR
                if ("immutable" in kept or "max-age=31536000" in kept) and not lasting:
                    fresh.append(f"{item.path} is served to be kept for a year")
    advice = [*types[:3], *fresh[:3]]
    status, said, _ = _get(f"{address}/{_NOWHERE}")
    if status != 404:
        advice.append(f"an address that does not exist is answered with {status or 'nothing'}")
    return Served(len(items), tuple(wrong), tuple(advice))


def alike(found: str, expected: str) -> bool:
    """Whether a type will do: the same essence, or another spelling of it that browsers take."""
    essence = found.partition(";")[0].strip().lower()
    wanted = expected.partition(";")[0]
    return essence in (wanted, *_ALSO.get(wanted, ()))


_ALSO = {
    "text/javascript": ("application/javascript",),
    "application/atom+xml": ("application/xml", "text/xml"),
    "application/feed+json": ("application/json",),
    "application/xml": ("text/xml",),
    "application/manifest+json": ("application/json",),
    "image/x-icon": ("image/vnd.microsoft.icon",),
}
"""Types that do the same: the HTML standard's JavaScript essence match; RFC 7303, 9.1 and 9.2."""


def _get(address: str) -> tuple[int, Message, bytes]:
    """Status, headers and body; status 0 with the reason in ``why`` if nothing answers."""
    asked = {"Cache-Control": "no-cache", "User-Agent": f"sitegen/{__version__}"}
    try:
        with urlopen(Request(address, headers=asked), timeout=_PATIENCE) as answer:
            return answer.status, answer.headers, answer.read()
    except HTTPError as error:
        return error.code, error.headers, error.read()
    except (URLError, OSError, ValueError) as error:
        message = Message()
        message["why"] = " ".join(str(getattr(error, "reason", error)).split())
        return 0, message, b""
