"""Cakes, biscuits and squares."""

from collections.abc import Callable

import garden
import palette as ink
import pen
import ware


def orange_almond_cake() -> str:
    """A round cake under orange slices and flaked almonds, one slice drawn out."""
    art = ware.ground(ink.MUSSEL, ink.MUSSEL_SOFT, 2)
    art += ware.cloth(980, 640, 660, 1600, 24, ink.OAT, ink.PAPER, (0.15, 0.22, 0.78, 0.85), 18)
    art += ware.plate(800, 600, 420, ink.PAPER, ink.SEA_DEEP)
    start, end = 20, 68
    art += ware.shadow(pen.shape(pen.wedge(800, 600, 322, end, start + 360), ware.SHADE))
    art += _orange_cake(end, start + 360)
    slice_ = _orange_cake(start, end)
    out = pen.at(0, 0, 118, (start + end) / 2)
    art += ware.shadow(pen.group(pen.shape(pen.wedge(800, 600, 322, start, end), ware.SHADE), *out))
    art += pen.group(slice_, *out)
    art += garden.lemon_half(320, 330, 150, 8, ink.CARROT, "#c96f2e")
    art += _whole_orange(270, 860)
    for x, y, turn in pen.strew(14, 6, 1340, 250, 110, 80, 62):
        art += _almond(x, y, turn, 1.3)
    return art


def _whole_orange(x: float, y: float) -> str:
    art = ware.shadow(pen.circle(x, y, 146, ware.SHADE)) + pen.circle(x, y, 146, "#c96f2e")
    art += pen.circle(x - 8, y - 10, 132, ink.CARROT)
    art += garden.seeds(pen.strew(9, 60, x, y, 124, 124, 27), 4, "#c96f2e", 1)
    art += pen.line(pen.arc(x - 8, y - 10, 104, 196, 250), "#eaa56a", 12)
    return (
        art
        + garden.leaf(x + 4, y + 4, 120, -34, ink.LEAF_DARK, ink.LEAF)
        + pen.circle(x + 4, y + 4, 13, ink.LEAF_DARK)
    )


def _orange_cake(start: float, end: float) -> str:
    outline = pen.shape(pen.wedge(800, 600, 322, start, end), "#000")
    top = pen.circle(800, 600, 322, ink.CRUST) + pen.circle(798, 597, 300, ink.SAFFRON)
    top += pen.circle(795, 592, 270, "#ecba55")
    for x, y, turn in pen.strew(26, 76, 800, 598, 282, 282, 53):
        top += pen.group(_almond(0, 0, 0, 1.12), x, y, turn)
    top += garden.seeds(pen.strew(27, 50, 800, 598, 290, 290, 50), 5, ink.CRUST, 1)
    return pen.within(outline, top)


def _almond(x: float, y: float, turn: float, scale: float) -> str:
    """A flake of almond: a pale pointed oval with a brown edge."""
    d = "M-26 0C-18 -18 12 -17 26 0C12 17 -18 18 -26 0Z"
    return pen.group(
        pen.shape(d, ink.CRUST)
        + pen.group(pen.shape(d, ink.CREAM), -1, -1, 0, 0.84)
        + pen.cut(-12, 0, 14, 0, 2.4, ink.OAT_DEEP),
        x,
        y,
        turn,
        scale,
    )


def apple_ginger_cake() -> str:
    """A larger round cake, its apple slices laid in two rings; half an apple beside it."""
    art = ware.ground(ink.LEAF_MIST, ink.CREAM, 19)
    art += ware.check(700, 640, 1300, 1000, -16, ink.PAPER, ink.SEA)
    art += ware.shadow(pen.circle(800, 600, 412, ware.SHADE))
    art += pen.circle(800, 600, 412, ink.SLATE_SOFT) + pen.circle(800, 600, 398, ink.SLATE)
    art += pen.circle(800, 600, 384, ink.RYE) + pen.circle(798, 597, 366, ink.CRUST)
    art += garden.seeds(pen.strew(50, 46, 800, 600, 350, 350, 60), 9, ink.RYE, 0.7)
    for radius, count, length, offset in ((262, 19, 112, 0), (120, 10, 92, 8)):
        for k in range(count):
            angle = offset + k * 360 / count
            x, y = pen.at(800, 600, radius, angle)
            art += _apple_slice(x, y, length, angle + 62)
    art += pen.blob(800, 600, 48, 46, ink.CRUST_PALE, 5, 0.08)
    art += garden.seeds(pen.strew(51, 150, 800, 600, 356, 356, 38), 6, ink.CREAM, 0.9)
    art += _apple_half(1300, 245)
    art += _ginger(300, 985)
    return art


def _apple_slice(x: float, y: float, size: float, turn: float) -> str:
    """A crescent of apple with its red skin outwards."""
    d = "M-50 12C-40 -34 40 -34 50 12C30 24 -30 24 -50 12Z"
    skin = "M-50 12C-40 -34 40 -34 50 12C40 -22 -40 -22 -50 12Z"
    art = pen.group(pen.shape(d, ink.RYE), 3, 5) + pen.shape(d, ink.LEMON_PALE)
    art += pen.shape(skin, ink.TOMATO) + pen.cut(-22, 6, 22, 6, 4, ink.CRUST_PALE)
    return pen.group(art, x, y, turn, size / 78)


