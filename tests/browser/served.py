"""A plain static host on the loopback address, as strict about content as a careful one."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from contextlib import contextmanager
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from threading import Thread

from sitegen.preview.parts import part_of

POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; font-src 'self'; "
    "media-src 'self'; connect-src 'self'; manifest-src 'self'; worker-src 'self'; "
    "form-action 'self'; base-uri 'none'; frame-ancestors 'none'"
)
"""The Content-Security-Policy (W3C CSP Level 3) that the site has to live with: nothing inline."""

Address = str
"""``http://127.0.0.1:PORT/prefix/``, ending in a slash."""


class _Handler(SimpleHTTPRequestHandler):
    def __init__(self, *args: object, prefix: str, policy: bool = True, **named: object) -> None:
        self._prefix, self._policy = prefix, policy
        super().__init__(*args, **named)  # type: ignore[arg-type]

    def translate_path(self, path: str) -> str:
        if not path.startswith(self._prefix):
            return "/nowhere"
        return super().translate_path("/" + path[len(self._prefix) :])

    def do_GET(self) -> None:
        """A part of a file where one is asked for, as static hosts give it."""
        path = Path(self.translate_path(self.path))
        part = None
        if path.is_file() and path.suffix in (".webm", ".mp4"):
            part = part_of(self.headers.get("Range", ""), path.stat().st_size)
        if part is None:
            super().do_GET()
            return
        first, last = part
        body = path.read_bytes()
        self.send_response(206)
        self.send_header("Content-Type", self.guess_type(str(path)))
        self.send_header("Content-Range", f"bytes {first}-{last}/{len(body)}")
        self.send_header("Content-Length", str(last - first + 1))
        self.end_headers()
        self.wfile.write(body[first : last + 1])

    def send_error(self, code: int, message: str | None = None, explain: str | None = None) -> None:
        """A missing page is answered as static hosts do: the site's own 404.html, status 404."""
        page = Path(self.directory, "404.html")
        if code != 404 or not page.is_file():
            super().send_error(code, message, explain)
            return
        body = page.read_bytes()
        self.send_response(404)
        self.send_header("Content-Type", "text/html; charset=utf-8")
        self.send_header("Content-Length", str(len(body)))
        self.end_headers()
        if self.command != "HEAD":
            self.wfile.write(body)

    def end_headers(self) -> None:
        if self._policy:
            self.send_header("Content-Security-Policy", POLICY)
        self.send_header("X-Content-Type-Options", "nosniff")
        self.send_header("Cache-Control", "no-store")
        super().end_headers()

    def log_message(self, format: str, *args: object) -> None:
        """Say nothing: a test tells what matters."""


class _Server(ThreadingHTTPServer):
    def handle_error(self, request: object, client_address: object) -> None:
        """A browser that hangs up, as one does that has enough of a film, is no error."""
        if not isinstance(sys.exc_info()[1], ConnectionError):
            super().handle_error(request, client_address)  # type: ignore[arg-type]


@contextmanager
def serving(folder: Path, prefix: str = "", *, policy: bool = True) -> Iterator[Address]:
    """Serve ``folder`` under ``prefix`` (``"/a/b"``) while the block runs.

    Without ``policy`` the pages' own is the only one.
    """
    start = "/" + prefix.strip("/") + "/" if prefix.strip("/") else "/"
    handler = partial(_Handler, directory=str(folder), prefix=start, policy=policy)
    with _Server(("127.0.0.1", 0), handler) as server:
        thread = Thread(target=server.serve_forever, kwargs={"poll_interval": 0.05}, daemon=True)
        thread.start()
        try:
            yield f"http://127.0.0.1:{server.server_port}{start}"
        finally:
            server.shutdown()
            thread.join()
