"""Pictures and paid links in a text, as pages, cards and feeds write them."""

from __future__ import annotations

import pytest

from sitegen.pages.links import has_paid, link_writer
from sitegen.reading.markdown import parser
from tests.pages.conftest import PHOTO

FILE = "content/recipes/breads/rolls.md"
PHOTOS = {"content/recipes/breads/set.png": PHOTO}


def written(markdown: str, *, pictures: bool = True) -> str:
    writer = link_writer(
        FILE,
        "recipes/rolls.html",
        {"content/recipes/breads/rye.md": "recipes/rye.html"},
        paying=["shop.example"],
        photos=PHOTOS,
        draw=(lambda photo, alt: f"[{photo.width} {alt}]") if pictures else None,
    )
    return str(writer(parser().render(markdown).strip()))


def test_a_picture_of_its_own_paragraph_has_its_title_below() -> None:
    shown = '<figure class="shot">[1200 Balls &amp; gaps]<figcaption>Set</figcaption></figure>'
    drawn = written('![Balls & gaps](set.png "Set")').replace("Balls & gaps", "Balls &amp; gaps")
    assert drawn == shown


def test_a_picture_within_a_line_stays_in_it() -> None:
    assert written("As ![balls](set.png) here") == "<p>As [1200 balls] here</p>"


@pytest.mark.parametrize("markdown", ["![balls](set.png)", '![balls](set.png "Set")'])
def test_paper_has_no_pictures_of_steps(markdown: str) -> None:
    assert written(markdown, pictures=False) == ""
    assert written(f"As {markdown} here", pictures=False) == "<p>As  here</p>"


@pytest.mark.parametrize(
    ("link", "paid"),
    [
        ("[a tin](https://shop.example/tin)", True),
        ("[a tin](https://www.shop.example/tin)", True),
        ("[a tin](https://notshop.example/tin)", False),
        ("[a tin](https://other.example/?to=shop.example)", False),
        ('[a tin](https://other.example/tin "paid")', True),
        ('[a tin](https://other.example/tin "Paid: 23 cm")', True),
        ('[a tin](https://other.example/tin "paidonia")', False),
        ("[rye](rye.md)", False),
    ],
)
def test_a_paid_link_says_so_and_is_sponsored(link: str, paid: bool) -> None:
    html = written(link)
    assert ('rel="sponsored"' in html) is paid
    assert ("paid link" in html) is paid
    assert has_paid(parser().render(link), ["shop.example"]) is paid
    assert ">a tin</a>" in html or ">rye</a>" in html or "</small> a tin</a>" in html


def test_a_marker_is_no_title_for_readers() -> None:
    assert 'title="of tin"' in written('[a tin](https://other.example/ "paid: of tin")')
    assert "title" not in written('[a tin](https://other.example/ "paid")')


def test_a_link_to_another_recipe_is_one_to_its_page() -> None:
    assert written("[rye](rye.md#step-2)") == '<p><a href="rye.html#step-2">rye</a></p>'
