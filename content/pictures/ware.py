"""Table, cloths and crockery: what the dishes stand on and in.

The light always falls from the upper left; a thing's shadow is a flat copy of it, a little
lower and to the right.
"""

import palette as ink
import pen

SHADE = "#1c2f33"
DROP = (16.0, 20.0)


def ground(fill: str, mark: str | None = None, seed: int = 1) -> str:
    """The table top, with a few gouge marks left standing if ``mark`` gives their colour."""
    art = pen.box(800, 600, 1600, 1200, fill)
    if mark:
        for x, y, turn in pen.strew_box(seed, 90, 800, 600, 1640, 1240, 105):
            length = 16 + (turn % 17)
            art += pen.cut(x - length, y, x + length, y + (turn % 5) - 2, 2.6, mark)
    return art


def shadow(dark: str, turn: float = 0, scale: float = 1) -> str:
    """A cast shadow of a piece drawn in ``SHADE``.

    A piece that will be turned or scaled says so, and its shadow still falls to the lower right.
    """
    x, y = pen.swing(0, 0, *DROP, -turn)
    return f'<g opacity="0.2">{pen.group(dark, x / scale, y / scale)}</g>'


def cloth(
    x: float,
    y: float,
    w: float,
    h: float,
    turn: float,
    base: str,
    stripe: str,
    bands: tuple[float, ...] = (0.12, 0.18, 0.82, 0.88),
    width: float = 14,
) -> str:
    """A linen cloth with stripes along its length, at the given shares of its breadth."""
    art = f'<g opacity="0.13">{pen.box(10, 14, w, h, SHADE, 4)}</g>' + pen.box(0, 0, w, h, base, 4)
    for share in bands:
        art += pen.box(0, -h / 2 + h * share, w, width, stripe)
    return pen.group(art, x, y, turn)


def check(
    x: float, y: float, w: float, h: float, turn: float, base: str, stripe: str, step: float = 74
) -> str:
    """A checked cloth: two sets of half-strength bands that darken where they cross."""
    art = f'<g opacity="0.13">{pen.box(10, 14, w, h, SHADE, 4)}</g>' + pen.box(0, 0, w, h, base, 4)
    bands = ""
    for k in range(int(w / step / 2) + 1):
        bands += pen.box(-w / 2 + step * (2 * k + 0.5), 0, step, h, stripe)
    cross = ""
    for k in range(int(h / step / 2) + 1):
        cross += pen.box(0, -h / 2 + step * (2 * k + 0.5), w, step, stripe)
    art += pen.within(
        pen.box(0, 0, w, h, base, 4),
        f'<g opacity="0.4">{bands}</g><g opacity="0.4">{cross}</g>',
    )
    return pen.group(art, x, y, turn)


def board(x: float, y: float, w: float, h: float, turn: float = 0, hole: bool = True) -> str:
    """A wooden board with grain."""
    art = shadow(pen.box(0, 0, w, h, SHADE, 46), turn) + pen.box(0, 0, w, h, ink.CRUST_PALE, 46)
    grain = ""
    for k in range(1, 9):
        yy = -h / 2 + h * k / 9
        bend = 16 if k % 2 else -12
        grain += pen.line(
            pen.curve(
                [
                    (-w / 2 + 24 * (k % 3 + 1), yy),
                    (-w / 6, yy + bend),
                    (w / 5, yy - bend / 2),
                    (w / 2 - 30 * (k % 4 + 1), yy + 4),
                ]
            ),
            ink.CRUST,
            3,
            0.4,
        )
    art += grain
    if hole:
        art += pen.circle(w / 2 - 56, 0, 22, ink.RYE)
    return pen.group(art, x, y, turn)


def plate(x: float, y: float, r: float, fill: str = ink.CREAM, line: str = ink.OAT_DEEP) -> str:
    """A plate: rim, well and one painted line."""
    return (
        shadow(pen.circle(x, y, r, SHADE))
        + pen.circle(x, y, r, fill)
        + pen.ring(x, y, r - 16, line, 6)
        + pen.circle(x, y, r * 0.74, SHADE, 0.07)
        + pen.circle(x + 3, y + 4, r * 0.725, fill)
    )


