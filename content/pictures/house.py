"""The house's own pictures: the long table by the sea, and the mark."""

import garden
import palette as ink
import pen
import sea
import ware


def home() -> str:
    """The long table from above, laid for everyone, the sea along the top (1600 × 900)."""
    art = pen.box(800, 450, 1600, 900, ink.OAT)
    for x, y, turn in pen.strew_box(3, 90, 800, 560, 1640, 700, 70):
        art += pen.cut(x - 12, y, x + 12, y + turn % 4 - 2, 2.4, ink.CREAM)
    art += _shore()
    for y in (322, 826):
        for x, w in ((60, 560), (720, 640), (1440, 620)):
            bench = pen.box(x, y, w, 60, "{}", 12)
            art += ware.shadow(bench.replace("{}", ware.SHADE)) + bench.replace("{}", ink.CRUST)
            art += pen.line(f"M{x - w / 2 + 24} {y + 4}H{x + w / 2 - 24}", ink.RYE, 3, 0.5)
    table = pen.box(800, 574, 1760, 400, "{}", 8)
    art += ware.shadow(table.replace("{}", ware.SHADE)) + table.replace("{}", ink.CRUST_PALE)
    for k, y in enumerate((454, 534, 614, 694)):
        art += pen.line(f"M-20 {y}H1620", ink.CRUST, 3, 0.7)
        for x in range(80 + k * 130, 1600, 520):
            art += pen.cut(x, y - 34, x + 160, y - 30, 3, ink.CRUST)
    art += ware.cloth(800, 574, 1760, 176, 0, ink.CREAM, ink.SEA_DEEP, (0.08, 0.15, 0.85, 0.92), 6)
    for k in range(9):
        x = 64 + k * 184
        art += _place(x, 432, k) + _place(x, 716, k + 4)
    return art + _spread()


def _shore() -> str:
    """Water, foam and a boat above the sand."""

    def edge(drop: float) -> str:
        points = [(-40 + k * 140.0, 196 + drop + (18 if k % 2 else -14)) for k in range(13)]
        return pen.curve(points) + "L1640 -40L-40 -40Z"

    art = pen.shape(edge(34), ink.OAT_DEEP, 0.6) + pen.shape(edge(14), ink.PAPER)
    art += pen.shape(edge(0), ink.SEA) + pen.shape(edge(-46), ink.SEA_DEEP)
    art += pen.shape(edge(-128), ink.SEA_DARK)
    for x, y, w, bumps in (
        (120, 112, 220, 4),
        (520, 96, 160, 3),
        (820, 130, 260, 5),
        (1330, 120, 200, 4),
        (300, 36, 180, 3),
        (720, 30, 200, 4),
    ):
        art += sea.waves(x, y, w, ink.SEA, 5, bumps, 14)
    hull = "M-150 0C-90 -58 60 -58 150 -40L150 40C60 58 -90 58 -150 0Z"
    boat = ware.shadow(pen.shape(hull, ware.SHADE), -12, 0.8) + pen.shape(hull, ink.PAPER)
    boat += pen.group(pen.shape(hull, ink.CRUST_PALE), 2, 0, 0, 0.86)
    for x in (-40, 34, 100):
        boat += pen.box(x, 0, 20, 76, ink.RYE, 3)
    for side in (-1, 1):
        boat += pen.line(f"M10 {side * 40}L-40 {side * 128}", ink.OAT, 7)
    return art + pen.group(boat, 1180, 78, -12, 0.8)


def _place(x: float, y: float, k: int) -> str:
    """A plate with something on it, or clean, and a spoon beside."""
    rim = (ink.SEA_DEEP, ink.MUSSEL, ink.BEET)[k % 3]
    art = pen.group(
        ware.shadow(pen.circle(0, 0, 58, ware.SHADE), 0, 2.6)
        + pen.circle(0, 0, 58, ink.PAPER)
        + pen.ring(0, 0, 51, rim, 3)
        + pen.circle(1, 1, 40, ink.MIST),
        x,
        y,
    )
    if k % 4 == 1:
        art += pen.circle(x, y, 38, ink.CARROT) + pen.ring(x, y, 20, ink.SAFFRON, 6)
        art += garden.trefoil(x - 6, y - 6, 15, -60, ink.LEAF_DARK)
    elif k % 4 == 3:
        art += pen.group(sea.fillet(0, 0, 360, -12), x - 4, y, 0, 0.22)
        art += pen.blob(x - 2, y, 24, 9, ink.LEAF, k, 0.2, 9, -12)
    elif k % 4 == 2:
        art += pen.blob(x - 2, y - 2, 32, 31, ink.CRUST, k, 0.05)
        art += pen.blob(x - 4, y - 4, 22, 21, ink.CRUST_PALE, k, 0.05)
    turn, reach = (90, -28) if y < 574 else (-90, 28)
    return art + pen.group(ware.spoon(0, 0, turn, ink.SLATE_SOFT), x + 84, y + reach, 0, 0.22)


