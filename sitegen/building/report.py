"""What a build tells of itself."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path

from sitegen.building.placing import Placed
from sitegen.problems import Problem


@dataclass(frozen=True, slots=True)
class Otherwise:
    """What is told otherwise of one recipe."""

    file: str
    harm: tuple[str, ...]
    """Sentences on allergens, claims and cautions."""
    figures: tuple[str, ...]
    """Sentences on the label and the amounts."""
    edited: tuple[str, ...]
    """The recipes in it that were edited, if it was not edited itself."""


@dataclass(frozen=True, slots=True)
class Changes:
    """What a build tells otherwise than the one before, harm first."""

    recipes: tuple[Otherwise, ...] = ()
    since: tuple[str, ...] = ()
    """What all recipes rest on and has changed: the program, settings, files of foods."""


@dataclass(frozen=True, slots=True)
class BuildReport:
    """What a build found and did."""

    folder: Path
    """Where the site stands, or would have."""
    problems: tuple[Problem, ...]
    blocking: tuple[Problem, ...] = ()
    """The errors that kept the site from being built; empty when it was."""
    recipes: int = 0
    photos: int = 0
    drafts: int = 0
    """Left out."""
    pages: Mapping[str, int] = field(default_factory=dict)
    """Files by kind: ``recipe``, ``card``, ``list`` …"""
    placed: Placed = field(default_factory=Placed)
    seconds: float = 0.0
    changes: Changes = field(default_factory=Changes)
    """What readers are told otherwise than by the last build."""
    finished_earlier: bool = False
    """Whether a build that had been killed was carried to its end first."""

    @property
    def done(self) -> bool:
        """Whether the site was built."""
        return not self.blocking
