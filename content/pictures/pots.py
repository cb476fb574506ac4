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
    broth += "".join(
        garden.onion_ring(x, y, 25, ink.LEAF_PALE, ink.LEAF_MIST)
        for x, y, _ in pen.strew(4, 16, 800, 600, 290, 290, 80)
    )
    art += broth
    for k, (x, y) in enumerate(
        ((690, 480), (905, 465), (985, 650), (800, 700), (625, 690))
    ):
        art += pen.group(pen.blob(x, y, 90, 88, ink.STRAW, k + 2, 0.05), 9, 12)
        art += pen.blob(x, y, 90, 88, ink.CREAM, k + 2, 0.05)
        art += pen.line(pen.arc(x, y, 66, 20, 95), ink.OAT, 8)
        art += garden.flecks(pen.strew(k + 40, 13, x, y, 66, 66, 21), 12, ink.LEAF)
    art += garden.dill(800, 590, -24, ink.LEAF_DARK, 0.62)
    art += ware.spoon(1240, 930, -38, ink.STRAW, 0.95, wood=True)
    return art


def bean_pot() -> str:
    """A sea-green pot of dark beans with bay, its lid drawn aside."""
    art = ware.ground(ink.OAT, ink.CREAM, 8)
    art += ware.cloth(330, 1010, 1300, 460, -34, ink.PAPER, ink.BEET)
    art += pen.group(
        ware.shadow(pen.circle(0, 0, 330, ware.SHADE))
        + pen.circle(0, 0, 330, ink.SEA_DEEP)
        + pen.ring(0, 0, 270, ink.SEA_DARK, 8)
        + pen.ring(0, 0, 140, ink.SEA, 5)
        + pen.circle(8, 10, 52, ink.SEA_DARK)
        + pen.circle(0, 0, 48, ink.STRAW),
        1270, 190,
    )
    art += ware.pot(800, 620, 385, ink.SEA_DEEP, ink.SEA_DARK, ink.BEET_DARK)
    stew = garden.flecks(pen.strew(31, 40, 800, 620, 320, 320, 40), 26, "#7a2f2d")
    for k, (x, y, turn) in enumerate(pen.strew(7, 74, 802, 624, 296, 296, 60)):
        fill = (ink.CREAM, ink.OAT_DEEP, ink.TOMATO, ink.CREAM, ink.CRUST)[k % 5]
        bean = pen.shape("M-36 2C-38 -26 -10 -30 4 -22C20 -30 40 -20 36 4C32 28 12 24 2 14"
                         "C-10 26 -34 24 -36 2Z", fill)
        bean += pen.cut(-20, -10, 2, -14, 4, ink.PAPER)
        stew += pen.group(bean, x, y, turn)
    art += pen.within(pen.circle(804, 626, 333, "#000"), stew)
    art += garden.bay(660, 690, -38, 210, ink.LEAF) + garden.bay(850, 480, 24, 190, ink.LEAF_DARK)
    art += garden.bay(700, 560, 200, 90, ink.LEAF)
    return art


def beef_in_wine() -> str:
    """An oval casserole: dark sauce, beef, carrots, small onions; a glass of red beside it."""
    art = ware.ground(ink.SLATE_PALE, ink.MIST, 12)
    art += ware.check(860, 700, 1250, 900, 14, ink.CREAM, ink.BLUSH)
    lugs = pen.oval(770, 610, 505, 110, "{}")
    rim = pen.oval(770, 610, 450, 345, "{}")
    art += ware.shadow((lugs + rim).replace("{}", ware.SHADE))
    art += (lugs + rim).replace("{}", ink.BEET)
    art += pen.oval(770, 610, 420, 316, ink.BEET_DARK) + pen.oval(775, 616, 392, 290, "#43202a")
    stew = garden.flecks(pen.strew(5, 40, 775, 616, 380, 280, 48), 24, ink.BEET_DARK)
    places = pen.strew(29, 38, 775, 616, 340, 236, 87)
    for k, (x, y, turn) in enumerate(places):
        if k % 3 == 0:
            meat = pen.blob(0, 0, 62, 47, ink.RYE, k + 3, 0.13, 7)
            meat += pen.cut(-34, -12, 30, -20, 5, ink.CRUST) + pen.cut(-28, 8, 36, 2, 5, ink.CRUST)
            stew += pen.group(meat, x, y, turn)
        elif k % 3 == 1:
            stew += pen.group(
                pen.oval(0, 0, 42, 36, ink.CARROT) + pen.oval(0, 0, 22, 18, ink.SAFFRON), x, y, turn
            )
        else:
            stew += pen.circle(x, y, 35, ink.BLUSH_PALE) + pen.ring(x, y, 22, ink.BLUSH, 5)
            stew += pen.cut(x - 16, y - 14, x + 4, y - 22, 4, ink.PAPER)
    art += pen.within(pen.oval(775, 616, 392, 290, "#000"), stew)
    art += garden.thyme(720, 570, -20, ink.LEAF_PALE, 1.05)
    art += garden.thyme(910, 700, 150, ink.LEAF_PALE, 0.8)
    glass = pen.circle(1270, 250, 150, "{}")
    art += ware.shadow(glass.replace("{}", ware.SHADE))
    art += glass.replace("{}", ink.PAPER) + pen.circle(1270, 250, 138, ink.BLUSH_PALE)
    art += pen.circle(1273, 254, 120, ink.BEET) + pen.circle(1273, 254, 44, ink.BEET_DARK)
    art += pen.line(pen.arc(1273, 254, 96, 200, 262), ink.BLUSH, 9)
    return art


