"""A changed thing is what ``dataclasses.replace`` makes of it."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from sitegen.changed import changed
from sitegen.dish import Figure


def test_it_is_as_replaced() -> None:
    figure = Figure("g", Fraction(150), None, "150 g", about=True, one="", around="(…)")
    assert changed(figure) == figure
    made = changed(figure, text="1.5 kg", value=Fraction(1500))
    assert made == replace(figure, text="1.5 kg", value=Fraction(1500)) != figure


def test_a_field_that_is_none_is_refused() -> None:
    with pytest.raises(TypeError):
        changed(Figure("g", Fraction(1), None, "1 g"), weight=2)
