"""The rules in words: what each catches, why it matters, how to mend it and how to silence it."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby
from textwrap import fill, shorten

from sitegen.readthrough.rule import Rule
from sitegen.readthrough.table import RULES

_WIDTH = 80


def explain(rule: Rule) -> str:
    """One rule, for the terminal."""
    what, mend = words(rule)
    return "\n".join(
        (
            f"{rule.name} ({rule.severity}, {rule.group})",
            "",
            fill(what, _WIDTH),
            "",
            fill(f"Why it matters: {rule.why}.", _WIDTH),
            "",
            fill(f"How to mend it: {mend}", _WIDTH),
            "",
            "To keep it as it is, say so in the recipe's fields, with the reason:",
            "",
            "    silence:",
            f"      - {{rule: {rule.name}, why: …}}",
            "",
            "Add 'ingredient: …' or 'step: 3' to mean one place only. For the whole site, write",
            "the same into content/site.yaml.",
        )
    )


def words(rule: Rule) -> tuple[str, str]:
    """What it catches, and how to mend it: the first paragraph of its file's words, and the others."""
    first, _, rest = rule.doc.strip().partition("\n\n")
    return _flowing(first), _flowing(rest.replace("``", ""))


def _flowing(text: str) -> str:
    return " ".join(text.split())


def as_list() -> str:
    """Every rule's name with its first sentence, by group, for the terminal."""
    out: list[str] = []
    for group, rules in _groups():
        out += [group[0].upper() + group[1:], ""]
        out += [f"  {r.name:<24}{r.severity:<8}{_sentence(words(r)[0])}" for r in rules]
        out.append("")
    return "\n".join(out).rstrip()


def as_markdown() -> str:
    """The reference as it stands in the package's README."""
    out = [
        "# The read-through",
        "",
        "What a good editor does before a recipe is printed. `sitegen check` runs every rule below on "
        "every recipe,",
        "and the preview shows what they find beside the page. *Errors* keep a recipe from being "
        "published; *advice*",
        "does not.",
        "",
        "To keep something as it is, give the reason in the recipe's fields. Without `ingredient` or "
        "`step` it goes",
        "for the whole recipe; in `content/site.yaml` it goes for the whole site. A silence that "
        "silences nothing is",
        "pointed out (`silence-idle`).",
        "",
        "```yaml",
        "silence:",
        "  - {rule: portion-unusual, why: a tasting plate}",
        "  - {rule: pair-count-weight, ingredient: leeks, why: baby ones}",
        "  - {rule: step-no-sign, step: 3, why: the timer is the point}",
        "```",
        "",
        "The safety cautions that stand on the page can't be silenced so. Only the site's owner takes "
        "one off, in",
        "`content/site.yaml`, signed and with the reason:",
        "",
        "```yaml",
        "without cautions:",
        "  - {recipe: aioli, caution: raw-egg, why: made with pasteurised yolk, signed: Ines Varrow}",
        "```",
        "",
        "To add a rule: one file with one function `check(reading) -> Iterator[Finding]`, whose own "
        "docstring says",
        "what it catches and how to mend it, a row in `table.py`, cases in `tests/readthrough/cases/`, "
        "and this page",
        "anew (`sitegen rules --format markdown`).",
        "",
    ]
    for group, rules in _groups():
        out += [f"## {group[0].upper()}{group[1:]}", ""]
        for rule in rules:
            what, mend = words(rule)
            out += [
                f"### `{rule.name}`",
                "",
                f"*{rule.severity.capitalize()}.* {what}",
                "",
                f"Why it matters: {rule.why}.",
                "",
                mend,
                "",
            ]
    return "\n".join(out)


def _groups() -> Iterator[tuple[str, list[Rule]]]:
    for group, rules in groupby(RULES, key=lambda rule: rule.group):
        yield group, list(rules)


def _sentence(text: str) -> str:
    first = text.split(". ")[0].split(": ")[0].rstrip(".")
    return shorten(first, 66, placeholder=" …")
