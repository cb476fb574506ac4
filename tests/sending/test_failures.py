"""What goes wrong at a host is said in words that help, and nothing is harmed."""

from __future__ import annotations

import os
import pwd
import resource
import subprocess
from pathlib import Path

import paramiko
import pytest

from sitegen.sending.errors import NotSent
from sitegen.sending.opening import open_store
from sitegen.sending.store import Files
from sitegen.site import Target
from tests.sending.conftest import Place
from tests.sending.hosts import S3Host, SshHost, free_port, ssh_host
from tests.sending.sites import SITE, built, pages, send_to


def refused(target: Target, folder: Path) -> str:
    with pytest.raises(NotSent) as stopped:
        send_to(target, built(folder))
    return str(stopped.value)


# --- SFTP -----------------------------------------------------------------------------------------


def test_a_host_that_is_not_known_is_not_trusted(sftp_target: Place, tmp_path: Path) -> None:
    (Path(os.environ["HOME"]) / ".ssh" / "known_hosts").write_text("")
    assert "not in your known_hosts" in refused(sftp_target.target, tmp_path)
    assert sftp_target.there() == {}


def test_a_host_with_another_key_is_not_trusted(
    sftp_target: Place, ssh: SshHost, tmp_path: Path
) -> None:
    other = tmp_path / "other"
    subprocess.run(["ssh-keygen", "-q", "-t", "ed25519", "-N", "", "-f", str(other)], check=True)
    kind, key, *_ = other.with_suffix(".pub").read_text().split()
    known = Path(os.environ["HOME"]) / ".ssh" / "known_hosts"
    known.write_text(f"[127.0.0.1]:{ssh.port} {kind} {key}\n")
    assert "key is not the one in your known_hosts" in refused(sftp_target.target, tmp_path)
    assert sftp_target.there() == {}


