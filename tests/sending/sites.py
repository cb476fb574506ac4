"""Built sites of a few small files, as a build leaves them."""

from __future__ import annotations

from collections.abc import Mapping
from hashlib import md5, sha256
from pathlib import Path

from sitegen.sending.built import Built, Item
from sitegen.sending.opening import open_store
from sitegen.sending.send import Outcome, send
from sitegen.site import Target

RECORD = ".sitegen-sent.json"

SITE = {
    "index.html": b"<a href='recipes/rye-loaf.html'>Rye loaf</a>",
    "404.html": b"not here",
    "recipes/index.html": b"all of them",
    "recipes/rye-loaf.html": b"rye, water, salt",
    "recipes/caf\xc3\xa9 au lait.html".encode("latin-1").decode("utf-8"): b"a name to be quoted",
    "assets/sheet.0123456789.css": b"body { color: black }",
    "photos/rye-loaf-4x3-400.0123456789.avif": bytes(range(256)) * 300,
    "feed.xml": b"<feed/>",
    "site.webmanifest": b"{}",
}


def built(folder: Path, files: Mapping[str, bytes] = SITE) -> Built:
    """A site in ``folder/output``, which holds just these files."""
    output = folder / "output"
    items = {}
    for path, content in sorted(files.items()):
        file = output / path
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_bytes(content)
        items[path] = Item(
            path, sha256(content).hexdigest(), md5(content).hexdigest(), len(content)
        )
    return Built(output, items)


def send_to(target: Target, site: Built, *, take_over: bool = False) -> Outcome:
    """Open the target and send."""
    folder = site.folder.parent
    with open_store(target, folder, site.folder) as store:
        return send(site, store, folder / "aside", take_over=take_over)


def pages(there: Mapping[str, bytes]) -> dict[str, bytes]:
    """What is at a target, without the record."""
    return {path: content for path, content in there.items() if path != RECORD}
