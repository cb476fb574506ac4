"""A target's words → an open store. To add a kind of target, add a row to :data:`KINDS`."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path
from urllib.parse import unquote, urlsplit

from sitegen.sending.errors import NotSent, told
from sitegen.sending.store import Files, Objects, Store
from sitegen.site import Target


@contextmanager
def open_store(target: Target, site_folder: Path, output: Path) -> Iterator[Store]:
    """Open a target for the length of the block; raises :class:`NotSent`."""
    kind = target.to.partition("://")[0] if "://" in target.to else ""
    try:
        store = KINDS[kind](target, site_folder, output)
    except ImportError as error:
        raise NotSent(
            f"{target.to} needs a part that is not installed ({error.name}): "
            f"pip install 'sitegen[{kind or 'test'}]'"
        ) from None
    try:
        yield store
    finally:
        store.close()


def _folder(target: Target, site_folder: Path, output: Path) -> Store:
    """A folder of this machine. It may be missing, but the one above it must be there."""
    from fsspec.implementations.local import LocalFileSystem

    folder = (site_folder / Path(target.to).expanduser()).resolve()
    site, built = site_folder.resolve(), output.resolve()
    kept = (built, *(site / name for name in ("content", "themes", ".sitegen", ".git")))
    if folder == site or folder in site.parents or folder in built.parents:
        raise NotSent(f"{folder} holds the site's own files; send to a folder of its own")
    for own in kept:
        if folder == own or own in folder.parents:
            raise NotSent(f"{folder} lies in {own.name}/; send to a folder of its own")
    if not folder.parent.is_dir():
        raise NotSent(f"there is no folder {folder.parent}; is the disk there?")
    if folder.exists() and not folder.is_dir():
        raise NotSent(f"{folder} is a file, not a folder")
    fs = LocalFileSystem(skip_instance_cache=True, use_listings_cache=False)
    return Files(fs, folder.as_posix(), str(folder))


def _sftp(target: Target, site_folder: Path, output: Path) -> Store:
    """A folder over SFTP; ``sftp://host/~/www`` starts from the home folder there."""
    from sitegen.sending.sftp import KnownHosts, home_folder

    parts = urlsplit(target.to)
    place = f"sftp://{parts.netloc}{parts.path}"
    with told(place, "connecting"):
        fs = KnownHosts(
            parts.hostname or "",
            port=parts.port,
            username=unquote(parts.username) if parts.username else None,
        )
        root = unquote(parts.path).rstrip("/")
        if root == "" or root == "/~" or root.startswith("/~/"):
            root = home_folder(fs).rstrip("/") + root.removeprefix("/~")
        above = root.rpartition("/")[0] or "/"
        if not fs.isdir(root) and not fs.isdir(above):
            fs.close()
            raise NotSent(f"there is no folder {above} at {parts.hostname}")
    return Files(fs, root, place, senders=4)


def _s3(target: Target, site_folder: Path, output: Path) -> Store:
    """A bucket. Keys come from the environment or the usual files, as botocore finds them."""
    from s3fs import S3FileSystem

    with told(target.to, "connecting"):
        fs = S3FileSystem(
            endpoint_url=target.endpoint or None,
            profile=target.profile or None,
            client_kwargs={"region_name": target.zone} if target.zone else None,
            skip_instance_cache=True,
            use_listings_cache=False,
        )
    return Objects(fs, target.to.removeprefix("s3://"), target.to)


KINDS: Mapping[str, Callable[[Target, Path, Path], Store]] = {
    "": _folder,
    "sftp": _sftp,
    "s3": _s3,
}
"""What stands before ``://`` → how to open it."""
