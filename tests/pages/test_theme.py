"""A site lays its own files and blocks over the program's theme."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from sitegen.pages import lay_out
from sitegen.pages.colours import check_colours, colour_sheet, contrast
from sitegen.pages.lineage import program_themes, theme_names
from sitegen.pages.theme import CARD_SHEET, PAGE_SHEET, load_theme
from tests.pages.fixtures import collection

both = pytest.mark.parametrize("name", theme_names())


def write(folder: Path, path: str, text: str) -> None:
    (folder / path).parent.mkdir(parents=True, exist_ok=True)
    (folder / path).write_text(text, encoding="utf-8")


def laid_out(folder: Path, **settings) -> dict[str, str]:
    site = collection(folder, **settings)
    theme, problems = load_theme(site.site)
    assert theme is not None
    assert [p for p in problems if p.severity == "error"] == []
    return {
        p.path: p.content.decode()
        for p in lay_out(site, theme, {}, preview=False)
        if p.path.endswith(".html")
    }


@both
def test_one_block_is_overridden_and_the_rest_stays(tmp_path, name):
    write(
        tmp_path,
        f"themes/{name}/templates/recipe.html",
        '{% extends "house/recipe.html" %}'
        "{% block after_method %}{{ super() }}<p>Tell us how it went.</p>{% endblock %}",
    )
    page = laid_out(tmp_path, theme=name)["recipes/rye-loaf.html"]
    assert "Tell us how it went." in page
    assert 'class="ledger"' in page


@both
def test_a_block_of_the_frame_is_overridden_on_every_page(tmp_path, name):
    write(
        tmp_path,
        f"themes/{name}/templates/page.html",
        '{% extends "house/page.html" %}{% block site_foot %}<footer>Ours</footer>{% endblock %}',
    )
    pages = laid_out(tmp_path, theme=name)
    for path in ("index.html", "recipes/rye-loaf.html", "search.html"):
        assert "<footer>Ours</footer>" in pages[path], path


@both
def test_a_whole_template_and_a_part_are_replaced(tmp_path, name):
    write(tmp_path, f"themes/{name}/templates/404.html", "gone: {{ site.title }}")
    write(tmp_path, f"themes/{name}/templates/parts/strip.html", "<p>no strip</p>")
    pages = laid_out(tmp_path, theme=name)
    assert pages["404.html"] == "gone: The Shared Table"
    assert "<p>no strip</p>" in pages["recipes/rye-loaf.html"]


def test_a_theme_of_another_name_builds_on_the_programs(tmp_path):
    write(tmp_path, "themes/harbour/theme.yaml", "base: sheet\n")
    write(tmp_path, "themes/harbour/assets/look.css", "/* ours */")
    theme, problems = load_theme(collection(tmp_path, theme="harbour").site)
    assert problems == []
    assert theme is not None
    sheet = theme.files[PAGE_SHEET].decode()
    assert "/* ours */" in sheet
    assert sheet.startswith("/* Design tokens")
    assert "The bench sheet" not in sheet, "a file takes the place of the one of the same name"


def test_a_missing_theme_is_said_with_what_there_is(tmp_path):
    theme, [problem] = load_theme(collection(tmp_path, theme="shet").site)
    assert theme is None
    assert problem.rule == "theme-missing"
    assert "sheet" in problem.hint


@pytest.mark.parametrize(
    ("text", "rule", "line"),
    [
        ("\n{% block x %}", "template-unreadable", 2),
        ('{% extends "house/recipes.html" %}', "template-missing", 1),
    ],
)
def test_a_mistake_in_a_template_has_its_place(tmp_path, text, rule, line):
    write(tmp_path, "themes/sheet/templates/recipe.html", text)
    _, [problem] = load_theme(collection(tmp_path).site)
    assert (problem.rule, problem.line) == (rule, line)
    assert problem.file == "themes/sheet/templates/recipe.html"


@both
def test_a_colour_and_a_font_stack_are_overridden_and_come_last(tmp_path, name):
    fonts = {"headings": "Georgia, serif"}
    site = collection(tmp_path, theme=name, colours={"accent": "#7a2e4d"}, fonts=fonts).site
    theme, problems = load_theme(site)
    assert theme is not None
    assert [p for p in problems if p.severity == "error"] == []
    for sheet in (PAGE_SHEET, CARD_SHEET):
        text = theme.files[sheet].decode()
        for token, value in (("--accent", "#7a2e4d"), ("--face-headings", "Georgia, serif")):
            assert re.findall(rf"{token}:\s*([^;}}]+)", text)[-1] == value
            assert len(re.findall(rf"{token}:", text)) > 1


def test_colours_are_checked():
    defaults = {"paper": "#fdfcf9", "dark-paper": "#141a19"}
    good, problems = check_colours(
        {"acent": "#123456", "accent": "red", "ink": "#cccccc", "dark-ink": "#eeeeee"}, defaults
    )
    assert set(good) == {"ink", "dark-ink"}
    assert [(p.rule, p.severity) for p in problems] == [
        ("colour-unknown", "error"), ("colour-unreadable", "error"),
        ("colour-contrast", "advice"),
    ]  # fmt: skip
    assert "accent" in problems[0].hint


def test_light_colours_do_not_reach_dark_pages():
    assert "prefers-color-scheme:light" in colour_sheet({"accent": "#7a2e4d"})
    both = colour_sheet({"accent": "#7a2e4d", "dark-accent": "#e59ab8"})
    assert both.count("--accent") == 2


def test_contrast_is_that_of_wcag():
    """Figures of common practice: #767676 on white is the palest grey that passes."""
    assert contrast("#767676", "#fff") >= 4.5 > contrast("#777777", "#fff")


