"""``sitegen pack``: the site in one file, for a host that takes an upload."""

from __future__ import annotations

from pathlib import Path

import click

from sitegen.commands.sending import as_built_option, built_site
from sitegen.commands.shared import find_site, site_option


@click.command(short_help="Put the built site in one archive.")
@click.option(
    "--to",
    type=click.Path(path_type=Path),
    help="The archive, ending in .zip or .tar.gz, if not output.zip beside output/.",
)
@as_built_option
@site_option
def pack(to: Path | None, as_built: bool, site_folder: Path | None) -> None:
    """Build the site and put it in one archive, for a host that takes an upload.

    The same site always gives the same bytes. A file that is no archive is never replaced.
    """
    folder = find_site(site_folder)
    from sitegen.sending.errors import NotSent
    from sitegen.sending.pack import ENDINGS
    from sitegen.sending.pack import pack as pack_site

    file = to or folder / "output.zip"
    if not file.name.lower().endswith(tuple(ENDINGS)):
        raise click.UsageError(f"{file.name} must end in {' or '.join(ENDINGS)}.")
    built = built_site(folder, as_built=as_built)
    try:
        size = pack_site(built, file)
    except NotSent as error:
        raise click.ClickException(f"{error}.") from None
    click.echo(f"{len(built.items)} files in {file}, {size / 1e6:.1f} MB.")
