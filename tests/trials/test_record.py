"""Opening an entry: the recipe exactly as it stands, and not a letter of the log lost."""

from __future__ import annotations

import stat
from datetime import date
from pathlib import Path

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from sitegen.reading.source import Source
from sitegen.trials.read import read_log
from sitegen.trials.record import NotRecorded, append, entry, heading

DAY = date(2026, 11, 2)
RECIPE = "---\ntitle: Soup\n---\nHot.  \nWith a hard break,\ttab and 𝄞.\n\n"


def add(path: Path, recipe: str = RECIPE, points: tuple[str, ...] = ("salt",), **used: str) -> int:
    return append(path, entry(DAY, recipe, used, points), heading("Soup", "soup"))


def trials(path: Path) -> list[str]:
    log, problems = read_log(
        Source("a", path.read_bytes().decode("utf-8-sig").replace("\r\n", "\n"))
    )
    assert problems == []
    return [trial.recipe for trial in log.trials]


texts = st.text(
    st.one_of(
        st.sampled_from(" \t\n\n-:#'\"|>&*!%@`{}[],?\\"),
        st.characters(exclude_categories=["Cs"], exclude_characters="\r"),
    ),
    max_size=60,
).filter(str.strip)


@settings(max_examples=120, deadline=None)
@given(recipe=texts, other=texts, point=texts.filter(lambda p: "\n" not in p))
@example(recipe="0", other="\t0", point="0")
def test_whatever_stands_in_a_recipe_is_read_back_exactly(
    tmp_path_factory: pytest.TempPathFactory, recipe: str, other: str, point: str
) -> None:
    path = tmp_path_factory.mktemp("log") / "soup.trials.yaml"
    lines = entry(DAY, recipe, {"content/recipes/b.md": other}, [point])
    append(path, lines, heading("Soup", "soup"))
    append(path, lines, heading("Soup", "soup"))
    log, _ = read_log(Source("a", path.read_text(encoding="utf-8")))
    assert [(t.recipe, dict(t.used)) for t in log.trials] == [
        (recipe, {"content/recipes/b.md": other})
    ] * 2
    assert [tuple(t.scores) for t in log.trials] == [(point,)] * 2


def test_the_line_that_is_told_is_the_entrys(tmp_path: Path) -> None:
    path = tmp_path / "soup.trials.yaml"
    for _ in range(3):
        line = add(path)
        assert path.read_text(encoding="utf-8").split("\n")[line - 1] == "  - date: 2026-11-02"


AUTHORS = {
    "no indentation": "# mine\ntrials:\n- date: 2026-01-01\n  remarks: |\n    Good.\n  recipe: x\n",
    "deep indentation": "trials:\n        - date: 2026-01-01\n          recipe: x\n",
    "no newline at the end": "trials:\n  - date: 2026-01-01\n    recipe: x\n    remarks: |\n      Good.",
    "another field behind": "trials:\n  - date: 2026-01-01\n    recipe: x\n\n# the scale\nout of: 5\n",
    "a comment behind": "trials:\n  - date: 2026-01-01\n    recipe: x\n# to do: more salt\n",
    "only a scale": "out of: 5\n",
    "nothing listed": "trials:\n",
    "an empty file": "",
}


@pytest.mark.parametrize("newline", ["\n", "\r\n"])
@pytest.mark.parametrize("written", AUTHORS.values(), ids=AUTHORS)
def test_what_the_author_wrote_stays_letter_for_letter(
    tmp_path: Path, written: str, newline: str
) -> None:
    path = tmp_path / "soup.trials.yaml"
    before = written.replace("\n", newline).encode()
    path.write_bytes(before)
    path.chmod(0o640)
    add(path)
    after = path.read_bytes()
    kept = len(before) - len(before.partition(f"{newline}# the scale".encode())[2])
    ahead = before[: kept - len(f"{newline}# the scale")] if b"# the scale" in before else before
    assert after.startswith(ahead)
    for row in before.splitlines():
        assert row in after.splitlines()
    assert trials(path)[-1] == RECIPE
    assert len(trials(path)) == written.count("- date") + 1
    assert stat.S_IMODE(path.stat().st_mode) == 0o640
    if newline == "\r\n" and before:
        assert b"\n" not in after.replace(b"\r\n", b"")


@pytest.mark.parametrize(
    "written",
    [
        "trials:\n  - date: [2026\n",
        "- a list\n",
        "trials: [{date: 2026-01-01, recipe: x}]\n",
        "trials: soon\n",
        b"trials: # caf\xe9\n",
    ],
)
def test_a_log_that_cannot_be_added_to_is_left_alone(tmp_path: Path, written: str | bytes) -> None:
    path = tmp_path / "soup.trials.yaml"
    before = written if isinstance(written, bytes) else written.encode()
    path.write_bytes(before)
    with pytest.raises(NotRecorded):
        add(path)
    assert path.read_bytes() == before
    assert [p.name for p in tmp_path.iterdir()] == [path.name], "no half-written file stays"


def test_a_log_grows_no_larger_than_can_be_read(tmp_path: Path) -> None:
    path = tmp_path / "soup.trials.yaml"
    add(path, recipe="---\n" + "word " * 150_000)
    before = path.read_bytes()
    with pytest.raises(NotRecorded, match="larger"):
        add(path, recipe="---\n" + "word " * 150_000)
    assert path.read_bytes() == before
