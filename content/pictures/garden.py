"""What grows: herbs, lemons, roots, onions and the small stuff strewn over a dish."""

import math

import palette as ink
import pen
import ware


def leaf(x: float, y: float, length: float, turn: float, fill: str, vein: str | None = None) -> str:
    """A pointed leaf growing from (``x``, ``y``) towards ``turn``."""
    half = length * 0.26
    art = pen.shape(
        f"M0 0C{pen.n(length * 0.25)} {pen.n(-half * 1.3)} {pen.n(length * 0.7)} {pen.n(-half)} "
        f"{pen.n(length)} 0C{pen.n(length * 0.7)} {pen.n(half)} {pen.n(length * 0.25)} "
        f"{pen.n(half * 1.3)} 0 0Z",
        fill,
    )
    if vein:
        art += pen.cut(length * 0.08, 0, length * 0.88, 0, max(length * 0.025, 2), vein)
    return pen.group(art, x, y, turn)


def trefoil(x: float, y: float, size: float, turn: float, fill: str, vein: str = "") -> str:
    """A parsley or coriander leaf: three toothed lobes fanning out from the stalk."""
    art = pen.line(f"M{pen.n(-size * 0.4)} 0L{pen.n(size * 0.2)} 0", fill, size * 0.065)
    veins = ""
    for side, reach in ((-60, 0.8), (60, 0.8), (0, 1.0)):
        lobe = pen.shape(
            "M6 0C26 -4 40 -14 50 -30Q60 -38 67 -26Q78 -36 86 -25Q89 -16 84 -11Q99 -12 103 0"
            "Q99 12 84 11Q89 16 86 25Q78 36 67 26Q60 38 50 30C40 14 26 4 6 0Z",
            fill,
        )
        lobe += pen.line("M0 0L40 0", fill, 7)
        if vein:
            veins += pen.group(pen.cut(14, 0, 88, 0, 3, vein), 0, 0, side, size * reach / 100)
        art += pen.group(lobe, 0, 0, side, size * reach / 100)
    return pen.group(art + veins, x, y, turn)


def parsley(x: float, y: float, turn: float, fill: str, vein: str, scale: float = 1) -> str:
    """A sprig of flat parsley, its stalk towards the left."""
    art = pen.line("M-230 26C-130 4 -60 2 60 0", fill, 8)
    art += pen.line("M-110 4C-60 -16 -30 -50 -6 -84", fill, 6)
    art += pen.line("M-130 8C-80 36 -50 62 -20 90", fill, 6)
    art += trefoil(80, 0, 128, 0, fill, vein) + trefoil(10, -92, 104, -48, fill, vein)
    art += trefoil(-4, 100, 104, 44, fill, vein)
    return pen.group(art, x, y, turn, scale)


def dill(x: float, y: float, turn: float, fill: str, scale: float = 1) -> str:
    """A frond of dill, its stalk towards the left."""
    art = pen.line("M-180 10C-60 0 60 -4 190 0", fill, 7)
    for k in range(7):
        start = -110 + k * 46
        size = 92 - k * 10
        for side in (-1, 1):
            angle = side * (52 - k * 3)
            ex, ey = pen.at(start, 0, size, angle)
            art += pen.line(f"M{start} 2L{pen.n(ex)} {pen.n(ey)}", fill, 5)
            for share in (0.4, 0.62, 0.82):
                bx, by = pen.at(start, 0, size * share, angle)
                for split in (-38, 38):
                    tx, ty = pen.at(bx, by, size * 0.3, angle + split)
                    d = f"M{pen.n(bx)} {pen.n(by)}L{pen.n(tx)} {pen.n(ty)}"
                    art += pen.line(d, fill, 4)
    return pen.group(art, x, y, turn, scale)


def thyme(x: float, y: float, turn: float, fill: str, scale: float = 1) -> str:
    """A twig with small paired leaves."""
    art = pen.line("M-150 6C-50 -6 50 6 150 0", ink.RYE, 5)
    for k in range(9):
        px = -110 + k * 32
        for side in (-1, 1):
            art += leaf(px, 0, 36 - k, side * 56, fill)
    art += leaf(146, 0, 30, 0, fill)
    return pen.group(art, x, y, turn, scale)


def bay(x: float, y: float, turn: float, length: float = 150, fill: str = ink.LEAF) -> str:
    """A bay leaf."""
    return leaf(x, y, length, turn, fill, ink.LEAF_PALE)


def lemon_half(
    x: float, y: float, r: float, turn: float = 0, flesh: str = ink.LEMON, peel: str = ink.SAFFRON
) -> str:
    """A halved lemon (or orange), cut face up."""
    art = ware.shadow(pen.circle(0, 0, r, ware.SHADE), turn) + citrus_face(r, flesh, peel)
    return pen.group(art, x, y, turn)


def lemon_slice(
    x: float, y: float, r: float, turn: float = 0, flesh: str = ink.LEMON, peel: str = ink.SAFFRON
) -> str:
    """A slice of lemon or orange, without a shadow."""
    return pen.group(citrus_face(r, flesh, peel), x, y, turn)


