"""Breads: the loaf, the rolls and the flatbreads."""

from collections.abc import Callable

import garden
import palette as ink
import pen
import ware


def rye_loaf() -> str:
    """A dark loaf topped with oats on its board, two slices cut."""
    art = ware.ground(ink.SEA, ink.SEA_PALE, 5)
    art += ware.cloth(420, 960, 1500, 420, -8, ink.CREAM, ink.MUSSEL, (0.1, 0.2, 0.8, 0.9))
    art += ware.board(800, 600, 1180, 640, -8)
    loaf = pen.box(0, 0, 640, 350, "{}", 96)
    art_loaf = ware.shadow(loaf.replace("{}", ware.SHADE)) + loaf.replace("{}", ink.RYE)
    art_loaf += pen.box(-6, -8, 560, 268, "#8f5f37", 80)
    art_loaf += pen.cut(-236, 12, 236, -18, 40, ink.RYE_DARK)
    art_loaf += pen.cut(-226, 6, 226, -22, 20, ink.CRUST)
    oats = [p for p in pen.strew_box(23, 80, 0, 0, 560, 270, 34) if abs(p[1]) > 44]
    art_loaf += garden.seeds(oats, 17, ink.OAT, 0.56)
    art += pen.group(art_loaf, 690, 596, -8)
    for x, y, turn in ((1090, 560, 2), (1180, 640, 12)):
        slab = pen.shape("M-44 -168C-20 -182 20 -182 44 -168L50 160C22 174 -22 174 -50 160Z", "{}")
        face = pen.box(0, 0, 56, 304, ink.CRUST_PALE, 24)
        crumb = garden.seeds(pen.strew_box(int(x), 15, 0, 0, 40, 270, 24), 6, ink.CRUST, 0.7)
        art += pen.group(
            ware.shadow(slab.replace("{}", ware.SHADE)) + slab.replace("{}", ink.RYE_DARK)
            + face + crumb, x, y, turn,
        )
    art += ware.knife(800, 948, -4, ink.MUSSEL, 0.95)
    art += garden.seeds(pen.strew(6, 16, 1060, 330, 130, 50, 26), 13, ink.OAT, 0.55)
    return art


def table_rolls() -> str:
    """Twelve rolls that have grown together in their tin, glossy with egg."""
    art = ware.ground(ink.MUSSEL_PALE, ink.MIST, 14)
    art += ware.cloth(800, 640, 1320, 760, 6, ink.PAPER, ink.SAFFRON, (0.06, 0.1, 0.9, 0.94))
    art += ware.tin(800, 600, 1000, 772, ink.SLATE, ink.RYE_DARK, 40)
    for row in range(3):
        for col in range(4):
            x, y = 446 + col * 236, 368 + row * 232
            k = row * 4 + col
            art += pen.blob(x, y, 124, 122, ink.CRUST, k + 60, 0.03, 10)
            art += pen.blob(x - 8, y - 10, 104, 102, "#cf9953", k + 60, 0.03, 10)
            art += pen.blob(x - 14, y - 18, 68, 66, ink.CRUST_PALE, k + 61, 0.04, 10)
            art += pen.line(pen.arc(x - 8, y - 12, 76, 192, 256), ink.LEMON_PALE, 10)
            if (row + col) % 2:
                specks = pen.strew(k + 3, 12, x, y - 4, 64, 62, 20)
                art += garden.seeds(specks, 8, ink.RYE_DARK, 0.55)
    return art


def flatbreads() -> str:
    """A pile of griddled rounds with scorched blisters on a striped cloth."""
    art = ware.ground(ink.SLATE, ink.SLATE_SOFT, 30)
    art += ware.cloth(800, 610, 1080, 860, -14, ink.CREAM, ink.BEET, (0.07, 0.11, 0.89, 0.93))
    stack = ((905, 700, 300), (700, 690, 305), (930, 520, 300), (690, 520, 305), (800, 600, 312))
    for k, (x, y, r) in enumerate(stack):
        edge = pen.blob_path(x, y, r, r * 0.97, k + 12, 0.035, 11)
        art += ware.shadow(pen.shape(edge, ware.SHADE)) + pen.shape(edge, ink.CRUST_PALE)
        art += pen.blob(x - 5, y - 6, r * 0.93, r * 0.9, "#ecd2a2", k + 12, 0.035, 11)
        for j, (bx, by, turn) in enumerate(pen.strew(k + 70, 22, x, y, r * 0.78, r * 0.76, 62)):
            size = 15 + (j * 7 % 5) * 5
            spot = pen.blob(bx, by, size * 1.25, size, ink.CRUST, j + k, 0.16, 8, turn)
            spot += pen.blob(bx + 2, by + 2, size * 0.75, size * 0.55, ink.RYE, j + k + 1, 0.2, 8)
            art += spot
    art += garden.flecks(pen.strew(88, 26, 800, 600, 250, 250, 62), 13, ink.LEAF)
    dip = ware.bowl(1235, 275, 140, ink.SEA_DEEP, ink.SEA_DARK, ink.PAPER, 0.8)
    dip += pen.line("M1180 290C1200 220 1280 220 1290 270C1296 310 1240 320 1232 286", ink.OAT, 12)
    art += dip + garden.flecks(pen.strew(3, 9, 1235, 275, 80, 80, 30), 10, ink.LEAF)
    return art


DISHES: dict[str, Callable[[], str]] = {
    "breads/rye-loaf/rye-loaf": rye_loaf,
    "breads/table-rolls": table_rolls,
    "breads/flatbreads": flatbreads,
}
