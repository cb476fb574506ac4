"""A site's own colours and faces: checked, and written after the theme's style sheet."""

from __future__ import annotations

import re
from collections.abc import Mapping

from sitegen.problems import Problem, did_you_mean

TOKENS = ("paper", "ink", "soft", "line", "accent", "wash", "warn")
"""Colour tokens of every theme: each may be set for light, and with ``dark-`` before it for dark.

A theme may have more: every ``--name: #rrggbb`` of its ``tokens.css`` is one."""

READ_ON_PAPER = ("ink", "soft", "accent", "warn")
"""Tokens that text is set in: WCAG 2.2 success criterion 1.4.3 asks 4.5 to 1 of them."""

ON_BLOCK = ("on-block", "block")
"""Text on a block of strong colour, in themes that have such blocks."""

_HEX = re.compile(r"#(?:[0-9a-fA-F]{3}|[0-9a-fA-F]{6})\Z")


def check_colours(
    colours: Mapping[str, str], defaults: Mapping[str, str]
) -> tuple[dict[str, str], list[Problem]]:
    """The colours that can be used, and what is wrong with the others.

    ``defaults`` is the theme's own value of each token, which contrast is judged against where the
    site gives none. Contrast below 4.5 to 1 is advice: the colour is used all the same.
    """
    tokens = (*TOKENS, *(t for t in defaults if t not in TOKENS and not t.startswith("dark-")))
    known = [*tokens, *(f"dark-{t}" for t in tokens)]
    good: dict[str, str] = {}
    problems: list[Problem] = []
    for name, value in colours.items():
        if name not in known:
            hint = did_you_mean(name, known) or f"the colours are {', '.join(tokens)}"
            problems.append(_problem("colour-unknown", f"there is no colour '{name}'", hint))
        elif not _HEX.match(value):
            hint = "write it as # and three or six hexadecimal digits, e.g. '#0b5a50'"
            problems.append(
                _problem("colour-unreadable", f"'{value}' is not a colour ({name})", hint)
            )
        else:
            good[name] = value.lower()
    for mode in ("", "dark-"):
        seen = {t: good.get(mode + t, defaults.get(mode + t, "")) for t in tokens}
        for text, ground in (*((t, "paper") for t in READ_ON_PAPER), ON_BLOCK):
            touched = {mode + text, mode + ground} & good.keys()
            if not touched or not seen.get(text) or not seen.get(ground):
                continue
            ratio = contrast(seen[text], seen[ground])
            if ratio < 4.5:
                found = f"{mode + text} {seen[text]} on {mode + ground} {seen[ground]}"
                problems.append(
                    _problem(
                        "colour-contrast",
                        f"{found} has a contrast of {ratio:.1f} to 1",
                        "4.5 to 1 is the least that WCAG 2.2 allows for text",
                        advice=True,
                    )
                )
    return good, problems


def colour_sheet(colours: Mapping[str, str]) -> str:
    """The style sheet that overrides the theme's tokens."""
    light = "".join(f"--{n}:{v};" for n, v in colours.items() if not n.startswith("dark-"))
    dark = "".join(
        f"--{n.removeprefix('dark-')}:{v};" for n, v in colours.items() if n.startswith("dark-")
    )
    out = f"@media screen{{:root{{{light}}}}}\n" if light else ""
    if dark:
        out += f"@media screen and (prefers-color-scheme:dark){{:root{{{dark}}}}}\n"
    elif light:
        # The site's light colours are no use on dark paper: there the theme's own stay.
        out = out.replace("@media screen{", "@media screen and (prefers-color-scheme:light){")
    return out


def face_sheet(fonts: Mapping[str, str]) -> str:
    """The style sheet that overrides the theme's stacks of typefaces.

    >>> face_sheet({"headings": "Georgia, serif"})
    ':root{--face-headings:Georgia, serif}\\n'
    """
    said = ";".join(f"--face-{name}:{stack}" for name, stack in fonts.items())
    return f":root{{{said}}}\n" if said else ""


def contrast(one: str, other: str) -> float:
    """The contrast ratio of two hexadecimal colours, 1 to 21, by WCAG 2.2.

    >>> round(contrast("#000", "#ffffff"), 1)
    21.0
    """
    light, dark = sorted((_luminance(one), _luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def _luminance(colour: str) -> float:
    digits = colour.lstrip("#")
    if len(digits) == 3:
        digits = "".join(d * 2 for d in digits)
    channels = [int(digits[i : i + 2], 16) / 255 for i in (0, 2, 4)]
    red, green, blue = (
        c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels
    )
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def _problem(rule: str, message: str, hint: str, *, advice: bool = False) -> Problem:
    return Problem(rule, "advice" if advice else "error", "content/site.yaml", 0, 0, message, hint)
