"""Mains from the oven and the pan, and the noodles."""

from collections.abc import Callable

import garden
import palette as ink
import pen
import sea
import ware


def roast_chicken() -> str:
    """A chicken in its tin with lemon halves and thyme; the roots on a tray beside."""
    art = ware.ground(ink.SEA, ink.SEA_PALE, 45)
    art += ware.cloth(760, 560, 760, 1600, -10, ink.OAT, ink.SEA_DARK, (0.08, 0.13, 0.87, 0.92))
    art += ware.tin(1420, 760, 420, 900, ink.SLATE_SOFT, ink.SLATE, 40)
    for k, (x, y, turn) in enumerate(pen.strew_box(12, 26, 1440, 770, 290, 740, 96)):
        if k % 3 == 0:
            art += pen.blob(x, y, 62, 52, ink.CRUST_PALE, k, 0.12, 7)
            art += pen.cut(x - 30, y - 10, x + 26, y - 16, 7, ink.OAT)
        elif k % 3 == 1:
            art += garden.carrot(x - 60, y - 20, 170, turn % 90, ink.CARROT, "#b5602a")
        else:
            art += _onion_wedge(x, y, turn)
    art += ware.tin(720, 600, 900, 760, ink.MUSSEL, "#24364a", 70)
    art += pen.box(722, 603, 840, 700, ink.RYE_DARK, 46)
    art += pen.blob(722, 610, 396, 318, ink.RYE, 6, 0.05, 14)
    for x, y, turn in ((480, 330, 8), (960, 880, 184), (420, 800, -60)):
        art += garden.thyme(x, y, turn, ink.LEAF, 0.9)
    art += pen.group(_bird(), 715, 590, -90, 1.04)
    art += garden.lemon_half(1010, 385, 92, 12) + garden.lemon_half(420, 850, 84, 40)
    for x, y, turn in ((1050, 640, 20), (390, 560, 100), (1000, 760, 200)):
        clove = "M-36 6C-30 -24 14 -26 40 0C14 22 -28 28 -36 6Z"
        art += pen.group(
            pen.shape(clove, ink.BLUSH_PALE) + pen.cut(-24, 0, 30, 0, 4, ink.BLUSH), x, y, turn
        )
    return art


def _onion_wedge(x: float, y: float, turn: float) -> str:
    art = ""
    for size, fill in ((58, ink.BEET), (46, ink.BLUSH_PALE), (36, ink.BEET), (26, ink.BLUSH_PALE)):
        art += pen.shape(
            f"M{-size} 0Q0 {-size * 1.1:.0f} {size} 0Q0 {size * 0.5:.0f} {-size} 0Z", fill
        )
    return pen.group(art, x, y, turn)


def _bird() -> str:
    """A roast bird from above about the origin, legs to the top."""
    gold, deep, pale = "#d5964a", "#c07f3c", "#e9bb74"
    body = (
        "M-40 270C-180 250 -236 110 -220 -20C-208 -130 -120 -200 0 -200"
        "C120 -200 208 -130 220 -20C236 110 180 250 40 270C14 276 -14 276 -40 270Z"
    )
    leg = (
        "M-70 90C-100 -10 -60 -110 0 -150C14 -190 12 -230 24 -262C34 -276 50 -270 52 -254"
        "C54 -220 48 -150 58 -120C86 -30 70 70 20 110C-16 130 -54 124 -70 90Z"
    )
    wing = "M-30 -120C30 -130 64 -60 56 10C50 70 20 120 -20 136C-44 140 -50 110 -34 90C-60 40 -60 -60 -30 -120Z"
    wings = pen.group(pen.shape(wing, "{}"), 218, 110, 10)
    wings += pen.group(f'<g transform="scale(-1 1)">{pen.shape(wing, "{}")}</g>', -218, 110, -10)
    legs = pen.group(pen.shape(leg, "[]"), 132, -96, -16)
    legs += pen.group(f'<g transform="scale(-1 1)">{pen.shape(leg, "[]")}</g>', -132, -96, 16)
    dark = (wings + pen.shape(body, "{}") + legs).replace("{}", ware.SHADE)
    art = ware.shadow(dark.replace("[]", ware.SHADE), -90, 1.04)
    art += wings.replace("{}", deep)
    for side in (-1, 1):
        art += pen.group(pen.cut(0, -90, 8 * side, 70, 12, gold), side * 232, 110, side * 10)
        for dx in (-12, 13):
            art += pen.oval(side * 92 + dx, -366, 20, 17, ink.CREAM)
    art += pen.shape(body, gold)
    for side, fill in ((-1, pale), (1, "#dfa95f")):
        breast = "M24 236C130 210 170 110 160 10C150 -70 80 -130 16 -150C40 -20 40 120 24 236Z"
        art += f'<g transform="scale({side} 1)">{pen.shape(breast, fill)}</g>'
    art += pen.group(legs.replace("[]", ink.RYE), 6, 9) + legs.replace("[]", deep)
    for side in (-1, 1):
        art += pen.group(pen.cut(0, -110, -6 * side, 60, 20, gold), side * 144, -90, side * -16)
        art += pen.group(pen.cut(-12, -70, -14, 40, 8, pale), side * 144 - 14, -80, side * -16)
    # The string that holds the legs together.
    art += pen.line("M-122 -296Q-96 -282 -70 -292Q0 -250 70 -292Q96 -282 122 -296", ink.CREAM, 9)
    art += pen.line("M-4 -270L-26 -232M4 -270L30 -238", ink.CREAM, 7)
    spots = pen.strew(20, 34, 0, 90, 130, 140, 44)
    art += garden.flecks(spots, 10, ink.LEAF_DARK)
    art += garden.seeds(pen.strew(22, 30, 0, 90, 140, 140, 44), 4, ink.RYE_DARK, 1)
    return art


