"""Problems in SARIF 2.1.0, which editors and code hosts read.

Source: *Static Analysis Results Interchange Format (SARIF) Version 2.1.0 Plus Errata 01*, OASIS
Standard, 2023. The numbers below are its sections.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable, Mapping
from typing import Any
from urllib.parse import quote

from sitegen import __version__
from sitegen.problems import Problem

SCHEMA = (
    "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json"
)
ROOT = "SITE"
"""What the files' addresses are relative to (3.4.4): the site's folder, wherever it stands."""

_LEVELS = {"error": "error", "advice": "warning"}
"""3.27.10. ``note`` would be hidden by most readers, and advice is meant to be read."""


def as_sarif(
    problems: Iterable[Problem],
    line_of: Callable[[Problem], str],
    rules: Mapping[str, str] | None = None,
) -> str:
    """One run with a result for each problem.

    ``line_of`` gives a problem's source line, which no region may reach past; ``rules`` says in
    words why the rule of a name is there.
    """
    found = list(problems)
    names = sorted({problem.rule for problem in found})
    run = {
        "tool": {
            "driver": {
                "name": "sitegen",
                "semanticVersion": __version__,
                "rules": [_rule(name, (rules or {}).get(name, "")) for name in names],
            }
        },
        "columnKind": "unicodeCodePoints",  # 3.14.17: a column is a character, not a byte
        "originalUriBaseIds": {ROOT: {"description": {"text": "The site's folder."}}},
        "results": [_result(problem, names.index(problem.rule), line_of) for problem in found],
    }
    log = {"$schema": SCHEMA, "version": "2.1.0", "runs": [run]}
    return json.dumps(log, ensure_ascii=False, indent=2)


def _rule(name: str, why: str) -> dict[str, Any]:
    words = name.replace("-", " ")
    rule: dict[str, Any] = {"id": name, "shortDescription": {"text": words[:1].upper() + words[1:]}}
    if why:
        rule["fullDescription"] = {"text": why}
    return rule


def _result(problem: Problem, index: int, line_of: Callable[[Problem], str]) -> dict[str, Any]:
    place: dict[str, Any] = {
        "artifactLocation": {"uri": quote(problem.file), "uriBaseId": ROOT},
    }
    if problem.line:  # none: the whole file is meant, and 3.29.4 then wants no region
        last = len(line_of(problem)) + 1
        column = max(1, problem.column)
        place["region"] = {
            "startLine": problem.line,
            "startColumn": column,
            "endColumn": max(column, min(column + max(1, problem.length), last)),
        }
    return {
        "ruleId": problem.rule,
        "ruleIndex": index,
        "level": _LEVELS[problem.severity],
        "message": {"text": "\n".join(filter(None, (problem.message, problem.hint)))},
        "locations": [{"physicalLocation": place}],
    }