def _spread() -> str:
    """What stands down the middle of the table."""
    art = _mini(90, 574, 74, ink.SEA_DEEP, ink.SEA_DARK, "#7d2a2c")
    art += garden.seeds(pen.strew(4, 26, 92, 576, 52, 52, 19), 9, ink.CREAM, 0.7)
    art += pen.group(garden.lemon_half(0, 0, 90, 8), 196, 614, 0, 0.33)
    art += pen.group(garden.lemon_half(0, 0, 90, 30), 206, 540, 0, 0.33)
    art += pen.group(
        ware.shadow(pen.box(0, 0, 210, 104, ware.SHADE, 30), -6, 2)
        + pen.box(0, 0, 210, 104, ink.RYE, 30)
        + pen.box(-3, -3, 186, 84, "#93623a", 24)
        + pen.cut(-76, 3, 76, -4, 10, ink.RYE_DARK)
        + garden.seeds(
            [p for p in pen.strew_box(5, 40, 0, -2, 176, 76, 14) if abs(p[1]) > 14],
            7,
            ink.OAT,
            0.55,
        ),
        352,
        574,
        -6,
    )
    art += _mini(530, 580, 58, ink.PAPER, ink.SLATE_PALE, ink.LEAF)
    art += garden.flecks(pen.strew(7, 46, 531, 581, 44, 44, 10), 6, ink.LEAF_DARK)
    oval = pen.oval(800, 572, 190, 84, "{}")
    art += ware.shadow(oval.replace("{}", ware.SHADE), 0, 2) + oval.replace("{}", ink.PAPER)
    art += pen.oval(800, 572, 178, 74, ink.SEA_PALE)
    art += pen.group(
        sea.fish(0, 0, 640, -3, ink.MUSSEL_SOFT, ink.MUSSEL, ink.MUSSEL_PALE), 800, 574, 0, 0.47
    )
    for x, y in ((690, 612), (742, 628), (876, 626)):
        art += garden.lemon_slice(x, y, 22, x)
    art += garden.dill(850, 522, 8, ink.LEAF_DARK, 0.3)
    art += pen.group(ware.jug(0, 0, 115, 215, ink.PAPER, ink.OAT, ink.LEMON), 1058, 576, 0, 0.4)
    art += pen.group(ware.plate(0, 0, 168, ink.PAPER, ink.BEET), 1220, 574, 0, 0.5)
    art += pen.shape(pen.wedge(1220, 574, 62, 40, 352), ink.CRUST)
    art += pen.shape(pen.wedge(1220, 574, 56, 40, 352), ink.SAFFRON)
    art += garden.seeds(
        [
            p
            for p in pen.strew(8, 30, 1220, 574, 50, 50, 14)
            if not (p[0] > 1216 and -20 < p[1] - 574 < 44)
        ],
        7,
        ink.CREAM,
        0.55,
    )
    art += pen.group(ware.jar(0, 0, 110, "#e3e6ae"), 1368, 584, 0, 0.4)
    for x, y, turn in pen.strew(9, 7, 1368, 584, 24, 24, 21):
        art += garden.cucumber(x, y, 16, turn)
    art += _mini(1510, 572, 76, ink.SLATE, "#2b3438", ink.TOMATO)
    for x, y, _ in pen.strew(11, 11, 1511, 573, 50, 50, 31):
        art += pen.circle(x + 2, y + 4, 15, "#8c2f20") + pen.circle(x, y, 15, ink.RYE)
    return art


def _mini(x: float, y: float, r: float, wall: str, inside: str, food: str) -> str:
    return pen.group(ware.bowl(0, 0, 200, wall, inside, food), x, y, 0, r / 200)


def icon() -> str:
    """The mark: a table from above, six seats, a wave along it (512 × 512)."""
    art = pen.box(256, 256, 512, 512, ink.SEA_DARK, 112)
    for k, (x, y) in enumerate((x, y) for y in (126, 386) for x in (150, 256, 362)):
        art += pen.circle(x, y, 40, ink.SAFFRON if k == 5 else ink.SEA)
    art += pen.box(256, 256, 316, 168, ink.CREAM, 30)
    wave = "M140 256q29 -66 58 0t58 0t58 0t58 0"
    return art + pen.line(wave, ink.SEA_DEEP, 26)
