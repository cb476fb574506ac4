"""What a theme is made of: the site's own folder, the program's theme, what that builds on.

A ``theme.yaml`` may name a ``base``. The program's own themes share the one called ``base``, which
is a part and no theme: it has neither colours nor faces.
"""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import Any

import yaml

from sitegen.problems import Problem, did_you_mean
from sitegen.site import Site

USUAL = "sheet"
"""The theme that a site's own theme builds on unless its ``theme.yaml`` names another."""


@dataclass(frozen=True, slots=True)
class Lineage:
    """Folders of themes, by their names."""

    own: Path | None
    """The site's own folder of this name; None if it has none."""
    program: dict[str, Path]
    """The program's themes that it builds on, the nearest first."""

    def templates(self) -> dict[str, Path]:
        """The program's folders of templates, by the theme's name, the nearest first."""
        return {name: folder / "templates" for name, folder in self.program.items()}


def program_themes() -> Path:
    """Where the program's own themes lie, installed or in a working copy."""
    package = Path(__file__).resolve().parents[1]
    inside = package / "themes"
    return inside if inside.is_dir() else package.parent / "themes"


def theme_names() -> list[str]:
    """The program's themes that a site can name."""
    folders = sorted(program_themes().glob("*/theme.yaml"))
    return [file.parent.name for file in folders if not _said(file).get("part")]


def lineage(site: Site) -> tuple[Lineage | None, list[Problem]]:
    """What the theme that the site names is made of, and what is wrong with the site's part of it."""
    name = site.settings.theme
    own = site.themes / name
    problems: list[Problem] = []
    nearest = name
    if name not in theme_names():
        if not own.is_dir():
            return None, [_no_theme(name, "content/site.yaml")]
        nearest, problems = _base_of(own, name)
        if not (program_themes() / nearest / "theme.yaml").is_file():
            return None, [*problems, _no_theme(nearest, f"themes/{name}/theme.yaml")]
    program: dict[str, Path] = {}
    while nearest and nearest not in program:
        program[nearest] = program_themes() / nearest
        nearest = str(_said(program[nearest] / "theme.yaml").get("base", ""))
    same = name in program and own.resolve() == program[name].resolve()
    return Lineage(own if own.is_dir() and not same else None, program), problems


def _said(file: Path) -> dict[str, Any]:
    said = yaml.load(file.read_text("utf-8"), yaml.SafeLoader)
    return said if isinstance(said, dict) else {}


def _base_of(own: Path, name: str) -> tuple[str, list[Problem]]:
    try:
        return str(_said(own / "theme.yaml").get("base", USUAL)), []
    except FileNotFoundError:
        return USUAL, []
    except (yaml.YAMLError, UnicodeDecodeError) as error:
        mark = getattr(error, "problem_mark", None)
        line, column = (mark.line + 1, mark.column + 1) if mark else (1, 1)
        file = f"themes/{name}/theme.yaml"
        problem = Problem(
            "theme-unreadable", "error", file, line, column, "this is not YAML", str(error)
        )
        return USUAL, [problem]


def _no_theme(name: str, file: str) -> Problem:
    known = theme_names()
    hint = did_you_mean(name, known) or (
        f"the program's own themes are {', '.join(known)}; a site's own is a folder themes/{name}/"
    )
    return Problem("theme-missing", "error", file, 0, 0, f"there is no theme '{name}'", hint)
