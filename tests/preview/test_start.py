"""A preview that starts from what was kept shows what one that has read everything shows."""

from __future__ import annotations

import random
from pathlib import Path

import pytest

from sitegen.building.build import build
from sitegen.building.leaf import Bench
from sitegen.preview import start
from sitegen.preview.desk import Desk
from sitegen.preview.serving import look_up
from tests.sites import SITE, SOUP, recipe, write, write_site
from tests.test_gathering import BROKEN, DRAFT

BASE = recipe("Base").replace("serves: 4", "serves: 4\nweighs: 1 kg")
FILES = {
    "content/recipes/base.md": BASE,
    "content/recipes/user.md": recipe("User", ingredient='"100 g [x](base.md)"'),
    "content/recipes/draft.md": DRAFT,
    "content/recipes/field.md": BROKEN["field"][0],
    "content/recipes/linked.md": recipe("Linked", more="\n## More\n\n[This](base.md).\n"),
}
PAGES = ("index.html", "recipes/index.html", "search.html", "index/index.html")


def shown(desk: Desk) -> list[object]:
    edition = desk.edition
    slugs = [Path(file).stem for file in (*FILES, SOUP)]
    paths = [*PAGES, *(f"recipes/{slug}{end}.html" for slug in slugs for end in ("", "-card"))]
    found = [(path, look_up(edition, path)) for path in paths]
    pages = [(path, status, page.content if page else b"") for path, (status, page) in found]
    return [*pages, edition.problems, list(edition.gathered.collection.dishes)]


def fresh(folder: Path, patch: pytest.MonkeyPatch) -> Desk:
    """A preview that has nothing to begin with."""
    with patch.context() as here:
        here.setattr(start.Start, "leaves", lambda *_: {})
        return Desk(folder)


@pytest.mark.parametrize("kept_by", ["preview", "build"])
def test_what_was_kept_shows_the_same_site(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, kept_by: str
) -> None:
    monkeypatch.setattr(start, "FEW", 0)
    sound = {name: text for name, text in FILES.items() if "field" not in name}
    folder = write_site(tmp_path, sound if kept_by == "build" else FILES)
    before = shown(fresh(folder, monkeypatch))
    if kept_by == "build":
        assert build(folder).done
    else:
        assert shown(Desk(folder)) == before

    def no_more(bench: Bench, file: str) -> None:
        pytest.fail(f"{file} had been kept")

    monkeypatch.setattr(Bench, "leaf", no_more)
    again = Desk(folder)
    assert shown(again) == before
    write(folder / "content/recipes/base.md", BASE.replace("Base", "Another base"))
    assert again.refresh({folder / "content/recipes/base.md"})
    assert shown(again) == shown(fresh(folder, monkeypatch))


def test_edits_after_a_start_from_what_was_kept(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(start, "FEW", 0)
    chance = random.Random(3)
    folder = write_site(tmp_path, FILES)
    desk = Desk(folder)
    texts = [*FILES.values(), *(text for text, _, _ in BROKEN.values()), BASE, BASE]
    for _ in range(12):
        name = chance.choice([*FILES, SOUP])
        if chance.random() < 0.15:
            name = "content/site.yaml"
            write(folder / name, SITE + chance.choice(["region: us\n", "units: us\n", ""]))
        elif chance.random() < 0.15:
            (folder / name).unlink(missing_ok=True)
        else:
            write(folder / name, chance.choice(texts))
        desk.refresh({folder / name} if chance.random() < 0.8 else None)
        assert shown(desk) == shown(fresh(folder, monkeypatch))
