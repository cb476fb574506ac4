"""Pots and bowls: the broth, the soup and the stews."""

from collections.abc import Callable

import garden
import palette as ink
import pen
import ware


def barley_broth() -> str:
    """A wide bowl of barley broth, five dumplings with dill."""
    art = ware.ground(ink.SEA_PALE, ink.MIST, 3)
    art += ware.cloth(890, 640, 900, 1500, 62, ink.CREAM, ink.SEA_DEEP)
    art += ware.bowl(800, 600, 392, ink.PAPER, ink.OAT, ink.OAT_DEEP)
    broth = garden.seeds(pen.strew(11, 190, 800, 600, 315, 315, 25), 11, ink.CREAM, 0.62)
    for k, (x, y, turn) in enumerate(pen.strew(4, 30, 800, 600, 290, 290, 72)):
        if k % 2:
            broth += garden.onion_ring(x, y, 29, ink.LEAF_PALE, ink.LEAF_MIST)
        else:
            broth += pen.box(x + 3, y + 4, 36, 34, ink.STRAW, 7, turn)
            broth += pen.box(x, y, 36, 34, ink.CARROT, 7, turn)
    art += broth
    for k, (x, y) in enumerate(((690, 505), (925, 560), (760, 735))):
        art += pen.group(pen.blob(x, y, 108, 104, ink.STRAW, k + 2, 0.05), 10, 13)
        art += pen.blob(x, y, 108, 104, ink.CREAM, k + 2, 0.05)
        art += pen.line(pen.arc(x, y, 80, 20, 95), ink.OAT, 9)
        art += garden.flecks(pen.strew(k + 40, 18, x, y, 80, 78, 22), 13, ink.LEAF)
    art += garden.dill(905, 742, -30, ink.LEAF_DARK, 0.55)
    art += ware.spoon(1240, 930, -38, ink.STRAW, 0.95, wood=True)
    return art


def bean_pot() -> str:
    """A sea-green pot of pale beans in dark red sauce, its lid drawn aside."""
    art = ware.ground(ink.OAT, ink.CREAM, 8)
    art += ware.cloth(330, 1010, 1300, 460, -34, ink.PAPER, ink.BEET)
    art += pen.group(
        ware.shadow(pen.circle(0, 0, 330, ware.SHADE))
        + pen.circle(0, 0, 330, ink.SEA_DEEP)
        + pen.ring(0, 0, 270, ink.SEA_DARK, 8)
        + pen.ring(0, 0, 140, ink.SEA, 5)
        + pen.circle(8, 10, 52, ink.SEA_DARK)
        + pen.circle(0, 0, 48, ink.STRAW),
        1310,
        150,
    )
    art += ware.pot(800, 620, 385, ink.SEA_DEEP, ink.SEA_DARK, "#7d2a2c")
    stew = garden.flecks(pen.strew(31, 60, 800, 620, 320, 320, 40), 26, "#9c3a30")
    for x, y, turn in pen.strew(17, 18, 802, 624, 300, 300, 90):
        stew += pen.box(x, y, 36, 34, ink.CARROT, 7, turn)
    for k, (x, y, turn) in enumerate(pen.strew(7, 90, 802, 624, 298, 298, 56)):
        d = "M-38 6C-42 -28 -8 -34 8 -26C34 -16 44 8 30 24C20 34 12 18 -2 16C-18 14 -34 28 -38 6Z"
        bean = pen.group(pen.shape(d, "#5c1f24"), 4, 6) + pen.shape(d, (ink.CREAM, ink.OAT)[k % 2])
        bean += pen.cut(-24, -10, 10, -16, 4, ink.PAPER)
        stew += pen.group(bean, x, y, turn)
    art += pen.within(pen.circle(804, 626, 333, "#000"), stew)
    art += garden.trefoil(650, 560, 74, -130, ink.LEAF_DARK, ink.LEAF)
    art += garden.trefoil(760, 470, 62, -60, ink.LEAF, ink.LEAF_PALE)
    art += garden.trefoil(640, 760, 60, 120, ink.LEAF, ink.LEAF_PALE)
    art += garden.bay(900, 800, -20, 150, ink.LEAF_DARK)
    return art + ware.spoon(870, 640, 34, ink.STRAW, 1.35, wood=True)