def test_a_key_that_is_not_let_in(
    sftp_target: Place, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    key = Path(os.environ["HOME"]) / ".ssh" / "kitchen"
    key.unlink()
    subprocess.run(["ssh-keygen", "-q", "-t", "ed25519", "-N", "", "-f", str(key)], check=True)
    monkeypatch.setenv("SITEGEN_SFTP_PASSWORD", "a-pass-word-of-mine")
    # The configuration names the key by where it was made; this one is in this home.
    config = key.with_name("config")
    config.write_text(
        "".join(
            f"  IdentityFile {key}\n" if "IdentityFile" in line else f"{line}\n"
            for line in config.read_text().splitlines()
        )
    )
    said = refused(sftp_target.target, tmp_path)
    assert "does not let you in" in said
    assert "a-pass-word-of-mine" not in said


def test_a_folder_one_may_not_write_to(sftp_target: Place, ssh: SshHost, tmp_path: Path) -> None:
    closed = ssh.room / "closed"
    closed.mkdir(mode=0o555, exist_ok=True)
    target = Target("live", f"sftp://kitchen{closed}/site")
    said = refused(target, tmp_path)
    assert "no permission" in said
    assert list(closed.iterdir()) == []


def test_a_folder_whose_parent_is_missing(sftp_target: Place, ssh: SshHost, tmp_path: Path) -> None:
    said = refused(Target("live", f"sftp://kitchen{ssh.room}/nowhere/site"), tmp_path)
    assert f"there is no folder {ssh.room}/nowhere" in said


def test_a_disk_that_fills_up_leaves_the_old_site_whole(
    a_home_of_its_own: Path, tmp_path: Path
) -> None:
    """``RLIMIT_FSIZE`` on the server stands in for the full disk: SFTP tells both alike."""
    with ssh_host(largest_file=60_000) as host:
        (host.home / ".ssh").rename(a_home_of_its_own / ".ssh")
        config = a_home_of_its_own / ".ssh" / "config"
        config.write_text(config.read_text().replace(str(host.home), str(a_home_of_its_own)))
        target = Target("live", f"sftp://kitchen{host.www}/site")
        small = {p: c for p, c in SITE.items() if not p.startswith("photos")}
        send_to(target, built(tmp_path / "a", small))
        said = refused(target, tmp_path / "b")
        assert "is its disk full" in said
        root = host.www / "site"
        there = {
            file.relative_to(root).as_posix(): file.read_bytes()
            for file in root.rglob("*")
            if file.is_file()
        }
        assert pages(there) == small  # and no half of a file beside it


def test_a_line_that_goes_dead_is_said_and_the_next_send_finishes(
    sftp_target: Place, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    real = Files.put

    def cut(self: Files, path: str, *rest: object) -> object:
        if path == "index.html":
            self._fs.client.get_transport().sock.close()
        return real(self, path, *rest)  # type: ignore[arg-type]

    site = built(tmp_path)
    with monkeypatch.context() as patch:
        patch.setattr(Files, "put", cut)
        assert "connection was lost" in refused(sftp_target.target, tmp_path)
    assert "recipes/rye-loaf.html" in sftp_target.there()
    assert send_to(sftp_target.target, site).wrong == ()
    assert pages(sftp_target.there()) == SITE


def test_a_host_that_can_t_rename_over_a_file(
    sftp_target: Place, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Some hosts know SFTP version 3 (draft-ietf-secsh-filexfer-02) and none of OpenSSH's additions."""

    def unsupported(self: object, old: str, new: str) -> None:
        raise OSError("Operation unsupported")

    monkeypatch.setattr(paramiko.SFTPClient, "posix_rename", unsupported)
    send_to(sftp_target.target, built(tmp_path))
    now = {**SITE, "index.html": b"another home"}
    assert send_to(sftp_target.target, built(tmp_path / "b", now)).wrong == ()
    assert pages(sftp_target.there()) == now


def test_nobody_listens(a_home_of_its_own: Path, tmp_path: Path) -> None:
    said = refused(Target("live", f"sftp://me@127.0.0.1:{free_port()}/www"), tmp_path)
    assert "nothing answers" in said


def test_the_home_folder_is_where_a_path_with_a_tilde_starts(
    sftp_target: Place, ssh: SshHost, tmp_path: Path
) -> None:
    home = Path(pwd.getpwnam(ssh.user).pw_dir)
    start = home if home.is_dir() else Path("/")
    way = os.path.relpath(sftp_target.target.to.removeprefix("sftp://kitchen"), start)
    send_to(Target("live", f"sftp://kitchen/~/{way}"), built(tmp_path))
    assert pages(sftp_target.there()) == SITE


# --- S3 -------------------------------------------------------------------------------------------


def test_no_keys(s3: S3Host, tmp_path: Path) -> None:
    target = Target("live", f"s3://{s3.bucket}/none", endpoint=s3.address)
    assert "AWS_ACCESS_KEY_ID" in refused(target, tmp_path)


def test_wrong_keys_are_not_repeated(
    s3_target: Place, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("AWS_SECRET_ACCESS_KEY", "wrong-and-not-to-be-seen")
    said = refused(s3_target.target, tmp_path)
    assert "no permission" in said
    assert "wrong-and-not-to-be-seen" not in said
    assert s3_target.there() == {}


def test_keys_that_may_only_read(
    s3_target: Place, s3: S3Host, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("AWS_ACCESS_KEY_ID", s3.reader_key)
    monkeypatch.setenv("AWS_SECRET_ACCESS_KEY", s3.reader_secret)
    assert "no permission" in refused(s3_target.target, tmp_path)
    assert s3_target.there() == {}


def test_keys_from_the_usual_file(
    s3_target: Place, s3: S3Host, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    for name in ("AWS_ACCESS_KEY_ID", "AWS_SECRET_ACCESS_KEY"):
        monkeypatch.delenv(name)
    file = Path(os.environ["HOME"]) / ".aws" / "credentials"
    file.parent.mkdir()
    file.write_text(
        f"[kitchen]\naws_access_key_id = {s3.key}\naws_secret_access_key = {s3.secret}\n"
    )
    with_profile = Target(
        "live", s3_target.target.to, endpoint=s3.address, profile="kitchen", zone="us-east-1"
    )
    assert send_to(with_profile, built(tmp_path)).wrong == ()
    assert pages(s3_target.there()) == SITE
    wrong = Target("live", s3_target.target.to, endpoint=s3.address, profile="kitchn")
    assert "no keys" in refused(wrong, tmp_path)


def test_a_bucket_that_is_not_there(s3_target: Place, s3: S3Host, tmp_path: Path) -> None:
    said = refused(Target("live", "s3://no-such-bucket", endpoint=s3.address), tmp_path)
    assert "no such folder or bucket" in said


# --- a folder -------------------------------------------------------------------------------------


def test_a_full_disk_here(folder_target: Place, tmp_path: Path) -> None:
    small = {p: c for p, c in SITE.items() if not p.startswith("photos")}
    send_to(folder_target.target, built(tmp_path / "a", small))
    site = built(tmp_path / "b")
    soft, hard = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (60_000, hard))
    try:
        with pytest.raises(NotSent):
            send_to(folder_target.target, site)
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, (soft, hard))
    assert pages(folder_target.there()) == small
    assert send_to(folder_target.target, site).wrong == ()
    assert pages(folder_target.there()) == SITE


@pytest.mark.parametrize("to", [".", "content", "content/recipes", "output", "output/x", ".."])
def test_the_site_s_own_folders_are_no_target(tmp_path: Path, to: str) -> None:
    site = built(tmp_path)
    with (
        pytest.raises(NotSent, match="of its own"),
        open_store(Target("live", to), tmp_path, site.folder),
    ):
        raise AssertionError("opened")


def test_a_disk_that_is_not_mounted(tmp_path: Path) -> None:
    said = refused(Target("live", str(tmp_path / "usb" / "www")), tmp_path)
    assert "is the disk there?" in said
    assert not (tmp_path / "usb").exists()


def test_a_file_where_a_folder_is_needed(folder_target: Place, tmp_path: Path) -> None:
    folder_target.drop("recipes", b"a file")
    refused(folder_target.target, tmp_path)
    assert folder_target.there()["recipes"] == b"a file"
