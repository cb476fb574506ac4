"""Dish → HTML, structured data, feeds, search index, sitemap and the card."""

from sitegen.pages.layout import lay_out
from sitegen.pages.page import Page

__all__ = ["Page", "lay_out"]
