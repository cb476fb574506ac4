"""Sauces: small vessels with what goes into them laid around."""

from collections.abc import Callable

import garden
import palette as ink
import pen
import sea
import ware


def green_sauce() -> str:
    """A bowl of green sauce among parsley and capers, half a lemon beside."""
    art = ware.ground(ink.OAT, ink.CREAM, 9)
    art += ware.cloth(1060, 620, 520, 1600, -20, ink.PAPER, ink.LEAF, (0.12, 0.2, 0.8, 0.88))
    art += garden.parsley(400, 330, 215, ink.LEAF_DARK, ink.LEAF, 1.2)
    art += garden.parsley(1240, 930, 38, ink.LEAF_DARK, ink.LEAF, 1.2)
    art += garden.parsley(330, 690, 170, ink.LEAF, ink.LEAF_PALE, 1.0)
    art += ware.bowl(800, 600, 340, ink.PAPER, ink.SLATE_PALE, ink.LEAF, 0.84)
    swirl = [pen.at(800, 604, 245 - k * 9, k * 30 + 30) for k in range(24)]
    art += pen.line(pen.curve(swirl), "#7ea05a", 30)
    art += garden.flecks(pen.strew(12, 120, 802, 606, 262, 262, 31), 15, ink.LEAF_DARK)
    art += garden.flecks(pen.strew(13, 60, 802, 606, 255, 255, 42), 13, ink.LEAF_MIST)
    for x, y, turn in pen.strew(15, 9, 802, 606, 215, 215, 100):
        art += _caper(x, y, turn)
    art += ware.spoon(880, 540, -44, ink.SLATE_SOFT, 1.2)
    art += pen.group(
        pen.oval(-2, 2, 55, 33, ink.LEAF) + pen.cut(-36, -8, 20, -14, 5, ink.LEAF_PALE),
        880,
        540,
        -44,
        1.2,
    )
    for x, y, turn in pen.strew(19, 8, 1240, 560, 80, 110, 56):
        art += _caper(x, y, turn)
    return art + garden.lemon_half(480, 985, 135, 20)


def _caper(x: float, y: float, turn: float) -> str:
    """A caper: a bud with its seam."""
    d = "M-24 0C-18 -22 14 -22 26 0C14 22 -18 22 -24 0Z"
    art = pen.group(pen.shape(d, "#2b4630"), 3, 5) + pen.shape(d, "#4f6b3c")
    art += pen.line("M-14 -2Q2 -9 22 0", ink.LEAF_PALE, 4) + pen.circle(-23, 0, 6, ink.LEAF_PALE)
    return pen.group(art, x, y, turn)


def sesame_dressing() -> str:
    """A small bowl of pale dressing with a swirl, a whisk, lemon and a few seeds."""
    art = ware.ground(ink.MUSSEL_SOFT, ink.MUSSEL_PALE, 31)
    art += ware.cloth(640, 620, 700, 1600, 30, ink.CREAM, ink.MUSSEL)
    art += ware.bowl(800, 600, 320, ink.RYE, ink.RYE_DARK, "#e3c795", 0.83)
    swirl = [pen.at(800, 604, 26 + k * 9.6, k * 33 + 100) for k in range(22)]
    art += pen.line(pen.curve(swirl), ink.CREAM, 26) + pen.line(pen.curve(swirl), ink.PAPER, 8)
    art += garden.seeds(pen.strew(7, 34, 802, 606, 235, 235, 60), 11, ink.CRUST, 0.58)
    art += garden.seeds(pen.strew(8, 16, 802, 606, 230, 230, 90), 11, ink.RYE_DARK, 0.58)
    art += ware.whisk(880, 530, -36, ink.SLATE_PALE, ink.SEA_DARK, 1.35)
    art += garden.seeds(pen.strew(9, 60, 1190, 930, 220, 120, 26), 12, ink.CREAM, 0.58)
    art += garden.seeds(pen.strew(10, 18, 1190, 930, 210, 110, 44), 12, ink.RYE_DARK, 0.58)
    return art + garden.lemon_half(400, 890, 150, 14)