@both
def test_the_themes_own_text_colours_pass_on_paper_wash_and_block(tmp_path, name):
    theme, _ = load_theme(collection(tmp_path, theme=name).site)
    assert theme is not None
    pairs = [(t, g) for t in ("ink", "soft", "accent", "warn") for g in ("paper", "wash")]
    pairs += [("on-block", "block")] if "block" in theme.colours else []
    for mode in ("", "dark-"):
        for text, ground in pairs:
            one, other = theme.colours[mode + text], theme.colours[mode + ground]
            assert contrast(one, other) >= 4.5, (mode, text, ground)


def test_a_dark_token_is_not_that_of_print(theme):
    assert theme.colours["dark-paper"] == "#141a19"


@both
def test_a_sites_own_rules_come_after_the_themes(tmp_path, name):
    write(tmp_path, f"themes/{name}/assets/own.css", ".strip { border: 0 }")
    write(tmp_path, f"themes/{name}/assets/own-card.css", ".card { color: red }")
    theme, _ = load_theme(collection(tmp_path, theme=name).site)
    assert theme is not None
    assert theme.files[PAGE_SHEET].decode().rstrip().endswith(".strip { border: 0 }")
    assert theme.files[CARD_SHEET].decode().rstrip().endswith(".card { color: red }")


@both
def test_every_token_that_a_style_sheet_names_is_set(tmp_path, name):
    theme, _ = load_theme(collection(tmp_path, theme=name).site)
    assert theme is not None
    for sheet in (PAGE_SHEET, CARD_SHEET):
        text = theme.files[sheet].decode()
        named = set(re.findall(r"var\((--[\w-]+)\)", text))  # one with a fall-back may be unset
        assert named <= set(re.findall(r"(--[\w-]+):", text))


def test_the_two_themes_share_their_templates():
    """What only one of them had could not be relied on by a site that changes from one to the other."""
    for name in theme_names():
        assert not list((program_themes() / name).rglob("*.html")), name


def test_a_part_is_no_theme(tmp_path):
    assert theme_names() == ["docket", "sheet"]
    theme, [problem] = load_theme(collection(tmp_path, theme="base").site)
    assert theme is None
    assert problem.rule == "theme-missing"


def test_a_theme_on_the_base_alone_brings_its_own_look(tmp_path):
    write(tmp_path, "themes/harbour/theme.yaml", "base: base\n")
    write(tmp_path, "themes/harbour/assets/tokens.css", ":root { --paper: #ffffff }")
    write(tmp_path, "themes/harbour/templates/404.html", '{% extends "base/404.html" %}')
    theme, problems = load_theme(collection(tmp_path, theme="harbour").site)
    assert problems == []
    assert theme is not None
    assert theme.colours == {"paper": "#ffffff"}
