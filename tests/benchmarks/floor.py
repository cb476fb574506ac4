"""The floor: the least that any generator in this language must do for each recipe.

A bare loop reads each file, parses its front matter with libyaml, renders its Markdown with
markdown-it-py, fills one Jinja template that is as large as our recipe page, and writes the page.

    python tests/benchmarks/floor.py SITE OUTPUT
"""

from __future__ import annotations

import sys
from pathlib import Path

import yaml
from jinja2 import Environment
from markdown_it import MarkdownIt

PAGE_BYTES = 32_500
"""What the recipe pages of a made site of a thousand have in the middle."""

_ROW = "<tr><th>{{ row.food }}</th><td>{{ row.amount }}</td><td>{{ row.note }}</td></tr>\n"
_FIXED = '<p class="fixed">Words that stand on every page, as heads, feet and labels do.</p>\n'


def template(size: int = PAGE_BYTES) -> str:
    """A template with a loop of rows, and as many fixed words as make the page that large."""
    fixed = _FIXED * ((size - 6_000) // len(_FIXED))
    return (
        "<!doctype html><html><head><title>{{ title }}</title></head><body><h1>{{ title }}</h1>"
        f"<table>{{% for row in rows %}}{_ROW}{{% endfor %}}</table>{{{{ html }}}}{fixed}</body></html>"
    )


def build(site: Path, output: Path) -> int:
    """Build every recipe of ``site`` the bare way; how many there were."""
    output.mkdir(parents=True, exist_ok=True)
    markdown, page = MarkdownIt(), Environment(autoescape=True).from_string(template())
    count = 0
    for file in sorted((site / "content" / "recipes").rglob("*.md")):
        text = file.read_text("utf-8")
        front, _, body = text[4:].partition("\n---\n")
        fields = yaml.load(front, yaml.CSafeLoader)
        rows = [
            {"food": str(line), "amount": "", "note": ""} for line in fields.get("ingredients", ())
        ]
        html = page.render(title=fields["title"], rows=rows, html=markdown.render(body))
        (output / f"{file.stem}.html").write_text(html, "utf-8")
        count += 1
    return count


if __name__ == "__main__":
    print(build(Path(sys.argv[1]), Path(sys.argv[2])))
