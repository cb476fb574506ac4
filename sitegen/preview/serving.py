"""The preview's server: this machine only, pages from memory, nothing of the disk by its path."""

from __future__ import annotations

import json
import socket
import sys
from collections.abc import Mapping
from hashlib import sha256
from http import HTTPStatus
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import ClassVar
from urllib.parse import parse_qs, quote, unquote, urlsplit

from sitegen import faults
from sitegen.media_types import TYPES
from sitegen.preview.desk import Desk
from sitegen.preview.edition import ASSET, Edition, Shown
from sitegen.preview.panel import EVENTS, SCRIPT, SHEET, injected, mark, panel, stand_in, waiting
from sitegen.preview.parts import part_of

HOME = "127.0.0.1"
FIRST_PORT = 8400
PORTS_TRIED = 50
HEARTBEAT = 15.0
"""Seconds after which a line is sent to a page that listens, to find out whether it still does."""
PULSE = 0.3
"""The same while the site is being read, to say how far it is."""

POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; media-src 'self'; "
    "font-src 'self'; connect-src 'self'; manifest-src 'self'; worker-src 'none'; "
    "base-uri 'none'; form-action 'self'; frame-ancestors 'none'"
)
"""As the pages' own, with the events let in. No worker: an offline copy would show old pages."""


_LASTING = "max-age=86400, immutable"
"""For assets, which have a mark of their content in their names: a page is back sooner."""


class PortTaken(Exception):
    """The port that was asked for is in use."""


class PreviewServer(ThreadingHTTPServer):
    """Serves one desk."""

    desk: Desk
    daemon_threads = True
    allow_reuse_address = sys.platform != "win32"  # there it would let two servers share a port

    def __init__(self, desk: Desk | None, port: int) -> None:
        """Without a desk, it must be set before serving begins; until then, whoever asks waits."""
        if desk is not None:
            self.desk = desk
        super().__init__((HOME, port), _Handler)

    @property
    def port(self) -> int:
        """The port that it listens at."""
        return int(self.server_address[1])

    @property
    def address(self) -> str:
        """What to type into a browser."""
        return f"http://{HOME}:{self.port}/"

    def handle_error(self, request: object, client_address: object) -> None:
        """A browser that hangs up is no error; anything else is shown as usual."""
        if not isinstance(sys.exc_info()[1], ConnectionError | TimeoutError):
            super().handle_error(request, client_address)  # type: ignore[arg-type]


def open_server(desk: Desk | None, port: int | None) -> PreviewServer:
    """A server at ``port``, or at the first free one from 8400 on; raises :class:`PortTaken`."""
    tried = range(FIRST_PORT, FIRST_PORT + PORTS_TRIED) if port is None else (port,)
    for number in tried:
        try:
            return PreviewServer(desk, number)
        except OSError:
            continue
    raise PortTaken(f"port {port}" if port is not None else f"ports {tried[0]} to {tried[-1]}")


