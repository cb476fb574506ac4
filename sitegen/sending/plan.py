"""What differs between the site and a target, and what follows from it. Nothing is changed here."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from hashlib import sha256

from sitegen.sending.built import Item
from sitegen.sending.headers import headers
from sitegen.sending.record import NAME, Sent, Was
from sitegen.sending.store import PART, Seen

_LAST = ("index.html", "feed.xml", "feed.json", "sitemap.xml", "robots.txt")


@dataclass(slots=True)
class Plan:
    """What a send would do."""

    new: list[str] = field(default_factory=list)
    changed: list[str] = field(default_factory=list)
    removed: list[str] = field(default_factory=list)
    """Files that sitegen sent and the site no longer has."""
    kept: list[str] = field(default_factory=list)
    """Files that are there as they should be."""
    touched: list[str] = field(default_factory=list)
    """Files that sitegen sent and somebody has changed since; they are saved before anything else."""
    in_the_way: list[str] = field(default_factory=list)
    """Files that sitegen did not send, where pages would go."""
    foreign: int = 0
    """Files that are nobody's business here."""
    parts: list[str] = field(default_factory=list)
    """Half-written files of a send that was cut off."""
    found: dict[str, Was] = field(default_factory=dict)
    """Files that are there as they should be, though the record does not say so."""

    @property
    def to_send(self) -> list[str]:
        """New and changed files, in the order in which they go."""
        return sorted((*self.new, *self.changed), key=lambda path: (rank(path), path))

    @property
    def empty(self) -> bool:
        """Whether there is nothing to send or remove."""
        return not (self.new or self.changed or self.removed)


def rank(path: str) -> int:
    """When a file goes: what pages need, then pages, then the lists that lead to them.

    >>> [rank(p) for p in ("photos/rye.1f.avif", "site.webmanifest", "recipes/rye.html", "index.html")]
    [0, 1, 2, 3]
    """
    if path.startswith(("assets/", "photos/")):
        return 0
    if path in _LAST or path.endswith("/index.html"):
        return 3
    return 2 if path.endswith(".html") else 1


def make_plan(
    items: Mapping[str, Item],
    sent: Sent,
    seen: Mapping[str, Seen],
    read: Callable[[str], bytes | None],
    *,
    takes_headers: bool,
) -> Plan:
    """Compare the site with the target's record and with what is really there.

    ``read`` is asked for a file's content only where the record and the listing disagree.
    """
    plan = Plan()

    def digest(path: str) -> str:
        if path in items and seen[path].etag == items[path].etag:
            return items[path].digest
        content = read(path)
        return "" if content is None else sha256(content).hexdigest()

    for path, item in items.items():
        there, was, head = seen.get(path), sent.files.get(path), str(headers(path))
        if there is None:
            plan.new.append(path)
        elif was is not None and was.mark == there.mark:
            same = was.digest == item.digest and (was.headers == head or not takes_headers)
            (plan.kept if same else plan.changed).append(path)
        elif was is None and path not in sent.sending and there.size != item.size:
            plan.in_the_way.append(path)  # whatever is in it, it is not ours
        else:
            content = digest(path)
            own = {sent.sending.get(path), was.digest if was else None, item.digest}
            # A store that takes headers may have others for this file, unless we began to send it.
            sound = not takes_headers or sent.sending.get(path) == content
            if content == item.digest and sound:
                plan.kept.append(path)
                plan.found[path] = Was(content, there.mark, head)
            elif content in own:
                plan.changed.append(path)
            elif was is not None or path in sent.sending:
                plan.touched.append(path)
                plan.changed.append(path)
            else:
                plan.in_the_way.append(path)
    for path in sorted({*sent.files, *sent.sending} - set(items)):
        there, was = seen.get(path), sent.files.get(path)
        if there is None:
            continue
        if was is None or was.mark != there.mark:
            content = digest(path)
            if content not in (sent.sending.get(path), was.digest if was else None):
                if was is None:
                    continue  # somebody else's, put there after a send that was cut off
                plan.touched.append(path)
        plan.removed.append(path)
    for path in seen:
        if path.endswith(PART):
            plan.parts.append(path)
        elif path not in items and path not in plan.removed and path != NAME:
            plan.foreign += 1
    return plan
