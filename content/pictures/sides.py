"""Sides: pickles, fritters, roots and the barley salad."""

from collections.abc import Callable

import garden
import palette as ink
import pen
import ware


def fridge_pickles() -> str:
    """Two open jars of cucumber in brine with red onion and dill, a lid between them."""
    art = ware.ground(ink.SEA_PALE, ink.MIST, 71)
    art += ware.cloth(800, 600, 1180, 780, 20, ink.CREAM, ink.LEAF, (0.07, 0.12, 0.88, 0.93))
    lid = pen.circle(1215, 270, 170, "{}")
    art += ware.shadow(lid.replace("{}", ware.SHADE)) + lid.replace("{}", ink.SAFFRON)
    art += pen.ring(1215, 270, 138, ink.CRUST, 6) + pen.ring(1215, 270, 160, ink.LEMON, 5)
    for j, (cx, cy, r) in enumerate(((640, 530, 330), (1080, 760, 250))):
        art += ware.jar(cx, cy, r, "#e3e6ae")
        inside = ""
        places = pen.strew(72 + j, 30, cx, cy, r * 0.74, r * 0.74, 92)
        for k, (x, y, turn) in enumerate(places):
            inside += pen.circle(x + 6, y + 9, 70, "#a9b471") + garden.cucumber(x, y, 70, turn)
            if k % 4 == 1:
                inside += pen.ring(x + 40, y + 20, 52, ink.BEET, 15)
                inside += pen.ring(x + 40, y + 20, 48, ink.BLUSH_PALE, 7)
        art += pen.within(pen.circle(cx + 3, cy + 4, r * 0.86, "#000"), inside)
        art += garden.seeds(
            pen.strew(74 + j, 26, cx, cy, r * 0.78, r * 0.78, 48), 8, ink.SAFFRON, 1
        )
        art += garden.seeds(pen.strew(76 + j, 9, cx, cy, r * 0.7, r * 0.7, 90), 9, ink.SLATE, 1)
        art += garden.dill(cx + 10, cy + 6, -40 + j * 80, ink.LEAF_DARK, r / 330)
        art += ware.glint(cx, cy, r * 0.95)
    art += garden.dill(330, 985, -18, ink.LEAF_DARK, 0.9)
    return art + garden.cucumber(560, 1010, 78, 10) + garden.cucumber(690, 1040, 70, 50)


def potato_fritters() -> str:
    """Ragged golden fritters on a plate, a bowl of soured cream."""
    art = ware.ground(ink.MUSSEL_PALE, ink.MIST, 81)
    art += ware.check(860, 620, 1100, 1200, -30, ink.PAPER, ink.SAFFRON, 86)
    art += ware.plate(780, 600, 440, ink.PAPER, ink.MUSSEL)
    spots = ((560, 470), (770, 380), (560, 720), (760, 820), (960, 740), (700, 590), (920, 530))
    for k, (x, y) in enumerate(spots):
        art += pen.group(_ragged(x, y, 138, k, ware.SHADE), 9, 13).replace(
            "<g ", '<g opacity="0.24" '
        )
        art += _ragged(x, y, 138, k, ink.CRUST) + _ragged(x - 3, y - 4, 116, k + 20, "#cf9648")
        art += pen.blob(x - 8, y - 10, 84, 78, ink.SAFFRON, k + 3, 0.16)
        for j, (sx, sy, turn) in enumerate(pen.strew(k + 82, 26, x, y, 112, 108, 26)):
            colour = (ink.LEMON, ink.CRUST, ink.LEMON_PALE, ink.RYE)[j % 4]
            art += pen.group(pen.box(0, 0, 42, 7, colour, 3), sx, sy, turn)
    art += ware.bowl(1230, 330, 178, ink.SEA_DEEP, ink.SEA_DARK, ink.PAPER, 0.83)
    swirl = [pen.at(1230, 333, 104 - j * 5, j * 34) for j in range(20)]
    art += pen.line(pen.curve(swirl), ink.OAT, 9)
    for x, y, turn in pen.strew(88, 10, 1230, 333, 100, 100, 44):
        art += pen.group(pen.box(0, 0, 28, 8, ink.LEAF, 4), x, y, turn)
    return art + ware.fork(262, 470, 94, ink.SLATE_SOFT, 0.95)


