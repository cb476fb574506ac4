"""After any sequence of edits, a build that uses what it kept equals a clean one, byte for byte.

``SITEGEN_SEQUENCES=500`` tries that many sequences; the suite tries a few.
"""

from __future__ import annotations

import io
import os
import shutil
from collections.abc import Callable
from pathlib import Path
from random import Random

import pytest
from PIL import Image

from sitegen.building import unchanged
from sitegen.building.build import build
from sitegen.building.report import BuildReport
from sitegen.building.shelf import put, take
from tests.sites import SITE, recipe, write, write_site

SEQUENCES = int(os.environ.get("SITEGEN_SEQUENCES", "8"))
EDITS = 5
RECIPES = "content/recipes"
NAMES = ("lentil-soup", "bean-stew", "deep/green-sauce", "rye", "deep/pickle")
PAGES = ("about", "safety")


def picture(draw: Random) -> bytes:
    out = io.BytesIO()
    colour = tuple(draw.randrange(256) for _ in range(3))
    Image.new("RGB", (64, 48), colour).save(out, "PNG")  # type: ignore[arg-type]
    return out.getvalue()


def any_recipe(draw: Random, name: str) -> str:
    """A sound recipe, with a photo, tags, links and recipes in it as it happens."""
    up = "../" if "/" in name else ""
    others = [other for other in NAMES if NAMES.index(other) > NAMES.index(name)]
    text = recipe(
        draw.choice(("Soup", "Écrasé", "apple", "Zest & <b>")) + f" {draw.randrange(4)}",
        ingredient=f"{draw.randrange(1, 9) * 50} g {draw.choice(('red lentils', 'leeks', 'rice'))}",
    )
    if draw.random() < 0.3 and others:
        used = draw.choice(others)
        text = text.replace("  - 1 l water\n", f"  - 100 g [sauce]({up}{used}.md)\n  - 1 l water\n")
        text = text.replace("the [water]", "the [water], the [sauce]")
    if draw.random() < 0.3:
        text = text.replace("An introduction.", f"See [it]({up}{draw.choice(NAMES)}.md).")
    if draw.random() < 0.3:
        text = text.replace(
            "course: soup", f"course: {draw.choice(('soup', 'main'))}\ntags: [a, b c]"
        )
    if draw.random() < 0.2:
        text = text.replace("published: 2026-02-03\n", "")
    if draw.random() < 0.2:
        text = text.replace("serves: 4", "serves: 4\nphoto: {file: p.png, alt: A bowl}")
    if draw.random() < 0.1:
        text = text.replace("serves: 4", "serve: 4")
    if draw.random() < 0.1:
        text = text[: draw.randrange(len(text))]
    return text


def edit_recipe(folder: Path, draw: Random) -> None:
    name = draw.choice(NAMES)
    write(folder / RECIPES / f"{name}.md", any_recipe(draw, name))


def rename_recipe(folder: Path, draw: Random) -> None:
    found = sorted((folder / RECIPES).rglob("*.md"))
    if found:
        draw.choice(found).replace(folder / RECIPES / f"{draw.choice(NAMES)}.md")


def delete(folder: Path, draw: Random) -> None:
    found = sorted(p for p in (folder / "content").rglob("*") if p.is_file())
    found = [p for p in found if p.name != "site.yaml"]
    if found:
        draw.choice(found).unlink()


def edit_photo(folder: Path, draw: Random) -> None:
    write(folder / RECIPES / draw.choice(("p.png", "deep/p.png")), picture(draw))


def edit_page(folder: Path, draw: Random) -> None:
    links = draw.choice(("", f"See [it](../recipes/{draw.choice(NAMES)}.md)."))
    title = draw.choice(("About", "About us"))
    write(
        folder / f"content/pages/{draw.choice(PAGES)}.md",
        f"---\ntitle: {title}\n---\n{links}\nHi.\n",
    )


