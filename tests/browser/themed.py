"""The demo in each of the program's themes."""

from __future__ import annotations

import pytest

from sitegen.pages.lineage import theme_names

each_theme = pytest.mark.parametrize("name", theme_names())
"""For tests that take ``name``, and ``built(name)`` for the folder and the address of the demo in it."""
