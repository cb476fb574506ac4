"""The live figures of a page: what stands there, and what Python prints for the same exact amount."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from bs4 import Tag

from sitegen.kitchen.printing import is_one, print_figure

NBSP = "\N{NO-BREAK SPACE}"


def plain(text: str) -> str:
    """Text with ordinary single spaces."""
    return " ".join(text.replace(NBSP, " ").split())


def expected(figure: Tag, factor: Fraction) -> str:
    """What a figure has to say at ``factor``: its own text at 1, else what the ladder prints."""
    if factor == 1:
        return plain(figure.get_text())
    upto = figure.get("data-upto")
    ladder, value = str(figure["data-ladder"]), Fraction(str(figure["data-value"])) * factor
    to = Fraction(str(upto)) * factor if upto else None
    text = print_figure(ladder, value, to, str(figure.get("data-noun", "")))
    text = f"{figure.get('data-prefix', '')}{text}{figure.get('data-suffix', '')}"
    if figure.has_attr("data-one") and is_one(ladder, value, to):
        text = str(figure["data-one"])
    return plain(str(figure.get("data-around", "…")).replace("…", text) if text else "")


def shown(page: Any, where: str = "") -> list[str]:
    """The texts of the live figures in the page's order, hidden ones too."""
    return [plain(text) for text in page.locator(f"{where} data.fig").all_text_contents()]