def _apple_half(x: float, y: float) -> str:
    d = (
        "M0 -104C40 -150 140 -120 138 -10C136 80 70 140 0 118C-70 140 -136 80 -138 -10"
        "C-140 -120 -40 -150 0 -104Z"
    )
    art = ware.shadow(pen.shape(d, ware.SHADE), 14) + pen.shape(d, ink.TOMATO)
    art += pen.group(pen.shape(d, ink.CREAM), 0, 0, 0, 0.91)
    art += pen.ring(0, 4, 46, ink.LEAF_MIST, 7)
    for side in (-1, 1):
        art += garden.leaf(side * 6, -10, 40, 90 - side * 26, ink.RYE_DARK)
    art += pen.line("M0 -100C4 -130 14 -150 30 -166", ink.RYE, 11)
    return pen.group(art, x, y, 14)


def _ginger(x: float, y: float) -> str:
    lobes = ((0, 0, 110, 56), (96, -46, 66, 42), (-96, -40, 58, 40), (30, 54, 52, 38))
    art = ware.shadow(
        "".join(pen.blob(a, b, c, d, ware.SHADE, k) for k, (a, b, c, d) in enumerate(lobes)), -14
    )
    art += "".join(pen.blob(a, b, c, d, ink.STRAW, k) for k, (a, b, c, d) in enumerate(lobes))
    for px in (-70, -20, 34, 84):
        art += pen.line(f"M{px} -34Q{px + 12} -6 {px - 2} 30", ink.RYE, 4)
    art += pen.oval(-138, -52, 24, 28, ink.LEMON_PALE)
    return pen.group(art, x, y, -14)


def oat_biscuits() -> str:
    """Sixteen biscuits, four by four, on a papered tray."""
    art = ware.ground(ink.SEA_DARK, ink.SEA_DEEP, 27)
    art += ware.cloth(1120, 700, 620, 1500, 34, ink.CREAM, ink.CARROT)
    art += ware.tin(800, 600, 1060, 880, ink.SLATE_SOFT, ink.SLATE, 44)
    art += pen.box(800, 600, 984, 804, ink.PAPER, 10)
    for row in range(4):
        for col in range(4):
            k = row * 4 + col
            x, y = 452 + col * 232, 303 + row * 198
            edge = pen.blob_path(x, y, 98, 92, k + 5, 0.05, 11)
            art += pen.group(pen.shape(edge, ware.SHADE, 0.28), 9, 12)
            art += pen.shape(edge, ink.CRUST)
            art += pen.blob(x - 4, y - 5, 86, 80, ink.CRUST_PALE, k + 5, 0.05, 11)
            art += garden.seeds(pen.strew(k + 80, 15, x, y, 72, 66, 27), 15, ink.OAT, 0.58)
            art += garden.seeds(pen.strew(k + 180, 16, x, y, 76, 70, 22), 6, ink.CREAM, 0.6)
            art += garden.seeds(pen.strew(k + 280, 7, x, y, 70, 64, 30), 7, ink.RYE, 0.55)
    return art


def lemon_squares() -> str:
    """A square tin of sixteen squares under sugar."""
    art = ware.ground(ink.SEA, ink.SEA_PALE, 33)
    art += ware.cloth(650, 600, 760, 1600, 8, ink.PAPER, ink.SEA_DEEP, (0.1, 0.16, 0.84, 0.9))
    art += ware.tin(800, 600, 800, 800, ink.SLATE_PALE, ink.SLATE_SOFT)
    art += pen.box(800, 600, 764, 764, ink.OAT, 8)
    for row in range(4):
        for col in range(4):
            art += _square(523 + col * 185, 323 + row * 185, row * 4 + col)
    art += garden.lemon_half(1380, 330, 150, 10) + _whole_lemon(225, 930)
    return art


def _square(x: float, y: float, seed: int) -> str:
    art = pen.box(x + 8, y + 11, 168, 168, ware.SHADE, 6).replace("/>", ' opacity="0.22"/>')
    art += pen.box(x, y, 168, 168, ink.CRUST_PALE, 6) + pen.box(
        x - 2, y - 3, 152, 152, ink.LEMON, 5
    )
    art += pen.within(
        pen.box(x - 2, y - 3, 152, 152, "#000", 5),
        pen.blob(x - 12 + seed % 3 * 10, y - 8, 62, 56, ink.LEMON_PALE, seed + 9, 0.22, 9)
        + garden.seeds(pen.strew_box(seed + 3, 20, x, y, 140, 140, 25), 4.5, ink.PAPER, 1),
    )
    for k, (zx, zy, turn) in enumerate(pen.strew_box(seed + 70, 3, x, y, 100, 100, 44)):
        art += pen.group(pen.line("M-15 4Q0 -12 15 3", ink.SAFFRON, 5), zx, zy, turn + k)
    return art


def _whole_lemon(x: float, y: float) -> str:
    d = (
        "M-150 0C-130 -24 -110 -96 -10 -98C84 -96 104 -30 142 -14C156 -6 156 8 142 14"
        "C104 34 84 96 -10 98C-110 96 -130 24 -150 0Z"
    )
    art = ware.shadow(pen.shape(d, ware.SHADE), 38) + pen.shape(d, ink.LEMON)
    art += pen.shape("M-110 -40C-80 -86 -30 -88 10 -86C-40 -76 -80 -66 -110 -40Z", ink.LEMON_PALE)
    art += garden.seeds(pen.strew(3, 26, 10, 20, 96, 62, 26), 4, ink.SAFFRON, 1)
    return pen.group(art, x, y, 38)


DISHES: dict[str, Callable[[], str]] = {
    "baking/orange-almond-cake": orange_almond_cake,
    "baking/apple-ginger-cake": apple_ginger_cake,
    "baking/oat-biscuits": oat_biscuits,
    "baking/lemon-squares": lemon_squares,
}