def beef_in_wine() -> str:
    """An oval casserole: dark sauce, beef, carrots, small onions; a glass of red beside it."""
    art = ware.ground(ink.SLATE_PALE, ink.MIST, 12)
    art += ware.check(860, 700, 1250, 900, 14, ink.CREAM, ink.BLUSH)
    lugs = pen.box(770, 610, 1030, 170, "{}", 70)
    rim = pen.oval(770, 610, 450, 350, "{}")
    art += ware.shadow((lugs + rim).replace("{}", ware.SHADE))
    art += lugs.replace("{}", ink.MUSSEL) + pen.box(770, 610, 970, 84, ink.SLATE_PALE, 40)
    art += rim.replace("{}", ink.MUSSEL)
    art += pen.oval(770, 610, 420, 320, "#22303f") + pen.oval(775, 616, 396, 296, ink.BEET_DARK)
    stew = garden.flecks(pen.strew(5, 50, 775, 616, 380, 280, 48), 26, "#7a2a3a")
    for k, (x, y, turn) in enumerate(pen.strew(29, 46, 775, 616, 345, 246, 80)):
        if k % 7 in (0, 3, 5):
            edge = pen.blob_path(0, 0, 66, 50, k + 3, 0.13, 7)
            meat = pen.group(pen.shape(edge, "#3a1520"), 5, 7) + pen.shape(edge, ink.RYE)
            meat += pen.cut(-34, -12, 30, -20, 5, ink.CRUST) + pen.cut(-28, 8, 36, 2, 5, ink.CRUST)
            stew += pen.group(meat, x, y, turn)
        elif k % 7 in (1, 4):
            stew += pen.group(
                pen.oval(0, 0, 42, 36, ink.CARROT) + pen.oval(0, 0, 22, 18, ink.SAFFRON), x, y, turn
            )
        else:
            stew += _mushroom(x, y, turn)
    art += pen.within(pen.oval(775, 616, 396, 296, "#000"), stew)
    art += garden.thyme(720, 570, -20, ink.LEAF_PALE, 1.05)
    art += garden.thyme(910, 700, 150, ink.LEAF_PALE, 0.8)
    glass = pen.circle(1270, 250, 150, "{}")
    art += ware.shadow(glass.replace("{}", ware.SHADE))
    art += glass.replace("{}", ink.PAPER) + pen.circle(1270, 250, 138, ink.BLUSH_PALE)
    art += pen.circle(1273, 254, 120, ink.BEET) + pen.circle(1273, 254, 44, ink.BEET_DARK)
    art += pen.line(pen.arc(1273, 254, 96, 200, 262), ink.BLUSH, 9)
    return art


def _mushroom(x: float, y: float, turn: float) -> str:
    """Half a mushroom, cut face up."""
    d = "M-44 4C-44 -46 44 -46 44 4C40 16 22 12 15 10L18 44C8 54 -8 54 -18 44L-15 10C-22 12 -40 16 -44 4Z"
    art = pen.shape(d, ink.CRUST) + pen.group(pen.shape(d, ink.OAT), 0, 1, 0, 0.84)
    art += pen.line("M-22 -4Q0 -22 22 -4", ink.CRUST, 4)
    return pen.group(art, x, y, turn)


def squash_stew() -> str:
    """A slate bowl of squash and chickpeas in red broth, with spinach."""
    art = ware.ground(ink.SEA_DEEP, ink.SEA, 21)
    art += ware.cloth(500, 620, 560, 1600, 18, ink.OAT, ink.SAFFRON, (0.14, 0.22, 0.78, 0.86))
    art += ware.bowl(800, 600, 390, ink.SLATE, ink.SLATE_SOFT, ink.TOMATO)
    stew = garden.flecks(pen.strew(15, 60, 800, 600, 300, 300, 36), 22, "#d66a3a")
    for k, (x, y, turn) in enumerate(pen.strew(44, 26, 804, 606, 262, 262, 94)):
        cube = pen.box(6, 8, 92, 78, "#96401f", 18) + pen.box(0, 0, 92, 78, ink.SAFFRON, 18)
        cube += pen.cut(-30, -22, 28, -24, 5, ink.LEMON)
        stew += pen.group(cube, x, y, turn + k)
    for x, y, turn in pen.strew(9, 30, 804, 606, 286, 286, 74):
        pea = pen.circle(4, 6, 27, "#96401f") + pen.circle(0, 0, 27, ink.OAT)
        pea += pen.line("M-2 -16Q8 0 -4 14", ink.OAT_DEEP, 5)
        stew += pen.group(pea, x, y, turn)
    art += stew
    for x, y, turn, size in (
        (640, 560, 20, 165),
        (930, 770, 205, 160),
        (800, 430, 60, 150),
        (985, 560, 100, 140),
        (700, 800, -40, 130),
        (800, 610, -20, 130),
    ):
        art += garden.leaf(x + 4, y + 6, size, turn, "#8f3a26")
        art += garden.leaf(x, y, size, turn, ink.LEAF_DARK, ink.LEAF)
    art += garden.lemon_half(1340, 920, 140, 16)
    return art


def lentil_soup() -> str:
    """A smooth red soup with a turn of oil, lemon, and one leaf; read from far off."""
    art = ware.ground(ink.MIST, ink.PAPER, 17)
    art += ware.cloth(1010, 600, 620, 1600, -12, ink.SEA, ink.CREAM, (0.1, 0.16, 0.84, 0.9))
    art += ware.plate(800, 600, 430, ink.PAPER, ink.SEA_DEEP)
    art += ware.bowl(800, 600, 318, ink.CREAM, ink.OAT, "#d5672f", 0.87)
    swirl = [pen.at(800, 600, 40 + k * 9.6, k * 34 - 90) for k in range(22)]
    art += pen.line(pen.curve(swirl), ink.SAFFRON, 26)
    art += pen.line(pen.curve(swirl), ink.LEMON, 8)
    art += garden.seeds(pen.strew(2, 80, 805, 606, 255, 255, 34), 8, "#e4894f", 0.8)
    art += garden.lemon_slice(880, 690, 96, 20)
    art += garden.trefoil(712, 520, 66, -120, ink.LEAF_DARK)
    art += garden.trefoil(790, 476, 48, -40, ink.LEAF)
    art += ware.spoon(1290, 690, 82, ink.SLATE_SOFT, 0.95)
    art += garden.lemon_half(330, 290, 118, 12) + garden.lemon_half(290, 890, 105, 40)
    return art


DISHES: dict[str, Callable[[], str]] = {
    "mains/barley-broth/barley-broth": barley_broth,
    "mains/bean-pot": bean_pot,
    "mains/beef-in-wine": beef_in_wine,
    "mains/squash-stew": squash_stew,
    "soups/lentil-soup": lentil_soup,
}
