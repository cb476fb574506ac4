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
        hole = (k * 31 + 11) % 17 == 0
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
    lugs = pen.box(800, 600, 910, 200, "{}", 70)
    art += ware.shadow(lugs.replace("{}", ware.SHADE) + pen.circle(800, 600, 396, ware.SHADE))
    art += lugs.replace("{}", ink.MUSSEL) + pen.circle(800, 600, 396, ink.MUSSEL)
    art += pen.circle(800, 600, 378, ink.PAPER) + pen.circle(804, 606, 342, ink.CREAM)
    skin = pen.blob(802, 604, 336, 334, ink.LEMON_PALE, 3, 0.015, 14)
    for k, (x, y, r) in enumerate(
        ((690, 500, 150), (900, 470, 120), (780, 650, 130), (620, 700, 84), (740, 380, 66),
         (980, 590, 70))
    ):
        skin += pen.blob(x, y, r, r * 0.86, ink.CRUST_PALE, k + 4, 0.16, 10)
        skin += pen.blob(x + 8, y + 6, r * 0.66, r * 0.5, ink.CRUST, k + 9, 0.2, 10)
        skin += pen.blob(x + 4, y + 4, r * 0.3, r * 0.22, ink.RYE, k + 15, 0.22, 9)
    skin += garden.seeds(pen.strew(60, 90, 802, 604, 310, 310, 34), 6, ink.RYE, 0.6)
    art += pen.within(pen.circle(804, 606, 342, "#000"), skin)
    hole = pen.blob_path(922, 748, 152, 118, 18, 0.1, 11, -34)
    art += pen.shape(hole, ink.CRUST)
    inner = pen.blob_path(926, 754, 136, 102, 18, 0.1, 11, -34)
    art += pen.shape(inner, ink.CREAM)
    art += pen.within(
        pen.shape(inner, "#000"),
        garden.seeds(pen.strew(5, 60, 926, 754, 130, 110, 24), 15, ink.PAPER, 0.42)
        + garden.seeds(pen.strew(6, 40, 926, 754, 130, 110, 30), 15, ink.OAT, 0.42),
    )
    art += ware.spoon(960, 770, 36, ink.STRAW, 1.15, wood=True)
    art += _nutmeg(330, 255) + _nutmeg(1300, 190)
    return art


def _nutmeg(x: float, y: float) -> str:
    art = ware.shadow(pen.oval(0, 0, 66, 54, ware.SHADE)) + pen.oval(0, 0, 66, 54, ink.RYE)
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
