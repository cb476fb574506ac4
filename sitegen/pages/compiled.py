"""Compiled templates, kept beside a site: compiling them takes longer than laying out twenty recipes."""

from __future__ import annotations

import marshal
import shutil
import sys
from contextlib import suppress
from functools import cache
from hashlib import sha256
from importlib.metadata import version
from pathlib import Path

from jinja2.bccache import Bucket, BytecodeCache

from sitegen.wholefile import put_whole
from sitegen.workroom import Workroom


class Compiled(BytecodeCache):
    """A folder of compiled templates; where nothing can be written, nothing is kept."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder

    def load_bytecode(self, bucket: Bucket) -> None:
        """Take a template, if it was compiled from this text and is whole."""
        try:
            raw = (self.folder / bucket.key).read_bytes()
        except OSError:
            return
        if raw[:64] == _seal(bucket, raw[64:]):
            bucket.code = marshal.loads(raw[64:])

    def dump_bytecode(self, bucket: Bucket) -> None:
        """Keep a template: whole, or not at all."""
        code = marshal.dumps(bucket.code)
        with suppress(OSError):
            put_whole(self.folder / bucket.key, _seal(bucket, code) + code)


def _seal(bucket: Bucket, code: bytes) -> bytes:
    return sha256(bucket.checksum.encode() + code).hexdigest().encode()


def compiled(site_folder: Path) -> Compiled | None:
    """Where the templates of a site are kept by this program; None if it has not been built yet."""
    workroom = Workroom(site_folder).folder
    if not workroom.is_dir():
        return None
    folder = workroom / "templates" / _mark()
    if not folder.is_dir():
        shutil.rmtree(folder.parent, ignore_errors=True)  # another program's
        try:
            folder.mkdir(parents=True, exist_ok=True)
        except OSError:
            return None
    return Compiled(folder)


@cache
def _mark() -> str:
    """Of all that a template is compiled by: Python, Jinja, and what this folder adds to it."""
    whole = sha256(f"{sys.version};{version('jinja2')};{version('markupsafe')}".encode())
    for file in sorted(Path(__file__).parent.glob("*.py")):
        whole.update(b"%d;" % file.stat().st_size + file.read_bytes())
    return whole.hexdigest()[:16]
