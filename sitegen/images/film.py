"""A film beside a recipe: checked by its first bytes, and sent out as it is, under a hashed name."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path, PurePosixPath

from sitegen.problems import Problem, Severity
from sitegen.reading.pictures import beside
from sitegen.reading.read import slugify
from sitegen.reading.recipe import Recipe

HEAVY = 25_000_000
"""Bytes from which a reader on a phone will wait for a film: about two minutes at 1.6 Mbit/s."""


@dataclass(frozen=True, slots=True)
class Film:
    """The files of one film, where they lie and where they go."""

    path: str
    """Relative to the output folder; empty where the film stands on another host."""
    source: Path | None
    captions: str = ""
    captions_source: Path | None = None

    def files(self) -> Iterator[tuple[str, Path]]:
        """Output path and source of each file."""
        if self.path and self.source:
            yield self.path, self.source
        if self.captions and self.captions_source:
            yield self.captions, self.captions_source


def film(recipe: Recipe, folder: Path) -> tuple[Film | None, list[Problem]]:
    """Check a recipe's film; ``folder`` is the site's."""
    video = recipe.video
    if video is None:
        return None, []
    problems: list[Problem] = []

    def place(name: str) -> tuple[str, Path | None]:
        if not name:
            return "", None
        said = _check(name, recipe, folder)
        if isinstance(said, Path):
            return _named(said), said
        rule, severity, message, hint = said
        at = (video.place.line, video.place.column)
        problems.append(Problem(rule, severity, recipe.file, *at, message, hint))
        return "", None

    path, source = place(video.file)
    captions, captions_source = place(video.captions)
    if problems:
        return None, problems
    if source is not None and (weight := source.stat().st_size) > HEAVY:
        message = f"the film has {weight / 1e6:.0f} MB; readers with a slow line will wait for it"
        at = (video.place.line, video.place.column)
        hint = "export it smaller: 720 lines high is plenty for a kitchen"
        problems.append(Problem("film-heavy", "advice", recipe.file, *at, message, hint))
    return Film(path, source, captions, captions_source), problems


def _check(name: str, recipe: Recipe, folder: Path) -> Path | tuple[str, Severity, str, str]:
    path = folder / beside(recipe.file, name)
    content = (folder / "content").resolve()
    if not path.resolve().is_relative_to(content):
        message = f"the film's file {name!r} is not within the site's content folder"
        return "film-outside", "error", message, "copy it beside the recipe and give its name"
    try:
        with path.open("rb") as opened:
            head = opened.read(16)
    except OSError:
        message = f"there is no file {name!r} beside the recipe"
        return "film-missing", "error", message, "put it there, or mend its name"
    kind = path.suffix.lower()
    right = {
        ".webm": head.startswith(b"\x1a\x45\xdf\xa3"),  # the EBML head, RFC 8794
        ".mp4": head[4:8] == b"ftyp",  # ISO/IEC 14496-12
        ".vtt": head.lstrip(b"\xef\xbb\xbf").startswith(b"WEBVTT"),  # W3C WebVTT
    }
    if not right.get(kind, False):
        message = f"{name!r} is no film or captions that a browser plays"
        return "film-unknown", "error", message, "films are .webm or .mp4, captions are .vtt"
    return path.resolve()


def _named(source: Path) -> str:
    digest = sha256(source.read_bytes()).hexdigest()[:10]
    name = PurePosixPath(source.name)
    return f"films/{slugify(name.stem) or 'film'}.{digest}{name.suffix.lower()}"