def meatballs() -> str:
    """A wide pan of tomato sauce with rows of meatballs and basil."""
    art = ware.ground(ink.CREAM, ink.PAPER, 51)
    art += ware.check(700, 640, 1200, 1100, 24, ink.PAPER, ink.LEAF_PALE, 88)
    art += ware.pot(800, 600, 396, ink.SLATE, "#2b3438", ink.TOMATO)
    sauce = garden.flecks(pen.strew(3, 80, 804, 606, 330, 330, 42), 24, "#a83c27")
    sauce += garden.flecks(pen.strew(4, 40, 804, 606, 330, 330, 56), 18, "#d4694a")
    art += pen.within(pen.circle(804, 606, 343, "#000"), sauce)
    for row, count in enumerate((3, 4, 5, 4, 3)):
        for col in range(count):
            x, y = 802 + (col - (count - 1) / 2) * 130, 374 + row * 115
            k = row * 9 + col
            art += pen.group(pen.blob(x, y, 58, 56, "#8c2f20", k, 0.05), 6, 11)
            art += pen.blob(x, y, 58, 56, ink.RYE, k, 0.05)
            art += pen.blob(x - 5, y - 6, 46, 44, "#976640", k, 0.06)
            art += garden.flecks(pen.strew(k + 90, 6, x, y, 36, 36, 20), 8, ink.RYE_DARK)
            art += pen.line(pen.arc(x - 4, y - 5, 34, 196, 254), ink.CRUST_PALE, 6)
    for x, y, turn, size in (
        (690, 555, -30, 120),
        (720, 570, 60, 110),
        (900, 700, 10, 120),
        (900, 690, -90, 100),
        (860, 430, 30, 110),
    ):
        art += garden.leaf(x + 5, y + 8, size, turn, "#7c2a1d")
        art += garden.leaf(x, y, size, turn, ink.LEAF, ink.LEAF_PALE)
    return (
        art
        + garden.leaf(1330, 250, 170, -70, ink.LEAF, ink.LEAF_PALE)
        + garden.leaf(1330, 255, 180, 20, ink.LEAF_DARK, ink.LEAF)
    )


def baked_white_fish() -> str:
    """An oblong dish of overlapping potato slices, four fillets, green sauce."""
    art = ware.ground(ink.MUSSEL, ink.MUSSEL_SOFT, 52)
    art += ware.cloth(800, 640, 1400, 640, 9, ink.SEA_PALE, ink.PAPER, (0.06, 0.11, 0.89, 0.94))
    art += ware.dish(800, 600, 960, 740, ink.PAPER, ink.OAT, "#c98f3f", 70)
    slices = ""
    for row in range(9):
        for col in range(14):
            x, y = 380 + col * 70 + (row % 2) * 34, 300 + row * 76
            k = row * 14 + col
            slices += pen.group(pen.blob(x, y, 56, 54, ink.CRUST, k, 0.04), 3, 5)
            slices += pen.blob(x, y, 56, 54, ("#f3df9f", "#edcf83", "#f6e6b0")[k % 3], k, 0.04)
            slices += pen.line(pen.arc(x, y, 48, 120 + k % 40, 310), "#cf9440", 9)
    art += pen.within(pen.box(803, 604, 894, 674, "#000", 43), slices)
    for k, (x, y, turn) in enumerate(
        ((600, 440, -8), (1000, 450, 6), (600, 760, 5), (1000, 765, -7))
    ):
        art += sea.fillet(x, y, 370, turn)
        spill = pen.blob_path(x + 8, y + 2, 112, 34, k + 3, 0.2, 10, turn + 4)
        art += pen.group(pen.shape(spill, ink.OAT_DEEP), 4, 6) + pen.shape(spill, ink.LEAF)
        art += pen.within(
            pen.shape(spill, "#000"),
            garden.flecks(pen.strew(k + 44, 26, x, y, 110, 44, 20), 11, ink.LEAF_DARK)
            + garden.flecks(pen.strew(k + 54, 12, x, y, 110, 44, 30), 10, ink.LEAF_PALE),
        )
    art += garden.lemon_wedge(1400, 330, 100, -30) + garden.lemon_wedge(1430, 470, 100, 20)
    return art + garden.lemon_wedge(205, 880, 100, 160)


