"""sitegen: a static recipe-publishing site generator."""

__version__ = "0.1.0"
