"""What a build tells of itself."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path

from sitegen.building.placing import Placed
from sitegen.problems import Problem


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
    finished_earlier: bool = False
    """Whether a build that had been killed was carried to its end first."""

    @property
    def done(self) -> bool:
        """Whether the site was built."""
        return not self.blocking
