"""The files of USDA SR28, as the tests of the larder find them."""

from tests.larder.conftest import sr28_folder

__all__ = ["sr28_folder"]
