"""Sauces: small vessels with what goes into them laid around."""

from collections.abc import Callable

import garden
import palette as ink
import pen
import sea
import ware


def green_sauce() -> str:
    """A bowl of green sauce among parsley, anchovies and capers."""
    art = ware.ground(ink.OAT, ink.CREAM, 9)
    art += ware.cloth(1060, 620, 520, 1600, -20, ink.PAPER, ink.LEAF, (0.12, 0.2, 0.8, 0.88))
    art += garden.parsley(400, 330, 205, ink.LEAF_DARK, 1.35)
    art += garden.parsley(1190, 900, 38, ink.LEAF, 1.35)
    art += garden.parsley(470, 960, 140, ink.LEAF, 1.0)
    art += ware.bowl(800, 600, 330, ink.SEA_DARK, ink.LEAF_DARK, ink.LEAF, 0.82)
    sauce = pen.line(
        pen.curve([pen.at(800, 604, 235 - k * 9, k * 30 + 30) for k in range(24)]), "#6f9352", 24
    )
    sauce += garden.flecks(pen.strew(12, 150, 802, 606, 252, 252, 26), 15, ink.LEAF_DARK)
    sauce += garden.flecks(pen.strew(13, 70, 802, 606, 250, 250, 38), 13, ink.LEAF_PALE)
    sauce += garden.seeds(pen.strew(14, 36, 802, 606, 245, 245, 50), 8, ink.LEMON, 0.8)
    art += sauce
    for x, y, _ in pen.strew(15, 6, 802, 606, 190, 190, 110):
        art += _caper(x, y)
    art += ware.spoon(860, 560, -40, ink.SLATE_PALE, 1.15)
    art += pen.within(
        pen.oval(-2, 0, 56, 34, "#000"), pen.oval(-2, 4, 52, 30, ink.LEAF)
    ).join(("<g transform='translate(860 560) rotate(-40) scale(1.15)'>", "</g>"))
    for x, y, _ in pen.strew(19, 9, 1180, 250, 120, 80, 50):
        art += _caper(x, y)
    art += sea.anchovy(400, 640, 84) + sea.anchovy(330, 600, 100)
    art += garden.lemon_half(640, 1080, 112, 20)
    return art


def _caper(x: float, y: float) -> str:
    return (
        pen.circle(x + 4, y + 6, 21, ink.LEAF_DARK)
        + pen.circle(x, y, 21, ink.LEAF)
        + pen.line(f"M{pen.n(x)} {pen.n(y - 14)}Q{pen.n(x + 9)} {pen.n(y)} {pen.n(x)} "
                   f"{pen.n(y + 13)}", ink.LEAF_PALE, 4)
    )


def sesame_dressing() -> str:
    """A jug of sesame dressing with a pale swirl, seeds, lemon and a spoon of paste."""
    art = ware.ground(ink.MUSSEL_SOFT, ink.MUSSEL_PALE, 31)
    art += ware.cloth(640, 620, 700, 1600, 30, ink.CREAM, ink.MUSSEL)
    art += ware.jug(800, 590, 300, -28, ink.RYE, ink.RYE_DARK, ink.CRUST_PALE)
    swirl = [pen.at(800, 594, 26 + k * 8.6, k * 33 + 100) for k in range(22)]
    art += pen.line(pen.curve(swirl), ink.OAT, 26) + pen.line(pen.curve(swirl), ink.CREAM, 8)
    art += garden.seeds(pen.strew(7, 54, 802, 596, 205, 205, 42), 10, ink.PAPER, 0.58)
    art += garden.seeds(pen.strew(8, 18, 802, 596, 200, 200, 70), 10, ink.RYE_DARK, 0.58)
    art += garden.seeds(pen.strew(9, 90, 1180, 920, 220, 120, 21), 12, ink.CREAM, 0.58)
    art += garden.seeds(pen.strew(10, 26, 1180, 920, 210, 110, 38), 12, ink.RYE_DARK, 0.58)
    art += garden.lemon_half(410, 905, 130, 14)
    art += ware.spoon(330, 260, 16, ink.STRAW, 1.0, wood=True)
    art += pen.oval(330, 260, 52, 34, ink.CRUST_PALE, 16)
    return art


