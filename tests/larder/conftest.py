"""Where the tests of the larder find the outside figures they compare with."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

REPO = Path(__file__).resolve().parent.parent.parent
FILES = ("ABBREV.txt", "FOOD_DES.txt", "WEIGHT.txt")


@pytest.fixture(scope="session")
def sr28_folder() -> Path:
    """The folder of USDA SR28's text files: `SITEGEN_SR28`, else beside the repository.

    Missing files skip a test on somebody's own machine and fail it where `CI` is set: a check
    that did not run must not look like one that passed.
    """
    beside = REPO.parent / "shared" / "reference" / "usda-sr28"
    folder = Path(os.environ.get("SITEGEN_SR28") or beside)
    missing = [name for name in FILES if not (folder / name).is_file()]
    if missing:
        told = f"no {', '.join(missing)} of USDA SR28 in SITEGEN_SR28 ({folder})"
        if os.environ.get("CI"):
            pytest.fail(told, pytrace=False)
        pytest.skip(told)
    return folder
