"""How the models that check an author's fields are set up.

They are built when they are first used: a start that checks no trial's log pays for none. No plug-in
that lies beside the program has a say in what is valid, so none is looked for: looking through every
installed package takes longer than building all the models.
"""

from __future__ import annotations

import os
from typing import Final

from pydantic import ConfigDict

# Read when the first model is built.
os.environ.setdefault("PYDANTIC_DISABLE_PLUGINS", "__all__")

STRICT: Final = ConfigDict(extra="forbid", strict=True, defer_build=True)
"""Known fields only, of exactly their types."""
