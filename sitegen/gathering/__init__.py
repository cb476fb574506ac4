"""A site's folder → its :class:`Collection`, and every problem of every file in one run.

A file that can't be understood never stops another. A :class:`Gatherer` remembers what it made of
each file, so that after an edit only what changed is read and worked out again; the result is the
same as a fresh one's.
"""

from sitegen.gathering.files import PAGES, RECIPES, is_read
from sitegen.gathering.gathered import Gathered, MakeLeaves, Progress
from sitegen.gathering.gatherer import Gatherer

__all__ = ["PAGES", "RECIPES", "Gathered", "Gatherer", "MakeLeaves", "Progress", "is_read"]
