"""Real hosts on the loopback: OpenSSH's SFTP server and an S3-compatible one (moto's, from PyPI)."""

from __future__ import annotations

import json
import os
import pwd
import resource
import shutil
import signal
import socket
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any
from urllib.request import Request, urlopen

from tests.tools import missing

SFTP_SERVER = "internal-sftp"


def free_port() -> int:
    with socket.socket() as finder:
        finder.bind(("127.0.0.1", 0))
        return int(finder.getsockname()[1])


def wait_for(port: int, process: subprocess.Popen[bytes], log: Path) -> None:
    for _ in range(600):
        with socket.socket() as asker:
            if asker.connect_ex(("127.0.0.1", port)) == 0:
                return
        assert process.poll() is None, log.read_text(encoding="utf-8", errors="replace")
        time.sleep(0.05)
    raise AssertionError(f"nothing came up on port {port}: {log.read_text(encoding='utf-8')}")


def somebody() -> str:
    """The user that servers run as: never root."""
    return "nobody" if os.getuid() == 0 else pwd.getpwuid(os.getuid()).pw_name


@contextmanager
def room_of(user: str) -> Iterator[Path]:
    """A folder that the user can reach and write to, unlike pytest's own."""
    room = Path(tempfile.mkdtemp(prefix="sitegen-"))
    room.chmod(0o755)
    if os.getuid() == 0:
        shutil.chown(room, user)
    try:
        yield room
    finally:
        for folder in room.rglob("*"):
            if folder.is_dir() and not folder.is_symlink():
                folder.chmod(0o700)
        shutil.rmtree(room, ignore_errors=True)


@contextmanager
def running(
    command: list[str],
    port: int,
    log: Path,
    *,
    user: str | None = None,
    before: Callable[[], Any] | None = None,
    env: dict[str, str] | None = None,
) -> Iterator[subprocess.Popen[bytes]]:
    """A server for the length of the block, ended with all that it has started."""
    # setuid within Popen needs root; as an ordinary user everything is that user's already.
    as_user: dict[str, Any] = {}
    if user and os.getuid() == 0:
        as_user = {"user": user, "group": pwd.getpwnam(user).pw_gid, "extra_groups": []}
    with log.open("wb") as into:
        process = subprocess.Popen(
            command,
            stdin=subprocess.DEVNULL,
            stdout=into,
            stderr=into,
            start_new_session=True,
            preexec_fn=before,
            env=env,
            **as_user,
        )
        try:
            wait_for(port, process, log)
            yield process
        finally:
            try:
                os.killpg(process.pid, signal.SIGTERM)
                process.wait(5)
            except ProcessLookupError:
                pass
            except subprocess.TimeoutExpired:
                os.killpg(process.pid, signal.SIGKILL)
                process.wait(5)


@dataclass(frozen=True, slots=True)
class SshHost:
    """An SFTP server, and the home folder of somebody who may log in."""

    port: int
    user: str
    home: Path
    room: Path

    @property
    def www(self) -> Path:
        return self.room / "www"


