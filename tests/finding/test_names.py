"""Other names of a food find it; words that many foods share don't.

The pairs are British and American names of one food: common practice.
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from sitegen.finding.names import other_names
from sitegen.finding.terms import PLACES, terms_of
from sitegen.finding.words import terms
from sitegen.larder import Larder
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


def test_a_site_s_own_foods_are_found_by_all_that_it_calls_them():
    """Its author's words are not in doubt, as a table's other names may be: "pebble onion relish"."""
    ours = replace(
        Larder.load().get("rolled oats"),
        name="harbour oatcakes",
        also=("pebble biscuit", "onion relish crackers"),
    )
    larder = Larder.load().with_foods([ours])
    made = terms_of(cooked("title: A dish", ["300 g harbour oatcakes"], larder=larder))
    place = PLACES.index("ingredient")
    assert all(made.get(term) == place for name in ours.also for term in terms(name))
    named_so = terms_of(cooked("title: A dish", ["300 g pebble biscuits"], larder=larder))
    assert all(named_so.get(term) == place for term in terms("harbour oatcakes"))
    assert "relish" not in terms_of(cooked("title: A dish", ["300 g rolled oats"], larder=larder))


def test_names_are_folded_terms_in_order():
    for name, said in other_names().items():
        assert list(said) == sorted(set(said)), name
        assert not set(said) & set(terms(name)), name
