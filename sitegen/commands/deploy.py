"""``sitegen deploy``: build the site and send what differs to where readers find it."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from sitegen.commands.build import progress_bars
from sitegen.commands.sending import as_built_option, built_site
from sitegen.commands.shared import MARK, colours, find_site, site_option

if TYPE_CHECKING:
    from sitegen.sending.built import Built
    from sitegen.sending.plan import Plan
    from sitegen.sending.send import Outcome
    from sitegen.site import Target

_EXAMPLE = """\
  targets:
    live:
      to: sftp://me@host.example/srv/www    # or s3://bucket, or a folder"""


@click.command(short_help="Send the site to where readers find it.")
@click.argument("name", required=False)
@click.option("--dry-run", is_flag=True, help="Say what would be sent and removed; do nothing.")
@as_built_option
@click.option(
    "--served",
    is_flag=True,
    help="Afterwards, ask the site's address for every file and compare it.",
)
@click.option(
    "--take-over",
    is_flag=True,
    help="Replace files that stand where pages go, though sitegen did not send them; copies are "
    "saved in .sitegen/set-aside/.",
)
@site_option
def deploy(
    name: str | None,
    dry_run: bool,
    as_built: bool,
    served: bool,
    take_over: bool,
    site_folder: Path | None,
) -> None:
    """Build the site and send what differs to the target NAME of content/site.yaml.

    With one target in the settings NAME may be left out. A target is a folder, an SFTP host or a
    bucket of an S3-compatible store.

    Only what differs is sent: what pages need, then pages, then removals. Files at the target that
    sitegen did not send are never removed. A send that was cut off is finished by the next one.

    No secret belongs in a site's files. SFTP uses your SSH agent, keys, ~/.ssh/config and known
    hosts, or SITEGEN_SFTP_PASSWORD from the environment; S3 uses AWS_ACCESS_KEY_ID and
    AWS_SECRET_ACCESS_KEY from the environment, or ~/.aws/credentials.
    """
    folder = find_site(site_folder)
    from sitegen.building.lock import Busy, only_one
    from sitegen.sending.errors import InTheWay, NotSent
    from sitegen.workroom import Workroom

    target, home = _target(folder, name)
    address = target.address or home
    if served and not address:
        raise click.UsageError(
            f"--served needs the site's 'address', or the target's, in {MARK.as_posix()}."
        )
    built = built_site(folder, as_built=as_built)
    workroom = Workroom(folder)
    try:
        with only_one(workroom.lock):  # no build may change the site under the send
            good = _send(built, target, folder, dry_run=dry_run, take_over=take_over)
    except Busy:
        raise click.ClickException(
            "a build of this site is running; send when it is done."
        ) from None
    except InTheWay as wrong:
        raise click.ClickException(_in_the_way(wrong.paths)) from None
    except NotSent as error:
        raise click.ClickException(
            f"{error}.\nWhat was sent so far does no harm; the next 'sitegen deploy' goes on."
        ) from None
    if served and good and not dry_run:
        good = _ask(built, address)
    if not good:
        raise SystemExit(1)


def _target(folder: Path, name: str | None) -> tuple[Target, str]:
    """The target that is meant, and the site's own address."""
    from sitegen.problems import did_you_mean, has_errors
    from sitegen.reporting import as_text, summary
    from sitegen.settings import load_site

    site, problems = load_site(folder)
    if has_errors(problems):
        click.echo(as_text(problems, folder, colours) + "\n", err=True)
        raise click.ClickException(f"{summary(problems)} Nothing was sent.")
    targets = site.settings.targets
    if not targets:
        raise click.UsageError(
            f"{MARK.as_posix()} names no place to send the site to. Write, for example:\n{_EXAMPLE}"
        )
    if name is None and len(targets) > 1:
        raise click.UsageError(f"which one? The targets are: {', '.join(targets)}.")
    if name is not None and name not in targets:
        hint = did_you_mean(name, targets) or f"the targets are: {', '.join(targets)}."
        raise click.UsageError(f"there is no target {name!r}; {hint}")
    return targets[name or next(iter(targets))], site.settings.address


