"""``content/site.yaml`` → :class:`~sitegen.site.Settings`, every mistake with its line and column.

A field that is wrong keeps its default, so that one mistake in the settings does not hide those in
the recipes.
"""

from __future__ import annotations

from pathlib import Path

from pydantic import ValidationError

from sitegen.problems import Problem
from sitegen.reading.source import Source
from sitegen.reading.yamltree import Tree, read_yaml
from sitegen.settings.fields import SiteFile, field_names, schema
from sitegen.settings.said import problem_of
from sitegen.site import Author, Hush, LeftOut, MenuItem, Settings, Site, Target
from sitegen.textfile import read_text

__all__ = ["FILE", "field_names", "load_site", "read_settings", "schema"]

FILE = "content/site.yaml"


def load_site(folder: Path) -> tuple[Site, list[Problem]]:
    """The site in ``folder``, with defaults wherever its settings can't be understood."""
    source = read_text(folder, FILE)
    if isinstance(source, Problem):
        if source.rule == "file-empty":  # an empty settings file means: all defaults
            return Site(folder, Settings()), []
        return Site(folder, Settings()), [source]
    settings, problems = read_settings(source)
    return Site(folder, settings), problems


def read_settings(source: Source) -> tuple[Settings, list[Problem]]:
    """Understand the text of a settings file."""
    problems: list[Problem] = []
    tree = read_yaml(source, source.text, problems)
    if tree is None:
        return Settings(), problems
    data = {name: value for name, value in tree.data.items() if value is not None}
    while True:
        try:
            return _settings(SiteFile.model_validate(data), tree), problems
        except ValidationError as invalid:
            errors = invalid.errors(include_url=False)
            problems.extend(problem_of(error, tree, source) for error in errors)
            # Every top-level field that has an error goes back to its default, so this ends.
            for error in errors:
                data.pop(str(error["loc"][0]), None)


def _settings(read: SiteFile, tree: Tree) -> Settings:
    return Settings(
        title=read.title,
        address=read.address,
        language=read.language,
        region=read.region,
        units=read.units,
        theme=read.theme,
        description=read.description,
        caution=read.caution,
        method_heading=read.method_heading,
        questions_heading=read.questions_heading,
        list_length=read.list_length,
        net_carbohydrate=tuple(dict.fromkeys(read.nutrition.net_carbohydrate)),
        authors={k: Author(k, person.name, person.about) for k, person in read.authors.items()},
        menu=tuple(
            MenuItem(words, to, *_line_column(tree, "menu", i, words))
            for i, item in enumerate(read.menu)
            for words, to in item.items()
        ),
        colours=dict(read.colours),
        fonts={str(name): stack for name, stack in read.fonts.items()},
        minify=read.minify == "yes",
        paid_hosts=tuple(read.paid_links.hosts),
        disclosure=read.paid_links.said,
        trials_needed=read.trials.needed or 0,
        trials_since=read.trials.since,
        trials_shown=read.trials.shown == "yes",
        silences=tuple(
            Hush(s.rule, s.why, *_line_column(tree, "silence", i, "rule"))
            for i, s in enumerate(read.silence)
        ),
        left_out=tuple(
            LeftOut(
                o.recipe,
                o.caution,
                o.why,
                o.signed,
                *_line_column(tree, "without cautions", i, "caution"),
            )
            for i, o in enumerate(read.without_cautions)
        ),
        targets={
            name: Target(
                name,
                t.to,
                t.address,
                t.endpoint,
                t.region,
                t.profile,
                *_line_column(tree, "targets", name, "to"),
            )
            for name, t in read.targets.items()
        },
    )


def _line_column(tree: Tree, *path: str | int) -> tuple[int, int]:
    place = tree.place(path)
    return place.line, place.column