def bowl(
    x: float, y: float, r: float, fill: str, inside: str, food: str, depth: float = 0.84
) -> str:
    """A bowl of something: wall, its shaded inner side, and the food's level."""
    return (
        shadow(pen.circle(x, y, r, SHADE))
        + pen.circle(x, y, r, fill)
        + pen.circle(x, y, r * 0.93, inside)
        + pen.circle(x + r * 0.012, y + r * 0.018, r * depth, food)
    )


def pot(x: float, y: float, r: float, iron: str, inside: str, food: str) -> str:
    """A round pot with two lug handles."""
    lugs = "".join(pen.box(x + s * (r + 26), y, 90, 170, "{}", 40) for s in (-1, 1))
    holes = "".join(pen.box(x + s * (r + 26), y, 34, 100, "{}", 17) for s in (-1, 1))
    return (
        shadow(lugs.replace("{}", SHADE) + pen.circle(x, y, r, SHADE))
        + lugs.replace("{}", iron)
        + holes.replace("{}", inside)
        + pen.circle(x, y, r, iron)
        + pen.circle(x, y, r * 0.93, inside)
        + pen.circle(x + 4, y + 6, r * 0.87, food)
    )


def skillet(x: float, y: float, r: float, turn: float, food: str) -> str:
    """An iron pan with a long handle towards ``turn`` degrees."""
    handle = pen.group(pen.box(r + 150, 0, 380, 84, "{}", 42), x, y, turn)
    hole = pen.group(pen.box(r + 284, 0, 62, 26, ink.SLATE_SOFT, 13), x, y, turn)
    return (
        shadow(handle.replace("{}", SHADE) + pen.circle(x, y, r, SHADE))
        + handle.replace("{}", ink.SLATE)
        + hole
        + pen.circle(x, y, r, ink.SLATE)
        + pen.circle(x, y, r * 0.93, "#2b3438")
        + pen.circle(x + 3, y + 4, r * 0.88, food)
    )


def dish(
    x: float, y: float, w: float, h: float, fill: str, inside: str, food: str, corner: float = 60
) -> str:
    """An oblong baking dish with a lip at both ends."""
    lips = pen.box(x, y, w + 104, h * 0.42, "{}", 44)
    return (
        shadow(lips.replace("{}", SHADE) + pen.box(x, y, w, h, SHADE, corner))
        + lips.replace("{}", fill)
        + pen.box(x, y, w, h, fill, corner)
        + pen.box(x, y, w - 40, h - 40, inside, corner * 0.75)
        + pen.box(x + 3, y + 4, w - 66, h - 66, food, corner * 0.62)
    )


def tin(x: float, y: float, w: float, h: float, metal: str, inside: str, corner: float = 18) -> str:
    """A plain straight-sided tin."""
    return (
        shadow(pen.box(x, y, w, h, SHADE, corner))
        + pen.box(x, y, w, h, metal, corner)
        + pen.box(x, y, w - 28, h - 28, inside, corner * 0.6)
    )


def spoon(x: float, y: float, turn: float, metal: str, scale: float = 1, wood: bool = False) -> str:
    """A spoon whose bowl lies at (``x``, ``y``) and whose handle runs to the right."""
    body = pen.shape(
        "M40 -16C120 -8 240 -9 330 -17C356 -19 372 -10 372 0C372 10 356 19 330 17"
        "C240 9 120 8 40 16Z",
        "{}",
    ) + pen.oval(0, 0, 74, 50, "{}")
    hollow = pen.oval(-2, 0, 56, 34, ink.RYE if wood else SHADE)
    hollow = f'<g opacity="{0.35 if wood else 0.16}">{hollow}</g>'
    art = shadow(body.replace("{}", SHADE), turn, scale) + body.replace("{}", metal) + hollow
    return pen.group(art, x, y, turn, scale)


def fork(x: float, y: float, turn: float, metal: str, scale: float = 1) -> str:
    """A fork with its tines at (``x``, ``y``) and its handle to the right."""
    body = pen.shape(
        "M60 -14C120 -8 240 -8 330 -16C356 -18 372 -10 372 0C372 10 356 18 330 16"
        "C240 8 120 8 60 14C40 34 20 38 0 38L-70 38L-70 26L-10 26L-10 18L-70 18L-70 6L-10 6"
        "L-10 -6L-70 -6L-70 -18L-10 -18L-10 -26L-70 -26L-70 -38L0 -38C20 -38 40 -34 60 -14Z",
        "{}",
    )
    return pen.group(
        shadow(body.replace("{}", SHADE), turn, scale) + body.replace("{}", metal),
        x,
        y,
        turn,
        scale,
    )


