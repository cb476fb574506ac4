"""A small picture of scores over trials, as SVG that needs no script and no style of its own."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from html import escape

from sitegen.trials.log import Log

WIDE, HIGH = 640, 260
_LEFT, _RIGHT, _TOP, _FOOT = 34, 500, 14, 214
_APART = 16
"""The least distance of two lines' names, so that they can be read."""
MOST = 6
"""Points that are drawn: more lines than that can't be told apart. The table has them all."""
_DASHES = ("", "7 4", "2 4", "10 3 2 3", "1 3", "14 4")
"""Lines differ by their dashes and carry their names, so that no colour has to be told."""


def chart(log: Log) -> str:
    """The SVG; empty with fewer than two trials that have scores."""
    marked = [trial for trial in log.trials if trial.overall is not None]
    if len(marked) < 2:
        return ""
    step = (_RIGHT - _LEFT) / (len(marked) - 1)
    across = [_LEFT + step * i for i in range(len(marked))]
    lines: list[tuple[str, str, list[tuple[float, float]]]] = []
    for number, point in enumerate(log.points[:MOST]):
        means = [trial.mean(point) for trial in marked]
        spots = [
            (x, _down(m, log.best)) for x, m in zip(across, means, strict=True) if m is not None
        ]
        if spots:
            lines.append((point, f"line dash-{number}", spots))
    whole = [(x, _down(t.overall or 0, log.best)) for x, t in zip(across, marked, strict=True)]
    lines.append(("all points", "line whole", whole))
    names = _names([spots[-1][1] for _, _, spots in lines])
    said = f"Scores of trials {marked[0].number} to {marked[-1].number}, out of {log.best}"
    parts = [
        f'<svg class="chart" viewBox="0 0 {WIDE} {HIGH}" role="img" aria-label="{escape(said)}; '
        'the table below has the figures">',
        *_scale(log.best),
    ]
    for number, ((name, kind, spots), at) in enumerate(zip(lines, names, strict=True)):
        dash = _DASHES[number] if kind != "line whole" else ""
        dashed = f' stroke-dasharray="{dash}"' if dash else ""
        path = " ".join(f"{x:.1f},{y:.1f}" for x, y in spots)
        parts.append(f'<polyline class="{kind}" points="{path}"{dashed}/>')
        parts += [
            f'<circle class="{kind}" cx="{x:.1f}" cy="{y:.1f}" r="{4 if not dash else 3}"/>'
            for x, y in spots
        ]
        x, y = spots[-1]
        parts.append(
            f'<path class="leader" d="M{x + 6:.1f} {y:.1f}L{_RIGHT + 18} {at:.1f}"/>'
            f'<text class="{"name whole" if kind == "line whole" else "name"}" '
            f'x="{_RIGHT + 22}" y="{at + 4:.1f}">{escape(_short(name))}</text>'
        )
    for x, trial in zip(across, marked, strict=True):
        verdict = trial.verdict or "open"
        parts.append(
            f'<text class="foot" x="{x:.1f}" y="{_FOOT + 18}">{trial.number}</text>'
            f'<text class="foot soft" x="{x:.1f}" y="{_FOOT + 34}">{verdict}</text>'
        )
    return "".join([*parts, "</svg>"])


def _down(mark: float, best: int) -> float:
    return _FOOT - (_FOOT - _TOP) * mark / best


def _scale(best: int) -> Iterator[str]:
    for mark in dict.fromkeys((0, best / 2, best)):
        y = _down(mark, best)
        yield f'<path class="rule" d="M{_LEFT - 6} {y:.1f}H{_RIGHT}"/>'
        yield f'<text class="mark" x="{_LEFT - 12}" y="{y + 4:.1f}">{mark:g}</text>'


def _names(wanted: Sequence[float]) -> list[float]:
    """Where the names stand: at their lines' ends, moved down as far as the one above needs."""
    order = sorted(range(len(wanted)), key=lambda i: wanted[i])
    at = [0.0] * len(wanted)
    above = -1e9
    for i in order:
        at[i] = above = max(wanted[i], above + _APART)
    over = max(above - (_FOOT + 4), 0.0)  # all move up by what the last would stand too low
    return [y - over for y in at]


def _short(name: str) -> str:
    return name if len(name) <= 16 else f"{name[:15]}…"
