"""Blocks are found by fewer rules where fewer can fit, and are the same blocks."""

from __future__ import annotations

from collections.abc import Callable

from hypothesis import example, given
from hypothesis import strategies as st
from markdown_it import MarkdownIt
from markdown_it.rules_core import StateCore, text_join
from markdown_it.token import Token

from sitegen.reading.markdown import blocks, method_parser, parser, plain_runs, read_inline

# One or more of every block that CommonMark, tables and definition lists have, nested ones too.
PIECES = (
    "## Method\n",
    "Method\n------\n",
    "Title\n=  \n",
    "1. Melt the butter.\n",
    "   - [leeks]\n",
    "  : a definition\n",
    "Term\n\n~ another\n",
    "1. Term\n   : within a step\n",
    "> quoted\n> : so\n",
    "> ***\n",
    "* * *\n",
    "- ___\n",
    "---\t\n",
    "| a | b |\n|---|:-:|\n| 1 | 2 |\n",
    "```\n## no heading\n```\n",
    "~~~\nopen\n",
    "    code\n",
    "\ttabbed\n",
    "[ref]: there.md 'T'\n",
    "<p>html</p>\n",
    "lazy *text*\n",
    "\n",
    "carriage\r---\r\n",
)


@given(st.lists(st.sampled_from(PIECES), max_size=12))
@example(["\n", "[ref]: there.md 'T'\n"])
@example(["\n", "[ref]: there.md 'T'\n", "[ref]: there.md 'T'\n"])
def test_no_rule_is_left_out_that_could_fit(pieces: list[str]) -> None:
    """Each rule's sign is in every text where the rule does something."""
    text = "".join(pieces)
    ours, theirs = {}, {}
    found = blocks(text, ours)
    expected = parser().parse(text, theirs)
    assert [(t.type, t.tag, t.map, t.markup, t.content, t.level, t.hidden) for t in found] == [
        (t.type, t.tag, t.map, t.markup, t.content, t.level, t.hidden) for t in expected
    ]
    assert ours == theirs


# What may stand in a block's text: words, brackets, every sign of Markdown, and line breaks.
MARKS = (
    *(
        "stir ",
        "the ",
        "butter",
        "½ ",
        "a.b",
        "> ",
        '"x"',
        "- ",
        ": ",
        "] ",
        " ",
        "\n",
        "  \n",
        " \n",
    ),
    *(
        "[butter]",
        "[the ",
        "[a][b]",
        "[a][]",
        "[ ]",
        "[*eggs*]",
        "[a](b.md)",
        "![a](b.jpg)",
        "[",
        "]",
    ),
    *(
        "*so*",
        "**",
        "_",
        "`x`",
        "\\[",
        "<b>",
        "<https://a.example>",
        "&amp;",
        "&",
        "~~no~~",
        "~",
        "!",
    ),
)


def by_the_parser(text: str, reader: MarkdownIt) -> list[Token]:
    """The library's own tokens of a block's text."""
    found: list[Token] = []
    reader.inline.parse(text, reader, {}, found)
    block = Token("inline", "", 0, content=text, children=found)
    text_join(StateCore("", reader, {}, [block]))
    return block.children or []


@given(st.lists(st.sampled_from(MARKS), max_size=10), st.sampled_from([parser, method_parser]))
def test_plain_text_is_read_as_the_parser_reads_it(
    marks: list[str], reader: Callable[[], MarkdownIt]
) -> None:
    """What is not handed to the parser becomes the tokens that the parser would make."""
    text = "".join(marks).strip()
    ours = Token("inline", "", 0, content=text, children=[])
    read_inline(reader(), [ours], {})
    assert ours.children == by_the_parser(text, reader())


@given(st.lists(st.sampled_from(MARKS), max_size=10))
def test_plain_runs_are_what_the_method_parser_finds(marks: list[str]) -> None:
    """Text, breaks and brackets, in order."""
    text = "".join(marks).strip()
    runs = plain_runs(text)
    if runs is None:
        return
    kinds: dict[str, Callable[[Token], object]] = {
        "text": lambda t: t.content,
        "softbreak": lambda t: None,
        "mention": lambda t: (t.content, t.meta["name"], t.meta["raw"]),
    }
    assert list(runs) == [kinds[t.type](t) for t in by_the_parser(text, method_parser())]