def _ragged(x: float, y: float, r: float, seed: int, fill: str) -> str:
    """A round with strands of potato sticking out of its edge."""
    points = [
        pen.at(x, y, r * (1 - ((seed * 11 + k * 7) % 5) * 0.035), k * 11.25) for k in range(32)
    ]
    return pen.shape(pen.polygon(points), fill)


def roast_roots() -> str:
    """A platter of carrots, parsnips and beetroot with yoghurt and seeds."""
    art = ware.ground(ink.SLATE, ink.SLATE_SOFT, 91)
    art += ware.cloth(800, 600, 1500, 620, -16, ink.SEA_PALE, ink.PAPER, (0.08, 0.14, 0.86, 0.92))
    rim = pen.oval(800, 600, 560, 396, "{}")
    art += ware.shadow(rim.replace("{}", ware.SHADE)) + rim.replace("{}", ink.CREAM)
    art += pen.oval(800, 600, 540, 378, ink.OAT_DEEP) + pen.oval(800, 600, 533, 371, ink.CREAM)
    art += pen.blob(800, 610, 430, 262, ink.PAPER, 3, 0.06, 12)
    roots = (
        (360, 500, 430, 4),
        (1240, 470, 430, 183),
        (390, 640, 430, -4),
        (1220, 600, 430, 176),
        (430, 770, 400, -8),
        (1180, 740, 420, 183),
        (500, 390, 380, 3),
        (1110, 350, 380, 176),
        (780, 860, 350, -12),
        (740, 560, 330, 6),
    )
    for k, (x, y, length, turn) in enumerate(roots):
        fill, mark, core = ((ink.CARROT, "#a8552a", "#eba468"), ("#ead9a8", ink.CRUST, ink.PAPER))[
            (k // 2 + k) % 2
        ]
        shade = garden.carrot(0, 0, length, 0, ware.SHADE, ware.SHADE)
        art += pen.group(f'<g opacity="0.2">{shade}</g>', x + 8, y + 11, turn)
        art += garden.carrot(x, y, length, turn, fill, mark)
        art += pen.group(pen.cut(-10, 0, length * 0.86, 0, 16, core), x, y, turn)
    for k, (x, y, turn) in enumerate(pen.strew(93, 11, 800, 600, 380, 240, 170)):
        d = "M-82 10C-60 -64 60 -64 82 10C40 44 -40 44 -82 10Z"
        piece = pen.group(pen.shape(d, ware.SHADE, 0.25), 6, 9) + pen.shape(d, ink.BEET_DARK)
        piece += pen.group(pen.shape(d, ink.BEET), 2, -2, 0, 0.84)
        piece += pen.line("M-44 2Q0 -34 44 2", ink.BLUSH, 4) + pen.line(
            "M-26 12Q0 -8 26 12", ink.BLUSH, 4
        )
        art += pen.group(piece, x, y, turn + k)
    for k, (x, y, rx, ry) in enumerate(
        ((660, 560, 104, 62), (960, 670, 116, 64), (900, 430, 62, 38))
    ):
        edge = pen.blob_path(x, y, rx, ry, k + 5, 0.16, 10, -14)
        art += pen.group(pen.shape(edge, ware.SHADE, 0.2), 6, 9) + pen.shape(edge, ink.PAPER)
        art += pen.line(
            f"M{x - rx * 0.5:.0f} {y}Q{x} {y - ry * 0.7:.0f} {x + rx * 0.5:.0f} {y}", ink.OAT, 8
        )
    art += garden.seeds(pen.strew(94, 46, 800, 600, 400, 260, 62), 17, ink.LEAF, 0.5)
    art += garden.seeds(pen.strew(95, 40, 800, 600, 400, 260, 66), 13, ink.SLATE_SOFT, 0.5)
    return (
        art
        + garden.dill(730, 640, 14, ink.LEAF_DARK, 0.7)
        + garden.dill(960, 530, -150, ink.LEAF_DARK, 0.6)
    )


def barley_salad() -> str:
    """A wide bowl of barley and kale with red apple, walnuts and green sauce."""
    art = ware.ground(ink.SAFFRON, ink.LEMON, 96)
    art += ware.cloth(700, 620, 700, 1600, -18, ink.PAPER, ink.SEA_DEEP, (0.1, 0.16, 0.84, 0.9))
    art += ware.bowl(800, 600, 398, ink.MUSSEL, ink.MUSSEL_SOFT, ink.OAT_DEEP, 0.89)
    salad = garden.seeds(pen.strew(97, 330, 800, 606, 340, 340, 24), 14, ink.CREAM, 0.62)
    salad += garden.seeds(pen.strew(98, 120, 800, 606, 340, 340, 34), 14, ink.OAT, 0.62)
    for k, (x, y, turn) in enumerate(pen.strew(99, 26, 800, 606, 310, 310, 104)):
        salad += _kale(x, y, turn, k)
    art += pen.within(pen.circle(804, 607, 352, "#000"), salad)
    art += garden.flecks(pen.strew(100, 60, 800, 606, 320, 320, 50), 13, ink.LEAF_PALE)
    for k, (x, y, turn) in enumerate(
        (
            (620, 480, 20),
            (700, 400, 50),
            (980, 520, -40),
            (960, 640, 10),
            (680, 790, 160),
            (600, 700, 120),
            (850, 830, 210),
            (860, 420, 80),
            (800, 610, -20),
        )
    ):
        d = "M-84 20C-70 -50 70 -50 84 20C40 36 -40 36 -84 20Z"
        skin = "M-84 20C-70 -50 70 -50 84 20C60 -28 -60 -28 -84 20Z"
        piece = pen.group(pen.shape(d, ware.SHADE, 0.25), 5, 8) + pen.shape(d, ink.CREAM)
        art += pen.group(piece + pen.shape(skin, ink.TOMATO), x, y, turn + k)
    for x, y, turn in (
        (730, 520, 10),
        (900, 740, 70),
        (560, 590, 130),
        (1030, 720, 20),
        (770, 700, 200),
        (930, 420, 110),
    ):
        art += _walnut(x, y, turn)
    return art


def _kale(x: float, y: float, turn: float, seed: int) -> str:
    """A shred of kale with a frilled edge."""
    points = [
        pen.at(0, 0, (64 if k % 2 else 46) + (seed * 5 + k * 3) % 9, k * 22.5) for k in range(16)
    ]
    squashed = [(px * 1.15, py * 0.72) for px, py in points]
    fill = (ink.LEAF_DARK, "#42673f", ink.LEAF)[seed % 3]
    art = pen.shape(pen.curve(squashed, closed=True), fill)
    art += pen.cut(-58, 0, 56, 2, 5, ink.LEAF_PALE)
    for px in (-26, 4, 30):
        art += pen.line(f"M{px} 0L{px + 14} -24M{px} 0L{px + 14} 24", ink.LEAF_PALE, 3, 0.7)
    return pen.group(art, x, y, turn)


def _walnut(x: float, y: float, turn: float) -> str:
    """Half a walnut."""
    d = (
        "M-50 0C-54 -22 -34 -44 -14 -36C-4 -46 30 -46 38 -28C56 -20 58 14 42 24C34 44 4 46 -8 36"
        "C-30 46 -52 26 -50 0Z"
    )
    art = pen.group(pen.shape(d, ware.SHADE, 0.3), 5, 8) + pen.shape(d, ink.CRUST)
    art += pen.line("M-38 0Q0 -10 44 0", ink.RYE, 6)
    art += pen.line(
        "M-24 -24Q-10 -12 -20 -6M4 -34Q10 -20 0 -10M28 -24Q24 -14 30 -8"
        "M-20 26Q-8 16 -16 8M8 34Q12 20 4 8M32 18Q24 12 30 6",
        ink.RYE,
        5,
    )
    return pen.group(art, x, y, turn)


DISHES: dict[str, Callable[[], str]] = {
    "sides/fridge-pickles": fridge_pickles,
    "sides/potato-fritters": potato_fritters,
    "sides/roast-roots": roast_roots,
    "sides/barley-salad": barley_salad,
}
