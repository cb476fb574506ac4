"""The rules in words: every one has what it catches, why it matters, and how to mend it."""

from __future__ import annotations

import re
from importlib.resources import files

import pytest
from click.testing import CliRunner

from sitegen.cli import main
from sitegen.readthrough import RULES
from sitegen.readthrough.reference import as_markdown, explain, words
from sitegen.readthrough.rule import Rule


def test_the_page_in_the_package_is_the_rules_own_words() -> None:
    kept = files("sitegen.readthrough").joinpath("README.md").read_text(encoding="utf-8")
    assert kept.rstrip() == as_markdown().rstrip(), "sitegen rules --format markdown"


@pytest.mark.parametrize("rule", RULES, ids=lambda r: r.name)
def test_each_rule_says_what_why_and_how(rule: Rule) -> None:
    what, mend = words(rule)
    assert len(what.split()) >= 5
    assert len(mend.split()) >= 3
    assert rule.why[0].islower()
    assert not rule.why.endswith(".")
    assert re.fullmatch(r"[a-z]+(-[a-z]+)+", rule.name)
    told = explain(rule)
    assert f"rule: {rule.name}, why" in told
    assert all(len(line) <= 90 for line in told.split("\n"))


def test_names_are_unique_and_groups_stand_together() -> None:
    assert len({r.name for r in RULES}) == len(RULES)
    groups = [r.group for r in RULES]
    assert sorted(set(groups), key=groups.index) == [
        g for i, g in enumerate(groups) if i == 0 or groups[i - 1] != g
    ]


def test_the_command_explains_lists_and_suggests() -> None:
    run = CliRunner().invoke
    one = run(main, ["rules", "used-up-twice"])
    assert one.exit_code == 0
    assert "Why it matters" in one.output
    every = run(main, ["rules"])
    assert all(rule.name in every.output for rule in RULES)
    slip = run(main, ["rules", "used-up-twise"])
    assert slip.exit_code == 2
    assert "did you mean 'used-up-twice'?" in slip.output
