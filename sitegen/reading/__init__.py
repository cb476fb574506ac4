"""From text to :class:`~sitegen.reading.recipe.Recipe`: what the author said, and where."""
