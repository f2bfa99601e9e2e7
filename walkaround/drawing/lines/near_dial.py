"""The needle of a gauge from near by: a mark each psi, a long one with its figure each 5."""

from __future__ import annotations

from collections.abc import Callable
from math import ceil, cos, floor, radians, sin

from walkaround.base.message import Message, message
from walkaround.drawing import svg
from walkaround.drawing.lines.sheet import Sheet
from walkaround.drawing.palette import Palette
from walkaround.drawing.svg import Point

_MIDDLE: Point = (120.0, 232.0)
_REACH_PSI, _DEG_A_PSI = 6, 4.2
_ROUND_PX = 16.0


def near_dial(
    psi: float,
    palette: Palette,
    width: float,
    height: float,
    read: Callable[[Message], str] = str,
) -> str:
    """Draw what is seen of a gauge around its needle, as a document that stands alone.

    Args:
        psi: what the needle shows.
        palette: the colors.
        width, height: of the card, px.
        read: puts a message into words.
    """
    sheet, psi = Sheet(palette, width, height), max(0.0, psi)
    # The face turns by whole marks, so that a needle that creeps is seen to creep.
    middle_psi = 5 * round(psi / 5)
    for mark in range(max(0, floor(middle_psi - _REACH_PSI)), ceil(middle_psi + _REACH_PSI) + 1):
        long = mark % 5 == 0
        ends = [_at(186 if long else 196, mark - middle_psi), _at(212, mark - middle_psi)]
        sheet.line(ends, wide=3.4 if long else 1.8)
        if long:
            sheet.word(str(mark), _at(168, mark - middle_psi), 17)
    needle = psi - middle_psi
    sheet.line([_at(100, needle), _at(209, needle)], strong=True, wide=3)
    sheet.word("psi", (222, 126), 12)
    card = svg.rectangle((0, 0), (width, height), fill=palette.card, radius=_ROUND_PX)
    return svg.document(width, height, read(needle_words(psi)), [card, *sheet.pieces])


def needle_words(psi: float) -> Message:
    """Say what the needle shows, as near as an eye tells it."""
    return message("practice-needle", psi=f"{round(2 * max(0.0, psi)) / 2:g}")


def _at(radius: float, psi: float) -> Point:
    angle = radians(-90 + _DEG_A_PSI * psi)
    return _MIDDLE[0] + radius * cos(angle), _MIDDLE[1] + radius * sin(angle)