def leek_omelette() -> str:
    """A golden omelette in a black pan, leek rings showing, one wedge gone."""
    art = ware.ground(ink.LEAF_MIST, ink.CREAM, 53)
    art += ware.cloth(460, 620, 640, 1600, 16, ink.PAPER, ink.LEAF, (0.1, 0.16, 0.84, 0.9))
    art += ware.skillet(780, 600, 396, 24, "#2b3438")
    start, end = -64, -22
    outline = pen.shape(pen.wedge(783, 604, 344, end, start + 360), "#000")
    egg = pen.circle(783, 604, 344, ink.CRUST) + pen.circle(781, 600, 328, ink.SAFFRON)
    egg += pen.circle(776, 594, 296, "#ecbb4b")
    for k, (x, y, r) in enumerate(
        ((640, 480, 110), (880, 720, 120), (640, 730, 90), (900, 470, 80))
    ):
        egg += pen.blob(x, y, r, r * 0.8, ink.LEMON, k + 3, 0.14)
    for x, y, turn in pen.strew(34, 26, 783, 604, 296, 296, 96):
        egg += pen.box(x, y, 50, 46, ink.LEMON_PALE, 9, turn)
        egg += pen.box(x, y, 50, 12, "#dcae5e", 5, turn)
    for k, (x, y, _) in enumerate(pen.strew(35, 24, 783, 604, 284, 284, 92)):
        r = 34 + k % 3 * 7
        egg += garden.onion_ring(x, y, r, (ink.LEAF, ink.LEAF_PALE)[k % 2], ink.LEAF_MIST)
    for x, y, turn in pen.strew(36, 34, 783, 604, 300, 300, 60):
        egg += pen.group(pen.box(0, 0, 30, 8, ink.LEAF_DARK, 4), x, y, turn)
    art += pen.within(outline, egg)
    for angle in (start, end):
        x, y = pen.at(783, 604, 340, angle)
        art += pen.line(f"M783 604L{pen.n(x)} {pen.n(y)}", ink.CRUST, 9)
    return art


def fish_pie() -> str:
    """An oblong pie with forked mash; a spoonful gone shows fish, peas and prawns."""
    art = ware.ground(ink.SEA_DARK, ink.SEA_DEEP, 54)
    art += ware.check(800, 600, 1340, 900, -12, ink.PAPER, ink.SEA, 80)
    art += ware.dish(800, 600, 980, 720, ink.SAFFRON, ink.CRUST, ink.LEMON_PALE, 90)
    top = ""
    for row in range(10):
        y = 290 + row * 72
        for shift, colour, width in (
            (10, ink.CRUST, 11),
            (0, ink.SAFFRON, 14),
            (-14, ink.CREAM, 12),
        ):
            top += sea.waves(320, y + shift, 980, colour, width, 8, 52)
    for k, (x, y, r) in enumerate(
        (
            (500, 420, 70),
            (800, 350, 90),
            (1080, 440, 70),
            (560, 760, 90),
            (900, 560, 60),
            (680, 560, 60),
        )
    ):
        top += f'<g opacity="0.35">{pen.blob(x, y, r, r * 0.6, ink.CRUST, k, 0.15)}</g>'
    art += pen.within(pen.box(803, 604, 914, 654, "#000", 56), top)
    edge = pen.blob_path(1010, 730, 205, 155, 5, 0.09, 12, -12)
    hollow = pen.shape(pen.blob_path(1018, 742, 192, 141, 5, 0.09, 12, -12), ink.CREAM)
    art += pen.shape(edge, ink.CRUST) + hollow
    filling = garden.seeds(pen.strew(6, 40, 1010, 740, 200, 150, 34), 20, ink.OAT, 0.5)
    for k, (x, y, turn) in enumerate(pen.strew(9, 9, 1010, 740, 150, 110, 100)):
        fish = "M-64 -26C-20 -40 40 -36 64 -16C60 20 20 34 -54 28Z"
        fill = (ink.PAPER, ink.SAFFRON, ink.PAPER)[k % 3]
        flake = pen.group(pen.shape(fish, ink.OAT_DEEP), 4, 6) + pen.shape(fish, fill)
        flake += pen.line("M-26 -28Q-10 0 -28 26M14 -32Q30 0 10 26", ink.OAT_DEEP, 4)
        filling += pen.group(flake, x, y, turn)
    for x, y, _ in pen.strew(10, 22, 1010, 740, 180, 130, 52):
        filling += pen.circle(x + 3, y + 4, 19, ink.LEAF_DARK) + pen.circle(x, y, 19, ink.LEAF_PALE)
    for x, y, turn in ((940, 690, 10), (1080, 770, 140), (1060, 660, 250)):
        filling += _prawn(x, y, turn)
    art += pen.within(hollow, filling)
    return art + ware.spoon(1150, 820, 28, ink.SLATE_PALE, 1.1)


