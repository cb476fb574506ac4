"""The card on paper: one sheet, black on white, whole, at the scale that the reader set."""

from __future__ import annotations

from io import BytesIO
from unicodedata import normalize

import pytest
from pypdf import PdfReader

from tests.browser.figures import plain
from tests.browser.pages import card_of, own_address, recipe_paths, soup
from tests.browser.themed import each_theme

PAPERS = {
    "A4": {"format": "A4"},
    "A5": {"format": "A5"},
    "letter": {"format": "Letter"},
    "index card": {"width": "6in", "height": "4in"},
}
"""ISO 216 sizes, US Letter (ANSI/ASME Y14.1 size A), and the 6 × 4 in index card."""


def printed(page, **paper):
    reader = PdfReader(BytesIO(page.pdf(**paper)))
    return len(reader.pages), squeezed("".join(sheet.extract_text() for sheet in reader.pages))


def squeezed(text):
    """Without spaces and ligatures: a PDF's text breaks where its lines do, and joins f and i."""
    return "".join(normalize("NFKC", plain(text)).split())


@pytest.mark.parametrize("paper", [name for name in PAPERS if name != "index card"])
def test_every_card_is_one_whole_sheet(demo, site, window, paper):
    page = window(color_scheme="dark").page
    faults = []
    for path in recipe_paths(demo):
        page.goto(site + card_of(path))
        sheets, text = printed(page, **PAPERS[paper])
        if sheets != 1:
            faults.append(f"{path}: {sheets} sheets")
        card = soup(demo / card_of(path))
        wanted = [card.h1.get_text(), *(step.get_text() for step in card.select(".card-method li"))]
        wanted += [figure.get_text() for figure in card.select(".card-ledger data.fig")]
        wanted.append((own_address(demo) + path).split("://")[1])
        faults += [f"{path}: lacks {each!r}" for each in wanted if squeezed(each) not in text]
    assert not faults, "\n".join(faults[:30])


def test_an_index_card_holds_a_short_recipe_and_is_whole_for_a_long_one(demo, site, window):
    page = window().page
    counts = {}
    for path in recipe_paths(demo):
        page.goto(site + card_of(path))
        sheets, text = printed(page, **PAPERS["index card"])
        counts[path] = sheets
        last = soup(demo / card_of(path)).select(".card-method li")[-1]
        assert squeezed(last.get_text()) in text, path
    assert min(counts.values()) == 1, counts
    assert max(counts.values()) <= 2, counts


def test_a_scaled_card_prints_the_scaled_amounts(demo, site, window):
    page = window().page
    page.goto(f"{site}recipes/fish-pie-card.html?serves=12")
    _, text = printed(page, format="A4")
    assert "2.4kg" in text, "1.2 kg of potatoes for 6"
    assert "800g" in text, "400 g of cod"


def test_the_card_leaves_its_buttons_off_the_paper(demo, site, window):
    page = window().page
    path = card_of(recipe_paths(demo)[0])
    page.goto(site + path)
    assert "Backtotherecipe" not in printed(page, format="A4")[1]


def test_a_recipe_page_prints_its_table_and_method_too(demo, site, window):
    page = window().page
    path = recipe_paths(demo)[0]
    page.goto(site + path)
    _, text = printed(page, format="A4")
    for step in soup(demo / path).select(".step .text"):
        assert squeezed(step.get_text()) in text


def test_paper_is_black_on_white_even_in_the_dark(demo, site, window):
    page = window(color_scheme="dark").page
    page.emulate_media(media="print", color_scheme="dark")
    for path in (recipe_paths(demo)[0], card_of(recipe_paths(demo)[0])):
        page.goto(site + path)
        ink, paper = page.evaluate(
            "[getComputedStyle(document.body).color,"
            " getComputedStyle(document.documentElement).backgroundColor]"
        )
        assert ink == "rgb(0, 0, 0)", path
        assert paper in ("rgb(255, 255, 255)", "rgba(0, 0, 0, 0)"), path


CHOSEN = {"a4": (595, 842), "a5": (420, 595), "letter": (612, 792), "index": (432, 288)}
"""Each paper that the card offers, in points: ISO 216, US Letter, and 6 × 4 in."""


def chosen(page):
    """Pages of the PDF as the card's own choice of paper makes it, their size, the text."""
    reader = PdfReader(BytesIO(page.pdf(prefer_css_page_size=True)))
    size = tuple(round(float(each)) for each in reader.pages[0].mediabox[2:])
    text = squeezed("".join(sheet.extract_text() for sheet in reader.pages))
    return len(reader.pages), size, text


@pytest.mark.parametrize("scripts", [True, False], ids=["scripts", "no scripts"])
def test_the_reader_chooses_the_paper(demo, site, window, scripts):
    page = window(java_script_enabled=scripts).page
    page.goto(f"{site}recipes/fish-pie-card.html")
    for paper, size in CHOSEN.items():
        page.check(f"#paper-{paper}")
        sheets, found, _ = chosen(page)
        assert found == size
        assert sheets == (2 if paper == "index" else 1), paper


@each_theme
def test_every_card_fits_the_paper_chosen_and_says_when_it_takes_two_sides(built, window, name):
    """Every second recipe: the other test of all of them prints by the printer's paper."""
    page = window().page
    folder, start = built(name)
    faults = []
    for path in recipe_paths(folder)[::2]:
        page.goto(start + card_of(path))
        said = 2 if page.locator(".sides").count() else 1
        for paper, size in CHOSEN.items():
            page.check(f"#paper-{paper}")
            sheets, found, _ = chosen(page)
            if (sheets, found) != (said if paper == "index" else 1, size):
                faults.append(f"{path}, {paper}: {sheets} of {found}, {said} said")
    assert not faults, "\n".join(faults)


def test_the_address_and_the_device_choose_the_paper(site, window):
    page = window().page
    page.goto(f"{site}recipes/fish-pie-card.html?paper=a5")
    assert chosen(page)[1] == CHOSEN["a5"]
    page.goto(f"{site}recipes/fish-pie-card.html")
    assert page.is_checked("#paper-own")
    page.check("#paper-letter")
    page.goto(f"{site}recipes/lentil-soup-card.html")
    assert page.is_checked("#paper-letter")


def test_a_card_prints_the_measures_chosen(site, window):
    page = window().page
    page.goto(f"{site}recipes/fish-pie-card.html")
    page.check("#units-us")
    text = chosen(page)[2]
    assert squeezed("2 lb 10½ oz") in text
    assert "1.2kg" not in text
    page.check("#units-metric")
    text = chosen(page)[2]
    assert "1.2kg" in text
    assert squeezed("2 lb 10½ oz") not in text


@each_theme
def test_a_recipe_page_prints_on_few_sheets_and_no_heading_ends_one(built, window, name):
    """In either theme: two sheets of A4, three for a long recipe; on the last there is something."""
    folder, start = built(name)
    page = window().page
    counts = {}
    for path in recipe_paths(folder):
        page.goto(start + path, wait_until="domcontentloaded")
        reader = PdfReader(BytesIO(page.pdf(format="A4")))
        texts = [squeezed(sheet.extract_text()) for sheet in reader.pages]
        counts[path] = len(texts)
        headings = [squeezed(h.get_text()) for h in soup(folder / path).select("main h2, main h3")]
        assert not [h for h in headings for text in texts if text.endswith(h)], path
        assert len(texts[-1]) > 80, path
    assert max(counts.values()) <= 3, counts
