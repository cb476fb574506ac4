"""The theme: the program's own, with a site's files and blocks laid over it."""

from __future__ import annotations

import hashlib
import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property
from pathlib import Path

from jinja2 import TemplateNotFound, TemplateSyntaxError, meta

from sitegen.pages.colours import check_colours, colour_sheet, face_sheet
from sitegen.pages.compiled import compiled
from sitegen.pages.compiling import Quick
from sitegen.pages.environment import HOUSE, make_environment
from sitegen.pages.lineage import lineage, program_themes
from sitegen.problems import Problem
from sitegen.site import Site

__all__ = ["CARD_SHEET", "PAGE_SHEET", "Theme", "hashed", "load_theme", "program_themes"]

PAGE_SHEET, CARD_SHEET = "page.css", "card.css"
"""The two style sheets that pages link to, each made of several files in one order."""
_SCRIPTS = Path(__file__).parent / "scripts"


@dataclass(frozen=True)
class Theme:
    """Templates and assets, ready to lay pages out with."""

    name: str
    environment: Quick
    files: Mapping[str, bytes]
    """Assets by their plain name, the site's own before the program's."""
    colours: Mapping[str, str] = field(default_factory=dict)
    """Every colour token's value, the site's own before the theme's; ``dark-`` for dark ones."""
    _known: dict[str, tuple[str, ...]] = field(default_factory=dict, repr=False, compare=False)

    @cached_property
    def addresses(self) -> dict[str, str]:
        """The hashed address of each asset: ``page.css`` is ``assets/page.1f3a9c02.css``."""
        return {name: hashed(name, content) for name, content in self.files.items()}

    def asset(self, name: str) -> str:
        """The address of an asset, relative to the output folder; KeyError if there is none."""
        return self.addresses[name]

    def has(self, name: str) -> bool:
        """Whether there is an asset of this plain name."""
        return name in self.files

    def assets(self) -> Mapping[str, bytes]:
        """Every asset by its hashed address."""
        return {self.addresses[name]: content for name, content in self.files.items()}

    def references(self, template: str) -> tuple[str, ...]:
        """``theme:NAME`` of a template and of all that it extends, includes or imports."""
        if template not in self._known:
            seen: dict[str, None] = {}
            waiting = [template]
            while waiting:
                name = waiting.pop()
                if name in seen:
                    continue
                seen[name] = None
                waiting += self.environment.named(name)
            self._known[template] = tuple(f"theme:{name}" for name in sorted(seen))
        return self._known[template]


def hashed(name: str, content: bytes) -> str:
    """The address of an asset, with a mark of its content: caches may keep it for ever."""
    stem, dot, ending = name.rpartition(".")
    mark = hashlib.sha256(content).hexdigest()[:10]
    return f"assets/{stem}.{mark}.{ending}" if dot else f"assets/{name}.{mark}"


def load_theme(site: Site) -> tuple[Theme | None, list[Problem]]:
    """The site's theme over the program's, file by file and block by block.

    Given back with what is wrong in the site's own part: a missing theme, a template that can't be
    read, a colour that is none. Without a theme, nothing can be laid out.
    """
    found, problems = lineage(site)
    if found is None:
        return None, problems
    name, own = site.settings.theme, found.own
    own_templates = (own / "templates",) if own else ()
    environment = make_environment(found.templates(), own_templates, compiled(site.folder))
    files = _kitchen_script()
    for folder in reversed(found.program.values()):
        files |= _assets(folder / "assets")
    if own:
        files |= _assets(own / "assets")
        problems += _compile_all(environment, own, name)
    defaults = _tokens(files.get("tokens.css", b"").decode())
    colours, wrong = check_colours(site.settings.colours, defaults)
    problems += wrong
    last = colour_sheet(colours) + face_sheet(site.settings.fonts)
    files = _bound(files, last.encode())
    if site.settings.minify:
        from sitegen.pages.small import small

        files = {file: small(file, content) for file, content in files.items()}
    theme = Theme(name, environment, dict(sorted(files.items())), {**defaults, **colours})
    return theme, problems


_PARTS = {
    PAGE_SHEET: ("tokens.css", "base.css", "look.css", "own.css"),
    CARD_SHEET: ("tokens.css", "card.css", "look-card.css", "own-card.css"),
}
"""What the two sheets are made of: the theme's tokens, what all themes share, how this one looks, and
what a site adds. Of each name there is one file, the site's own before the theme's."""


def _bound(files: dict[str, bytes], last: bytes) -> dict[str, bytes]:
    """The files with the style sheets bound into two: one request for a page, one for a card."""
    bound = {
        sheet: b"\n".join([*(files[part] for part in parts if part in files), last])
        for sheet, parts in _PARTS.items()
    }
    apart = {part for parts in _PARTS.values() for part in parts}
    return {name: content for name, content in files.items() if name not in apart} | bound


def _assets(folder: Path) -> dict[str, bytes]:
    if not folder.is_dir():
        return {}
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in sorted(folder.rglob("*"))
        if path.is_file() and not path.name.startswith(".")
    }


def _kitchen_script() -> dict[str, bytes]:
    """The page's arithmetic, with the tables that it shares with Python before it."""
    script = _SCRIPTS / "kitchen.js"
    if not script.is_file():
        return {}
    from sitegen.kitchen.tables import tables_json

    return {"kitchen.js": f"const KITCHEN_TABLES={tables_json()};\n".encode() + script.read_bytes()}


def _compile_all(environment: Quick, own: Path, name: str) -> list[Problem]:
    """Every template of the site's own, read once so that mistakes are said before pages fail."""
    problems = []
    for path in sorted((own / "templates").rglob("*.*")):
        template = path.relative_to(own / "templates").as_posix()
        file = f"themes/{name}/templates/{template}"
        try:
            tree = environment.parse(path.read_text("utf-8"))
            for referenced in meta.find_referenced_templates(tree):
                if referenced:
                    environment.get_template(referenced)
        except TemplateSyntaxError as error:
            message = error.message or "this can't be read"
            problems.append(Problem("template-unreadable", "error", file, error.lineno, 1, message))
        except TemplateNotFound as error:
            hint = f"the program's own templates are named {HOUSE}/NAME"
            message = f"there is no template '{error.name}'"
            problems.append(Problem("template-missing", "error", file, 1, 1, message, hint))
        except UnicodeDecodeError:
            problems.append(
                Problem("template-unreadable", "error", file, 1, 1, "this is not UTF-8 text")
            )
    return problems


def _tokens(sheet: str) -> dict[str, str]:
    """The colours that a tokens sheet sets, light ones plain and dark ones with ``dark-``."""
    light, _, dark = sheet.partition("@media print")[0].partition("prefers-color-scheme: dark")
    return {
        prefix + token: value
        for prefix, text in (("", light), ("dark-", dark))
        for token, value in re.findall(r"--([\w-]+):\s*(#[0-9a-fA-F]{3,6})\b", text)
    }
