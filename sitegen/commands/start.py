"""``sitegen start``: a small site that works, to write over."""

from __future__ import annotations

from pathlib import Path

import click

from sitegen.commands.shared import MARK

_MODEL = Path(__file__).with_name("newsite")


@click.command(short_help="Lay down a small working site.")
@click.argument("folder", type=click.Path(path_type=Path))
def start(folder: Path) -> None:
    """Lay down a small working site in FOLDER, which must be new or empty."""
    if folder.exists() and not folder.is_dir():
        raise click.UsageError(f"{folder} is a file; name a new folder.")
    if folder.is_dir() and any(entry.name != ".git" for entry in folder.iterdir()):
        raise click.UsageError(
            f"{folder} has files in it, and nothing of yours is ever overwritten; "
            "name a new or an empty folder."
        )
    content = folder / "content"
    for model in sorted(_MODEL.rglob("*")):
        if model.is_file():
            target = content / model.relative_to(_MODEL)
            target.parent.mkdir(parents=True, exist_ok=True)
            target.write_bytes(model.read_bytes())
            click.echo(f"  {target}")
    (folder / ".gitignore").write_text("/output/\n/output.zip\n/.sitegen/\n", encoding="utf-8")
    click.echo(
        f"\nA site stands in {folder}. Next:\n"
        f"  cd {folder}\n"
        "  sitegen preview          see it while you write\n"
        '  sitegen draft "A title"  begin a recipe\n'
        f"Its title, address and settings are in {MARK.as_posix()}."
    )