def knife(x: float, y: float, turn: float, grip: str, scale: float = 1) -> str:
    """A kitchen knife: blade to the left of (``x``, ``y``), grip to the right."""
    blade = pen.shape("M0 -30L-300 -30C-360 -26 -400 -6 -420 26L0 26Z", "{}")
    haft = pen.box(110, -6, 240, 50, "{}", 20)
    art = shadow((blade + haft).replace("{}", SHADE), turn, scale) + blade.replace(
        "{}", ink.SLATE_PALE
    )
    art += pen.shape("M0 10L-396 10C-404 14 -412 20 -420 26L0 26Z", ink.PAPER)
    art += haft.replace("{}", grip)
    art += "".join(pen.circle(x, -6, 6, ink.CRUST_PALE) for x in (50, 110, 170))
    return pen.group(art, x, y, turn, scale)


def jug(x: float, y: float, r: float, turn: float, fill: str, inside: str, food: str) -> str:
    """A pouring jug: a round with a lip at ``turn`` and a handle behind."""
    lip = f"M0 {pen.n(-r * 0.62)}Q{pen.n(r * 1.1)} {pen.n(-r * 0.3)} {pen.n(r * 1.36)} 0" + (
        f"Q{pen.n(r * 1.1)} {pen.n(r * 0.3)} 0 {pen.n(r * 0.62)}Z"
    )
    handle = pen.box(-r * 1.16, 0, r * 0.66, r * 0.22, "{}", r * 0.11)
    body = handle + pen.shape(lip, "{}") + pen.circle(0, 0, r, "{}")
    well = pen.group(pen.shape(lip, "{}"), 0, 0, 0, 0.86) + pen.circle(0, 0, r * 0.89, "{}")
    top = pen.circle(r * 0.01, r * 0.02, r * 0.79, food)
    art = body.replace("{}", fill) + well.replace("{}", inside) + top
    drop = pen.group(body.replace("{}", SHADE), x, y, turn)
    return shadow(drop) + pen.group(art, x, y, turn)


def rack(x: float, y: float, w: float, h: float, metal: str, wires: int = 17) -> str:
    """A wire rack for cooling."""

    def grid(colour: str, width: float) -> str:
        art = ""
        for k in range(wires):
            xx = x - w / 2 + w * k / (wires - 1)
            art += pen.line(f"M{pen.n(xx)} {pen.n(y - h / 2)}V{pen.n(y + h / 2)}", colour, width)
        for k in range(3):
            yy = y - h / 2 + h * k / 2
            art += pen.line(
                f"M{pen.n(x - w / 2)} {pen.n(yy)}H{pen.n(x + w / 2)}", colour, width * 1.7
            )
        return art

    return shadow(pen.group(grid(SHADE, 5), -5, -7)) + grid(metal, 6)


def whisk(x: float, y: float, turn: float, metal: str, grip: str, scale: float = 1) -> str:
    """A balloon whisk, its wires at (``x``, ``y``) and its grip to the right."""
    wires = "".join(
        pen.line(f"M150 0C60 {b} -70 {b * 1.5:.0f} -96 0C-70 {-b * 1.5:.0f} 60 {-b} 150 0", "{}", 6)
        for b in (66, 38, 10)
    )
    haft = pen.box(270, 0, 250, 34, "[]", 17)
    dark = (wires + haft).replace("{}", SHADE).replace("[]", SHADE)
    art = shadow(dark, turn, scale) + wires.replace("{}", metal) + haft.replace("[]", grip)
    return pen.group(art, x, y, turn, scale)


def jar(x: float, y: float, r: float, inside: str) -> str:
    """An open glass jar: a pale rim, the thread as a fine line, and what is in it."""
    return (
        shadow(pen.circle(x, y, r, SHADE))
        + pen.circle(x, y, r, ink.MIST)
        + pen.ring(x, y, r * 0.965, ink.PAPER, r * 0.03)
        + pen.circle(x, y, r * 0.9, ink.SEA_PALE)
        + pen.circle(x + r * 0.01, y + r * 0.015, r * 0.86, inside)
    )


def glint(x: float, y: float, r: float, start: float = 200, end: float = 250) -> str:
    """The light on a glass rim."""
    return pen.line(pen.arc(x, y, r, start, end), ink.PAPER, r * 0.05)
