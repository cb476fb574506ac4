"""Puddings from the oven."""

from collections.abc import Callable

import garden
import palette as ink
import pen
import ware


def rhubarb_crumble() -> str:
    """An oblong tin of crumble, pink at the edges, a corner spooned out; custard beside it."""
    art = ware.ground(ink.OAT, ink.CREAM, 41)
    art += ware.cloth(800, 640, 1300, 700, -7, ink.PAPER, ink.BLUSH, (0.07, 0.13, 0.87, 0.93), 18)
    art += ware.dish(790, 610, 930, 620, ink.MUSSEL, ink.MUSSEL_SOFT, ink.BLUSH, 56)
    inside = pen.box(793, 614, 864, 554, "#000", 35)
    rubble = ""
    for k, (x, y, turn) in enumerate(pen.strew_box(8, 34, 793, 614, 864, 554, 92)):
        stick = pen.box(0, 0, 128, 46, ink.BEET, 16) + pen.box(0, -4, 124, 32, ink.BLUSH, 12)
        stick += pen.cut(-48, -6, 48, -6, 4, ink.BLUSH_PALE)
        rubble += pen.group(stick, x, y, (turn % 60) - 30 + (k % 2) * 90)
    art += pen.within(inside, rubble)
    crumbs = ""
    fills = (ink.CRUST, ink.CRUST_PALE, ink.OAT_DEEP, ink.CRUST_PALE, ink.OAT)
    for k, (x, y, _) in enumerate(pen.strew_box(21, 640, 793, 614, 832, 524, 21)):
        scooped = ((x - 1110) / 190) ** 2 + ((y - 780) / 150) ** 2 < 1
        edge = abs(x - 793) > 386 or abs(y - 614) > 232
        hole = (k * 31 + 11) % 17 == 0 or (edge and k % 5 < 3)
        if scooped or hole:
            continue
        size = 21 + (k * 13 % 5) * 3
        crumbs += pen.shape(garden.crumb_path(x + 3, y + 5, size, k), ink.RYE, 0.55)
        crumbs += pen.shape(garden.crumb_path(x, y, size, k), fills[k % 5])
    art += pen.within(inside, crumbs)
    art += garden.seeds(pen.strew_box(77, 40, 760, 590, 720, 440, 60), 14, ink.CREAM, 0.55)
    art += ware.spoon(1085, 760, 32, ink.SLATE_PALE, 1.0)
    art += ware.jug(1390, 255, 122, 140, ink.PAPER, ink.OAT, ink.LEMON)
    return art


def rice_pudding() -> str:
    """An enamel dish of rice pudding under its browned skin, a spoonful gone."""
    art = ware.ground(ink.SEA_DEEP, ink.SEA, 6)
    art += ware.check(860, 560, 1080, 1080, 45, ink.PAPER, ink.MUSSEL_PALE, 82)
    lugs = pen.box(800, 600, 1010, 200, "{}", 60)
    art += ware.shadow(
        lugs.replace("{}", ware.SHADE) + pen.box(800, 600, 900, 720, ware.SHADE, 110)
    )
    art += lugs.replace("{}", ink.MUSSEL) + pen.box(800, 600, 900, 720, ink.MUSSEL, 110)
    art += pen.box(800, 600, 866, 686, ink.PAPER, 94) + pen.box(804, 606, 800, 620, ink.CREAM, 70)
    skin = pen.box(802, 604, 790, 610, ink.LEMON_PALE, 66)
    skin += pen.blob(796, 596, 386, 296, "#f0d794", 5, 0.06, 17)
    skin += pen.blob(784, 584, 350, 258, ink.CRUST_PALE, 8, 0.09, 17)
    for k, (x, y, rx, ry) in enumerate(
        ((640, 500, 150, 92), (880, 460, 120, 70), (740, 680, 140, 66), (560, 640, 60, 44))
    ):
        skin += pen.blob(x, y, rx, ry, "#cc9a5a", k + 9, 0.2, 12)
        skin += pen.blob(x - 10, y + 4, rx * 0.62, ry * 0.56, ink.CRUST, k + 15, 0.22, 11)
    for k, (x, y, turn) in enumerate(pen.strew_box(61, 15, 780, 580, 620, 420, 110)):
        r = 13 + k % 4 * 5
        skin += pen.blob(x, y, r * 1.5, r, "#f0d794", k, 0.08, 9, turn % 50)
        skin += pen.blob(x + 2, y + 2, r, r * 0.6, ink.LEMON_PALE, k, 0.08, 9, turn % 50)
    skin += garden.seeds(pen.strew_box(60, 120, 802, 604, 770, 590, 38), 4, ink.RYE, 0.75)
    art += pen.within(pen.box(804, 606, 800, 620, "#000", 70), skin)
    hole = pen.blob_path(1010, 770, 172, 132, 18, 0.1, 11, -20)
    inner = pen.blob_path(1014, 777, 156, 114, 18, 0.1, 11, -20)
    inside = pen.shape(hole, ink.CRUST) + pen.shape(inner, ink.CREAM)
    inside += pen.within(
        pen.shape(inner, "#000"),
        garden.seeds(pen.strew(5, 70, 1014, 777, 150, 120, 24), 15, ink.PAPER, 0.42)
        + garden.seeds(pen.strew(6, 44, 1014, 777, 150, 120, 31), 15, ink.OAT, 0.42),
    )
    art += pen.within(pen.box(804, 606, 800, 620, "#000", 70), inside)
    art += ware.spoon(1040, 790, 30, ink.STRAW, 1.15, wood=True)
    return art + _nutmeg(270, 250) + _nutmeg(1330, 150)


def _nutmeg(x: float, y: float) -> str:
    art = ware.shadow(pen.oval(0, 0, 66, 54, ware.SHADE), -20) + pen.oval(0, 0, 66, 54, ink.RYE)
    art += pen.oval(0, 0, 54, 43, ink.CRUST_PALE)
    for k in range(5):
        yy = -28 + k * 14
        bend = 10 if k % 2 else -8
        art += pen.line(f"M-34 {yy}Q-10 {yy + bend} 6 {yy}T36 {yy - 2}", ink.RYE, 5)
    return pen.group(art, x, y, -20)


DISHES: dict[str, Callable[[], str]] = {
    "puddings/rhubarb-crumble": rhubarb_crumble,
    "puddings/rice-pudding": rice_pudding,
}
