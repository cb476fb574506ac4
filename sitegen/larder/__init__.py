"""The larder: what is known about foods, each figure with its source.

``Larder.load()`` gives the foods that come with sitegen; ``Larder.find`` finds one by the words a
cook writes; a site adds its own foods through ``foods_from_mapping``.
"""

from sitegen.larder.food import Food, Measure
from sitegen.larder.larder import Larder, Match

__all__ = ["Food", "Larder", "Match", "Measure"]
