"""Lines of the commonest shape, which are read at once, come out as the reader of all lines reads them."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st

from sitegen.problems import Problem
from sitegen.reading.lines import read_line
from sitegen.reading.plain_lines import plain_line
from sitegen.reading.source import Place
from sitegen.reading.unit_words import FORMS
from tests.reading.corpus import rows

NUMBERS = "1 2 3 10 100 0 00 05 1/2 ½ 1½ 1-½ 1.5 1,5 2-3 2–3 1/0 3-2 1– 1,000 .5".split()
UNITS = (*FORMS, *("g tbsp tsp cup ml" * 12).split(), *"x st cm inch t c tbps cupz".split())
WORDS = (
    "flour butter sugar leeks oil juice zest lemon leaves whole fresh large small ripe very not firm "
    "chopped finely packed sliced cold cream tartar piece clove cloves free-range skin-on self-raising "
    "Parmesan to or and plus for of as if each enough optional divided a an one half third dozen tin can "
    "jar packet up about level heaped scant needed taste serve but oz cup fl us metric x t c in each with"
).split()
REMARKS = ("optional", "divided", "to serve", "to taste", "plus extra", "plus extra for the tin")


@st.composite
def lines(draw: st.DrawFn) -> str:
    """A measure, perhaps another in brackets, a few words, and perhaps more of them."""

    def measure() -> str:
        number, unit = draw(st.sampled_from(NUMBERS)), draw(st.sampled_from(UNITS))
        return draw(st.sampled_from(["", "", "1 ", "2 x ", "2  – "])) + number + draw(spaces) + unit

    spaces = st.sampled_from([" ", " ", " ", ""])
    words = st.lists(st.sampled_from(WORDS), min_size=1, max_size=3).map(" ".join)
    line = f"{measure()} "
    if draw(st.booleans()):
        line += f"({draw(st.sampled_from(['', 'about ']))}{measure()}) "
    line += draw(words)
    for more in draw(st.lists(words | st.sampled_from(REMARKS), max_size=2)):
        line += f", {more}"
    return line


@settings(max_examples=600)
@given(lines())
def test_a_plain_line_is_read_as_any_other(line: str) -> None:
    """A space in front makes it a line that only the reader of all lines takes."""
    at_once = plain_line(line, Place(3, 5))
    problems: list[Problem] = []
    if at_once is not None:
        assert at_once == read_line(f" {line}", Place(3, 5), "soup.md", problems)
        assert problems == []


def test_the_commonest_lines_are_plain() -> None:
    for line in (
        "500 g strong white flour",
        "1 1/2 tsp fine salt",
        "2–3 tbsp dill, finely chopped",
        "30 g (2 tbsp) butter, melted, divided",
        "10 g chives, to serve",
        "40 ml rapeseed oil, plus extra for the tin",
    ):
        assert plain_line(line, Place(1, 1)) is not None


def test_plain_lines_of_the_corpus_are_what_they_were() -> None:
    """Those of the lines that are checked by hand, too."""
    plain = [row.words for row in rows() if plain_line(row.words, Place(1, 1))]
    assert plain
    for words in plain:
        assert plain_line(words, Place(1, 1)) == read_line(f" {words}", Place(1, 1), "soup.md", [])
