"""The search index as files: what is in it, how it is parted, and what the page does without it."""

from __future__ import annotations

import json
import re
from bisect import bisect_right

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sitegen.finding.terms import PLACES, terms_of
from sitegen.finding.words import STOP, different_terms, fold, stem, terms
from sitegen.pages.search import DIGITS, PART_SIZE, search_files
from sitegen.pages.view import listing
from tests.dishes import cooked


class Reader:
    """The index read as the page's script reads it."""

    def __init__(self, found) -> None:
        self.files = {path: content.decode() for path, content in found.files.items()}
        self.core = self._data(found.terms)
        self.terms: list[str] = []
        before = ""
        for coded in self.core["terms"].split(" "):
            before = before[: DIGITS.index(coded[0])] + coded[1:]
            self.terms.append(before)

    def _data(self, path: str):
        return json.loads(re.fullmatch(r'SEARCH\.take\("\w+",\d+,(.*)\);\n', self.files[path])[1])

    def part(self, kind: str, number: int):
        return self._data(f"assets/search/{kind}-{number}.{self.core[kind][number]}.js")

    def find(self, term: str) -> dict[int, str]:
        """Dish → place."""
        place = self.terms.index(term)
        number = bisect_right(self.core["starts"], place) - 1
        coded = self.part("found", number)[place - self.core["starts"][number]]
        found: dict[int, str] = {}
        for name, numbers in zip(PLACES, coded.split("."), strict=False):
            dish, gap, scale = -1, 0, 1
            for sign in numbers:
                digit = DIGITS.index(sign)
                gap += digit % 32 * scale
                scale *= 32
                if digit < 32:
                    dish += gap + 1
                    gap, scale = 0, 1
                    found[dish] = name
        return found

    def shown(self, dish: int) -> list[str]:
        return self.part("dishes", dish // self.core["run"])[dish % self.core["run"]]


def read(dishes, author: str = "") -> Reader:
    return Reader(search_files([(d, author, listing(d, {}, "search.html")) for d in dishes]))


DISHES = [
    cooked("title: Crème caramel\ntags: [Sunday]", ["400 ml whole milk", "4 eggs"], name="creme"),
    cooked("title: Leek pie\ncourse: main", ["500 g leeks", "2 tomatoes"], name="leek-pie"),
    cooked("title: Soup\ncuisine: Nordic", ["2 leeks", "1 tsp dill"], name="soup"),
]


def test_each_term_tells_the_dishes_and_the_best_place_in_them():
    index = read(DISHES, "Ines Varrow")
    assert index.find("leek") == {1: "title", 2: "ingredient"}
    assert index.find("tomato") == {1: "ingredient"}
    assert index.find("sunday") == {0: "filing"}
    assert index.find("nordic") == {2: "filing"}
    assert index.find("varrow") == {0: "filing", 1: "filing", 2: "filing"}
    assert index.find("cook") == {0: "text", 1: "text", 2: "text"}  # a word of the method
    assert index.find("creme") == {0: "title"}
    assert index.terms == sorted(index.terms)


def test_what_is_shown_of_a_dish_is_with_it():
    index = read(DISHES)
    assert index.shown(1) == ["Leek pie", "recipes/leek-pie.html", "A dish.", "Main · serves 4"]


def test_gaps_of_every_size_are_read_back():
    one = cooked("title: Rare", ["1 egg"])
    other = cooked("title: Plain", ["1 egg"])
    rare = {0, 31, 32, 33, 64, 1055, 1056, 1057, 2200}
    found = search_files(
        [
            (one if n in rare else other, "", listing(one, {}, "search.html"))
            for n in range(max(rare) + 1)
        ]
    )
    assert set(Reader(found).find("rare")) == rare


def test_the_index_is_in_parts_of_a_moderate_size_and_the_same_every_time():
    dishes = [
        cooked(f"title: Dish {a}{b} pan\ntags: [t{a}{b}x, u{b}{a}y]", ["1 egg"], name=f"d-{a}{b}")
        for a in "abcdefghijklmnop"
        for b in "abcdefghijklmnop"
    ]
    entries = [(d, "", listing(d, {}, "search.html")) for d in dishes]
    found = search_files(entries)
    assert found == search_files(entries)
    for path, content in found.files.items():
        if "/found-" in path:
            assert len(content) < PART_SIZE + 1500, path
    assert len([path for path in found.files if "/dishes-" in path]) == -(-len(dishes) // 12)


def test_a_word_of_the_text_that_most_recipes_have_finds_nothing_but_is_known():
    dishes = [DISHES[n % 3] for n in range(240)]
    index = read(dishes)
    assert "cook" in index.terms
    assert index.find("cook") == {}
    assert len(index.find("leek")) == 160


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("leeks", "leek"), ("tomatoes", "tomato"), ("berries", "berry"), ("peaches", "peach"),
        ("leaves", "leaf"), ("Crème", "creme"), ("Smørrebrød", "smorrebrod"), ("Straße", "strasse"),
        ("boxes", "box"), ("radishes", "radish"), ("potatoes", "potato"), ("peas", "pea"),
        ("œufs", "oeuf"),
    ],
)  # fmt: skip
def test_number_accents_and_capitals_make_no_difference(one, other):
    assert stem(fold(one)) == stem(fold(other))


@pytest.mark.parametrize("word", ["couscous", "asparagus", "swiss", "gas", "hummus", "watercress"])
def test_a_word_that_ends_in_s_by_itself_is_left_alone(word):
    assert stem(word) == word


def test_what_carries_no_meaning_finds_nothing():
    assert terms("The 200 g of a leek, and 2 to 3 eggs") == ["leek", "egg"]


_ODD = st.text(alphabet="ab1½¼ª'’s -–_.\u00a0é\u0301ßİ\u0307ŀﬁ℃™Σςŉ\x1c\x85\u200d")


@given(st.one_of(st.text(), _ODD))
def test_words_are_what_folding_the_whole_text_would_make_of_them(text):
    """They are parted before they are folded, which is quicker."""
    folded = fold(text.replace("’", "'").replace("'s ", " "))
    words = [word for word in re.findall(r"[^\W_]+", folded) if len(word) > 1]
    assert terms(text) == [
        stem(word) for word in words if word not in STOP and not word.isdecimal()
    ]
    assert set(different_terms(text)) == set(terms(text))


def test_markup_is_no_text():
    dish = DISHES[0]
    assert not {"strong", "href", "em"} & set(terms_of(dish))


def test_without_scripts_everything_is_listed(soups):
    page = soups["search.html"]
    links = [a["href"] for a in page.select("#everything .index a")]
    assert links == [
        "recipes/barley-broth.html",
        "recipes/green-sauce.html",
        "recipes/rye-loaf.html",
    ]
    assert page.select_one("#words")["name"] == "q"
    assert page.select_one("#found")["role"] == "status"
