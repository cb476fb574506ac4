"""``sitegen preview``: the site in a browser while it is being written."""

from __future__ import annotations

import signal
import threading
from pathlib import Path
from typing import TYPE_CHECKING

import click

from sitegen.commands.build import progress_bars
from sitegen.commands.shared import colours, find_site, site_option

if TYPE_CHECKING:
    from sitegen.preview.desk import Desk
    from sitegen.preview.edition import Edition


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
        server = open_server(None, port)
    except PortTaken as taken:
        raise click.ClickException(f"{taken} is in use; name another with --port.") from None
    try:
        server.desk = desk = Desk(folder, at_once=True)
    except OSError as error:
        server.server_close()
        raise click.ClickException(
            f"{folder} can't be written ({error.strerror or error}), and the preview keeps the "
            "pictures that it makes in .sitegen/ there. Make the folder writable, or copy the site."
        ) from None
    watched = [folder / "content", folder / "themes", program_themes()]
    watch = None if no_watch else Watch(watched, desk.follow)
    if watch:
        watch.start()
    threading.Thread(target=server.serve_forever, name="serve", daemon=True).start()
    ended = threading.Event()
    signal.signal(signal.SIGTERM, lambda *_: ended.set())
    try:
        _follow(desk, server.address, ended)
    except KeyboardInterrupt:
        click.echo("")
    finally:
        desk.close()
        server.shutdown()
        if watch:
            watch.stop()
        server.server_close()


def _follow(desk: Desk, address: str, ended: threading.Event) -> None:
    """Tell of every edition, until the end."""
    click.echo(f"Reading {desk.folder}; the site is at {address} already – Ctrl-C ends it.")
    edition = None
    with progress_bars() as progress:
        desk.begin(progress)
        while edition is None and not ended.is_set():
            edition = desk.wait_after(0, 1)
    while edition is not None and not ended.is_set():
        _tell(edition)
        number, edition = edition.number, None
        while edition is None and not ended.is_set():
            edition = desk.wait_after(number, 1)


def _tell(edition: Edition) -> None:
    from sitegen.reporting import as_text, summary

    if edition.problems:
        folder = edition.gathered.site.folder
        click.echo("\n" + as_text(edition.problems, folder, colours) + "\n")
    click.echo(summary(edition.problems))
