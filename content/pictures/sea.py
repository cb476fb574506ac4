"""What the sea gives: fish whole and in pieces, and the waves."""

import palette as ink
import pen
import ware


def fish(x: float, y: float, length: float, turn: float, body: str, dark: str, light: str) -> str:
    """A whole fish, head to the left, about its middle."""
    d = (
        "M-320 4C-270 -70 -130 -104 20 -84C120 -70 190 -34 232 -14L322 -78C306 -30 306 30 322 78"
        "L232 18C190 44 110 80 10 88C-130 98 -270 70 -320 4Z"
    )
    fins = pen.shape("M-60 -88C-20 -136 70 -130 110 -70Z", dark)
    fins += pen.shape("M-20 86C20 124 70 116 92 66Z", dark)
    art = ware.shadow(pen.shape(d, ware.SHADE), turn, length / 640) + fins + pen.shape(d, body)
    art += pen.shape(
        "M-320 4C-260 40 -130 60 10 56C110 52 180 30 232 14L232 18C190 44 110 80 10 88"
        "C-130 98 -270 70 -320 4Z",
        light,
    )
    art += pen.line("M-206 -62C-176 -20 -178 26 -208 66", dark, 9)
    for yy, count in ((-44, 6), (-11, 8), (22, 8)):
        for col in range(count):
            xx = -140 + col * 38 + (18 if yy == -11 else 0)
            art += pen.line(f"M{xx} {yy - 13}Q{xx + 17} {yy} {xx} {yy + 13}", dark, 4.5)
    for yy in (-42, -14, 14, 42):
        art += pen.cut(250, yy * 0.4, 308, yy, 4, dark)
    art += pen.circle(-254, -12, 20, ink.PAPER) + pen.circle(-254, -12, 11, ink.SLATE)
    return pen.group(art, x, y, turn, length / 640)


def anchovy(x: float, y: float, turn: float) -> str:
    """An anchovy fillet: a slim brown sliver with a silver back."""
    d = "M-150 0C-100 -34 60 -30 150 0C60 26 -100 32 -150 0Z"
    art = ware.shadow(pen.shape(d, ware.SHADE), turn) + pen.shape(d, ink.RYE)
    art += pen.cut(-132, -2, 132, 0, 13, ink.MUSSEL_PALE) + pen.cut(-110, 10, 90, 9, 4, ink.CRUST)
    return pen.group(art, x, y, turn)


def fillet(x: float, y: float, length: float, turn: float, fill: str = ink.PAPER) -> str:
    """A piece of white fish whose flakes show."""
    d = (
        "M-180 -50C-120 -86 120 -80 176 -38C196 -14 190 30 160 52C90 86 -130 84 -178 46"
        "C-200 20 -200 -26 -180 -50Z"
    )
    art = ware.shadow(pen.shape(d, ware.SHADE), turn, length / 360) + pen.shape(d, ink.OAT)
    art += pen.group(pen.shape(d, fill), -3, -4, 0, 0.96)
    for k in range(5):
        xx = -124 + k * 60
        art += pen.line(f"M{xx} -56Q{xx + 40} 0 {xx - 6} 56", ink.OAT_DEEP, 5, 0.8)
    art += pen.cut(-150, 0, 156, 2, 5, ink.SLATE_PALE)
    return pen.group(art, x, y, turn, length / 360)


def waves(
    x: float, y: float, w: float, colour: str, width: float, bumps: int = 12, height: float = 16
) -> str:
    """One line of waves from (``x``, ``y``) to the right."""
    step = w / bumps
    d = f"M{pen.n(x)} {pen.n(y)}"
    for _ in range(bumps):
        d += f"q{pen.n(step / 4)} {pen.n(-height)} {pen.n(step / 2)} 0"
        d += f"t{pen.n(step / 2)} 0"
    return pen.line(d, colour, width)
