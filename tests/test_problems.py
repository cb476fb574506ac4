"""Problems as values: the nearest known word, found without looking at every one closely."""

from __future__ import annotations

import pytest

from sitegen import problems
from sitegen.problems import did_you_mean

MANY = [f"{first}-{second}" for first in "abcdefghij" for second in map(str, range(400))]


@pytest.mark.parametrize("known", [["leek-soup", "leek-pie"], ["leek-soup", "leek-pie", *MANY]])
def test_the_nearest_word_is_named_among_few_and_among_many(known: list[str]) -> None:
    assert did_you_mean("leak-soup", known) == "did you mean 'leek-soup'?"
    assert did_you_mean("Leek-pi", known) == "did you mean 'leek-pie'?"
    assert did_you_mean("xyzzy", known) == ""


def test_few_words_are_compared_and_none_twice(monkeypatch: pytest.MonkeyPatch) -> None:
    compared: list[int] = []
    real = problems.get_close_matches

    def counting(word: str, known: tuple[str, ...], n: int, cutoff: float) -> list[str]:
        compared.append(len(known))
        return real(word, known, n=n, cutoff=cutoff)

    monkeypatch.setattr(problems, "get_close_matches", counting)
    for _ in range(3):
        assert did_you_mean("leek-soop", ["leek-soup", *MANY, *MANY]) == "did you mean 'leek-soup'?"
    assert len(compared) == 1
    assert compared[0] < 100