def pouring_custard() -> str:
    """A white jug of custard, a wooden spoon and an egg opened."""
    art = ware.ground(ink.BLUSH_PALE, ink.CREAM, 23)
    art += ware.cloth(980, 640, 560, 1600, 14, ink.SEA_DEEP, ink.CREAM, (0.12, 0.18, 0.82, 0.88))
    art += ware.jug(800, 600, 330, 152, ink.PAPER, ink.OAT, ink.LEMON)
    art += pen.shape(pen.blob_path(785, 588, 190, 176, 4, 0.07, 9), ink.LEMON_PALE, 0.75)
    ripple = [pen.at(800, 600, 226 - k * 6, 20 + k * 16) for k in range(13)]
    art += pen.line(pen.curve(ripple), ink.SAFFRON, 9, 0.8)
    art += pen.line(pen.arc(800, 600, 200, 205, 262), ink.PAPER, 10)
    art += _egg_half(1240, 900, 20) + _egg_half(1010, 1020, -30, yolk=False)
    return art + ware.spoon(330, 290, -14, ink.CRUST, 1.3, wood=True)


def _egg_half(x: float, y: float, turn: float, yolk: bool = True) -> str:
    edge = pen.polygon(
        [pen.at(0, 0, 118 if k % 2 else 106, k * 18 + (k * 7 % 5)) for k in range(20)]
    )
    art = ware.shadow(pen.shape(edge, ware.SHADE), turn) + pen.shape(edge, ink.CRUST_PALE)
    art += pen.circle(0, 0, 96, ink.CREAM) + pen.circle(6, 8, 80, ink.OAT)
    if yolk:
        art += pen.circle(6, 8, 62, ink.SAFFRON)
        art += pen.line(pen.arc(6, 8, 44, 190, 260), ink.LEMON_PALE, 8)
    return pen.group(art, x, y, turn)


def smoked_fish_spread() -> str:
    """Two jars of spread with chives, dark rye slices, a smoked fish along the board."""
    art = ware.ground(ink.SEA_PALE, ink.MIST, 10)
    art += ware.board(800, 610, 1220, 860, 4, hole=False)
    art += sea.fish(800, 345, 660, 2, ink.MUSSEL_SOFT, ink.MUSSEL, ink.BLUSH)
    for x, y, turn in ((1130, 560, 8), (1175, 690, 14), (1120, 820, 4)):
        art += _rye_slice(x, y, turn)
    for k, (x, y, r) in enumerate(((560, 680, 205), (900, 800, 165))):
        art += ware.jar(x, y, r, ink.BLUSH_PALE)
        swirl = [pen.at(x, y, r * (0.7 - j * 0.032), j * 33 + k * 90) for j in range(20)]
        art += pen.line(pen.curve(swirl), "#dfa599", r * 0.09)
        for cx, cy, turn in pen.strew(18 + k, 16, x, y, r * 0.7, r * 0.7, r * 0.3):
            art += pen.group(pen.box(0, 0, 32, 9, ink.LEAF, 4), cx, cy, turn)
        art += garden.seeds(pen.strew(26 + k, 9, x, y, r * 0.7, r * 0.7, 50), 6, ink.RYE_DARK, 1)
        art += ware.glint(x, y, r * 0.95)
    return art + garden.lemon_wedge(330, 400, 92, -50) + garden.lemon_wedge(345, 520, 84, -10)


def _rye_slice(x: float, y: float, turn: float) -> str:
    d = "M-150 -84L140 -88C166 -60 166 50 142 84L-148 88C-168 50 -168 -50 -150 -84Z"
    art = ware.shadow(pen.shape(d, ware.SHADE), turn) + pen.shape(d, ink.RYE_DARK)
    art += pen.group(pen.shape(d, ink.RYE), -2, -3, 0, 0.9)
    art += garden.seeds(pen.strew_box(int(y), 26, 0, 0, 250, 130, 32), 8, ink.CRUST, 0.55)
    return pen.group(art, x, y, turn)


DISHES: dict[str, Callable[[], str]] = {
    "sauces/green-sauce": green_sauce,
    "sauces/sesame-dressing": sesame_dressing,
    "sauces/pouring-custard": pouring_custard,
    "sauces/smoked-fish-spread": smoked_fish_spread,
}
