"""``sitegen preview``: the site in a browser while it is being written."""

from __future__ import annotations

import signal
import threading
from collections.abc import Collection
from pathlib import Path
from typing import TYPE_CHECKING

import click

from sitegen.commands.build import progress_bars
from sitegen.commands.shared import colours, find_site, site_option

if TYPE_CHECKING:
    from sitegen.preview.desk import Desk


@click.command(short_help="Show the site and follow every save.")
@click.option("--port", type=click.IntRange(0, 65535), help="The port, if not the first free one.")
@click.option("--no-watch", is_flag=True, help="Do not follow saves; show the site as it is now.")
@site_option
def preview(port: int | None, no_watch: bool, site_folder: Path | None) -> None:
    """Show the site, drafts too, at an address of this machine, and follow every save."""
    folder = find_site(site_folder)
    from sitegen.pages.theme import program_themes
    from sitegen.preview.desk import Desk
    from sitegen.preview.serving import PortTaken, open_server
    from sitegen.preview.watching import Watch

    try:
        server = open_server(None, port)  # a browser that is opened now waits, and is not refused
    except PortTaken as taken:
        raise click.ClickException(f"{taken} is in use; name another with --port.") from None
    click.echo(f"Reading {folder} …")
    try:
        with progress_bars() as progress:
            server.desk = desk = Desk(folder, progress)
    except OSError as error:
        server.server_close()
        raise click.ClickException(
            f"{folder} can't be written ({error.strerror or error}), and the preview keeps the "
            "pictures that it makes in .sitegen/ there. Make the folder writable, or copy the site."
        ) from None
    _tell(desk)
    click.echo(f"The site is at {server.address} – Ctrl-C ends it.")

    def changed(files: Collection[Path] | None) -> None:
        if desk.refresh(files):
            _tell(desk)

    watch = (
        None
        if no_watch
        else Watch([folder / "content", folder / "themes", program_themes()], changed)
    )
    if watch:
        watch.start()
    serving = threading.Thread(target=server.serve_forever, name="serve", daemon=True)
    serving.start()
    ended = threading.Event()
    signal.signal(signal.SIGTERM, lambda *_: ended.set())
    try:
        while not ended.wait(1):
            pass
    except KeyboardInterrupt:
        click.echo("")
    finally:
        desk.close()
        server.shutdown()
        if watch:
            watch.stop()
        server.server_close()


def _tell(desk: Desk) -> None:
    from sitegen.reporting import as_text, summary

    edition = desk.edition
    if edition.problems:
        click.echo("\n" + as_text(edition.problems, desk.folder, colours) + "\n")
    click.echo(summary(edition.problems))
