"""What was sent to a target: a small file kept there, beside the pages.

It names every file that sitegen sent, with its content's hash and the mark that the target showed
for it then, so that the next send, from whatever machine, knows what differs, what is its own to
remove, and what somebody else has changed. Nothing in it is secret.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from sitegen.sending.headers import Headers
from sitegen.sending.store import Store

NAME = ".sitegen-sent.json"
_FORM = 1
_HEADERS = Headers("application/json", "no-cache")


@dataclass(frozen=True, slots=True)
class Was:
    """One file, as it was sent."""

    digest: str
    mark: str
    headers: str = ""


@dataclass(slots=True)
class Sent:
    """The record of one target."""

    files: dict[str, Was] = field(default_factory=dict)
    sending: dict[str, str] = field(default_factory=dict)
    """Path → SHA-256 of what a send that has not ended was about to put there."""
    unreadable: bool = False
    """There is a record, but it is damaged or of another version."""
    raw: bytes | None = None
    """The record as it stands at the target."""


def read_record(store: Store) -> Sent:
    """The record at a target; an empty one if there is none."""
    raw = store.read(NAME)
    if raw is None:
        return Sent()
    try:
        data = json.loads(raw)
        if data["form"] != _FORM:
            return Sent(unreadable=True, raw=raw)
        files = {
            path: Was(str(was["sha256"]), str(was["mark"]), str(was["headers"]))
            for path, was in _safe(data["files"]).items()
        }
        sending = {path: str(digest) for path, digest in _safe(data["sending"]).items()}
    except (ValueError, KeyError, TypeError, AttributeError):
        return Sent(unreadable=True, raw=raw)
    return Sent(files, sending, raw=raw)


def write_record(store: Store, sent: Sent) -> None:
    """Put the record at the target."""
    data = {
        "form": _FORM,
        "files": {
            path: {"sha256": was.digest, "mark": was.mark, "headers": was.headers}
            for path, was in sorted(sent.files.items())
        },
        "sending": dict(sorted(sent.sending.items())),
    }
    raw = json.dumps(data, ensure_ascii=False, indent=0).encode()
    store.put(NAME, raw, _HEADERS)
    sent.raw = raw


def _safe(data: Mapping[str, Any]) -> dict[str, Any]:
    """Without paths that lead out of the target: the record comes from a machine of somebody's."""
    return {
        path: value
        for path, value in data.items()
        if path and "\\" not in path and not {"", ".", ".."} & set(path.split("/"))
    }