class _Handler(BaseHTTPRequestHandler):
    protocol_version = "HTTP/1.1"
    server_version = "sitegen"
    sys_version = ""
    timeout = 60
    disable_nagle_algorithm = True  # an event must not wait for the last one to be acknowledged
    server: PreviewServer
    _own: ClassVar[dict[str, bytes]] = {}

    def do_GET(self) -> None:
        if not self._is_for_us():
            self._plain(
                HTTPStatus.MISDIRECTED_REQUEST, "This preview answers to its own name only."
            )
            return
        parts = urlsplit(self.path)
        path = unquote(parts.path)
        if path == EVENTS:
            self._follow(parse_qs(parts.query).get("page", ["/"])[0])
        elif path in (SCRIPT, SHEET):
            self._send(HTTPStatus.OK, own_file(path.rsplit("/", 1)[1]), TYPES[path.rsplit(".")[-1]])
        else:
            self._page(path)

    do_HEAD = do_GET

    def log_message(self, format: str, *args: object) -> None:
        """Nothing: the terminal is for problems."""

    def _is_for_us(self) -> bool:
        """Whether the request names this server; another site's page could send it here (DNS)."""
        names = (HOME, "localhost", "[::1]")
        return self.headers.get("Host", "") in {f"{name}:{self.server.port}" for name in names}

    def _page(self, path: str) -> None:
        desk = self.server.desk
        edition = desk.at(path)
        name = edition.name_of(path)
        ending = name.rsplit(".", 1)[-1].lower()
        kind = TYPES.get(ending, "application/octet-stream")
        # In this order, since that there is no page of a name is known when all are planned.
        picture = edition.photo(name) if kind.startswith(("image/", "video/")) else None
        if picture is not None:
            self._send(HTTPStatus.OK, picture, kind)
            return
        status, shown = look_up(edition, name)
        if shown is None and not path.endswith("/") and edition.find(f"{name}/index.html"):
            self._redirect(f"/{quote(name)}/")
            return
        if shown is None:
            content = edition.photo(name)  # captions of a film
            if content is not None:
                self._send(HTTPStatus.OK, content, kind)
                return
            status, shown = not_there(desk, edition, path)
        if ending == "html" or status != HTTPStatus.OK:
            slip = slip_of(edition, shown)
            body = injected(shown.content, slip, shown.stamp, desk.note(edition))
            self._send(status, body, TYPES["html"])
        else:
            self._send(status, shown.content, kind, lasting=shown.stamp == ASSET)

    def _follow(self, page: str) -> None:
        """Send an event for every edition, until the page hangs up."""
        self.send_response(HTTPStatus.OK)
        self.send_header("Content-Type", "text/event-stream")
        self.send_header("Cache-Control", "no-store")
        self.send_header("Connection", "close")
        self.end_headers()
        self.close_connection = True
        if self.command == "HEAD":
            return
        desk = self.server.desk
        known = ""
        try:
            while not desk.closed:
                number = desk.number  # before the page: what comes meanwhile is told of next
                edition = desk.at(page)
                news = told(desk, edition, page)
                if news["stamp"] == known:
                    del news["html"]
                known, note = news["stamp"], news["note"]
                self._event("edition", news, number)
                while not desk.wait_for_news(number, PULSE if desk.is_reading else HEARTBEAT):
                    if note != (note := desk.note(edition)):
                        self._event("reading", {"note": note}, number)
                    else:
                        self.wfile.write(b": still here\n\n")
                        self.wfile.flush()
        except (ConnectionError, TimeoutError):
            return

    def _event(self, kind: str, news: Mapping[str, str], number: int) -> None:
        data = json.dumps(news, ensure_ascii=False)
        self.wfile.write(f"event: {kind}\nid: {number}\ndata: {data}\n\n".encode())
        self.wfile.flush()

    def _send(
        self, status: HTTPStatus, content: bytes, kind: str, *, lasting: bool = False
    ) -> None:
        """``lasting``: what is at this address will never be anything else."""
        part = None
        if status == HTTPStatus.OK and kind.startswith("video/"):
            part = part_of(self.headers.get("Range", ""), len(content))
        self.send_response(HTTPStatus.PARTIAL_CONTENT if part else status)
        if part:
            first, last = part
            self.send_header("Content-Range", f"bytes {first}-{last}/{len(content)}")
            content = content[first : last + 1]
        self.send_header("Content-Type", kind)
        self.send_header("Content-Length", str(len(content)))
        self.send_header("Cache-Control", _LASTING if lasting else "no-store")
        self.send_header("X-Content-Type-Options", "nosniff")
        self.send_header("Cross-Origin-Resource-Policy", "same-origin")
        self.send_header("Referrer-Policy", "no-referrer")
        if kind.startswith("text/html"):
            self.send_header("Content-Security-Policy", POLICY)
        self.end_headers()
        if self.command != "HEAD":
            self.wfile.write(content)

    def _redirect(self, to: str) -> None:
        self.send_response(HTTPStatus.TEMPORARY_REDIRECT)
        self.send_header("Location", to)
        self.send_header("Content-Length", "0")
        self.end_headers()

    def _plain(self, status: HTTPStatus, text: str) -> None:
        self._send(status, text.encode(), TYPES["txt"])


