"""The small form says the same: same text, same elements, the kept parts untouched."""

from __future__ import annotations

import re

import pytest
from bs4 import BeautifulSoup
from hypothesis import given
from hypothesis import strategies as st

from sitegen.pages import lay_out
from sitegen.pages.small import small, small_page
from sitegen.pages.theme import load_theme
from tests.pages.fixtures import collection


@pytest.fixture(scope="module")
def both_forms(tmp_path_factory):
    found = []
    for minify in (False, True):
        site = collection(tmp_path_factory.mktemp("site"), minify=minify)
        theme, _ = load_theme(site.site)
        assert theme is not None
        files = dict(theme.files) | {
            page.path: page.content for page in lay_out(site, theme, {}, preview=False)
        }
        found.append(files)
    return found


def test_every_page_has_the_same_words_and_elements(both_forms):
    plain, _ = both_forms
    pages = [path for path in plain if path.endswith(".html")]
    assert len(pages) > 8
    for path in pages:
        one, other = (BeautifulSoup(files[path], "lxml") for files in both_forms)
        assert " ".join(one.get_text().split()) == " ".join(other.get_text().split()), path
        assert [tag.name for tag in one.find_all()] == [tag.name for tag in other.find_all()], path
        for tag, twin in zip(
            one.find_all(["td", "li", "p", "span"]),
            other.find_all(["td", "li", "p", "span"]),
            strict=True,
        ):
            assert re.sub(r"[ \t\n]+", " ", tag.get_text()) == re.sub(
                r"[ \t\n]+", " ", twin.get_text()
            )


def test_sheets_and_scripts_are_smaller(both_forms):
    plain, little = both_forms
    for name in ("page.css", "card.css", "scale.js", "timers.js", "kitchen.js"):
        assert len(little[name]) < len(plain[name]), name
        assert b"/*" not in little[name] or name.endswith("js")


def test_what_keeps_its_space_keeps_it():
    page = "<p>a  b</p>\n\n<PRE>a  b\n\n c</PRE><textarea>x  y</textarea><script>a =  1</script> <i>c</i>  d"
    assert small_page(page) == (
        "<p>a b</p>\n<PRE>a  b\n\n c</PRE><textarea>x  y</textarea><script>a =  1</script> <i>c</i> d"
    )
    assert small_page("1\u00a0\u00a0kg") == "1\u00a0\u00a0kg", "other spaces are the author's"


_KEPT = re.compile(r"(<(pre|textarea|script|style)\b.*?</\2\s*>)", re.DOTALL | re.IGNORECASE)
_BITS = (
    *("<p>", "</p>", "<b title='x  y\n z'>", "<pre>", "</pre>", "<SCRIPT>", "</script >"),
    *(" ", "  ", "\n", "\r\n", "\t", "\f", "\u00a0", "a", "b c", "&gt;"),
)


@given(st.lists(st.sampled_from(_BITS), max_size=14).map("".join))
def test_a_page_is_made_small_piece_by_piece(page):
    def run(text: str) -> str:
        if text and not text.strip(" \t\n\r\f"):
            return "\n" if "\n" in text else " "
        return re.sub(r"[ \t\n\r\f]+", " ", text)

    wanted = []
    for n, part in enumerate(_KEPT.split(page)):  # text, kept, its name, text, …
        if n % 3 == 0:
            wanted += [p if p[:1] == "<" else run(p) for p in re.split(r"(<[^>]*>)", part)]
        elif n % 3 == 1:
            wanted.append(part)
    assert small_page(page) == "".join(wanted)


def test_pages_come_small_from_their_templates(both_forms):
    """What has no spare space need not be searched for it."""
    plain, _ = both_forms
    for path in ("recipes/index.html", "index.html", "search.html"):
        page = plain[path].decode()
        assert small_page(page) == page, path


def test_other_files_stay_as_they_are():
    assert small("icon.png", b"a  b") == b"a  b"
