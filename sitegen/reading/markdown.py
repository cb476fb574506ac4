"""Markdown, with this format's bracketed ingredients as a rule of the parser's own table."""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import cache, lru_cache, partial
from typing import Any

from markdown_it import MarkdownIt
from markdown_it.renderer import RendererHTML
from markdown_it.rules_core import StateCore, inline, text_join
from markdown_it.rules_inline import StateInline
from markdown_it.token import Token
from mdit_py_plugins.deflist import deflist_plugin

LARGEST = 1_000_000
"""Characters of one file; more is a problem, not a page."""


SLOT = "\ufffc"
"""Stands in rendered HTML where a piece of the dish goes: the object replacement character."""


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
    ("fence", re.compile(r"[`~](?:``|~~)")),
    ("blockquote", re.compile(r">")),
    ("reference", re.compile(r"\]:")),
    ("hr", re.compile(r"[*_-][ \t]*$", re.MULTILINE)),
    ("lheading", re.compile(r"[=-][ \t]*$", re.MULTILINE)),
    ("deflist", re.compile(r"\n(?:[^\w\n]|\d)*[:~]")),
)
IDLE_IN_PLAIN_TEXT = tuple([rule for rule, _ in _SELDOM])
"""All of them: there are only headings, paragraphs, lists and code."""


@lru_cache(maxsize=128)  # as many as there are choices of them
def _block_parser(idle: tuple[str, ...]) -> MarkdownIt:
    """Finds blocks as both parsers do, and leaves what is written in them."""
    md = _commonmark()
    md.core.ruler.enableOnly(["normalize", "block"])
    md.disable(["html_block", *idle])  # HTML is text here
    return md


def idle_in(text: str) -> tuple[str, ...]:
    """The rules that fit nowhere in a text."""
    if "\r" in text or "\0" in text:
        return ()
    text = f"\n{text}"  # its first line begins as all others do
    return tuple([rule for rule, sign in _SELDOM if not sign.search(text)])


def blocks(text: str, env: dict[str, Any], idle: tuple[str, ...] | None = None) -> list[Token]:
    """The blocks of a text, for :func:`read_inline` to be read by one parser or the other.

    ``env`` is an empty one, in which the parser leaves what links are defined.
    """
    md = _block_parser(idle_in(text) if idle is None else idle)
    # blank lines in place of the fields are counted, not parsed
    above = len(text) - len(text.lstrip("\n"))
    tokens = md.parse(text[above:], env)
    for token in tokens:
        if token.map:
            token.map = [line + above for line in token.map]
    for defined in (*env.get("references", {}).values(), *env.get("duplicate_refs", ())):
        defined["map"] = [line + above for line in defined["map"]]
    return tokens


def read_inline(md: MarkdownIt, tokens: list[Token], env: dict[str, Any]) -> None:
    """Read, by the rules of ``md``, what is written in ``blocks``."""
    marked: list[Token] = []
    for token in tokens:
        if token.type == "inline":
            runs = None if "[" in token.content else plain_runs(token.content)
            if runs is None:
                marked.append(token)
            else:
                token.children = [
                    text_token(run) if isinstance(run, str) else _BREAK() for run in runs
                ]
    if marked:
        state = StateCore("", md, env, marked)
        inline(state)
        text_join(state)


def text_token(text: str) -> Token:
    """Text as it stands."""
    return Token("text", "", 0, content=text)


_BREAK = partial(Token, "softbreak", "br", 0)

Bracket = tuple[str, str, str]
"""An ingredient in brackets: the words that are shown, the name that is meant, all as it is written."""

Run = str | Bracket | None
"""Plain text, a bracket, or the end of a line."""

_SIGNS = ("*", "_", "`", "\\", "<", "&", "![", "](", "~~", SLOT)


def plain_runs(text: str) -> Sequence[Run] | None:
    """What is written in a block, in order, if it has no sign of Markdown but ingredients in brackets.

    Nearly all steps are that, and the parser need not look for signs in them at each place where one
    could be. None if it has others, or brackets that are no plain ingredient.

    >>> plain_runs("Stir the [butter] in.")
    ['Stir the ', ('butter', 'butter', '[butter]'), ' in.']
    """
    if any(map(text.__contains__, _SIGNS)):
        return None
    if "\n" not in text and "[" not in text:
        return (text,) if text else ()
    runs: list[Run] = []
    first, *others = text.split("[")
    if not _add_lines(first, runs):
        return None
    at = 0
    while at < len(others):
        words, closed, after = others[at].partition("]")
        at += 1
        if not closed or len(words) > _LONGEST or "\n" in words or not words.strip():
            return None
        name, raw = "", f"[{words}]"
        if not after and at < len(others):  # another bracket follows at once: "[any words][flour]"
            name, closed, after = others[at].partition("]")
            at += 1
            if not closed or len(name) > _LONGEST or "\n" in name:
                return None
            raw += f"[{name}]"
        runs.append(_bracket(words, name, raw))
        if not _add_lines(after, runs):
            return None
    return runs


def _bracket(words: str, name: str, raw: str) -> Bracket:
    shown = words.strip("*_` ")  # emphasis within the bracket is not shown twice
    return shown, name.strip("*_` ") or shown, raw


def _add_lines(text: str, runs: list[Run]) -> bool:
    """Add plain text, line by line; False if a line ends in a break that is to be shown."""
    if "\n" in text:
        *lines, text = text.split("\n")
        for i, line in enumerate(lines):
            if line.endswith("  "):
                return False
            shown = (line.lstrip(" \t") if i else line).removesuffix(" ")
            runs.extend((shown, None) if shown else (None,))
        text = text.lstrip(" \t")
    if text:
        runs.append(text)
    return True


@cache
def method_parser() -> MarkdownIt:
    """As :func:`parser`, and ``[leeks]`` becomes a ``mention`` token."""
    md = _commonmark()
    md.inline.ruler.before("link", "mention", _mention)
    md.add_render_rule("mention", _slot)
    md.add_render_rule("span", _slot)
    return md


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
        token.content, named, raw = _bracket(words, name, text[start:after])
        token.meta = {"name": named, "raw": raw}
    state.pos = after
    return True


_LONGEST = 200


def _closing(text: str, start: int) -> int | None:
    """The bracket that closes the one at ``start``, within 200 characters and without nesting."""
    for i in range(start + 1, min(len(text), start + _LONGEST + 2)):
        if text[i] == "\\":
            return None
        if text[i] == "[":
            return None
        if text[i] == "]":
            return i
    return None
