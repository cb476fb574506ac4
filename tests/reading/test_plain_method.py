"""A method that is cut out before the text is parsed is the one that the parser finds."""

from __future__ import annotations

from hypothesis import example, given, settings
from hypothesis import strategies as st

from sitegen.reading.markdown import blocks, idle_in
from sitegen.reading.plain_method import plain_method
from tests.reading.test_method import recipe_of

STEPS = (
    *(
        "1. Melt the [butter].\n",
        "2. Add the [leeks], for 10 minutes.\n",
        "3) Cool.\n",
        "12. *So*.\n",
    ),
    *(
        "7. 2 eggs go in.\n",
        "8. 2. of two\n",
        "9. - a list\n",
        "4.  Two spaces.\n",
        "5.\n",
        "6. # so\n",
    ),
    *(
        "1234567890. Too long.\n",
        "0. Nought.\n",
        "٣. Three.\n",
        "10. [00 flour] in\n",
        '1. "Stir".\n',
    ),
    *(
        "   and go on\n",
        "   2. not so\n",
        "    and on\n",
        "   **so**  \n",
        "lazily\n",
        "  too near\n",
    ),
    *(
        "\n",
        "\n",
        "\n",
        "   \n",
        "### Dumplings\n",
        "### Dumplings ###\n",
        "###  Broth \n",
        "#### Deep\n",
    ),
    *(
        "# One\n",
        "## Method\n",
        "## Keeping\n",
        " ## Serving\n",
        "A note.\n",
        "- [butter]\n",
        "* * *\n",
    ),
    *("Method\n---\n", "> quoted\n", "```\ncode\n```\n", "[a]: b.md\n", "1. ![x](y.jpg)\n", "\r\n"),
    *(
        "Term\n: said\n",
        "| a |\n|---|\n",
        "1. <b>bold</b> &amp;\n",
        "1. Fry.  \n   Turn.\n",
        "\ttab\n",
    ),
)


@settings(max_examples=400, deadline=None)
@given(st.lists(st.sampled_from(STEPS), max_size=8))
def test_a_method_is_the_same_whether_it_is_cut_out_or_parsed(pieces: list[str]) -> None:
    """A tab in a later section makes a text that is left to the parser."""
    method = "".join(pieces)
    ours, our_problems = recipe_of(f"{method}\n\n## Later\n\na b\n")
    theirs, their_problems = recipe_of(f"{method}\n\n## Later\n\na\tb\n")
    assert our_problems == their_problems
    assert (ours is None) == (theirs is None)
    if ours and theirs:
        assert ours.method == theirs.method
        assert [s.name for s in ours.sections] == [s.name for s in theirs.sections]


@settings(max_examples=300)
@given(st.lists(st.sampled_from(STEPS), max_size=6))
@example(["1. Melt the [butter].\n", "## Keeping\n"])
def test_what_is_cut_out_is_what_the_parser_finds_there(pieces: list[str]) -> None:
    """Step by step: the text of each, the line that it begins on, and the names of the parts."""
    text = f"\n\nBefore.\n\n## Method\n\n{''.join(pieces)}\n\n## After\n\nWords.\n"
    found = plain_method(text, "Method", idle_in(text))
    if found is None:
        return
    tokens = blocks(text, {})
    heads = [n for n, t in enumerate(tokens) if t.type == "heading_open" and t.tag == "h2"]
    above, within, below = (
        [((t.map or [0])[0] + 1, t.content) for t in some if t.type == "inline"]
        for some in (tokens[: heads[0]], tokens[heads[0] : heads[1]], tokens[heads[1] :])
    )
    ours = [
        (line, words)
        for part in found.parts
        for line, words in [(part.line, part.name), *part.steps][0 if part.name else 1 :]
    ]
    assert ours == within[1:]
    left = [t for t in blocks(found.rest, {}) if t.type == "inline"]
    assert [((t.map or [0])[0] + 1, t.content) for t in left] == [*above, within[0], *below]


def test_common_methods_are_cut_out() -> None:
    for method in ("1. Fry.\n2. Eat.\n", "1. Fry\n   and turn.\n\n### Sauce\n\n2. Stir.\n"):
        text = f"\n\n## Method\n\n{method}\n## Keeping\n\nA day.\n"
        assert plain_method(text, "Method", idle_in(text)) is not None
