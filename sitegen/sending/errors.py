"""Why a site could not be sent, in words for the author, and with no secret in them."""

from __future__ import annotations

import errno
import os
import socket
from collections.abc import Iterator
from contextlib import contextmanager

PASSWORD = "SITEGEN_SFTP_PASSWORD"
"""The environment variable of a password, or of a key's passphrase, for SFTP."""
_SECRETS = (PASSWORD, "AWS_SECRET_ACCESS_KEY", "AWS_SESSION_TOKEN")


class NotSent(Exception):
    """A sentence without a full stop: what stood in the way, and what to do about it."""


class InTheWay(NotSent):
    """Files at the target that sitegen did not send stand where pages would go."""

    def __init__(self, paths: tuple[str, ...]) -> None:
        super().__init__(", ".join(paths))
        self.paths = paths


@contextmanager
def told(place: str, doing: str) -> Iterator[None]:
    """Turn whatever a store raises in the block into :class:`NotSent`.

    ``place`` is the target as it may be printed, ``doing`` what was tried: ``"sending index.html"``.
    """
    try:
        yield
    except NotSent:
        raise
    except Exception as error:  # each back end has a family of its own
        said = without_secrets(_words(error))
        raise NotSent(f"{doing}: {place} says: {said}") from error


def without_secrets(text: str) -> str:
    """A message with every secret of the environment blotted out."""
    for name in _SECRETS:
        if secret := os.environ.get(name):
            text = text.replace(secret, "•••")
    return text


def _words(error: Exception) -> str:
    """By the name of what was raised, so that no back end need be imported to say it."""
    names = {kind.__name__ for kind in type(error).__mro__}
    if "BadHostKeyException" in names:
        return (
            "this host's key is not the one in your known_hosts file. If the host really has a new "
            "one, remove the old line ('ssh-keygen -R') and log in once with 'ssh' to confirm it"
        )
    if "SSHException" in names and "not found in known_hosts" in str(error):
        return (
            "this host is not in your known_hosts file. Log in once with 'ssh', compare the host's "
            "fingerprint with the one that its owner gives, and confirm it"
        )
    if names & {"AuthenticationException", "PasswordRequiredException"} or (
        "SSHException" in names and "No authentication methods" in str(error)
    ):
        return (
            "it does not let you in. Your SSH agent, the keys in ~/.ssh and those named in "
            f"~/.ssh/config were tried; a password or a key's passphrase may be given in {PASSWORD}"
        )
    if names & {"NoCredentialsError", "PartialCredentialsError", "ProfileNotFound"}:
        return (
            "no keys for it were found. Set AWS_ACCESS_KEY_ID and AWS_SECRET_ACCESS_KEY in the "
            "environment, or put them in ~/.aws/credentials and name their section as 'profile'"
        )
    if isinstance(error, socket.gaierror):
        return "there is no host of that name, or no network"
    if names & {"EndpointConnectionError", "NoValidConnectionsError"} or isinstance(
        error, ConnectionRefusedError
    ):
        return "nothing answers at that address"
    if isinstance(error, (EOFError, ConnectionError)) or str(error) in _CUT:
        return "the connection was lost"
    if isinstance(error, TimeoutError):
        return "it did not answer in time"
    return _of_system(error)


_CUT = ("Socket is closed", "Server connection dropped: ", "SSH session not active")
"""What paramiko says of a line that went dead."""
_SYSTEM = {
    errno.EACCES: "you have no permission there",
    errno.EPERM: "you have no permission there",
    errno.ENOSPC: "its disk is full",
    errno.EDQUOT: "your share of its disk is used up",
    errno.EROFS: "it can only be read",
    errno.ENOENT: "there is no such folder or bucket",
    errno.ENOTDIR: "a file stands where a folder is needed",
}


def _of_system(error: Exception) -> str:
    if isinstance(error, OSError) and error.errno in _SYSTEM:
        more = f" ({error.strerror or error})" if error.errno in (errno.EACCES, errno.EPERM) else ""
        return _SYSTEM[error.errno] + more
    said = str(error).strip() or type(error).__name__
    if isinstance(error, PermissionError):
        return f"you have no permission there ({said})"
    if isinstance(error, FileNotFoundError):
        return f"there is no such folder or bucket ({said})"
    if said.startswith("size mismatch in put"):  # paramiko's words
        return "only a part of the file arrived; is its disk full, or your share of it used up?"
    if said == "Failure":  # all that an SFTP server says of a full disk (SSH_FX_FAILURE)
        return "it failed and gives no reason; is its disk full, or your share of it used up?"
    return said
