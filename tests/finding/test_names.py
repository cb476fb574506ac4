"""Other names of a food find it; words that many foods share don't.

The pairs are British and American names of one food: common practice.
"""

from __future__ import annotations

import pytest

from sitegen.finding.names import other_names
from sitegen.finding.terms import PLACES, terms_of
from sitegen.finding.words import terms
from tests.dishes import cooked

PAIRS = [
    ("aubergine", "eggplant"),
    ("courgette", "zucchini"),
    ("spring onions", "scallions"),
    ("fresh coriander", "cilantro"),
    ("rocket", "arugula"),
    ("swede", "rutabaga"),
    ("prawns", "shrimp"),
    ("icing sugar", "confectioners' sugar"),
    ("cornflour", "cornstarch"),
    ("beetroot", "beets"),
]


def found(food: str) -> dict[str, int]:
    return terms_of(cooked("title: A dish", [f"300 g {food}"]))


@pytest.mark.parametrize(("british", "american"), PAIRS)
def test_either_name_finds_the_other(british, american):
    for written, typed in ((british, american), (american, british)):
        names = found(written)
        for term in terms(typed):
            assert names.get(term) == PLACES.index("ingredient"), (written, term)


def test_a_tin_is_found_as_its_kind_is():
    assert "garbanzo" in found("tinned chickpeas, drained")
    assert "garbanzo" in found("dried chickpeas")


def test_a_word_that_many_foods_share_finds_none_of_them():
    assert not {"spanish", "green", "red", "yellow", "pearl"} & set(found("onion"))
    assert "green" not in found("spring onions")
    assert "heavy" not in found("double cream")


def test_names_are_folded_terms_in_order():
    for name, said in other_names().items():
        assert list(said) == sorted(set(said)), name
        assert not set(said) & set(terms(name)), name
