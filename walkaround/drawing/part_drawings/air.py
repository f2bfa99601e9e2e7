"""Line drawings of what holds and brings the air: dial, gladhands, drain, chamber."""

from __future__ import annotations

from math import cos, radians, sin

from walkaround.drawing.part_drawings.sheet import LineSheet
from walkaround.drawing.svg import Point

_MOST_PSI = 150
_FROM_DEG, _SWEEP_DEG = 135.0, 270.0


def dial(sheet: LineSheet) -> None:
    """Draw a pressure gauge: marks each 5 psi, long ones with figures each 50, needle at 125."""
    middle, palette = (120.0, 72.0), sheet.palette
    sheet.disc(middle, 64)
    sheet.disc(middle, 57, fill=palette.card)
    for psi in range(0, _MOST_PSI + 1, 5):
        long = psi % 50 == 0
        inner = 44 if long else 48 if psi % 10 == 0 else 51
        ends = [_on_dial(middle, inner, psi), _on_dial(middle, 55, psi)]
        sheet.line(ends, wide=2.4 if long else 1.2)
        if long:
            sheet.word(str(psi), _on_dial(middle, 33, psi), 11)
    sheet.line([_on_dial(middle, -10, 125), _on_dial(middle, 46, 125)], strong=True, wide=4)
    sheet.disc(middle, 5, strong=True, fill=palette.accent)
    sheet.word("psi", (120, 104), 10)


def _on_dial(middle: Point, radius: float, psi: float) -> Point:
    angle = radians(_FROM_DEG + _SWEEP_DEG * psi / _MOST_PSI)
    return middle[0] + radius * cos(angle), middle[1] + radius * sin(angle)


def gladhand(sheet: LineSheet) -> None:
    """Draw a gladhand seen on its face: rubber seal, locking lug on one side, plate opposite."""
    palette = sheet.palette
    sheet.line([(120, 139), (120, 112)], wide=34)
    sheet.line([(120, 139), (120, 112)], wide=29, color=palette.line)
    sheet.box((99, 104), (42, 14), radius=4)
    # The lug, with its detent, slides under the plate of the other gladhand.
    lug = [(146, 26), (178, 14), (206, 30), (210, 58), (194, 66), (186, 48), (160, 52)]
    sheet.shape(lug)
    sheet.disc((192, 40), 5, fill=palette.card)
    plate = [(92, 26), (62, 20), (40, 36), (36, 74), (52, 92), (78, 88), (84, 60)]
    sheet.shape(plate)
    sheet.line([(58, 34), (50, 50), (50, 76)], wide=1.6)
    sheet.disc((120, 58), 52)
    sheet.disc((120, 58), 36, strong=True, fill=palette.accent)
    sheet.disc((120, 58), 27, strong=True, fill=palette.accent)
    sheet.arc((120, 58), 31.5, 0, 360, wide=1.6, color=palette.card)
    sheet.disc((120, 58), 17, fill=palette.card)


def drain(sheet: LineSheet) -> None:
    """Draw a reservoir with its straps, the drain cock under it, and water running out."""
    sheet.box((28, 18), (184, 62), radius=28)
    for x in (70, 164):
        sheet.box((x, 12), (10, 74))
    sheet.box((113, 80), (14, 12))
    sheet.box((108, 92), (24, 13), radius=3)
    sheet.line([(132, 98), (158, 98)], wide=5)
    sheet.line([(158, 91), (158, 105)], wide=4)
    sheet.box((115, 105), (10, 8))
    for x, y in ((120, 120), (115, 131), (125, 134)):
        sheet.disc((x, y), 2.4, strong=True, fill=sheet.palette.accent)
    sheet.line([(40, 66), (200, 66)], strong=True, wide=1.6)


def spring_chamber(sheet: LineSheet) -> None:
    """Draw a spring brake chamber cut open: diaphragm, rod, power spring, caging bolt."""
    card = sheet.palette.card
    # Service half at the left, spring half at the right, clamped at both flanges.
    sheet.shape([(50, 52), (66, 30), (96, 24), (96, 116), (66, 110), (50, 88)], fill=card)
    sheet.box((96, 18), (9, 104))
    sheet.shape([(105, 26), (182, 26), (196, 42), (196, 98), (182, 114), (105, 114)], fill=card)
    sheet.box((142, 18), (8, 104))
    coil = [(154 + 5 * n, 36 if n % 2 else 104) for n in range(8)]
    sheet.line(coil, wide=4)
    sheet.line([(100, 30), (88, 48), (88, 92), (100, 110)], strong=True, wide=4)
    sheet.box((84, 56), (5, 28))
    sheet.line([(84, 70), (16, 70)], wide=7)
    sheet.box((6, 60), (14, 20))
    sheet.disc((12, 70), 4, fill=card)
    # The bolt that cages the spring stands out behind.
    sheet.box((196, 64), (34, 11), strong=True, fill=sheet.palette.accent)
    for x in (204, 210, 216, 222):
        sheet.line([(x, 64), (x, 75)], wide=1.2, color=card)
    sheet.box((198, 58), (7, 23), strong=True)