def edit_larder(folder: Path, draw: Random) -> None:
    grams, also = draw.randrange(10, 20), draw.choice(("", "    also: [oil of the hill]\n"))
    write(
        folder / "content/larder/own.yaml",
        f"foods:\n  - name: red lentils\n{also}    source: our own scales\n"
        f"    per 100 g: {{energy_kcal: 3{grams}, fat_g: 2, protein_g: 24, carbohydrate_g: 56}}\n"
        if draw.random() < 0.7
        else "",
    )


def edit_settings(folder: Path, draw: Random) -> None:
    more = ("", "units: us\nregion: us\n", "colours: {accent: '#205080'}\n", "description: D.\n",
            "menu:\n  - About: about.html\n", "trials:\n  shown: yes\n", "theme: ours\n")  # fmt: skip
    site = SITE if draw.random() < 0.8 else SITE.replace("address: https://kitchen.example\n", "")
    write(folder / "content/site.yaml", site + draw.choice(more))


def edit_theme(folder: Path, draw: Random) -> None:
    theme = folder / "themes" / draw.choice(("sheet", "ours"))
    if draw.random() < 0.2:
        shutil.rmtree(theme, ignore_errors=True)
        return
    block = f"{{% block after_method %}}<p>{draw.randrange(9)}</p>{{% endblock %}}"
    write(theme / "templates/recipe.html", f'{{% extends "house/recipe.html" %}}{block}')
    write(theme / "assets/own.css", f"p {{ margin: {draw.randrange(9)}px }}")


def edit_log(folder: Path, draw: Random) -> None:
    verdict = draw.choice(("again", "passed"))
    body = "".join(f"      {line}\n" if line else "\n" for line in recipe().split("\n")[:-1])
    log = f"trials:\n  - date: 2026-01-05\n    verdict: {verdict}\n    recipe: |\n{body}"
    write(folder / RECIPES / f"{draw.choice(NAMES)}.trials.yaml", log)


def change_times(folder: Path, draw: Random) -> None:
    for path in folder.rglob("*"):
        if path.is_file() and draw.random() < 0.5:
            when = draw.choice((1, 10**9, 4 * 10**9))
            os.utime(path, (when, when))


def meddle_with_what_is_kept(folder: Path, draw: Random) -> None:
    kept = folder / ".sitegen/kept/site"
    if kept.exists():
        raw = bytearray(kept.read_bytes())
        raw[draw.randrange(len(raw))] ^= 1
        kept.write_bytes(raw) if draw.random() < 0.5 else kept.unlink()


def meddle_with_the_output(folder: Path, draw: Random) -> None:
    found = sorted(p for p in (folder / "output").rglob("*.html"))
    if found:
        path = draw.choice(found)
        path.unlink() if draw.random() < 0.5 else path.write_text("changed by hand")


EDIT: tuple[Callable[[Path, Random], None], ...] = (
    *(edit_recipe,) * 6,
    *(rename_recipe, delete, edit_photo, edit_page, edit_larder, edit_settings, edit_theme),
    *(edit_log, change_times, meddle_with_what_is_kept, meddle_with_the_output),
)


def held(folder: Path) -> dict[str, bytes]:
    return {
        p.relative_to(folder).as_posix(): p.read_bytes() for p in folder.rglob("*") if p.is_file()
    }


def clean(folder: Path, beside: Path) -> BuildReport:
    """A build of the same content by a site that has kept nothing."""
    shutil.rmtree(beside, ignore_errors=True)
    for part in ("content", "themes"):
        if (folder / part).is_dir():
            shutil.copytree(folder / part, beside / part)
    return build(beside)


