"""The program's own failures on one file or page, told like any other problem.

A fault of ours in one recipe must not keep an author from the others, nor from knowing which it is.
"""

from __future__ import annotations

import traceback
from pathlib import Path

from sitegen.problems import Problem


def of_file(file: str, error: Exception) -> Problem:
    """The program failed while it was reading or working out ``file``."""
    where = traceback.extract_tb(error.__traceback__)[-1]
    at = f"{Path(where.filename).name}:{where.lineno}"
    return Problem(
        "program-fault",
        "error",
        file,
        0,
        0,
        f"the program itself failed on this file: {type(error).__name__}: {error} ({at})",
        "the fault is not yours; report it with this file, and move the file away for now",
    )


def of_page(path: str, error: Exception, folder: Path) -> Problem:
    """A page could not be laid out: nearly always a template of the site's own theme.

    The template and the line are where the error came from, as Jinja tells it.
    """
    file, line = "", int(getattr(error, "lineno", 0) or 0)
    if name := getattr(error, "filename", None):
        file = str(name)
    for frame in traceback.extract_tb(error.__traceback__):
        if frame.filename.endswith((".html", ".xml", ".txt")):
            file, line = frame.filename, frame.lineno or 0
    try:
        file = Path(file).relative_to(folder).as_posix() if file else f"themes ({path})"
    except ValueError:  # one of the program's own templates
        file = f"themes/{Path(file).name}"
    message = f"{path} can't be laid out: {error or type(error).__name__}"
    return Problem("page-failed", "error", file, line, 1 if line else 0, message)
