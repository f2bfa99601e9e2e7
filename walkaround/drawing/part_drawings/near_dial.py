"""The needle of a gauge from near by: a mark each psi, a long one with its figure each 5."""

from __future__ import annotations

from collections.abc import Callable
from math import atan2, cos, sin

from walkaround.base.message import Message, message
from walkaround.drawing import svg
from walkaround.drawing.palette import Palette
from walkaround.drawing.svg import Point

_REACH_PSI = 7
"""So far from the figure in the middle marks are seen, each way."""
_ARC_SHARE, _RADIUS_SHARE = 0.44, 1.1
"""How far the marks reach each way and how large the face is, as shares of the width."""
_FIGURE_PX, _FACE_PX, _MARGIN_PX = 20.0, 36.0, 8.0
"""Size of figures; how far below the top the face begins; what stays free at the bottom."""
_LONG_PX, _SHORT_PX = 24.0, 14.0
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
        psi: what the needle shows; less than nothing counts as nothing.
        palette: the colors.
        width, height: of the card, px; made for boxes from 150 by 90 px.
        read: puts a message into words.
    """
    psi = max(0.0, psi)
    radius = _RADIUS_SHARE * width
    turn = atan2(_ARC_SHARE * width, radius) / _REACH_PSI
    # The face stands still while the needle creeps, up to the next figure.
    middle_psi = 5 * round(psi / 5)

    def at(from_edge: float, mark: float) -> Point:
        angle, reach = turn * (mark - middle_psi), radius - from_edge
        return width / 2 + reach * sin(angle), _FACE_PX + radius - reach * cos(angle)

    pieces = [svg.rectangle((0, 0), (width, height), fill=palette.card, radius=_ROUND_PX)]
    for mark in range(max(0, middle_psi - _REACH_PSI), middle_psi + _REACH_PSI + 1):
        long = mark % 5 == 0
        ends = [at(0, mark), at(_LONG_PX if long else _SHORT_PX, mark)]
        pieces.append(svg.polyline(ends, line=palette.ink, px=3.5 if long else 2))
        if long:
            pieces.append(svg.text(str(mark), at(-16, mark), _FIGURE_PX, fill=palette.ink))
    low = height - _FACE_PX - _MARGIN_PX
    pieces.append(svg.polyline([at(low, psi), at(3, psi)], line=palette.accent, px=4))
    return svg.document(width, height, read(needle_words(psi)), pieces)


def needle_words(psi: float) -> Message:
    """Say what the needle shows, as near as an eye tells it."""
    return message("practice-needle", psi=f"{round(2 * max(0.0, psi)) / 2:g}")
