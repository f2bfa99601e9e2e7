"""Line drawings of what is looked at and measured at the wheels: slack, stroke, chock, ABS lamp."""

from __future__ import annotations

from walkaround.drawing.part_drawings.sheet import LineSheet

_FACE = 96.0
"""Where the face of the chamber is, from which a stroke is measured."""


def _chamber(sheet: LineSheet) -> None:
    """A chamber seen from the side, its rod to come out at the right."""
    sheet.shape([(20, 34), (48, 22), (58, 22), (58, 106), (48, 106), (20, 94)])
    sheet.box((58, 16), (9, 96))
    sheet.shape([(67, 22), (80, 22), (_FACE, 40), (_FACE, 88), (80, 106), (67, 106)])
    sheet.box((6, 52), (14, 9))


def slack_adjuster(sheet: LineSheet) -> None:
    """Draw a slack adjuster on its camshaft, the rod with clevis, the mark at the chamber."""
    card = sheet.palette.card
    _chamber(sheet)
    sheet.line([(_FACE, 64), (180, 64)], wide=8)
    sheet.line([(_FACE, 64), (180, 64)], wide=3.4, color=sheet.palette.body)
    # The clevis reaches around the arm; its pin goes through both.
    sheet.box((164, 50), (40, 28), radius=4)
    arm = [(184, 44), (200, 44), (220, 104), (220, 120), (176, 120), (176, 104)]
    sheet.shape(arm)
    sheet.disc((198, 112), 24)
    sheet.disc((198, 112), 14, fill=card)
    for x, y in ((198, 98), (198, 126), (184, 112), (212, 112)):
        near = 198 + 0.6 * (x - 198), 112 + 0.6 * (y - 112)
        sheet.line([near, (x, y)], wide=3)
    sheet.disc((192, 64), 6, fill=card)
    sheet.box((221, 106), (13, 12))
    sheet.line([(_FACE + 4, 52), (_FACE + 4, 76)], strong=True, wide=5)


def stroke(sheet: LineSheet) -> None:
    """Draw the rod out of its chamber, its mark away from the face, a tape measure beside it."""
    _chamber(sheet)
    sheet.line([(_FACE, 64), (222, 64)], wide=8)
    sheet.line([(_FACE, 64), (222, 64)], wide=3.4, color=sheet.palette.body)
    sheet.box((206, 50), (20, 28))
    sheet.disc((216, 64), 5, fill=sheet.palette.card)
    mark_x = 162
    sheet.line([(mark_x, 52), (mark_x, 76)], strong=True, wide=5)
    sheet.box((_FACE, 90), (110, 18), fill=sheet.palette.caution, radius=1)
    for n in range(12):
        long = n % 4 == 0
        x = _FACE + 4 + 9 * n
        ends = [(x, 90), (x, 101 if long else 96)]
        sheet.line(ends, wide=1.4, color=sheet.palette.on_caution)
    sheet.line([(_FACE, 28), (_FACE, 44)], strong=True)
    sheet.line([(mark_x, 28), (mark_x, 50)], strong=True)
    sheet.arrow((129, 34), (_FACE, 34))
    sheet.arrow((129, 34), (mark_x, 34))


def chock(sheet: LineSheet) -> None:
    """Draw a wheel on the ground between two chocks, each tight against the tire."""
    sheet.line([(8, 126), (232, 126)])
    sheet.disc((120, 72), 54, fill=sheet.palette.line)
    sheet.disc((120, 72), 32)
    sheet.disc((120, 72), 11, fill=sheet.palette.card)
    for x, y in ((120, 50), (139, 61), (139, 83), (120, 94), (101, 83), (101, 61)):
        sheet.disc((x, y), 3, fill=sheet.palette.card)
    for sign in (-1, 1):
        wedge = [(120 + 36 * sign, 125), (120 + 86 * sign, 125), (120 + 86 * sign, 112)]
        wedge += [(120 + 54 * sign, 92)]
        sheet.shape(wedge, strong=True, fill=sheet.palette.caution)


def abs_lamp(sheet: LineSheet) -> None:
    """Draw a lamp lit amber, low at the rear of a trailer's side, the three letters under it."""
    sheet.box((12, 14), (216, 72))
    for x in (44, 88):
        sheet.disc((x, 110), 22, fill=sheet.palette.line)
        sheet.disc((x, 110), 9, fill=sheet.palette.card)
    middle = 168.0, 62.0
    for turn in (
        (0, -1),
        (0.71, -0.71),
        (1, 0),
        (0.71, 0.71),
        (-0.71, 0.71),
        (-1, 0),
        (-0.71, -0.71),
    ):
        near = middle[0] + 19 * turn[0], middle[1] + 19 * turn[1]
        far = middle[0] + 28 * turn[0], middle[1] + 28 * turn[1]
        sheet.line([near, far], wide=3)
    sheet.disc(middle, 14, fill=sheet.palette.lamps["yellow"])
    sheet.word("ABS", (168, 110), 22)