def _send(built: Built, target: Target, folder: Path, *, dry_run: bool, take_over: bool) -> bool:
    """Compare or send, and tell; whether all is well."""
    from sitegen.sending.opening import open_store
    from sitegen.sending.send import compare, send

    with open_store(target, folder, built.folder) as store:
        if dry_run:
            plan, sent = compare(built, store)
            if sent.unreadable:
                click.echo(_UNREADABLE, err=True)
            _list(plan)
            click.echo(f"{_counted(built, plan)} Nothing was sent: this was a dry run.")
            if plan.in_the_way and not take_over:
                click.echo(_in_the_way(tuple(plan.in_the_way)), err=True)
                return False
            return True
        aside = folder / ".sitegen" / "set-aside" / target.name
        with progress_bars() as progress:
            outcome = send(built, store, aside, take_over=take_over, progress=progress)
    return _tell(built, outcome, target, aside)


_UNREADABLE = (
    "The record of what was sent there is damaged or of another version. Files that are as built are "
    "taken for sent; old pages can't be told from foreign files and stay."
)


def _tell(built: Built, outcome: Outcome, target: Target, aside: Path) -> bool:
    from sitegen.sending.built import some

    if outcome.unreadable:
        click.echo(_UNREADABLE, err=True)
    for path in outcome.set_aside:
        click.echo(f"{path} had been changed there; that copy is now in {aside}.", err=True)
    sent = "Nothing to send" if outcome.plan.empty else "Sent"
    click.echo(f"{_counted(built, outcome.plan)} {sent} to {target.name}: {target.to}")
    if outcome.wrong:
        click.echo(
            f"{len(outcome.wrong)} files are not there as they were built: {some(outcome.wrong)}. "
            "Send again; if that does not help, look for what changes them there.",
            err=True,
        )
        return False
    checked = f", {outcome.read_back} of them read back" if outcome.read_back else ""
    click.echo(f"Checked there: {len(built.items)} files as built{checked}.")
    return True


def _ask(built: Built, address: str) -> bool:
    from sitegen.sending.served import ask

    with progress_bars() as progress:
        found = ask(address, built.items, progress)
    for line in found.advice:
        click.echo(f"Advice: {line}.", err=True)
    for line in found.wrong[:20]:
        click.echo(f"  {line}", err=True)
    if found.wrong:
        click.echo(
            f"{len(found.wrong)} of {found.asked} files are not served as built at {address}. "
            "A cache before the host may need time, or the target is not what is served there.",
            err=True,
        )
        return False
    click.echo(f"Served at {address}: {found.asked} files as built.")
    return True


def _list(plan: Plan) -> None:
    words = (("new", plan.new), ("changed", plan.changed), ("remove", plan.removed))
    order = {path: word for word, paths in words for path in paths}
    for path in (*plan.to_send, *plan.removed):
        own = "  (changed there by hand; a copy is kept)" if path in plan.touched else ""
        click.echo(f"  {order[path]:<8} {path}{own}")


def _counted(built: Built, plan: Plan) -> str:
    size = sum(built.items[path].size for path in plan.to_send) / 1e6
    said = f"{len(plan.new)} new, {len(plan.changed)} changed ({size:.1f} MB), "
    said += f"{len(plan.removed)} removed, {len(plan.kept)} as they were"
    return said + (f"; {plan.foreign} of others' left alone." if plan.foreign else ".")


def _in_the_way(paths: tuple[str, ...]) -> str:
    from sitegen.sending.built import some

    return (
        f"these stand at the target where pages would go, and sitegen did not send them: "
        f"{some(paths)}.\nNothing was sent. Move them away, or replace them with --take-over."
    )
