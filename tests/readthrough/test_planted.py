"""Each case is a short recipe with one planted mistake, or with something that only looks like one."""

from __future__ import annotations

from pathlib import Path

import pytest

from sitegen.readthrough import RULES
from sitegen.site import Settings
from tests.readthrough.desk import HERE, TRAP, Case, base_text, cases, said_of

FILES = sorted((HERE / "cases").glob("*.txt"))
ALL = [case for file in FILES for case in cases(file)]
BASES = sorted(p.stem for p in (HERE / "bases").glob("*.md"))


@pytest.mark.parametrize("name", BASES)
def test_a_sound_recipe_is_left_alone(name: str) -> None:
    region = "us" if name.endswith("-us") else "uk"
    _, problems = said_of(base_text(name), Settings(region=region))  # type: ignore[arg-type]
    assert [p.headline() for p in problems] == []


@pytest.mark.parametrize("case", ALL, ids=[f"{c.rule}: {c.name}" for c in ALL])
def test_the_mistake_is_named_on_its_line_and_nothing_else_is(case: Case) -> None:
    settings = Settings(region=case.region)  # type: ignore[arg-type]
    _, problems = said_of(case.text, settings)
    said = [(p.rule, p.line) for p in problems]
    assert said == case.wanted, "\n".join(p.headline() for p in problems)


def test_there_are_enough_cases_and_each_rule_has_mistakes_and_the_set_has_traps() -> None:
    assert len(ALL) >= 150
    assert len({c.text for c in ALL}) == len(ALL)
    alone = {r.name for r in RULES if r.over_site is None}  # the others: test_across.py
    assert alone <= {c.rule for c in ALL} | {c.also for c in ALL}
    assert sum(c.rule == TRAP for c in ALL) >= 50


def test_every_finding_says_what_is_wrong_why_it_matters_and_what_to_write() -> None:
    for case in ALL:
        if case.rule == TRAP:
            continue
        _, problems = said_of(case.text, Settings(region=case.region))  # type: ignore[arg-type]
        for problem in problems:
            assert problem.message
            assert problem.hint
            if problem.rule in {r.name for r in RULES}:
                assert problem.why


def test_files_of_cases_are_read_whole() -> None:
    for file in FILES:
        heads = [x for x in Path(file).read_text(encoding="utf-8").split("\n") if x.startswith("[")]
        assert len(heads) == len(cases(file))


@pytest.mark.parametrize("name", ["beans", "cake", "pie-us", "tart"])
def test_no_line_taken_away_upsets_it(name: str) -> None:
    """Half-written recipes are what an author has most of the time."""
    lines = base_text(name).split("\n")
    for at in range(len(lines)):
        _, problems = said_of("\n".join(lines[:at] + lines[at + 1 :]))
        assert all(p.message for p in problems)