@contextmanager
def ssh_host(largest_file: int | None = None) -> Iterator[SshHost]:
    """OpenSSH's server as an ordinary user. ``largest_file`` stands in for a disk that is full."""
    sshd = shutil.which("sshd", path=f"{os.environ.get('PATH', '')}:/usr/sbin:/usr/local/sbin")
    if sshd is None or shutil.which("ssh-keygen") is None:
        missing("OpenSSH's server")
    user = somebody()
    with room_of(user) as room, tempfile.TemporaryDirectory(prefix="sitegen-home-") as home_name:
        home = Path(home_name)
        (home / ".ssh").mkdir(mode=0o700)
        _key(home / ".ssh" / "kitchen")
        _key(room / "host")
        if os.getuid() == 0:
            shutil.chown(room / "host", user)
        shutil.copy(home / ".ssh" / "kitchen.pub", room / "authorized_keys")
        (room / "authorized_keys").chmod(0o644)
        (room / "www").mkdir()
        if os.getuid() == 0:
            shutil.chown(room / "www", user)
        port = free_port()
        (room / "config").write_text(
            f"Port {port}\nListenAddress 127.0.0.1\nHostKey {room}/host\nPidFile none\n"
            f"AuthorizedKeysFile {room}/authorized_keys\nStrictModes no\nUsePAM yes\n"
            f"PasswordAuthentication no\nKbdInteractiveAuthentication no\n"
            f"Subsystem sftp {SFTP_SERVER}\nForceCommand {SFTP_SERVER}\nMaxStartups 100\n"
        )
        host_key = (room / "host.pub").read_text().split()
        (home / ".ssh" / "known_hosts").write_text(
            f"[127.0.0.1]:{port} {host_key[0]} {host_key[1]}\n"
        )
        (home / ".ssh" / "config").write_text(
            f"Host kitchen\n  HostName 127.0.0.1\n  Port {port}\n  User {user}\n"
            f"Host kitchen 127.0.0.1\n  IdentityFile {home}/.ssh/kitchen\n"
        )

        def small_files() -> None:
            assert largest_file is not None
            signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
            resource.setrlimit(resource.RLIMIT_FSIZE, (largest_file, largest_file))

        command = [sshd, "-D", "-e", "-f", str(room / "config")]
        before = small_files if largest_file is not None else None
        log = home / "sshd.log"
        with running(command, port, log, user=user, before=before):
            yield SshHost(port, user, home, room)


def _key(file: Path) -> None:
    subprocess.run(
        ["ssh-keygen", "-q", "-t", "ed25519", "-N", "", "-C", "test", "-f", str(file)], check=True
    )


@dataclass(frozen=True, slots=True)
class S3Host:
    """An S3-compatible server that knows one pair of keys, and a bucket in it."""

    address: str
    bucket: str
    key: str
    secret: str
    client: Any
    reader_key: str
    """Keys of somebody who may only read."""
    reader_secret: str


@contextmanager
def s3_host() -> Iterator[S3Host]:
    """moto's server, told to check signatures and permissions."""
    port = free_port()
    address = f"http://127.0.0.1:{port}"
    with tempfile.TemporaryDirectory(prefix="sitegen-s3-") as room:
        command = [sys.executable, "-m", "moto.server", "-H", "127.0.0.1", "-p", str(port)]
        with running(command, port, Path(room) / "log"):
            yield _furnish(address)


def _furnish(address: str) -> S3Host:
    import boto3

    def client(service: str, key: str, secret: str) -> Any:
        return boto3.client(
            service,
            endpoint_url=address,
            region_name="us-east-1",
            aws_access_key_id=key,
            aws_secret_access_key=secret,
        )

    iam = client("iam", "setting-up", "setting-up")
    pairs = []
    for name, may in (("writer", ["s3:*"]), ("reader", ["s3:List*", "s3:Get*"])):
        iam.create_user(UserName=name)
        statement = {"Effect": "Allow", "Action": may, "Resource": "*"}
        policy = json.dumps({"Version": "2012-10-17", "Statement": [statement]})
        iam.put_user_policy(UserName=name, PolicyName="all", PolicyDocument=policy)
        made = iam.create_access_key(UserName=name)["AccessKey"]
        pairs.append((made["AccessKeyId"], made["SecretAccessKey"]))
    (key, secret), (reader_key, reader_secret) = pairs
    s3 = client("s3", key, secret)
    s3.create_bucket(Bucket="kitchen")
    plain = {"Content-Type": "text/plain"}
    # From here on every request must be signed by somebody who may make it.
    urlopen(Request(f"{address}/moto-api/reset-auth", data=b"0", headers=plain)).read()
    return S3Host(address, "kitchen", key, secret, s3, reader_key, reader_secret)
