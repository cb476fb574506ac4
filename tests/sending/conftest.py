"""Sites to send, and places to send them to, each looked at from behind as well."""

from __future__ import annotations

import shutil
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest

from sitegen.site import Target
from tests.sending.hosts import S3Host, SshHost, s3_host, ssh_host


@pytest.fixture(scope="session")
def ssh() -> Iterator[SshHost]:
    with ssh_host() as host:
        yield host


@pytest.fixture(scope="session")
def s3() -> Iterator[S3Host]:
    with s3_host() as host:
        yield host


@pytest.fixture(autouse=True)
def a_home_of_its_own(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Path:
    """No test sees the keys of whoever runs it, or asks a cloud for some."""
    home = tmp_path / "home"
    home.mkdir()
    monkeypatch.setenv("HOME", str(home))
    for name in ("SSH_AUTH_SOCK", "AWS_PROFILE", "AWS_ENDPOINT_URL", "SITEGEN_SFTP_PASSWORD"):
        monkeypatch.delenv(name, raising=False)
    for name in ("AWS_ACCESS_KEY_ID", "AWS_SECRET_ACCESS_KEY", "AWS_SESSION_TOKEN"):
        monkeypatch.delenv(name, raising=False)
    monkeypatch.setenv("AWS_EC2_METADATA_DISABLED", "true")
    monkeypatch.setenv("AWS_DEFAULT_REGION", "us-east-1")
    return home


@dataclass(slots=True)
class Place:
    """A target, and the same place looked at without sitegen."""

    target: Target
    there: Callable[[], dict[str, bytes]]
    drop: Callable[[str, bytes], None]
    """Put a file there by hand."""
    wipe: Callable[[str], None]
    kind: str


_COUNT = iter(range(1_000_000))


def folder_place(root: Path, to: str, kind: str) -> Place:
    def there() -> dict[str, bytes]:
        files = (file for file in root.rglob("*") if file.is_file())
        return {file.relative_to(root).as_posix(): file.read_bytes() for file in files}

    def drop(path: str, content: bytes) -> None:
        file = root / path
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_bytes(content)
        for each in file.parents:  # the host runs as somebody else
            if each.is_relative_to(root):
                each.chmod(0o777)
        file.chmod(0o666)

    return Place(Target("live", to), there, drop, lambda path: (root / path).unlink(), kind)


@pytest.fixture
def folder_target(tmp_path: Path) -> Place:
    root = tmp_path / "www"
    return folder_place(root, str(root), "folder")


@pytest.fixture
def sftp_target(ssh: SshHost, a_home_of_its_own: Path) -> Place:
    shutil.copytree(ssh.home / ".ssh", a_home_of_its_own / ".ssh")
    root = ssh.www / f"site-{next(_COUNT)}"
    return folder_place(root, f"sftp://kitchen{root}", "sftp")


@pytest.fixture
def s3_target(s3: S3Host, monkeypatch: pytest.MonkeyPatch) -> Place:
    monkeypatch.setenv("AWS_ACCESS_KEY_ID", s3.key)
    monkeypatch.setenv("AWS_SECRET_ACCESS_KEY", s3.secret)
    prefix = f"site-{next(_COUNT)}"

    def names() -> list[str]:
        pages = s3.client.get_paginator("list_objects_v2").paginate(
            Bucket=s3.bucket, Prefix=f"{prefix}/"
        )
        return [each["Key"] for page in pages for each in page.get("Contents", [])]

    def there() -> dict[str, bytes]:
        got = {name: s3.client.get_object(Bucket=s3.bucket, Key=name) for name in names()}
        return {name[len(prefix) + 1 :]: one["Body"].read() for name, one in got.items()}

    def drop(path: str, content: bytes) -> None:
        s3.client.put_object(Bucket=s3.bucket, Key=f"{prefix}/{path}", Body=content)

    def wipe(path: str) -> None:
        s3.client.delete_object(Bucket=s3.bucket, Key=f"{prefix}/{path}")

    target = Target("live", f"s3://{s3.bucket}/{prefix}", endpoint=s3.address)
    return Place(target, there, drop, wipe, "s3")


@pytest.fixture(params=["folder", "sftp", "s3"])
def place(request: Any) -> Place:
    """Each kind of target in turn."""
    found: Place = request.getfixturevalue(f"{request.param}_target")
    return found
