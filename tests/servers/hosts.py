"""Three static hosts from Debian, each run as an ordinary user with the few lines beside this file."""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from tests.sending.hosts import free_port, room_of, running, somebody
from tests.tools import missing

HERE = Path(__file__).resolve().parent


@dataclass(frozen=True, slots=True)
class Host:
    """A program, its configuration, and how it is told to stay in the foreground with it."""

    program: str
    configuration: str
    words: tuple[str, ...]


HOSTS: Mapping[str, Host] = {
    "nginx": Host("nginx", "nginx.conf", ("-e", "stderr", "-c", "$CONF")),
    "apache": Host("apache2", "apache.conf", ("-D", "FOREGROUND", "-f", "$CONF")),
    "lighttpd": Host("lighttpd", "lighttpd.conf", ("-D", "-f", "$CONF")),
}


@contextmanager
def hosting(name: str, site: Path, prefix: str = "") -> Iterator[str]:
    """Serve ``site`` under ``prefix`` (``""`` or ``"/a/b"``); the address without a slash at its end."""
    host = HOSTS[name]
    path = f"{os.environ.get('PATH', '')}:/usr/sbin:/usr/local/sbin"
    program = shutil.which(host.program, path=path)
    if program is None:
        missing(host.program)
    user = somebody()
    with room_of(user) as room:
        docroot = room / "docroot"
        _lay(site, docroot / prefix.strip("/"))
        port = free_port()
        text = (HERE / host.configuration).read_text(encoding="utf-8")
        known = {"ROOM": room, "DOCROOT": docroot, "PREFIX": prefix, "PORT": port}
        for word, value in known.items():
            text = text.replace(f"${word}", str(value))
        configuration = room / host.configuration
        configuration.write_text(text, encoding="utf-8")
        words = [word.replace("$CONF", str(configuration)) for word in host.words]
        with running([program, *words], port, room / "out.log", user=user):
            yield f"http://127.0.0.1:{port}{prefix}"


def _lay(site: Path, where: Path) -> None:
    """The site where the server's user may read it: pytest's folders are shut to others."""

    def one(source: str, target: str) -> None:
        try:
            os.link(source, target)
        except OSError:
            shutil.copyfile(source, target)

    shutil.copytree(site, where, copy_function=one)
    for folder in (where, *where.parents, *(f for f in where.rglob("*") if f.is_dir())):
        if folder.stat().st_uid == os.getuid() and folder.is_relative_to(where.parent):
            folder.chmod(0o755)