def told(desk: Desk, edition: Edition, page: str) -> dict[str, str]:
    """What an open page is told of an edition: what it is now, the slip, and how far reading is."""
    shown = look_up(edition, edition.name_of(unquote(page)))[1]
    if shown is None:
        shown = not_there(desk, edition, page)[1]
    slip = slip_of(edition, shown)
    html = shown.content.decode("utf-8", "replace")
    note = desk.note(edition)
    return {"stamp": shown.stamp, "mark": mark(slip), "slip": slip, "html": html, "note": note}


def look_up(edition: Edition, name: str) -> tuple[HTTPStatus, Shown | None]:
    """The page of that name; in its place, what keeps it from being laid out."""
    try:
        shown = edition.find(name)
    except Exception as error:  # a site's own template may raise anything
        return HTTPStatus.INTERNAL_SERVER_ERROR, _failed(edition, name, error)
    if shown is not None:
        return HTTPStatus.OK, shown
    if edition.theme is None:
        return HTTPStatus.INTERNAL_SERVER_ERROR, _barred(edition, "The theme can't be used", "")
    file = edition.file_of(name)
    if file:
        title = f"{file.rsplit('/', 1)[-1]} can't be shown yet"
        return HTTPStatus.INTERNAL_SERVER_ERROR, _barred(edition, title, file)
    return HTTPStatus.NOT_FOUND, None


def not_there(desk: Desk, edition: Edition, path: str) -> tuple[HTTPStatus, Shown]:
    """What stands for a page that is not there, or not yet."""
    if edition.is_early:
        content = waiting(desk.latest(), desk.folder)
        return HTTPStatus.SERVICE_UNAVAILABLE, Shown(content, _barred_stamp(content))
    try:
        shown = edition.find("404.html")
    except Exception as error:
        return HTTPStatus.INTERNAL_SERVER_ERROR, _failed(edition, "404.html", error)
    if shown is None:
        message = f"Nothing of this site is at {path}."
        page = stand_in("Not here", message, (), edition.gathered.site.folder)
        shown = Shown(page, "not-here")
    return HTTPStatus.NOT_FOUND, shown


def slip_of(edition: Edition, shown: Shown) -> str:
    """The slip for a page; a page that stands in for another says it all itself."""
    problems = edition.problems
    if shown.stamp.startswith("barred"):
        problems = tuple(p for p in problems if p.file not in shown.inputs)
    return panel(problems, shown.inputs, edition.gathered.site.folder)


def _barred(edition: Edition, title: str, file: str) -> Shown:
    problems = [p for p in edition.problems if p.file == file or not file]
    used = "" if problems else "A recipe that it uses has errors; mend that one first."
    message = used or "The page comes back as soon as this is mended:"
    folder = edition.gathered.site.folder
    content = stand_in(title, message, problems, folder)
    # The stamp follows what is said, so that the page is put in anew when that changes.
    mark = hash((content, tuple(problems))) & 0xFFFFFFFF
    return Shown(
        content, f"barred-{mark:08x}", (file,) if file else tuple(p.file for p in problems)
    )


def _failed(edition: Edition, name: str, error: Exception) -> Shown:
    folder = edition.gathered.site.folder
    problem = faults.of_page(name, error, folder)
    content = stand_in("This page can't be laid out", "", (problem,), folder)
    return Shown(content, _barred_stamp(content))


def _barred_stamp(content: bytes) -> str:
    return f"barred-{sha256(content).hexdigest()[:16]}"


def own_file(name: str) -> bytes:
    """The preview's own script or style sheet."""
    return Path(__file__).with_name(name).read_bytes()


def free_port() -> int:
    """A port that was free a moment ago."""
    with socket.socket() as probe:
        probe.bind((HOME, 0))
        return int(probe.getsockname()[1])
