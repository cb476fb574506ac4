"""The commands by name. A command is one row here and one file in :mod:`sitegen.commands`."""

from __future__ import annotations

from collections.abc import Mapping
from importlib import import_module
from pathlib import Path

import click

from sitegen import __version__
from sitegen.problems import did_you_mean

COMMANDS: Mapping[str, str] = {
    "start": "sitegen.commands.start:start",
    "draft": "sitegen.commands.draft:draft",
    "check": "sitegen.commands.check:check",
    "trial": "sitegen.commands.trial:trial",
    "rules": "sitegen.commands.rules:rules",
    "preview": "sitegen.commands.preview:preview",
    "build": "sitegen.commands.build:build",
    "deploy": "sitegen.commands.deploy:deploy",
    "pack": "sitegen.commands.pack:pack",
    "weigh": "sitegen.commands.weigh:weigh",
    "scale": "sitegen.commands.scale:scale",
    "label": "sitegen.commands.label:label",
    "larder": "sitegen.commands.larder:larder",
    "schema": "sitegen.commands.schema:schema",
}
"""Name → ``module:function``, in the order that help lists them. To add a command, add a row."""


class Commands(click.Group):
    """A group whose commands are imported when they are called."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        """The names, in the table's order."""
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, name: str) -> click.Command | None:
        """The command of that name, imported now."""
        if name not in COMMANDS:
            return None
        module, _, function = COMMANDS[name].partition(":")
        command = getattr(import_module(module), function)
        assert isinstance(command, click.Command)
        return command

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        """As Click does it, with the nearest name suggested."""
        if args and not args[0].startswith("-") and args[0] not in COMMANDS:
            hint = did_you_mean(args[0], COMMANDS)
            ctx.fail(f"there is no command {args[0]!r}" + (f"; {hint}" if hint else "."))
        return super().resolve_command(ctx, args)


@click.group(cls=Commands, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__, prog_name="sitegen")
@click.option(
    "--site",
    "site_folder",
    type=click.Path(path_type=Path),
    help="The site's folder. Without it: the folder you are in, or the nearest one above it, "
    "that holds content/site.yaml.",
)
@click.pass_context
def main(ctx: click.Context, site_folder: Path | None) -> None:
    """Write a recipe once, in Markdown; publish pages that can be cooked from."""
    ctx.obj = site_folder
