"""Follow every link of a site that is served, as a search engine would."""

from __future__ import annotations

from collections import deque
from collections.abc import Iterator
from dataclasses import dataclass, field
from email.message import Message
from functools import cache
from http.client import HTTPConnection
from urllib.parse import quote, unquote, urldefrag, urljoin, urlsplit

from bs4 import BeautifulSoup


@dataclass(slots=True)
class Answer:
    """What came for one address."""

    status: int
    headers: Message
    body: bytes

    @property
    def kind(self) -> str:
        """The media type, without its parameters."""
        return str(self.headers.get("Content-Type", "")).partition(";")[0].strip().lower()


@dataclass(slots=True)
class Crawl:
    """What was found from a home page on."""

    home: str
    answers: dict[str, Answer] = field(default_factory=dict)
    """By the path below the home address."""
    broken: list[str] = field(default_factory=list)
    """``page: link: what came``."""


class Line:
    """One connection that is kept open; redirections are not followed."""

    def __init__(self, address: str) -> None:
        parts = urlsplit(address)
        assert parts.hostname == "127.0.0.1"
        self._connection = HTTPConnection(parts.hostname, parts.port, timeout=20)

    def get(self, address: str) -> Answer:
        parts = urlsplit(address)
        self._connection.request("GET", parts.path + (f"?{parts.query}" if parts.query else ""))
        answer = self._connection.getresponse()
        return Answer(answer.status, answer.headers, answer.read())

    def close(self) -> None:
        self._connection.close()


def crawl(address: str) -> Crawl:
    """From ``address`` (a folder, without its slash) on, everything that is linked and lies below it."""
    found, line = Crawl(address + "/"), Line(address)
    ahead = deque([("", found.home)])
    seen = {found.home}
    while ahead:
        page, at = ahead.popleft()
        answer = line.get(at)
        found.answers[unquote(at.removeprefix(found.home))] = answer
        if answer.status != 200:
            found.broken.append(f"{page}: {at}: status {answer.status}")
            continue
        if answer.kind != "text/html":
            continue
        for link in links(answer.body):
            target = urldefrag(urljoin(at, link)).url
            target = quote(target, safe="/:%?=&#~+,;@!$'()*")
            if target.startswith(found.home) and target not in seen:
                seen.add(target)
                ahead.append((at, target))
            elif urlsplit(target).netloc == urlsplit(address).netloc and target not in seen:
                found.broken.append(f"{at}: {link}: leads out of the site's path")
    line.close()
    return found


@cache
def links(page: bytes) -> tuple[str, ...]:
    """Every address in a page that a reader or a browser may ask for. Pages are the same on each host."""
    return tuple(_links(BeautifulSoup(page, "lxml")))


def _links(soup: BeautifulSoup) -> Iterator[str]:
    for tag in soup.find_all(True):
        for name in ("href", "src", "data", "poster", "action"):
            if isinstance(tag.get(name), str) and not str(tag[name]).startswith(
                ("data:", "mailto:")
            ):
                yield str(tag[name])
        for candidate in str(tag.get("srcset") or "").split(","):
            if candidate.strip():
                yield candidate.split()[0]
