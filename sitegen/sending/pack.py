"""A site in one file, for hosts that take an upload. The same site gives the same bytes.

Names are sorted; dates, owners and modes are always the same; what is compressed already (photos) is
stored as it is. The compressed bytes are zlib's: the same with the same zlib.
"""

from __future__ import annotations

import gzip
import io
import os
import tarfile
import zipfile
from collections.abc import Callable, Mapping
from contextlib import suppress
from pathlib import Path
from typing import BinaryIO

from sitegen.sending.built import Built
from sitegen.sending.errors import NotSent

_LEVEL = 9
_MODE = 0o644
_UNIX = 3
"""Made on: said to be the same everywhere (APPNOTE 4.4.2)."""
_FIRST_DAY = (1980, 1, 1, 0, 0, 0)
"""The earliest date that a zip file can hold (APPNOTE 4.4.6, MS-DOS time)."""
_PRESSED = (".avif", ".webp", ".jpg", ".jpeg", ".png", ".woff2", ".gif", ".ico")


def pack(built: Built, file: Path) -> int:
    """Write the site to ``file`` by its ending; how many bytes it has. Raises :class:`NotSent`."""
    ending = next((ending for ending in ENDINGS if file.name.lower().endswith(ending)), None)
    if ending is None:
        raise NotSent(f"{file.name} must end in {' or '.join(ENDINGS)}")
    if file.is_dir() or (file.exists() and not _is_archive(file)):
        raise NotSent(f"{file} is there and is no archive, so it is not replaced")
    part = file.with_name(f".{file.name}.{os.getpid()}.part")
    try:
        with part.open("wb") as into:
            ENDINGS[ending](built, into)
            into.flush()
            os.fsync(into.fileno())
        part.replace(file)
    except OSError as error:
        raise NotSent(f"{file} could not be written: {error.strerror or error}") from error
    finally:
        with suppress(OSError):
            part.unlink(missing_ok=True)
    return file.stat().st_size


def _zip(built: Built, into: BinaryIO) -> None:
    with zipfile.ZipFile(into, "w", zipfile.ZIP_DEFLATED, compresslevel=_LEVEL) as archive:
        for path in sorted(built.items):
            entry = zipfile.ZipInfo(path, _FIRST_DAY)
            entry.create_system = _UNIX
            entry.external_attr = (0o100000 | _MODE) << 16
            pressed = path.lower().endswith(_PRESSED)
            entry.compress_type = zipfile.ZIP_STORED if pressed else zipfile.ZIP_DEFLATED
            archive.writestr(entry, built.content(path), compresslevel=_LEVEL)


def _tar_gz(built: Built, into: BinaryIO) -> None:
    with (
        gzip.GzipFile("", "wb", _LEVEL, into, mtime=0) as pressed,
        tarfile.open(fileobj=pressed, mode="w", format=tarfile.PAX_FORMAT) as archive,
    ):
        for path in sorted(built.items):
            content = built.content(path)
            entry = tarfile.TarInfo(path)
            entry.size, entry.mode = len(content), _MODE
            archive.addfile(entry, io.BytesIO(content))


ENDINGS: Mapping[str, Callable[[Built, BinaryIO], None]] = {".zip": _zip, ".tar.gz": _tar_gz}
"""The ending of the file's name → how it is written."""


def _is_archive(file: Path) -> bool:
    with file.open("rb") as opened:
        start = opened.read(4)
    return start.startswith((b"PK\x03\x04", b"PK\x05\x06", b"\x1f\x8b")) or not start