def squash_stew() -> str:
    """A slate bowl of squash and chickpeas, a spoon of yoghurt-white tahini, coriander."""
    art = ware.ground(ink.SEA_DEEP, ink.SEA, 21)
    art += ware.cloth(500, 620, 560, 1600, 18, ink.OAT, ink.SAFFRON, (0.14, 0.22, 0.78, 0.86))
    art += ware.bowl(800, 600, 390, ink.SLATE, ink.SLATE_SOFT, ink.CARROT)
    stew = garden.flecks(pen.strew(15, 60, 800, 600, 300, 300, 36), 22, ink.TOMATO)
    for k, (x, y, turn) in enumerate(pen.strew(44, 26, 804, 606, 262, 262, 94)):
        cube = pen.box(6, 8, 92, 78, "#bd6429", 18) + pen.box(0, 0, 92, 78, ink.SAFFRON, 18)
        cube += pen.cut(-30, -22, 28, -24, 5, ink.LEMON)
        stew += pen.group(cube, x, y, turn + k)
    for x, y, turn in pen.strew(9, 30, 804, 606, 286, 286, 74):
        pea = pen.circle(4, 6, 27, "#a4643a") + pen.circle(0, 0, 27, ink.OAT)
        pea += pen.line("M-2 -16Q8 0 -4 14", ink.OAT_DEEP, 5)
        stew += pen.group(pea, x, y, turn)
    art += stew
    for x, y, turn, size in ((700, 520, 10, 62), (930, 700, 120, 58), (860, 440, -60, 50),
                             (640, 730, 200, 50), (1000, 560, 70, 44)):
        art += garden.trefoil(x, y, size, turn, ink.LEAF_DARK)
    art += pen.group(
        ware.shadow(pen.shape(pen.wedge(0, 0, 300, 150, 262), ware.SHADE))
        + pen.shape(pen.wedge(0, 0, 300, 150, 262), ink.CRUST_PALE)
        + "".join(
            pen.blob(x, y, 30, 20, ink.CRUST, k, 0.2)
            for k, (x, y) in enumerate(((-90, -60), (-190, -30), (-150, -150), (-60, -180)))
        ),
        1420, 1090,
    )
    return art


def lentil_soup() -> str:
    """A smooth red soup with a turn of oil, lemon, and one leaf; read from far off."""
    art = ware.ground(ink.MIST, ink.PAPER, 17)
    art += ware.cloth(1010, 600, 620, 1600, -12, ink.SEA, ink.CREAM, (0.5,), 34)
    art += ware.plate(800, 600, 430, ink.PAPER, ink.SEA_DEEP)
    art += ware.bowl(800, 600, 318, ink.CREAM, ink.OAT, ink.TOMATO, 0.87)
    swirl = [pen.at(800, 600, 40 + k * 9.6, k * 34 - 90) for k in range(22)]
    art += pen.line(pen.curve(swirl), ink.CARROT, 28)
    art += pen.line(pen.curve(swirl), ink.SAFFRON, 9)
    art += garden.seeds(pen.strew(2, 80, 805, 606, 255, 255, 34), 8, "#dd7a58", 0.8)
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