def _prawn(x: float, y: float, turn: float) -> str:
    art = pen.line("M-40 24C-54 -24 0 -52 40 -18C52 -4 48 18 36 26", ink.BLUSH, 32)
    art += pen.line("M-34 -6L-14 2M-14 -30L-4 -10M16 -34L10 -14M40 -14L22 -4", ink.BLUSH_PALE, 6)
    return pen.group(art, x, y, turn)


def sesame_noodles() -> str:
    """A wide bowl: a nest of pale noodles, cucumber and carrot strips, tofu, sesame."""
    art = ware.ground(ink.BEET, "#a2475c", 55)
    art += ware.cloth(860, 640, 620, 1600, -22, ink.OAT, ink.BEET_DARK, (0.1, 0.16, 0.84, 0.9))
    art += ware.bowl(800, 600, 396, ink.SEA_DARK, ink.SEA_DEEP, "#b98a4c", 0.88)
    nest = ""
    for cx, cy, turn in (
        (690, 500, 20),
        (930, 540, 150),
        (840, 730, 260),
        (660, 740, 330),
        (800, 600, 80),
    ):
        nest += pen.circle(cx, cy, 178, "#b98a4c")
        for k in range(9):
            r = 172 - k * 19
            colour = (ink.OAT, ink.CREAM, "#dfc898")[k % 3]
            start = turn + k * 47
            nest += pen.line(pen.arc(cx, cy, r, start, start + 318), colour, 14)
    art += pen.within(pen.circle(804, 607, 344, "#000"), nest)
    for k in range(13):
        x, y = 590 + k * 17, 470 - (k % 4) * 16 + k * 3
        art += pen.group(
            pen.box(0, 0, 190, 17, ink.LEAF_MIST, 6) + pen.box(0, -6, 190, 6, ink.LEAF, 3),
            x,
            y,
            64 + k * 7 % 22,
        )
    for k in range(12):
        x, y = 900 + k * 13, 640 + k * 14 - (k % 3) * 18
        art += pen.box(x, y, 190, 16, (ink.CARROT, "#e69a57")[k % 2], 6, -52 + k * 7 % 26)
    for k, (x, y) in enumerate(
        ((640, 690), (740, 760), (620, 800), (730, 650), (560, 610), (690, 860))
    ):
        sx, sy = pen.swing(0, 0, 9, 12, -k * 37)
        cube = pen.box(sx, sy, 96, 92, ink.RYE, 12) + pen.box(0, 0, 96, 92, ink.CRUST_PALE, 12)
        cube += pen.box(-2, -3, 76, 72, ink.PAPER, 12)
        art += pen.group(cube, x, y, k * 37)
    for x, y, _ in pen.strew(61, 16, 940, 470, 130, 110, 52):
        art += garden.onion_ring(x, y, 20, ink.LEAF, ink.LEAF_MIST)
    art += garden.seeds(pen.strew(62, 34, 800, 604, 310, 310, 76), 11, ink.PAPER, 0.55)
    art += garden.seeds(pen.strew(63, 22, 800, 604, 300, 300, 80), 11, ink.RYE_DARK, 0.55)
    sticks = "".join(
        pen.group(pen.shape("M-420 -8L420 -15L420 15L-420 8Z", "{}"), 1130, 300 + dy, 40 + turn)
        for dy, turn in ((0, 0), (56, 5))
    )
    art += ware.shadow(sticks.replace("{}", ware.SHADE)) + sticks.replace("{}", ink.CRUST_PALE)
    return art


DISHES: dict[str, Callable[[], str]] = {
    "mains/roast-chicken": roast_chicken,
    "mains/meatballs": meatballs,
    "mains/baked-white-fish": baked_white_fish,
    "mains/leek-omelette": leek_omelette,
    "mains/fish-pie": fish_pie,
    "mains/sesame-noodles": sesame_noodles,
}
