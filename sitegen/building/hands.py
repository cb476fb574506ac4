"""Much work, a few processes.

Each process takes the next job from a common heap until none is left. They are forked when
everything that they share has been loaded, so nothing is loaded twice; where a process can't be
forked safely, or the work is little, one does it all.
"""

from __future__ import annotations

import gc
import os
import signal
import struct
import sys
import threading
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TypeVar

from sitegen.building.shelf import dumped, loaded

J = TypeVar("J")
R = TypeVar("R")


_NUMBER = struct.Struct("<I")
_HEAP = 4000
"""As many numbers as a pipe is sure to hold (16 kB) without anyone reading."""


def cores() -> int:
    """How many processes can work at once; 1 where none may be forked.

    A fork copies the locks that other threads hold, and nobody would ever let go of the copies.
    """
    forks = sys.platform == "linux" and threading.active_count() == 1
    return len(os.sched_getaffinity(0)) if forks else 1


def done(
    jobs: Sequence[J],
    do: Callable[[J], R],
    folder: Path,
    progress: Callable[[int], None] = lambda _: None,
    *,
    fewest: int = 24,
) -> list[R]:
    """What ``do`` makes of each job, in order.

    ``fewest`` jobs are worth a process of their own. Long jobs are best put first. Results pass
    through ``folder``, which must exist, and are of the classes that a shelf keeps. Raises OSError
    if a process could not write, was killed or ran out of memory.
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
    heap = _heap(len(jobs))
    listen, tell = os.pipe()
    children = []
    for hand in range(hands):
        child = os.fork()
        if not child:
            os.close(listen)
            _work(jobs, heap, do, folder / f"hand-{hand}", tell)
        children.append(child)
    os.close(tell)
    os.close(heap)
    try:
        count = 0
        while ticks := os.read(listen, 4096):
            count += len(ticks)
            progress(min(count * _share(len(jobs)), len(jobs)))
    except BaseException:
        for child in children:
            os.kill(child, signal.SIGTERM)
        raise
    finally:
        os.close(listen)
        ends = [os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]) for child in children]
        gc.unfreeze()
    _raise_for(ends)
    made: dict[int, R] = {}
    for hand in range(hands):
        file = folder / f"hand-{hand}"
        made |= loaded(file.read_bytes())
        file.unlink()
    if len(made) != len(jobs):
        raise OSError("a process ended before its work was done")
    return [made[number] for number in range(len(jobs))]


def _share(jobs: int) -> int:
    """How many jobs are taken at once, so that their numbers fit into the heap."""
    return -(-jobs // _HEAP)


def _heap(jobs: int) -> int:
    """A pipe to read from, that holds the number of the first of each share of the jobs."""
    take, fill = os.pipe()
    numbers = range(0, jobs, _share(jobs))
    os.write(fill, b"".join(map(_NUMBER.pack, numbers)))
    os.close(fill)
    return take


def _raise_for(ends: Sequence[int]) -> None:
    for code in ends:
        if 0 < code < _FAILED:
            raise OSError(code, os.strerror(code))
        if code:
            raise OSError(f"a process ended before its work was done ({code})")


_FAILED = 200


def _work(jobs: Sequence[J], heap: int, do: Callable[[J], R], into: Path, tell: int) -> None:
    """The life of a process: it never returns."""
    code = _FAILED
    gc.set_threshold(50_000, 20, 50)  # little of what is made here goes round in circles
    try:
        parent = os.getppid()
        share = _share(len(jobs))
        results = {}
        while taken := os.read(heap, _NUMBER.size):
            if os.getppid() != parent:  # nobody is waiting any more
                break
            (first,) = _NUMBER.unpack(taken)
            for number in range(first, min(first + share, len(jobs))):
                results[number] = do(jobs[number])
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