def citrus_face(r: float, flesh: str, peel: str) -> str:
    """The cut face about the origin: peel, pith and nine segments."""
    art = pen.circle(0, 0, r, peel) + pen.circle(0, 0, r * 0.9, ink.CREAM)
    for k in range(9):
        a = k * 40 + 4
        b = a + 32
        p0 = pen.at(0, 0, r * 0.12, (a + b) / 2)
        p1, p2 = pen.at(0, 0, r * 0.74, a), pen.at(0, 0, r * 0.74, b)
        q = pen.at(0, 0, r * 0.9, (a + b) / 2)
        art += pen.shape(
            f"M{pen.n(p0[0])} {pen.n(p0[1])}L{pen.n(p1[0])} {pen.n(p1[1])}"
            f"Q{pen.n(q[0])} {pen.n(q[1])} {pen.n(p2[0])} {pen.n(p2[1])}Z",
            flesh,
        )
    return art


def lemon_wedge(x: float, y: float, size: float, turn: float) -> str:
    """A wedge lying on its side: a half-moon of peel, pith and flesh."""
    art = ""
    for share, fill in ((1.0, ink.SAFFRON), (0.88, ink.CREAM), (0.78, ink.LEMON)):
        r = size * share
        art += pen.shape(f"M{pen.n(-r)} 0A{pen.n(r)} {pen.n(r * 0.82)} 0 0 0 {pen.n(r)} 0Z", fill)
    for a in (50, 90, 130):
        ex, ey = pen.at(0, 0, size * 0.64, a)
        art += pen.line(f"M0 4L{pen.n(ex)} {pen.n(ey * 0.82)}", ink.LEMON_PALE, 4)
    return pen.group(art, x, y, turn)


def onion_ring(x: float, y: float, r: float, outer: str, inner: str) -> str:
    """A slice of leek or onion: rings within rings."""
    return (
        pen.circle(x, y, r, outer)
        + pen.circle(x, y, r * 0.78, inner)
        + pen.ring(x, y, r * 0.5, outer, r * 0.14)
    )


def cucumber(x: float, y: float, r: float, turn: float = 0) -> str:
    """A slice of cucumber: dark skin, pale flesh, a ring of seeds."""
    art = pen.circle(0, 0, r, ink.LEAF) + pen.circle(0, 0, r * 0.9, ink.LEAF_MIST)
    art += pen.ring(0, 0, r * 0.4, ink.LEAF_PALE, r * 0.36, 0.55)
    for k in range(9):
        sx, sy = pen.at(0, 0, r * 0.42, k * 40)
        art += pen.oval(sx, sy, r * 0.13, r * 0.06, ink.CREAM, k * 40)
    return pen.group(art, x, y, turn)


def carrot(x: float, y: float, length: float, turn: float, fill: str, mark: str) -> str:
    """A tapering root with a few rings scored across it, thick end at (``x``, ``y``)."""
    w = length * 0.15
    art = pen.shape(
        f"M0 {pen.n(-w)}C{pen.n(length * 0.4)} {pen.n(-w)} {pen.n(length * 0.8)} {pen.n(-w * 0.4)} "
        f"{pen.n(length)} 0C{pen.n(length * 0.8)} {pen.n(w * 0.5)} {pen.n(length * 0.4)} {pen.n(w)}"
        f" 0 {pen.n(w)}C{pen.n(-w * 0.9)} {pen.n(w * 0.6)} {pen.n(-w * 0.9)} {pen.n(-w * 0.6)} "
        f"0 {pen.n(-w)}Z",
        fill,
    )
    for share, side in ((0.12, -1), (0.27, 1), (0.42, -1), (0.6, 1)):
        reach = w * (1 - share) * 0.9
        px = length * share
        art += pen.cut(px, side * reach, px + 3, side * reach * 0.1, 3.2, mark)
    return pen.group(art, x, y, turn)


def seeds(
    places: list[tuple[float, float, float]], size: float, fill: str, slim: float = 0.5
) -> str:
    """Small seeds, grains or flecks at the given places."""
    return "".join(pen.oval(x, y, size, size * slim, fill, turn) for x, y, turn in places)


def flecks(places: list[tuple[float, float, float]], size: float, fill: str) -> str:
    """Chopped herbs: little pointed slivers."""
    art = ""
    for x, y, turn in places:
        dx, dy = math.cos(math.radians(turn)) * size, math.sin(math.radians(turn)) * size
        art += pen.cut(x - dx, y - dy, x + dx, y + dy, size * 0.55, fill)
    return art


def crumb_path(x: float, y: float, size: float, seed: int) -> str:
    """An angular crumb."""
    points = [
        pen.at(x, y, size * (0.75 + 0.25 * ((seed * 7 + k * 5) % 4) / 3), seed * 37 + k * 72)
        for k in range(5)
    ]
    return pen.polygon(points)
