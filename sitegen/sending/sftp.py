"""SFTP as an fsspec file system that knows its hosts.

fsspec's own (over paramiko) does the work. What is different here: a host whose key is not known is
refused, where fsspec's would take any; ``~/.ssh/config`` is heeded; each thread has a channel of its
own, since one channel can't be used by two; and what is sent is not held up by an answer to every
32 KiB of it.
"""

from __future__ import annotations

import io
import logging
import os
import shlex
from contextlib import suppress
from pathlib import Path
from threading import Lock, local
from typing import Any

import paramiko
from fsspec.implementations.sftp import SFTPFileSystem

from sitegen.sending.errors import PASSWORD

_PATIENCE = 20.0
"""Seconds that a host has to answer."""

# paramiko writes what it raises to the log as well; nobody who sends a site reads that.
logging.getLogger("paramiko").addHandler(logging.NullHandler())
logging.getLogger("paramiko").propagate = False


class KnownHosts(SFTPFileSystem):  # type: ignore[misc]  # fsspec has no types
    """A connection to ``host``, as ``ssh host`` would make it."""

    cachable = False

    def _connect(self) -> None:
        self._channels = local()
        self._opening = Lock()
        self.client = paramiko.SSHClient()
        options = _options(self.host)
        for file in _known_hosts(options):
            self.client.load_system_host_keys(str(file))
        self.client.set_missing_host_key_policy(paramiko.RejectPolicy())
        host = str(options.get("hostname", self.host))
        port = self.ssh_kwargs.get("port") or int(options.get("port", 22))
        user = self.ssh_kwargs.get("username") or options.get("user")
        secret = os.environ.get(PASSWORD) or None
        keys = [str(k) for k in map(_home, options.get("identityfile", [])) if k.is_file()]
        self.client.connect(
            host,
            port,
            user,
            password=secret,
            passphrase=secret,
            key_filename=keys or None,
            sock=_through(options, host, port),
            timeout=_PATIENCE,
            banner_timeout=_PATIENCE,
            auth_timeout=_PATIENCE,
        )

    @property
    def ftp(self) -> Any:
        """This thread's channel."""
        if not hasattr(self._channels, "sftp"):
            with self._opening:
                self._channels.sftp = self.client.open_sftp()
        return self._channels.sftp

    def pipe_file(self, path: str, value: bytes, mode: str = "overwrite", **_: Any) -> None:
        """Write a file; the server's answers are awaited at the end, and the size is compared."""
        self.ftp.putfo(io.BytesIO(value), path, file_size=len(value), confirm=True)

    def cat_file(self, path: str, start: None = None, end: None = None, **_: Any) -> bytes:
        """A file's content, asked for ahead."""
        into = io.BytesIO()
        self.ftp.getfo(path, into)
        return into.getvalue()

    def rm_file(self, path: str) -> None:
        """Remove a file."""
        self.ftp.remove(path)

    def mv(self, old: str, new: str, **_: Any) -> None:
        """Rename over what is there. A host without OpenSSH's way of doing so has a gap of a moment."""
        try:
            self.ftp.posix_rename(old, new)
        except OSError as error:
            if "unsupported" not in str(error).lower():  # SSH_FX_OP_UNSUPPORTED has no errno
                raise
            with suppress(FileNotFoundError):
                self.ftp.remove(new)
            self.ftp.rename(old, new)

    def close(self) -> None:
        """End the connection."""
        self.client.close()


def home_folder(fs: KnownHosts) -> str:
    """The folder that one is in after logging in."""
    return str(fs.ftp.normalize("."))


def _options(host: str) -> dict[str, Any]:
    """What ``~/.ssh/config`` says of a host, ``%h`` and its kin filled in."""
    file = Path("~/.ssh/config").expanduser()
    config = paramiko.SSHConfig.from_path(str(file)) if file.is_file() else paramiko.SSHConfig()
    return dict(config.lookup(host))


def _known_hosts(options: dict[str, Any]) -> list[Path]:
    named = options.get("userknownhostsfile")
    users = shlex.split(named) if named else ["~/.ssh/known_hosts"]
    return [
        file for file in (*map(_home, users), Path("/etc/ssh/ssh_known_hosts")) if file.is_file()
    ]


def _through(options: dict[str, Any], host: str, port: int) -> Any:
    """The way to a host behind another, if the configuration names one."""
    jump = options.get("proxyjump", "none")
    if jump.lower() != "none":
        first, _, rest = jump.rpartition(",")
        on = ["-J", first] if first else []
        return paramiko.ProxyCommand(shlex.join(["ssh", *on, "-W", f"{host}:{port}", rest]))
    command = options.get("proxycommand", "none")
    return paramiko.ProxyCommand(command) if command.lower() != "none" else None


def _home(name: str) -> Path:
    return Path(name).expanduser()
