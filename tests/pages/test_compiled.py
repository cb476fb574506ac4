"""Compiled templates are kept beside a site, and never taken for others."""

from __future__ import annotations

import shutil

import pytest

from sitegen.pages import lay_out
from sitegen.pages.compiling import Generator
from sitegen.pages.theme import load_theme
from tests.pages.fixtures import collection

BLOCK = '{% extends "house/recipe.html" %}{% block after_method %}<p>WORDS</p>{% endblock %}'


@pytest.fixture
def site(tmp_path):
    (tmp_path / ".sitegen").mkdir()
    return collection(tmp_path)


@pytest.fixture
def parsed(monkeypatch):
    """The templates that were compiled."""
    names = []
    usual = Generator.visit_Template

    def visit(self, node, frame=None):
        names.append(self.name)
        usual(self, node, frame)

    monkeypatch.setattr(Generator, "visit_Template", visit)
    return names


def pages(site):
    theme, _ = load_theme(site.site)
    return {p.path: p.content for p in lay_out(site, theme, {}, preview=False)}


def test_nothing_is_compiled_twice_and_pages_stay_the_same(site, parsed):
    first = pages(site)
    assert "recipe.html" in parsed
    parsed.clear()
    assert pages(site) == first
    assert parsed == []


def test_a_template_that_changed_is_compiled_again(site, tmp_path, parsed):
    own = tmp_path / "themes" / site.site.settings.theme / "templates"
    own.mkdir(parents=True)
    path = next(path for path in pages(site) if path.startswith("recipes/") and "card" not in path)
    for words in ("one", "two"):
        (own / "recipe.html").write_text(BLOCK.replace("WORDS", words))
        parsed.clear()
        pages(site)
        assert "recipe.html" in parsed
        assert f"<p>{words}</p>".encode() in b"".join(
            content for path, content in pages(site).items() if path.startswith("recipes/")
        )
    assert b"<p>one</p>" not in pages(site)[path]


def test_damaged_ones_and_those_of_another_program_are_made_again(site, tmp_path, parsed):
    first = pages(site)
    folder = next((tmp_path / ".sitegen/templates").iterdir())
    for file in folder.iterdir():
        file.write_bytes(file.read_bytes()[:40])
    assert pages(site) == first
    shutil.move(folder, folder.with_name("other"))
    parsed.clear()
    assert pages(site) == first
    assert "recipe.html" in parsed
    assert [f.name for f in folder.parent.iterdir()] == [folder.name]


def test_nothing_is_kept_beside_a_site_that_was_never_built(tmp_path):
    pages(collection(tmp_path))
    assert not (tmp_path / ".sitegen").exists()
