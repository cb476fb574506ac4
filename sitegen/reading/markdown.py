"""Markdown, with this format's bracketed ingredients as a rule of the parser's own table."""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import cache, lru_cache
from typing import Any

from markdown_it import MarkdownIt
from markdown_it.renderer import RendererHTML
from markdown_it.rules_core import StateCore, inline, text_join
from markdown_it.rules_inline import StateInline
from markdown_it.token import Token
from mdit_py_plugins.deflist import deflist_plugin

LARGEST = 1_000_000
"""Characters of one file; more is a problem, not a page."""


def _commonmark() -> MarkdownIt:
    md = MarkdownIt("commonmark", {"html": False, "typographer": False, "maxNesting": 40})
    md.enable(["table"])
    md.use(deflist_plugin)
    return md


@cache
def parser() -> MarkdownIt:
    """CommonMark with tables and definition lists; raw HTML is shown as text, never passed on."""
    md = _commonmark()
    md.enable(["strikethrough"])
    return md


# Rules for blocks that a recipe seldom has, and what is in every text where one fits. Each rule is
# tried at every block and at every line that goes on with one, so the idle ones are worth leaving out.
_SELDOM: tuple[tuple[str, re.Pattern[str]], ...] = (
    ("table", re.compile(r"\|")),
    ("fence", re.compile(r"```|~~~")),
    ("blockquote", re.compile(r">")),
    ("reference", re.compile(r"\]:")),
    ("hr", re.compile(r"[*_-][ \t]*$", re.MULTILINE)),
    ("lheading", re.compile(r"[=-][ \t]*$", re.MULTILINE)),
    ("deflist", re.compile(r"^(?:[^\w\n]|\d)*[:~]", re.MULTILINE)),
)


@lru_cache(maxsize=128)  # as many as there are choices of them
def _block_parser(idle: tuple[str, ...]) -> MarkdownIt:
    """Finds blocks as both parsers do, and leaves what is written in them."""
    md = _commonmark()
    md.core.ruler.enableOnly(["normalize", "block"])
    md.disable(["html_block", *idle])  # HTML is text here
    return md


def blocks(text: str, env: dict[str, Any]) -> list[Token]:
    """The blocks of a text, for :func:`read_inline` to be read by one parser or the other."""
    idle = tuple([rule for rule, sign in _SELDOM if not sign.search(text)])
    return _block_parser(idle if "\r" not in text else ()).parse(text, env)


def read_inline(md: MarkdownIt, tokens: list[Token], env: dict[str, Any]) -> None:
    """Read, by the rules of ``md``, what is written in ``blocks``."""
    state = StateCore("", md, env, tokens)
    inline(state)
    text_join(state)


@cache
def method_parser() -> MarkdownIt:
    """As :func:`parser`, and ``[leeks]`` becomes a ``mention`` token."""
    md = _commonmark()
    md.inline.ruler.before("link", "mention", _mention)
    md.add_render_rule("mention", _slot)
    md.add_render_rule("span", _slot)
    return md


SLOT = "\ufffc"
"""Stands in rendered HTML where a piece of the dish goes: the object replacement character."""


def _slot(
    self: RendererHTML, tokens: Sequence[Token], i: int, options: Any, env: dict[str, Any]
) -> str:
    return SLOT


def _mention(state: StateInline, silent: bool) -> bool:
    """``[leeks]``, or ``[any words][flour]``; not ``[words](address)``, which is a link."""
    text, start = state.src, state.pos
    if text[start] != "[" or (start and text[start - 1] == "!"):
        return False
    end = _closing(text, start)
    if end is None or not text[start + 1 : end].strip():
        return False
    words, name, after = text[start + 1 : end], "", end + 1
    if text.startswith("(", after):
        return False
    if text.startswith("[", after):
        close = _closing(text, after)
        if close is not None:
            name, after = text[after + 1 : close], close + 1
    if not silent:
        token = state.push("mention", "", 0)
        token.content = words.strip("*_` ")  # emphasis within the bracket is not shown twice
        token.meta = {"name": name.strip("*_` ") or token.content, "raw": text[start:after]}
    state.pos = after
    return True


def _closing(text: str, start: int) -> int | None:
    """The bracket that closes the one at ``start``, within 200 characters and without nesting."""
    for i in range(start + 1, min(len(text), start + 202)):
        if text[i] == "\\":
            return None
        if text[i] == "[":
            return None
        if text[i] == "]":
            return i
    return None
