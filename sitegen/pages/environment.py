"""The template environment: always escaping, never printing an undefined name.

A site's own templates come first, then the program's. ``house/NAME`` always means the program's own
copy, so a site may override one block of it::

    {% extends "house/recipe.html" %}
    {% block after_method %}{{ super() }}<p>Tell us how it went.</p>{% endblock %}
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import date
from functools import lru_cache
from pathlib import Path
from typing import Any

from babel.dates import format_date
from jinja2 import (
    BaseLoader,
    BytecodeCache,
    ChoiceLoader,
    FileSystemLoader,
    PrefixLoader,
    StrictUndefined,
)

from sitegen.kitchen.words import duration_words
from sitegen.pages.compiling import Quick
from sitegen.pages.figures import draw_figure, held, tight
from sitegen.pages.pieces import (
    choices,
    detail,
    facts,
    food,
    in_blocks,
    listed,
    measures,
    rows,
    steps,
    words,
)
from sitegen.pages.recent import Once

HOUSE = "house"
"""The prefix that names the program's own copy of a template."""


def make_environment(
    house: Mapping[str, Path], own: tuple[Path, ...], kept: BytecodeCache | None = None
) -> Quick:
    """An environment over the program's templates and a site's own, the site's first.

    ``house`` has the program's folders of templates by the theme's name, the nearest first; each is
    also named by itself, as in ``base/recipe.html``. A folder need not exist. ``kept`` is where
    compiled templates are.
    """
    named = {name: FileSystemLoader(folder) for name, folder in house.items()}
    program = ChoiceLoader(list(named.values()))
    loaders: list[BaseLoader] = [
        *(FileSystemLoader(folder) for folder in own),
        program,
        PrefixLoader({HOUSE: program, **named}),
    ]
    environment = Quick(
        loader=ChoiceLoader(loaders),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=False,
        bytecode_cache=kept,
        cache_size=-1,
        auto_reload=False,  # a preview makes another environment when a template has changed
    )
    filters: dict[str, Callable[..., Any]] = {
        "figure": draw_figure,
        "tight": tight,
        "held": held,
        "words": words,
        "measures": measures,
        "food": food,
        "choices": choices,
        "rows": rows,
        "steps": steps,
        "facts": facts,
        "detail": detail,
        "listed": listed,
        "sentence": sentence,
        "duration": duration,
        "often": Once(most=16384),  # for what stands on many pages
    }
    environment.filters.update(filters)
    environment.tests["in_blocks"] = in_blocks
    return environment


@lru_cache(maxsize=4096)
def sentence(words: str) -> str:
    """Words with a capital first letter, the rest left as the author wrote it."""
    return words[:1].upper() + words[1:]


@lru_cache(maxsize=4096)
def duration(minutes: int) -> str:
    """Minutes as a cook reads them.

    >>> duration(100)
    '1 h 40 min'
    """
    return duration_words(minutes * 60) if minutes else ""


@lru_cache(maxsize=1024)
def long_date(day: date, language: str) -> str:
    """A date in the site's language: ``4 October 2026``."""
    return str(format_date(day, "long", locale=language.replace("-", "_")))
