"""A site, read: what gathering comes to."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from sitegen.collection import Collection, PlainPage
from sitegen.larder.larder import Larder
from sitegen.problems import Problem
from sitegen.site import Site

if TYPE_CHECKING:
    from sitegen.building.leaf import Leaf
    from sitegen.images.photos import Photograph
    from sitegen.trials.log import Log

Progress = Callable[[str, int, int], None]
"""Told what is being done, how much of it has been done, and how much there is."""

MakeLeaves = Callable[[Site, Larder, tuple[PlainPage, ...], Sequence[str]], "Mapping[str, Leaf]"]
"""Given the site, its foods, its plain pages and its recipe files, makes each file's leaf."""


@dataclass(frozen=True, slots=True)
class Gathered:
    """A site, read."""

    collection: Collection
    problems: tuple[Problem, ...]
    """All of them, by file and line."""
    blocking: tuple[Problem, ...]
    """The errors that keep the site from being built: all but those of drafts."""
    photographs: Mapping[str, Photograph] = field(default_factory=dict)
    """By the recipe's slug; a picture inside a text by its file."""
    all_photographs: tuple[Photograph, ...] = ()
    """Drafts' too."""
    unserved: Mapping[str, str] = field(default_factory=dict)
    """Slug → file of the recipes that have no dish, since something is wrong with them."""
    drafts: int = 0
    """How many recipes are drafts."""
    logs: Mapping[str, Log] = field(default_factory=dict)
    """Test logs by the recipe's slug. Private: only the preview and the commands see them."""
    larder: Larder | None = None

    @property
    def site(self) -> Site:
        """The site with its settings."""
        return self.collection.site
