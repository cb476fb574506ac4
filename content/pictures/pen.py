"""The pen: flat shapes as SVG text.

Every function returns a piece of SVG, so that a picture is a sum of strings.  Lengths are in
units of a 1600 × 1200 sheet, angles in degrees clockwise, and whatever looks made by hand
takes a seed: the same call always draws the same mark.
"""

import math
import zlib
from collections.abc import Sequence
from random import Random

Point = tuple[float, float]


def n(value: float) -> str:
    """A number as short SVG text: ``n(3.0)`` is ``"3"``."""
    return f"{value:.1f}".removesuffix(".0")


def circle(x: float, y: float, r: float, fill: str, opacity: float = 1) -> str:
    """A disc."""
    return f'<circle cx="{n(x)}" cy="{n(y)}" r="{n(r)}" fill="{fill}"{_faint(opacity)}/>'


def ring(x: float, y: float, r: float, colour: str, width: float, opacity: float = 1) -> str:
    """A circle drawn as a line."""
    return (
        f'<circle cx="{n(x)}" cy="{n(y)}" r="{n(r)}" fill="none" stroke="{colour}" '
        f'stroke-width="{n(width)}"{_faint(opacity)}/>'
    )


def oval(x: float, y: float, rx: float, ry: float, fill: str, turn: float = 0) -> str:
    """An ellipse, turned about its own centre."""
    return (
        f'<ellipse cx="{n(x)}" cy="{n(y)}" rx="{n(rx)}" ry="{n(ry)}" fill="{fill}"'
        f"{_turned(x, y, turn)}/>"
    )


def box(
    x: float, y: float, w: float, h: float, fill: str, corner: float = 0, turn: float = 0
) -> str:
    """A rectangle about its centre (``x``, ``y``)."""
    return (
        f'<rect x="{n(x - w / 2)}" y="{n(y - h / 2)}" width="{n(w)}" height="{n(h)}" '
        f'rx="{n(corner)}" fill="{fill}"{_turned(x, y, turn)}/>'
    )


def shape(d: str, fill: str, opacity: float = 1) -> str:
    """A filled path."""
    return f'<path d="{d}" fill="{fill}"{_faint(opacity)}/>'


def line(d: str, colour: str, width: float, opacity: float = 1) -> str:
    """A path drawn as a line with round ends."""
    return (
        f'<path d="{d}" fill="none" stroke="{colour}" stroke-width="{n(width)}" '
        f'stroke-linecap="round" stroke-linejoin="round"{_faint(opacity)}/>'
    )


def group(parts: str, x: float = 0, y: float = 0, turn: float = 0, scale: float = 1) -> str:
    """Move, turn and scale a piece that was drawn about the origin."""
    steps = [f"translate({n(x)} {n(y)})"] if x or y else []
    steps += [f"rotate({n(turn)})"] if turn else []
    steps += [f"scale({scale:.3f})"] if scale != 1 else []
    return f'<g transform="{" ".join(steps)}">{parts}</g>' if steps else parts


def within(outline: str, parts: str) -> str:
    """Show only what falls inside ``outline``, itself a shape."""
    key = f"w{zlib.crc32(outline.encode()):08x}"
    return f'<clipPath id="{key}">{outline}</clipPath><g clip-path="url(#{key})">{parts}</g>'


def polygon(points: Sequence[Point]) -> str:
    """A closed path with straight sides."""
    return "M" + "L".join(f"{n(x)} {n(y)}" for x, y in points) + "Z"


def curve(points: Sequence[Point], closed: bool = False) -> str:
    """A soft path through the points (Catmull-Rom, as cubic Béziers)."""
    count = len(points)
    d = f"M{n(points[0][0])} {n(points[0][1])}"
    for i in range(count if closed else count - 1):
        if closed:
            a, b, c, e = (points[(i + k) % count] for k in (-1, 0, 1, 2))
        else:
            a, b, c, e = (points[min(max(i + k, 0), count - 1)] for k in (-1, 0, 1, 2))
        d += (
            f"C{n(b[0] + (c[0] - a[0]) / 6)} {n(b[1] + (c[1] - a[1]) / 6)} "
            f"{n(c[0] - (e[0] - b[0]) / 6)} {n(c[1] - (e[1] - b[1]) / 6)} {n(c[0])} {n(c[1])}"
        )
    return d + ("Z" if closed else "")


