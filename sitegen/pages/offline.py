"""Reading without a network: the service worker at the site's root, and the page it shows last.

The worker (W3C Service Workers) stands beside the home page, so that its scope is the site, wherever
that stands. Its version is a hash of what it holds ready, which changes with any asset: a browser then
takes the new worker, and the old one's own files go. Pages and pictures that were read stay, up to
a number of each, the oldest going first.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping
from pathlib import Path

from sitegen.pages import address

_SCRIPT = Path(__file__).parent / "scripts" / "worker.js"
READY = ("page.css", "first.js", "kept.js", "icon.svg")
"""Assets that the page shown without a network is made of."""


def worker(assets: Mapping[str, str], page: bytes) -> bytes:
    """The worker's script. ``assets`` is the hashed address of each asset, ``page`` the page shown
    when a page that was never read is asked for without a network.
    """
    files = [address.OFFLINE, *(assets[name] for name in READY if name in assets)]
    script = _SCRIPT.read_bytes()
    mark = hashlib.sha256(script + page)
    for held in sorted(assets.values()):
        mark.update(held.encode() + b"\n")
    data = {"version": mark.hexdigest()[:12], "page": address.OFFLINE, "files": files}
    return f"const WORKER={json.dumps(data, separators=(',', ':'))};\n".encode() + script
