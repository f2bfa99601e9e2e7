"""A signature as a finger drew it, for a screen or for paper."""

from __future__ import annotations

from collections.abc import Sequence

from walkaround.base.signing import HIGH, WIDE
from walkaround.drawing import svg
from walkaround.drawing.palette import LIGHT

_PX = 0.25
"""Size of a unit of the field."""
_PEN_PX = 3.0


def signature_svg(
    strokes: Sequence[Sequence[tuple[int, int]]], label: str, ink: str = LIGHT.ink
) -> str:
    """Draw the strokes; `label` says whose they are to those who hear it."""
    lines = []
    for stroke in strokes:
        points = [(_PX * x, _PX * y) for x, y in stroke]
        if len(points) == 1:
            lines.append(svg.circle(points[0], _PEN_PX / 2, fill=ink))
        else:
            lines.append(svg.polyline(points, line=ink, px=_PEN_PX))
    return svg.document(_PX * WIDE, _PX * HIGH, label, lines)
