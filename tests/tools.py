"""What to do when a tool that a test needs is not on the machine."""

from __future__ import annotations

import os
from typing import NoReturn

import pytest


def missing(what: str) -> NoReturn:
    """Skip on somebody's own machine; fail in CI, where a check that did not run must not pass."""
    told = f"{what} is missing: sh .dev/test installs it or says how"
    if os.environ.get("CI"):
        pytest.fail(told, pytrace=False)
    pytest.skip(told)
