"""What ``deploy`` and ``pack`` share: a site that is built, whole and up to date."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

if TYPE_CHECKING:
    from sitegen.sending.built import Built


def built_site(folder: Path, *, as_built: bool) -> Built:
    """Build the site first, or with ``as_built`` take what stands in ``output/`` if it is whole.

    Raises :class:`click.ClickException`, or ends the command when the site has errors.
    """
    from sitegen.sending.built import newer_than_built, whole_site
    from sitegen.sending.errors import NotSent

    output = (folder / "output").resolve()
    if not as_built:
        from sitegen.commands.build import build

        click.get_current_context().invoke(build, to=None, site_folder=folder)
    elif newer := newer_than_built(folder, output):
        raise click.ClickException(
            f"{newer} was saved after the site was built; leave out --as-built, or build first."
        )
    try:
        return whole_site(folder, output)
    except NotSent as error:
        raise click.ClickException(f"{error}.") from None


as_built_option = click.option(
    "--as-built", is_flag=True, help="Take output/ as it stands instead of building first."
)
