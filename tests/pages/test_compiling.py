"""Templates compiled with less work print what Jinja's own compiler would have them print."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from jinja2 import DictLoader, StrictUndefined, UndefinedError
from jinja2.compiler import CodeGenerator
from markupsafe import Markup, escape

from sitegen.pages import lay_out
from sitegen.pages.compiling import Generator, Quick, written
from sitegen.pages.theme import load_theme
from tests.pages.fixtures import collection


class Usual(Generator):
    """Jinja's own way of printing."""

    blockvisit = CodeGenerator.blockvisit
    _output_child_pre = CodeGenerator._output_child_pre


def test_every_page_is_what_jinja_makes_of_it(tmp_path, monkeypatch):
    site = collection(tmp_path)
    made = []
    for generator in (Generator, Usual):
        monkeypatch.setattr(Quick, "code_generator_class", generator)
        theme, _ = load_theme(site.site)
        made.append({p.path: p.content for p in lay_out(site, theme, {}, preview=False)})
    assert len(made[0]) > 20
    assert made[0] == made[1]


TEMPLATES = {
    "frame": "<{% block a %}frame{% endblock %}"
    "|{% block b %}{{ x }}{% block c %}c{% endblock %}{% endblock %}>",
    "page": "{% extends 'frame' %}not shown{% block a %}{{ super() }}{% include 'part' %}{% endblock %}"
    "{% block c %}{% for n in (1, 2) %}{{ loop.index }}{{ draw(n) }}{% endfor %}{% endblock %}"
    "{% macro draw(n) %}<{{ n }}{{ x }}>{% endmacro %}",
    "either": "{% if up %}{% extends 'frame' %}{% endif %}shown {{ x }}{% block a %}{{ x }}a{% endblock %}",
    "part": "{% from 'macros' import m with context %}{% call m(x) %}{{ x }}in{% endcall %}"
    "{% set y %}{{ x }}!{% endset %}{{ y }}",
    "macros": "{% macro m(v) %}[{{ v }}|{{ caller() }}]{% endmacro %}",
    "deep": "{% for n in tree recursive %}{{ n[0] }}{{ x }}({{ loop(n[1]) }}){% endfor %}"
    "{% filter upper %}{{ x }}{% endfilter %}{% autoescape false %}{{ x }}{% endautoescape %}",
}


@pytest.mark.parametrize("name", ["page", "either", "deep"])
@pytest.mark.parametrize("up", [False, True])
def test_every_kind_of_statement(name, up):
    tree = [("a&b", [("<", []), (3, [])])]
    shown = []
    for generator in (Generator, Usual):
        kind = type("Either", (Quick,), {"code_generator_class": generator})
        environment = kind(loader=DictLoader(TEMPLATES), autoescape=True, undefined=StrictUndefined)
        shown.append(environment.get_template(name).render(x="<&>", up=up, tree=tree))
    assert shown[0] == shown[1]


@given(st.one_of(st.text(), st.integers(), st.text().map(Markup), st.floats(), st.none()))
def test_values_are_escaped(value):
    assert written(value) == escape(value)


def test_an_undefined_name_is_never_printed():
    environment = Quick(autoescape=True, undefined=StrictUndefined)
    with pytest.raises(UndefinedError):
        environment.from_string("{{ nobody }}").render()