def pouring_custard() -> str:
    """A cream jug of custard; two eggs opened and a vanilla pod."""
    art = ware.ground(ink.BLUSH_PALE, ink.CREAM, 23)
    art += ware.cloth(980, 640, 560, 1600, 14, ink.PAPER, ink.BEET, (0.12, 0.18, 0.82, 0.88))
    art += ware.jug(800, 600, 310, 152, ink.SEA_DEEP, ink.SEA_DARK, ink.LEMON)
    art += pen.shape(pen.blob_path(790, 590, 180, 168, 4, 0.07, 9), ink.LEMON_PALE, 0.7)
    ripple = [pen.at(800, 600, 210 - k * 6, 20 + k * 16) for k in range(13)]
    art += pen.line(pen.curve(ripple), ink.SAFFRON, 8, 0.8)
    art += garden.seeds(pen.strew(33, 46, 800, 600, 215, 215, 44), 4, ink.RYE_DARK, 1)
    art += _egg_half(1240, 900, 20) + _egg_half(1010, 1010, -30, yolk=False)
    pod = "M-250 20C-120 -40 60 50 270 -26"
    for dy, turn in ((0, 0), (34, 6)):
        art += pen.group(
            ware.shadow(pen.line(pod, ware.SHADE, 18)) + pen.line(pod, ink.RYE_DARK, 18)
            + pen.line(pod, ink.RYE, 4),
            560, 170 + dy, turn - 8,
        )
    return art


def _egg_half(x: float, y: float, turn: float, yolk: bool = True) -> str:
    edge = pen.polygon([
        pen.at(0, 0, 118 if k % 2 else 106, k * 18 + (k * 7 % 5)) for k in range(20)
    ])
    art = ware.shadow(pen.shape(edge, ware.SHADE)) + pen.shape(edge, ink.CRUST_PALE)
    art += pen.circle(0, 0, 96, ink.CREAM) + pen.circle(6, 8, 80, ink.OAT)
    if yolk:
        art += pen.circle(6, 8, 62, ink.SAFFRON) + pen.line(pen.arc(6, 8, 44, 190, 260),
                                                            ink.LEMON_PALE, 8)
    return pen.group(art, x, y, turn)


def smoked_fish_spread() -> str:
    """A dish of spread with dill, toast around it, a smoked fish along the side."""
    art = ware.ground(ink.SEA_PALE, ink.MIST, 10)
    art += ware.board(800, 640, 1240, 760, 5, hole=False)
    art += sea.fish(690, 320, 640, -5, ink.CRUST, ink.RYE, ink.SAFFRON)
    for k, angle in enumerate((-8, 22, 52, 82, 112, 142, 172)):
        x, y = pen.at(800, 640, 318, angle)
        art += _toast(x, y, angle + 90 + (k * 5 % 9) - 4)
    art += ware.bowl(800, 660, 228, ink.PAPER, ink.SLATE_PALE, ink.BLUSH_PALE, 0.86)
    swirl = [pen.at(800, 664, 164 - k * 7, k * 32) for k in range(22)]
    art += pen.line(pen.curve(swirl), "#e0aa9d", 16) + pen.line(pen.curve(swirl), ink.CREAM, 6)
    art += garden.flecks(pen.strew(18, 30, 800, 664, 170, 170, 40), 11, ink.LEAF)
    art += garden.seeds(pen.strew(16, 20, 800, 664, 160, 160, 54), 6, ink.RYE_DARK, 1)
    art += garden.dill(810, 650, -50, ink.LEAF_DARK, 0.62)
    art += garden.lemon_wedge(1180, 470, 84, 150) + garden.lemon_wedge(1262, 585, 84, 100)
    return art


def _toast(x: float, y: float, turn: float) -> str:
    d = "M-62 -70L62 -70L62 52C62 84 -62 84 -62 52Z"
    art = ware.shadow(pen.shape(d, ware.SHADE)) + pen.shape(d, ink.RYE)
    art += pen.group(pen.shape(d, "#cf9953"), 0, -2, 0, 0.84)
    art += garden.seeds(pen.strew_box(int(x), 11, 0, -4, 90, 100, 25), 6, ink.RYE, 0.7)
    return pen.group(art, x, y, turn)


DISHES: dict[str, Callable[[], str]] = {
    "sauces/green-sauce": green_sauce,
    "sauces/sesame-dressing": sesame_dressing,
    "sauces/pouring-custard": pouring_custard,
    "sauces/smoked-fish-spread": smoked_fish_spread,
}
