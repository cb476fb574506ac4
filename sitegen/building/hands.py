"""Much work, a few processes.

Each process takes every n-th job from beginning to end. They are forked when everything that they
share has been loaded, so nothing is loaded twice; where a process can't be forked safely, or the
work is little, one does it all.
"""

from __future__ import annotations

import gc
import os
import signal
import sys
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TypeVar

from sitegen.building.shelf import dumped, loaded

J = TypeVar("J")
R = TypeVar("R")


def cores() -> int:
    """How many processes can work at once; 1 where none may be forked."""
    return len(os.sched_getaffinity(0)) if sys.platform == "linux" else 1


def done(
    jobs: Sequence[J],
    do: Callable[[J], R],
    folder: Path,
    progress: Callable[[int], None] = lambda _: None,
    *,
    fewest: int = 24,
) -> list[R]:
    """What ``do`` makes of each job, in order.

    ``fewest`` jobs are worth a process of their own. Results pass through ``folder``, which must
    exist, and are of the classes that a shelf keeps. Raises OSError if a process could not write,
    was killed or ran out of memory.
    """
    hands = min(cores(), len(jobs) // fewest)
    if hands < 2:
        results = []
        for count, job in enumerate(jobs, start=1):
            results.append(do(job))
            progress(count)
        return results
    gc.collect()
    gc.freeze()  # so that looking for garbage copies none of what is shared
    listen, tell = os.pipe()
    children = []
    for hand in range(hands):
        child = os.fork()
        if not child:
            os.close(listen)
            _work(jobs[hand::hands], do, folder / f"hand-{hand}", tell)
        children.append(child)
    os.close(tell)
    try:
        count = 0
        while ticks := os.read(listen, 4096):
            count += len(ticks)
            progress(count)
    except BaseException:
        for child in children:
            os.kill(child, signal.SIGTERM)
        raise
    finally:
        os.close(listen)
        ends = [os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]) for child in children]
        gc.unfreeze()
    _raise_for(ends)
    made: list[list[R]] = [loaded((folder / f"hand-{n}").read_bytes()) for n in range(hands)]
    for hand in range(hands):
        (folder / f"hand-{hand}").unlink()
    return [made[number % hands][number // hands] for number in range(len(jobs))]


def _raise_for(ends: Sequence[int]) -> None:
    for code in ends:
        if 0 < code < _FAILED:
            raise OSError(code, os.strerror(code))
        if code:
            raise OSError(f"a process ended before its work was done ({code})")


_FAILED = 200


def _work(jobs: Sequence[J], do: Callable[[J], R], into: Path, tell: int) -> None:
    """The life of a process: it never returns."""
    code = _FAILED
    try:
        parent = os.getppid()
        results = []
        for job in jobs:
            if os.getppid() != parent:  # nobody is waiting any more
                break
            results.append(do(job))
            os.write(tell, b".")
        into.write_bytes(dumped(results))
        code = 0
    except OSError as error:
        code = error.errno if error.errno and error.errno < _FAILED else _FAILED
    except BaseException:
        import traceback

        traceback.print_exc()
    finally:
        os._exit(code)
