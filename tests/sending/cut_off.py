"""A send that is killed (``SIGKILL``) at a given step: run as a process of its own.

    python -m tests.sending.cut_off FOLDER TO ENDPOINT STEP

FOLDER is a site as :mod:`tests.sending.sites` makes it; its files are listed again from the disk.
Each put and each removal is two steps: before it, and after it has been carried out.
"""

from __future__ import annotations

import os
import signal
import sys
from pathlib import Path

from sitegen.sending.opening import open_store
from sitegen.sending.send import send
from sitegen.sending.store import Files, Objects
from sitegen.site import Target
from tests.sending.sites import built

_STEPS = iter(range(1_000_000))


def _cut(kind: type, name: str, last: int) -> None:
    """Wrap a method so that the process dies at step ``last``."""
    real = getattr(kind, name)

    def wrapped(*arguments: object) -> object:
        if next(_STEPS) == last:
            os.kill(os.getpid(), signal.SIGKILL)
        answer = real(*arguments)
        if next(_STEPS) == last:
            os.kill(os.getpid(), signal.SIGKILL)
        return answer

    setattr(kind, name, wrapped)


def main(folder: str, to: str, endpoint: str, step: str) -> None:
    for kind in (Files, Objects):
        _cut(kind, "put", int(step))
        _cut(kind, "remove", int(step))
    root = Path(folder)
    output = root / "output"
    files = (file for file in sorted(output.rglob("*")) if file.is_file())
    site = built(root, {file.relative_to(output).as_posix(): file.read_bytes() for file in files})
    with open_store(Target("live", to, endpoint=endpoint), root, output) as store:
        send(site, store, root / "aside")


if __name__ == "__main__":
    main(*sys.argv[1:])
