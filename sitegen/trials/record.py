"""Open a new entry in a test log: the recipe as it stands, recorded exactly.

The author's file is only ever added to. The new text is read back before it is put in the old one's
place: every earlier entry must be there unchanged, and the recorded recipe must be the recipe.
"""

from __future__ import annotations

import os
import re
from collections.abc import Mapping, Sequence
from datetime import date
from pathlib import Path
from typing import Any

import yaml

from sitegen.textfile import LARGEST
from sitegen.trials.log import BEST, VERDICTS


class NotRecorded(Exception):
    """Why no entry was written, in words for the author; the log is as it was."""


def entry(
    day: date,
    recipe: str,
    used: Mapping[str, str],
    points: Sequence[str],
    tasters: Sequence[str] = (),
    best: int = BEST,
) -> list[str]:
    """The lines of a new entry, not indented; what is to be filled in stands empty.

    >>> print("\\n".join(entry(date(2026, 11, 2), "---\\ntitle: Soup\\n---\\n", {}, ["salt"])))
    - date: 2026-11-02
      aim:
      tasters: []
      scores:
        salt:
      remarks: |
    <BLANKLINE>
      verdict:  # passed, again or dropped
      recipe: |
        ---
        title: Soup
        ---
    """
    lines = [
        f"- date: {day.isoformat()}",
        "  aim:",
        f"  tasters: [{', '.join(map(_key, tasters))}]",
    ]
    if points:
        lines += ["  scores:", *(f"    {_key(point)}:" for point in points)]
    else:
        lines.append(
            f"  scores: {{}}  # points of your choosing, 0 to {best}: {{crust: 7, salt: 6}}"
        )
    lines += ["  remarks: |", "", f"  verdict:  # {', '.join(VERDICTS[:-1])} or {VERDICTS[-1]}"]
    lines += _block("  recipe:", recipe, 4)
    if used:
        lines.append("  used:")
        for file, text in used.items():
            lines += _block(f"    {_key(file)}:", text, 6)
    return lines


def heading(title: str, slug: str) -> str:
    """What a new log begins with."""
    title = " ".join(title.split())
    return (
        f"# The test log of {title}. It is private: no page is made from it.\n"
        f"# 'sitegen trial {slug}' opens an entry with the recipe as it stands;\n"
        f"# 'sitegen trial {slug} --compare 1 now' sets two of them side by side.\n"
        "trials:\n"
    )


