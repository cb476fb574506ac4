"""Blocks are found by fewer rules where fewer can fit, and are the same blocks."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from sitegen.reading.markdown import blocks, parser

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