def blob_path(
    x: float,
    y: float,
    rx: float,
    ry: float,
    seed: int,
    wobble: float = 0.06,
    knots: int = 9,
    turn: float = 0,
) -> str:
    """The outline of a hand-cut round: an ellipse whose radius strays by ``wobble``."""
    rng = Random(seed)
    start = rng.uniform(0, math.tau)
    points: list[Point] = []
    for k in range(knots):
        angle = start + math.tau * k / knots
        stray = 1 + rng.uniform(-wobble, wobble)
        points.append(
            swing(x, y, x + rx * stray * math.cos(angle), y + ry * stray * math.sin(angle), turn)
        )
    return curve(points, closed=True)


def blob(
    x: float,
    y: float,
    rx: float,
    ry: float,
    fill: str,
    seed: int,
    wobble: float = 0.06,
    knots: int = 9,
    turn: float = 0,
) -> str:
    """A hand-cut round, filled."""
    return shape(blob_path(x, y, rx, ry, seed, wobble, knots, turn), fill)


def cut(x1: float, y1: float, x2: float, y2: float, width: float, fill: str) -> str:
    """A gouge mark: a sliver that is thickest in the middle and pointed at both ends."""
    length = math.hypot(x2 - x1, y2 - y1) or 1
    ox, oy = -(y2 - y1) / length * width, (x2 - x1) / length * width
    mx, my = (x1 + x2) / 2, (y1 + y2) / 2
    return shape(
        f"M{n(x1)} {n(y1)}Q{n(mx + ox)} {n(my + oy)} {n(x2)} {n(y2)}"
        f"Q{n(mx - ox)} {n(my - oy)} {n(x1)} {n(y1)}Z",
        fill,
    )


def arc(x: float, y: float, r: float, start: float, end: float) -> str:
    """A part of a circle from ``start`` to ``end`` degrees, clockwise, 0° to the right."""
    x1, y1 = at(x, y, r, start)
    x2, y2 = at(x, y, r, end)
    large = 1 if (end - start) % 360 > 180 else 0
    return f"M{n(x1)} {n(y1)}A{n(r)} {n(r)} 0 {large} 1 {n(x2)} {n(y2)}"


def wedge(x: float, y: float, r: float, start: float, end: float) -> str:
    """A slice of a disc as a closed path."""
    return arc(x, y, r, start, end) + f"L{n(x)} {n(y)}Z"


def at(x: float, y: float, r: float, angle: float) -> Point:
    """The point ``r`` away from (``x``, ``y``) at ``angle`` degrees."""
    return x + r * math.cos(math.radians(angle)), y + r * math.sin(math.radians(angle))


def swing(cx: float, cy: float, x: float, y: float, turn: float) -> Point:
    """Turn a point about a centre."""
    c, s = math.cos(math.radians(turn)), math.sin(math.radians(turn))
    return cx + (x - cx) * c - (y - cy) * s, cy + (x - cx) * s + (y - cy) * c


def strew(
    seed: int, count: int, x: float, y: float, rx: float, ry: float, gap: float
) -> list[tuple[float, float, float]]:
    """Up to ``count`` places in an ellipse, at least ``gap`` apart, each with an angle."""
    rng = Random(seed)
    places: list[tuple[float, float, float]] = []
    for _ in range(count * 40):
        if len(places) == count:
            break
        angle, reach = rng.uniform(0, math.tau), math.sqrt(rng.random())
        px, py = x + rx * reach * math.cos(angle), y + ry * reach * math.sin(angle)
        if all(math.hypot(px - qx, py - qy) >= gap for qx, qy, _ in places):
            places.append((px, py, rng.uniform(0, 360)))
    return places


def strew_box(
    seed: int, count: int, x: float, y: float, w: float, h: float, gap: float
) -> list[tuple[float, float, float]]:
    """As :func:`strew`, in a rectangle about (``x``, ``y``)."""
    rng = Random(seed)
    places: list[tuple[float, float, float]] = []
    for _ in range(count * 40):
        if len(places) == count:
            break
        px, py = x + rng.uniform(-w, w) / 2, y + rng.uniform(-h, h) / 2
        if all(math.hypot(px - qx, py - qy) >= gap for qx, qy, _ in places):
            places.append((px, py, rng.uniform(0, 360)))
    return places


def _faint(opacity: float) -> str:
    return "" if opacity == 1 else f' fill-opacity="{opacity}" stroke-opacity="{opacity}"'


def _turned(x: float, y: float, turn: float) -> str:
    return f' transform="rotate({n(turn)} {n(x)} {n(y)})"' if turn else ""
