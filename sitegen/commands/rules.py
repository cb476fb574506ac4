"""``sitegen rules``: what the read-through looks for, and what one of its findings means."""

from __future__ import annotations

import click


@click.command(short_help="Say what a finding means, and how to mend it.")
@click.argument("name", required=False)
@click.option(
    "--format",
    "form",
    type=click.Choice(["text", "markdown"]),
    default="text",
    help="text to read (as it is without this), or the whole reference in Markdown.",
)
def rules(name: str | None, form: str) -> None:
    """List the rules of the read-through, or explain the one called NAME.

    NAME is what stands in brackets after a finding: 'sitegen rules partly-left-over'.
    """
    from sitegen.problems import did_you_mean
    from sitegen.readthrough import BY_NAME
    from sitegen.readthrough.reference import as_list, as_markdown, explain

    if form == "markdown":
        click.echo(as_markdown().rstrip())
        return
    if name is None:
        click.echo(as_list())
        return
    rule = BY_NAME.get(name)
    if rule is None:
        hint = did_you_mean(name, BY_NAME) or "'sitegen rules' lists them"
        raise click.UsageError(f"there is no rule {name!r} in the read-through; {hint}")
    click.echo(explain(rule))
