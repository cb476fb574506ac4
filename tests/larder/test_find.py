"""A food is found by the words that people write, or the look-up says that it is not sure."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sitegen.larder import Food, Larder
from sitegen.larder.words import stem, tokens

NAMES = Path(__file__).with_name("names.txt")


def listed() -> list[tuple[str, str]]:
    lines = NAMES.read_text(encoding="utf-8").splitlines()
    rows = [line.split("|") for line in lines if line.strip() and not line.startswith("#")]
    return [(words.strip(), food.strip()) for words, food in rows]


def test_names_as_people_write_them_are_found() -> None:
    """At least 98 % right and sure, and not one wrong while sure. "?" asks for an unsure answer."""
    larder = Larder.load()
    right, silent, unsure = 0, [], []
    wanted = [(words, food) for words, food in listed() if food != "?"]
    for words, food in wanted:
        assert larder.get(food) is not None, f"names.txt asks for {food!r}, which is not there"
        match = larder.find(words)
        name = match.food.name if match.food else None
        if match.sure and name == food:
            right += 1
        elif match.sure:
            silent.append((words, name, food))
        else:
            unsure.append((words, name, food))
    assert silent == []
    assert len(wanted) >= 300
    assert right / len(wanted) >= 0.98, unsure


def test_words_that_ask_for_a_question_get_one() -> None:
    sure = [words for words, food in listed() if food == "?" and Larder.load().find(words).sure]
    assert sure == []


@pytest.mark.parametrize("word", ["smoked", "toasted", "tinned", "powdered", "vegan", "xyzzy"])
def test_a_word_that_may_change_the_food_is_never_dropped(word: str) -> None:
    match = Larder.load().find(f"{word} parsnip")
    assert match.food is not None
    assert match.food.name == "parsnip"
    assert not match.sure


@pytest.mark.parametrize(
    "words",
    [
        "butter or margarine",
        "fresh dried thyme",
        "minced lamb shoulder",
        "chopped or whole almonds",
        "gluten-free flour",
        "egg-free mayonnaise",
        "dairy-free butter",
        "wheat-free bread",
        "vegan sausages",
        "oat cream",
        "meat",
        "spice",
        "",
        "   ",
        ",",
        "2",
    ],
)
def test_what_could_be_two_things_is_not_sure(words: str) -> None:
    assert not Larder.load().find(words).sure


def test_nothing_like_it_gives_no_food_but_candidates() -> None:
    match = Larder.load().find("turmric root of the moon")
    assert not match.sure
    assert match.candidates
    assert len(match.candidates) <= 5
    assert Larder.load().find("qqqq").food is None


def test_a_slip_of_the_pen_is_offered_not_taken() -> None:
    match = Larder.load().find("parsnp")
    assert match.food is None
    assert "parsnip" in [food.name for food in match.candidates]


def test_two_foods_of_the_same_words_are_not_sure() -> None:
    larder = Larder.load().with_foods(
        [Food("quay loaf brown", source="test"), Food("brown loaf quay", source="test")]
    )
    match = larder.find("loaf, quay, brown")
    assert not match.sure
    assert {food.name for food in match.candidates[:2]} == {"quay loaf brown", "brown loaf quay"}
    assert larder.find("Quay Loaf Brown").sure


def test_every_name_and_synonym_finds_its_food() -> None:
    larder = Larder.load()
    for food in larder.foods:
        for name in (food.name, *food.also):
            match = larder.find(name)
            assert match.sure, name
            assert match.food is food, name


@given(st.sampled_from([food.name for food in Larder.load().foods]), st.randoms())
def test_word_order_and_capitals_do_not_lead_to_another_food(name: str, random) -> None:  # type: ignore[no-untyped-def]
    words = name.replace(",", " ").split()
    random.shuffle(words)
    match = Larder.load().find(" ".join(words).upper())
    assert match.food is not None
    # Another order can be another food's own name ("rice pudding"), never a food of other words.
    if match.sure:
        names = (match.food.name, *match.food.also)
        assert any(sorted(tokens(name)) == sorted(tokens(other)) for other in names)


@given(st.text(max_size=60))
def test_any_text_at_all_gets_an_answer(text: str) -> None:
    match = Larder.load().find(text)
    assert match.food is not None or not match.sure
    assert len(match.candidates) <= 5


def test_a_site_food_takes_the_place_of_ours_and_only_there() -> None:
    ours = Larder.load()
    butter = Food("butter", source="a label", also=("harbour butter",))
    larder = ours.with_foods([butter, Food("sea beet", source="a book")])
    assert larder.get("BUTTER") is butter
    assert larder.find("harbour butter, softened").food is butter
    assert larder.find("sea beets").food == larder.get("sea beet")
    assert len(larder) == len(ours) + 1
    assert ours.get("sea beet") is None
    assert ours.get("butter") is not butter


def test_what_takes_the_place_of_ours_keeps_our_synonyms() -> None:
    flour = Food("plain flour", source="the mill")
    larder = Larder.load().with_foods([flour])
    assert larder.find("all-purpose flour, sifted").food is flour
    assert larder.get("flour") is flour


def test_a_synonym_that_a_site_claims_is_the_sites() -> None:
    flour = Food("harbour flour", source="the mill", also=("flour", "self-raising flour"))
    larder = Larder.load().with_foods([flour])
    for words in ("flour", "sifted flour", "self-raising flour", "flours"):
        match = larder.find(words)
        assert match.food is flour, words
        assert match.sure, words
    assert larder.find("plain flour").food == Larder.load().get("plain flour")


@pytest.mark.parametrize(
    ("written", "stemmed"),
    [
        ("potatoes", "potato"),
        ("leaves", "leaf"),
        ("berries", "berry"),
        ("peaches", "peach"),
        ("radishes", "radish"),
        ("anchovies", "anchovy"),
        ("asparagus", "asparagus"),
        ("couscous", "couscous"),
        ("cress", "cress"),
        ("goat's", "goat"),
        ("yoghurt", "yogurt"),
        ("chiles", "chilli"),
    ],
)
def test_words_are_brought_to_one_form(written: str, stemmed: str) -> None:
    assert stem(written) == stemmed


@given(
    st.sampled_from([food.name for food in Larder.load().foods]),
    st.sampled_from(
        "dried tinned smoked ground roasted toasted frozen pickled candied salted sweetened "
        "powdered vegan gluten-free dairy-free low-fat whole raw cooked boiled fried stuffed "
        "breaded imitation juice oil flour milk butter paste powder sauce vinegar stock soup "
        "crisps cake curd".split()
    ),
)
def test_a_changing_word_is_never_lost_on_the_way(name: str, word: str) -> None:
    """If the match is sure, the food's own names hold every word that changes it."""
    match = Larder.load().find(f"{word} {name}")
    if match.sure:
        assert match.food is not None
        held = {part for own in (match.food.name, *match.food.also) for part in tokens(own)}
        assert set(tokens(word)) <= held