def append(path: Path, lines: Sequence[str], new: str) -> int:
    """Add an entry to the log at ``path``; a new log begins with ``new``. Gives the entry's line.

    Raises :class:`NotRecorded`.
    """
    path = path.resolve()  # a linked log is written where it lies
    old = path.read_bytes() if path.exists() else None
    try:
        text = new if old is None else old.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise NotRecorded("it is not saved as UTF-8") from None
    whole, line = _with_entry(text, lines)
    _assert_kept(text, whole)
    content = whole.encode()
    if len(content) > LARGEST:
        mb = f"{LARGEST / 1e6:.0f} MB"
        raise NotRecorded(f"it would be larger than {mb}; move its oldest trials to another file")
    if old is not None and old.startswith(b"\xef\xbb\xbf"):
        content = b"\xef\xbb\xbf" + content
    partial = path.with_name(f".{path.name}.{os.getpid()}.part")
    try:
        with partial.open("xb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        if old is not None:
            partial.chmod(path.stat().st_mode)
        if (path.read_bytes() if path.exists() else None) != old:
            raise NotRecorded("it was saved by another program at this moment; try again")
        partial.replace(path)
    except OSError as error:
        raise NotRecorded(
            f"it can't be written: {(error.strerror or str(error)).lower()}"
        ) from None
    finally:
        partial.unlink(missing_ok=True)
    return line


def _with_entry(text: str, lines: Sequence[str]) -> tuple[str, int]:
    """The log's text with an entry after the last one, in the indentation that the others have."""
    root = _composed(text)
    rows = re.findall(r"[^\n]*\n|[^\n]+", text)
    end, indent, opening = len(rows), 2, ""
    value = None
    for index, (key, found) in enumerate(root.value):
        if key.value == "trials":
            value = found
            if index + 1 < len(root.value):
                end = root.value[index + 1][0].start_mark.line
    if value is None:
        opening = "trials:"
    elif isinstance(value, yaml.SequenceNode) and not value.flow_style and value.value:
        indent = value.start_mark.column
    elif not (isinstance(value, yaml.ScalarNode) and value.value == ""):
        raise NotRecorded("its 'trials' are not a list, one '- ' a trial; take the brackets away")
    newline = "\r\n" if rows and rows[0].endswith("\r\n") else "\n"
    before = "".join(rows[:end])
    if before and not before.endswith("\n"):
        before += newline
    added = [opening] if opening else []
    added += [" " * indent + line if line else "" for line in lines]
    line = before.count("\n") + 1 + len(added) - len(lines)
    return before + newline.join([*added, ""]) + "".join(rows[end:]), line


def _composed(text: str) -> yaml.MappingNode:
    try:
        node = yaml.compose(text, Loader=yaml.SafeLoader)
    except yaml.YAMLError as error:
        mark = getattr(error, "problem_mark", None)
        where = f"; look at line {mark.line + 1}" if mark else ""
        raise NotRecorded(f"it can't be read as it stands{where}, so it is left alone") from None
    if node is None:
        return yaml.MappingNode("tag:yaml.org,2002:map", [])
    if not isinstance(node, yaml.MappingNode):
        raise NotRecorded("it does not begin with 'trials:'; it is left alone")
    return node


def _assert_kept(old: str, new: str) -> None:
    """Every value of the old text is in the new one, and one entry more."""
    before, after = _plain(old), _plain(new)
    earlier, now = before.pop("trials", None) or [], after.pop("trials", None) or []
    if after != before or now[:-1] != earlier or len(now) != len(earlier) + 1:
        raise NotRecorded("its form does not allow adding an entry safely; it is left alone")


def _plain(text: str) -> dict[str, Any]:
    """All values as words; a last line's missing end, which an addition must supply, counts as none."""

    def stripped(value: Any) -> Any:
        if isinstance(value, dict):
            return {key: stripped(found) for key, found in value.items()}
        if isinstance(value, list):
            return [stripped(found) for found in value]
        return value.rstrip("\n") if isinstance(value, str) else value

    found = stripped(yaml.load(text, Loader=yaml.BaseLoader) or {})
    assert isinstance(found, dict), "it has been composed as a mapping"
    return found


def _block(key: str, text: str, indent: int) -> list[str]:
    """``text`` as a YAML literal, which reads as the file does; in quotes where that would change it."""
    end = "-" if not text.endswith("\n") else "+" if text.endswith("\n\n") or text == "\n" else ""
    own = (
        str(2) if text.startswith((" ", "\n", "\t")) else ""
    )  # libyaml takes no tab for indentation
    body = text[:-1] if text.endswith("\n") else text
    pad = " " * indent
    lines = [f"{key} |{own}{end}", *(pad + row if row else "" for row in body.split("\n"))]
    try:
        probe = re.sub(r"^ +", "", key)
        shown = "\n".join(
            [f"{probe} |{own}{end}", *("  " + r if r else "" for r in body.split("\n"))]
        )
        same = list(yaml.load(shown + "\n", Loader=yaml.BaseLoader).values()) == [text]
    except yaml.YAMLError:
        same = False
    if same:
        return lines
    quoted = yaml.safe_dump(text, default_style='"', allow_unicode=False, width=10**9).strip()
    return [f"{key} {quoted}"]


def _key(words: str) -> str:
    """Words as a YAML key or a list's item: quoted where they would be read as something else."""
    if re.fullmatch(r"[^\W\d_][\w ./-]*[\w]|[^\W\d_]", words):
        return words
    return yaml.safe_dump(words, default_style='"', allow_unicode=True, width=10**9).strip()