@pytest.mark.parametrize("seed", range(SEQUENCES))
def test_incremental_equals_clean(
    tmp_path: Path, seed: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(unchanged, "MOMENTS", 0)  # so that a look may be enough here too
    draw = Random(seed)
    folder = write_site(tmp_path / "site")
    for name in NAMES:
        write(folder / RECIPES / f"{name}.md", any_recipe(draw, name))
    write(folder / RECIPES / "p.png", picture(draw))
    said = ["start"]
    for _ in range(EDITS):
        edit = draw.choice(EDIT)
        said.append(edit.__name__)
        edit(folder, draw)
        built = build(folder)
    fresh = clean(folder, tmp_path / "clean")
    assert built.problems == fresh.problems, said
    assert built.done == fresh.done, said
    if not built.done:  # mend everything, and look again
        shutil.rmtree(folder / "content")
        shutil.rmtree(folder / "themes", ignore_errors=True)
        write_site(folder, {f"{RECIPES}/rye.md": recipe("Rye")})
        mended = build(folder)
        assert mended.done, mended.blocking
        assert clean(folder, tmp_path / "clean").done
    expected = held(tmp_path / "clean" / "output")
    found = held(folder / "output")
    assert sorted(found) == sorted(expected), said
    assert [path for path in found if found[path] != expected[path]] == [], said


def test_an_edit_lays_out_what_it_touches_and_nothing_else(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    from sitegen.building import hands
    from sitegen.building.works import Works

    monkeypatch.setattr(hands, "cores", lambda: 1)  # so that all of it is heard here
    other = f"{RECIPES}/rye.md"
    plain = recipe("Rye").replace("course: soup", "course: bread\ntags: [oven]")
    used = "content/recipes/sauce.md"
    sauce = recipe("Sauce").replace("course: soup", "course: sauce")
    uses = recipe().replace("  - 1 l water\n", "  - 1 l water\n  - 100 g [sauce](sauce.md)\n")
    uses = uses.replace("the [water]", "the [water], the [sauce]")
    folder = write_site(tmp_path, {other: plain, used: sauce, f"{RECIPES}/lentil-soup.md": uses})
    laid: list[str] = []
    real = Works._put_by

    def put_by(self: Works, page: object) -> str:
        laid.append(page.path)  # type: ignore[attr-defined]
        return real(self, page)  # type: ignore[arg-type]

    monkeypatch.setattr(Works, "_put_by", put_by)
    monkeypatch.setattr("sitegen.building.hands.cores", lambda: 1)  # a fork's list is not ours
    assert build(folder).done
    laid.clear()
    assert build(folder).done
    assert laid == []
    write(folder / other, plain.replace("30 minutes, until soft", "40 minutes, until soft"))
    assert build(folder).done
    assert {"recipes/rye.html", "recipes/rye-card.html"} <= set(laid)
    assert not [p for p in laid if "soup" in p or "sauce" in p or "404" in p]
    assert "tags/oven.html" not in laid  # it shows nothing of the method
    laid.clear()
    write(folder / other, plain.replace("title: Rye", "title: Rye loaf"))
    assert build(folder).done
    assert {"recipes/rye.html", "tags/oven.html", "recipes/index.html"} <= set(laid)
    laid.clear()
    write(folder / used, sauce.replace("200 g red lentils", "250 g red lentils"))
    assert build(folder).done
    assert {"recipes/sauce.html", "recipes/lentil-soup.html"} <= set(laid)
    assert not [p for p in laid if "rye" in p or "bread" in p]


@pytest.mark.parametrize("harm", ["cut", "flip", "empty", "other program", "foreign class"])
def test_what_was_kept_is_used_only_if_it_is_sound(tmp_path: Path, harm: str) -> None:
    import pickle
    from hashlib import sha256

    from sitegen.building.program import program_mark

    folder = write_site(tmp_path)
    build(folder)
    path = folder / ".sitegen/kept/site"
    mark, raw = program_mark(), path.read_bytes()
    assert take(path, mark).leaves
    if harm == "cut":
        path.write_bytes(raw[: len(raw) // 2])
    elif harm == "flip":
        path.write_bytes(raw[:-9] + bytes([raw[-9] ^ 1]) + raw[-8:])
    elif harm == "empty":
        path.write_bytes(b"")
    elif harm == "other program":
        put(path, "0" * 64, take(path, mark))
    else:
        body = mark.encode() + pickle.dumps(os.system)
        path.write_bytes(sha256(body).digest() + body)
    assert not take(path, mark).leaves
    assert build(folder).done
    assert take(path, mark).leaves
