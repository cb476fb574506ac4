"""Lighthouse's counts on a recipe and the home page.

Performance is a matter of the clock and of what else the machine does, so it is asked of by what
does not depend on them: the budgets in ``test_standards.py`` and the audits of weight and shift.
"""

from __future__ import annotations

import pytest

from tests.browser.pages import recipe_paths
from tests.browser.themed import each_theme


@each_theme
@pytest.mark.parametrize("which", ["home", "recipe"])
def test_all_counts_that_do_not_hang_on_the_clock_are_full(built, lighthouse, which, name):
    demo, site = built(name)
    path = "index.html" if which == "home" else recipe_paths(demo)[0]
    report = lighthouse(site + path)
    counts = {key: count["score"] for key, count in report["categories"].items()}
    lacking = [
        f"{key}: {part['id']}: {report['audits'][part['id']].get('explanation', '')}"
        for key in ("accessibility", "best-practices", "seo")
        for part in report["categories"][key]["auditRefs"]
        if part["weight"] and (report["audits"][part["id"]]["score"] or 0) < 1
        if report["audits"][part["id"]]["scoreDisplayMode"] not in ("notApplicable", "manual")
    ]
    assert not lacking, (counts, lacking)
    assert report["audits"]["cumulative-layout-shift"]["numericValue"] == 0
    assert report["audits"]["total-byte-weight"]["score"] == 1
