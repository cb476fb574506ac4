"""Breads: the loaf, the rolls and the flatbreads."""

from collections.abc import Callable

import garden
import palette as ink
import pen
import ware


def rye_loaf() -> str:
    """A dark loaf topped with oats on its board, two slices cut."""
    art = ware.ground(ink.SEA, ink.SEA_PALE, 5)
    art += ware.cloth(800, 640, 1400, 560, -8, ink.CREAM, ink.MUSSEL, (0.05, 0.1, 0.9, 0.95))
    art += pen.group(ware.rack(0, 0, 1040, 620, ink.SLATE, 19), 800, 600, -8)
    loaf = pen.box(0, 0, 640, 380, "{}", 84)
    art_loaf = ware.shadow(loaf.replace("{}", ware.SHADE), -8) + loaf.replace("{}", ink.RYE)
    art_loaf += pen.box(-8, -10, 590, 326, "#93623a", 70)
    art_loaf += pen.cut(-236, 12, 236, -18, 40, ink.RYE_DARK)
    art_loaf += pen.cut(-226, 6, 226, -22, 20, ink.CRUST)
    oats = [p for p in pen.strew_box(23, 100, -6, -8, 560, 300, 36) if abs(p[1]) > 46]
    art_loaf += garden.seeds(oats, 17, ink.OAT, 0.56)
    art += pen.group(art_loaf, 690, 596, -8)
    for x, y, turn in ((1096, 556, 0), (1194, 590, 9)):
        slab = pen.shape("M-42 -182C-20 -196 20 -196 42 -182L46 176C22 188 -22 188 -46 176Z", "{}")
        face = pen.box(0, -2, 58, 338, ink.CRUST_PALE, 24)
        crumb = garden.seeds(pen.strew_box(int(x), 20, 0, 0, 40, 300, 23), 6, ink.CRUST, 0.7)
        art += pen.group(
            ware.shadow(slab.replace("{}", ware.SHADE), turn)
            + slab.replace("{}", ink.RYE_DARK)
            + face
            + crumb,
            x,
            y,
            turn,
        )
    art += ware.knife(830, 1000, -6, ink.MUSSEL, 0.9)
    art += garden.seeds(pen.strew(6, 16, 330, 215, 130, 60, 26), 13, ink.OAT, 0.55)
    return art


PLACES = [(446 + col * 236, 368 + row * 232) for row in range(3) for col in range(4)]
"""Where the rolls lie in their tin, in the order in which they are set."""
DOUGH = ("#e3d2ab", "#eddfbf", ink.CREAM)
BAKED = (ink.CRUST, "#cf9953", ink.CRUST_PALE)


def tin_of_rolls(
    size: float = 124,
    inks: tuple[str, str, str] = BAKED,
    *,
    count: int = 12,
    glazed: int = 12,
    brush: bool = False,
) -> str:
    """The tin with ``count`` rolls of that radius, the first ``glazed`` of them brushed and seeded."""
    art = ware.ground(ink.MUSSEL_PALE, ink.MIST, 14)
    art += ware.cloth(800, 640, 1320, 760, 6, ink.PAPER, ink.SAFFRON, (0.06, 0.1, 0.9, 0.94))
    art += ware.tin(800, 600, 1000, 772, ink.SLATE, ink.RYE_DARK, 40)
    part = size / 124
    for k, (x, y) in enumerate(PLACES[:count]):
        art += pen.blob(x, y, size, 122 * part, inks[0], k + 60, 0.03, 10)
        art += pen.blob(x - 8, y - 10, 104 * part, 102 * part, inks[1], k + 60, 0.03, 10)
        art += pen.blob(x - 14, y - 18, 68 * part, 66 * part, inks[2], k + 61, 0.04, 10)
        if k < glazed:
            art += pen.line(pen.arc(x - 8, y - 12, 76 * part, 192, 256), ink.LEMON_PALE, 10)
            specks = pen.strew(k + 3, 17, x, y - 4, 72 * part, 70 * part, 21)
            art += garden.seeds(specks, 10, ink.CREAM if inks == BAKED else ink.STRAW, 0.55)
    if brush:
        x, y = PLACES[min(glazed, 11)]
        handle = pen.box(0, -236, 44, 300, ink.RYE, 20) + pen.box(0, -86, 84, 40, ink.SLATE_PALE, 6)
        bristles = pen.shape("M-40 -68L40 -68L48 26C20 40 -20 40 -48 26Z", ink.OAT_DEEP)
        art += pen.group(handle + bristles, x + 20, y - 10, 38)
    return art


def table_rolls() -> str:
    """Twelve rolls that have grown together in their tin, glossy with egg."""
    return tin_of_rolls()


def rolls_set() -> str:
    """Twelve balls of dough in the tin, a finger apart."""
    return tin_of_rolls(92, DOUGH, glazed=0)


def rolls_risen() -> str:
    """The same dough, risen until the balls touch."""
    return tin_of_rolls(122, DOUGH, glazed=0)


def flatbreads() -> str:
    """A pile of griddled rounds with scorched blisters, the cloth folded over one side."""
    art = ware.ground(ink.SLATE, ink.SLATE_SOFT, 30)
    art += ware.board(820, 620, 1330, 860, -4)
    lying = pen.polygon([(-470, -420), (470, -420), (470, 420), (-40, 420), (-470, 20)])
    linen = ware.cloth(0, 0, 940, 840, 0, ink.CREAM, ink.BEET, (0.05, 0.09, 0.91, 0.95))
    art += pen.group(pen.within(pen.shape(lying, "#000"), linen), 770, 610, -14)
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
    # The cloth's lower left corner, mirrored in the crease from (-470, 20) to (-40, 420).
    flap = pen.shape(pen.polygon([(-470, 20), (-40, 420), (-71, -9)]), "{}")
    art += pen.group(
        ware.shadow(flap.replace("{}", ware.SHADE), -14)
        + flap.replace("{}", ink.PAPER)
        + pen.within(
            flap.replace("{}", "#000"),
            pen.line("M-147 -3L-122 344", ink.BEET, 14)
            + pen.line("M-113 -6L-85 378", ink.BEET, 14),
        ),
        770,
        610,
        -14,
    )
    return art


DISHES: dict[str, Callable[[], str]] = {
    "breads/rye-loaf/rye-loaf": rye_loaf,
    "breads/table-rolls": table_rolls,
    "breads/table-rolls-set": rolls_set,
    "breads/table-rolls-risen": rolls_risen,
    "breads/flatbreads": flatbreads,
}
