"""Carry out a plan: what pages need, pages, lists; then removals; then look at what is there.

The record is written before the first file (so that a send that is cut off is known to be half done),
now and then on the way, and at the end. A send can be cut off anywhere and repeated.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from concurrent.futures import Future, ThreadPoolExecutor, as_completed
from contextlib import suppress
from dataclasses import dataclass
from hashlib import sha256
from itertools import groupby
from pathlib import Path

from sitegen.sending.built import Built, Item
from sitegen.sending.errors import InTheWay, NotSent
from sitegen.sending.headers import headers
from sitegen.sending.plan import Plan, make_plan, rank
from sitegen.sending.record import NAME, Sent, Was, read_record, write_record
from sitegen.sending.store import Seen, Store

Progress = Callable[[str, int, int], None]
"""Told what is being done, how much of it has been done, and how much there is."""
_OFTEN = 100
"""Files between two writings of the record, at least; with very many files it is a twentieth."""


@dataclass(frozen=True, slots=True)
class Outcome:
    """What a send did."""

    plan: Plan
    wrong: tuple[str, ...] = ()
    """Files that are not at the target as they were built."""
    set_aside: tuple[str, ...] = ()
    """Files of the target's that were replaced or removed, saved first."""
    read_back: int = 0
    """Files that were read back and compared with what was built."""
    unreadable: bool = False
    """The record at the target could not be read."""


def compare(built: Built, store: Store) -> tuple[Plan, Sent]:
    """What a send would do, and the record that it starts from. Changes nothing."""
    sent = read_record(store)
    plan = make_plan(
        built.items, sent, store.listing(), store.read, takes_headers=store.takes_headers
    )
    return plan, sent


def send(
    built: Built,
    store: Store,
    aside: Path,
    *,
    take_over: bool = False,
    progress: Progress = lambda *_: None,
) -> Outcome:
    """Make the target hold the site; raises :class:`NotSent`.

    ``aside`` is the folder where files that others changed or put at the target are saved before they
    are replaced. Files of others' are replaced only if ``take_over`` says so, and never removed.
    """
    plan, sent = compare(built, store)
    if plan.in_the_way and not take_over:
        raise InTheWay(tuple(plan.in_the_way))
    saved = tuple(_save(store, path, aside) for path in (*plan.touched, *plan.in_the_way))
    plan.changed += plan.in_the_way
    for path in plan.parts:
        store.remove(path)
    if plan.empty and not plan.found and not sent.sending and sent.raw is not None:
        return Outcome(plan, set_aside=saved, unreadable=sent.unreadable)
    sent.files |= plan.found
    sent.sending = {path: built.items[path].digest for path in plan.to_send}
    _keep(store, sent)
    try:
        _send_files(built, store, plan.to_send, sent, progress)
        _remove(store, plan.removed, sent, progress)
    except BaseException:
        with suppress(Exception):  # the next send finds out more slowly without it
            write_record(store, sent)
        raise
    gone = [path for path in sent.files if path not in built.items]
    for path in gone:
        del sent.files[path]
    sent.sending = {}
    wrong, read_back = _check(built.items, store, plan.to_send, progress)
    for path in wrong:
        sent.files.pop(path, None)
    _keep(store, sent)
    return Outcome(plan, tuple(wrong), saved, read_back, sent.unreadable)


def _send_files(
    built: Built, store: Store, paths: list[str], sent: Sent, progress: Progress
) -> None:
    done, often = 0, max(_OFTEN, len(paths) // 20)

    def one(path: str) -> tuple[str, Seen]:
        return path, store.put(path, built.content(path), headers(path))

    with ThreadPoolExecutor(store.senders) as pool:
        for _, group in groupby(paths, key=rank):
            # All of one rank is there before the next begins.
            waiting: list[Future[tuple[str, Seen]]] = [pool.submit(one, path) for path in group]
            try:
                for future in as_completed(waiting):
                    path, seen = future.result()
                    sent.files[path] = Was(built.items[path].digest, seen.mark, str(headers(path)))
                    sent.sending.pop(path, None)
                    done += 1
                    progress("sending", done, len(paths))
                    if done % often == 0:
                        _keep(store, sent)
            except BaseException:
                pool.shutdown(cancel_futures=True)
                for future in waiting:  # what was on its way when another failed has arrived
                    if future.done() and not future.cancelled() and not future.exception():
                        path, seen = future.result()
                        was = Was(built.items[path].digest, seen.mark, str(headers(path)))
                        sent.files[path] = was
                        sent.sending.pop(path, None)
                raise


def _remove(store: Store, paths: list[str], sent: Sent, progress: Progress) -> None:
    for done, path in enumerate(paths, start=1):
        store.remove(path)
        sent.files.pop(path, None)
        progress("removing", done, len(paths))


def _keep(store: Store, sent: Sent) -> None:
    """Write the record, unless somebody else has written it since we last saw it."""
    if store.read(NAME) != sent.raw:
        raise NotSent(
            f"somebody else is sending to {store.place} at the same time; "
            "agree who does, and send again"
        )
    write_record(store, sent)


def _save(store: Store, path: str, aside: Path) -> str:
    """Copy a file of the target's to the author's own disk before it goes."""
    content = store.read(path) or b""
    kept = aside / f"{path}.{sha256(content).hexdigest()[:10]}"
    kept.parent.mkdir(parents=True, exist_ok=True)
    kept.write_bytes(content)
    return path


def _check(
    items: Mapping[str, Item], store: Store, just_sent: Iterable[str], progress: Progress
) -> tuple[list[str], int]:
    """The files that are not there as built, and how many were read back to find out.

    Every file's size is compared. For what was sent just now an ETag that is the content's MD5 vouches;
    otherwise (no ETag, or one of an encrypted object) it is read back and hashed. What was there before
    has kept the mark that the record knows, or it would have been sent.
    """
    seen, just = store.listing(), set(just_sent)
    wrong, unsure = [], []
    for path, item in items.items():
        there = seen.get(path)
        if there is None or there.size != item.size:
            wrong.append(path)
        elif path in just and there.etag != item.etag:
            unsure.append(path)

    def differs(path: str) -> bool:
        return sha256(store.read(path) or b"").hexdigest() != items[path].digest

    with ThreadPoolExecutor(store.senders) as pool:
        for done, (path, differing) in enumerate(
            zip(unsure, pool.map(differs, unsure), strict=True), start=1
        ):
            if differing:
                wrong.append(path)
            progress("checking", done, len(unsure))
    return sorted(wrong), len(unsure)
