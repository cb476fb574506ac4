"""A finding is kept quiet about only where its author says so, with a reason."""

from __future__ import annotations

from pathlib import Path

import pytest

from sitegen.gathering import Gatherer
from sitegen.problems import Problem
from sitegen.reading.source import Source
from sitegen.settings import read_settings
from sitegen.site import Hush, Settings
from tests.readthrough.desk import base_text, said_of
from tests.sites import SITE, recipe, write_site

NO_SIGN = ("for 45 to 50 minutes, until a skewer comes out clean.", "for 45 to 50 minutes.")
SERVES = ("serves: 4", "serves: 40")


def _said(base: str, *changes: tuple[str, str], silence: str = "") -> list[Problem]:
    text = base_text(base)
    for old, new in changes:
        assert old in text
        text = text.replace(old, new, 1)
    if silence:
        text = text.replace("ingredients:", f"silence:\n  - {silence}\ningredients:", 1)
    return said_of(text)[1]


def test_a_recipe_silences_a_rule_for_itself() -> None:
    assert [p.rule for p in _said("soup", SERVES)] == ["portion-unusual"]
    assert _said("soup", SERVES, silence="{rule: portion-unusual, why: a tasting}") == []


def test_a_silence_for_a_step_covers_that_step_only() -> None:
    assert [p.rule for p in _said("cake", NO_SIGN)] == ["step-no-sign"]
    assert _said("cake", NO_SIGN, silence="{rule: step-no-sign, step: 4, why: it is timed}") == []
    other = _said("cake", NO_SIGN, silence="{rule: step-no-sign, step: 2, why: it is timed}")
    assert sorted(p.rule for p in other) == ["silence-idle", "step-no-sign"]


def test_a_silence_for_an_ingredient_covers_that_line_only() -> None:
    leeks = ("1 onion (about 150 g), chopped", "3 leeks (80 g), sliced")
    named = ("[onion]", "[leeks]")
    rule = "pair-count-weight"
    assert _said("soup", leeks, named, silence=f"{{rule: {rule}, ingredient: leeks, why: y}}") == []
    other = _said("soup", leeks, named, silence=f"{{rule: {rule}, ingredient: carrots, why: y}}")
    assert sorted(p.rule for p in other) == [rule, "silence-idle"]


def test_a_silence_needs_its_reason() -> None:
    problems = _said("soup", SERVES, silence="{rule: portion-unusual}")
    assert [p.rule for p in problems] == ["field-missing"]
    assert problems[0].severity == "error"


def test_a_silence_that_silences_nothing_is_pointed_out_where_it_stands() -> None:
    (problem,) = _said("soup", silence="{rule: portion-unusual, why: a tasting}")
    assert problem.rule == "silence-idle"
    assert problem.severity == "advice"
    assert base_text("soup").split("\n")[problem.line - 2].startswith("ingredients:")


def test_a_rule_that_there_is_not_is_named_with_the_nearest() -> None:
    (problem,) = _said("soup", silence="{rule: portion-unusul, why: a slip}")
    assert problem.rule == "silence-idle"
    assert "portion-unusual" in problem.hint


def test_a_recipe_cannot_silence_a_caution() -> None:
    text = base_text("chicken").replace(
        "ingredients:", "silence:\n  - {rule: poultry, why: we know}\ningredients:", 1
    )
    dish, problems = said_of(text)
    assert dish is not None
    assert "poultry" in {c.key for c in dish.cautions}
    (problem,) = problems
    assert "site's owner" in problem.hint


def test_a_silenced_safety_finding_leaves_the_caution_on_the_page() -> None:
    text = base_text("burgers").replace("until 71 °C in", "until 60 °C in", 1)
    text = text.replace(
        "ingredients:", "silence:\n  - {rule: core-too-low, why: pink}\ningredients:", 1
    )
    dish, problems = said_of(text)
    assert problems == []
    assert dish is not None
    assert "mince" in {c.key for c in dish.cautions}


def test_the_site_silences_a_rule_everywhere() -> None:
    text = base_text("soup").replace(*SERVES, 1)
    settings = Settings(silences=(Hush("portion-unusual", "a tasting kitchen"),))
    assert said_of(text, settings)[1] == []


EGGS = """
## Method

1. Whisk the [extra] with the [water] and the [onion] for 30 minutes, until thick.
"""


def _raw_egg_site(folder: Path, more: str) -> list[Problem]:
    text = recipe(ingredient="2 large egg yolks").split("\n## Method")[0] + EGGS
    write_site(folder, {"content/site.yaml": SITE + more, "content/recipes/lentil-soup.md": text})
    gathered = Gatherer(folder).gather(drafts=True)
    (dish,) = gathered.collection.dishes.values()
    assert {c.key for c in (*dish.cautions, *dish.cautions_left_out)} >= {"raw-egg"}
    return [
        Problem("caution-stands", "advice", "", 0, 0, c.key)
        for c in dish.cautions
        if c.key == "raw-egg"
    ] + [p for p in gathered.problems if p.file == "content/site.yaml"]


def test_the_sites_owner_takes_a_caution_off_signed_and_with_a_reason(tmp_path: Path) -> None:
    signed = """\
without cautions:
  - {recipe: lentil-soup, caution: raw-egg, why: pasteurised yolk from a carton, signed: Ada Lind}
"""
    assert _raw_egg_site(tmp_path, signed) == []


@pytest.mark.parametrize("missing", ["why", "signed", "recipe", "caution"])
def test_without_reason_or_signature_the_caution_stays(tmp_path: Path, missing: str) -> None:
    fields = {"recipe": "lentil-soup", "caution": "raw-egg", "why": "ours", "signed": "Ada"}
    given = ", ".join(f"{k}: {v}" for k, v in fields.items() if k != missing)
    said = _raw_egg_site(tmp_path, f"without cautions:\n  - {{{given}}}\n")
    assert [p.rule for p in said] == ["caution-stands", "missing-field"]
    assert said[1].severity == "error"


@pytest.mark.parametrize(
    ("fields", "words"),
    [
        ("recipe: lentil-soup, caution: raw-eg", "no caution 'raw-eg'"),
        ("recipe: lentil-sup, caution: raw-egg", "no recipe 'lentil-sup'"),
        ("recipe: lentil-soup, caution: poultry", "no caution 'poultry' to take off"),
    ],
)
def test_a_caution_taken_off_where_there_is_none_is_pointed_out(
    tmp_path: Path, fields: str, words: str
) -> None:
    said = _raw_egg_site(
        tmp_path, f"without cautions:\n  - {{{fields}, why: so, signed: Ada Lind}}\n"
    )
    assert [p.rule for p in said] == ["caution-stands", "silence-idle"]
    assert words in said[1].message
    assert said[1].line > 1


def test_a_sites_silence_of_no_rule_is_pointed_out(tmp_path: Path) -> None:
    said = _raw_egg_site(tmp_path, "silence:\n  - {rule: step-logn, why: so}\n")
    assert [p.rule for p in said] == ["caution-stands", "silence-idle"]
    assert "step-long" in said[1].hint


def test_settings_keep_the_places_of_silences() -> None:
    settings, problems = read_settings(
        Source("content/site.yaml", "title: T\nsilence:\n  - {rule: step-long, why: ours}\n")
    )
    assert problems == []
    assert settings.silences == (Hush("step-long", "ours", 3, 12),)
