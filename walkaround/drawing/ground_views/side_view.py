"""A side of a vehicle as it is seen from there: every lamp where the eye finds it.

Along the vehicle each lamp is where it is; reflectors and tape hang in a row below the lamps. From
the left side the front is on the left of the eyes, from the right side on the right.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

from walkaround.base.message import Message
from walkaround.drawing import svg
from walkaround.drawing.frame import MARGIN
from walkaround.drawing.ground_views.end_view import TOP, three_words
from walkaround.drawing.ground_views.rows import SeenLamp, in_row
from walkaround.drawing.palette import Palette
from walkaround.drawing.vehicle_plan import PlanShapes, Shape
from walkaround.plan.lamp_items import end_row

_BODY_SHARE, _ROWS_SHARE = 0.08, 0.74
"""Of the height below the words: what of the body is above the lamps, and both rows of these."""
_WHEEL_MM = 1000.0
_LOWER: dict[str, tuple[float, float]] = {
    # Where a part begins and ends, as a share of the height from the body's top to its sill.
    "body": (0.0, 1.0),
    "cab": (0.06, 1.0),
    "frame": (0.82, 1.0),
    "drawbar": (0.9, 1.0),
    "fifth_wheel": (0.7, 0.82),
}


def side_lamps(plan: PlanShapes, width: float, height: float) -> Iterator[SeenLamp]:
    """Place the numbered lamps of the side where the mechanic stands, in a box of this size."""
    below = [p for p in plan.numbered if end_row(p.kind, p.id) == "low"]
    above = [p for p in plan.numbered if p not in below]
    top, rows_px = _band(height)
    rows = [row for row in (above, below) if row]
    for n, row in enumerate(rows):
        row_px = rows_px / len(rows)
        places = [(_along(plan, place.x_mm, width), place) for place in row]
        yield from in_row(places, width, top + (n + 0.5) * row_px, row_px)


def side_outline(
    plan: PlanShapes, width: float, height: float, palette: Palette, read: Callable[[Message], str]
) -> Iterator[str]:
    """Draw that side without its numbered lamps, from the bottom up; for boxes from 240 by 90 px.

    Args:
        plan: what there is to draw; its `stand` is left or right.
        width, height: the box.
        palette: the colors.
        read: puts a message into words.
    """
    top, rows_px = _band(height)
    sill, bottom = top + rows_px, height - MARGIN / 2
    radius = min(0.5 * _WHEEL_MM / plan.length_mm * (width - 2 * MARGIN), 0.62 * (bottom - sill))
    for shape in plan.shapes:
        if shape.part in _LOWER:
            yield from _part(plan, shape, width, (TOP, sill), palette)
        elif shape.part == "landing_gear":
            x, _ = _span(plan, shape, width)
            size = 6.0, 0.8 * (bottom - sill)
            yield svg.rectangle((x, sill), size, fill=palette.line)
    middles = {round(sum(_span(plan, s, width)) / 2) for s in plan.shapes if s.part == "wheel"}
    for x in sorted(middles):
        at = float(x), bottom - radius
        yield svg.circle(at, radius, fill=palette.line)
        yield svg.circle(at, 0.4 * radius, fill=palette.card)
    ends = ("front", "rear") if plan.stand == "left" else ("rear", "front")
    yield from three_words((ends[0], plan.stand, ends[1]), width, palette, read)


def _part(
    plan: PlanShapes, shape: Shape, width: float, between: tuple[float, float], palette: Palette
) -> Iterator[str]:
    """A part of the vehicle as high as such parts are; a cab has its window."""
    low, high = _span(plan, shape, width)
    begin, end = _LOWER[shape.part]
    tall = between[1] - between[0]
    corner, size = (low, between[0] + begin * tall), (high - low, (end - begin) * tall)
    yield svg.rectangle(corner, size, fill=palette.body, radius=5, line=palette.line, px=2)
    if shape.part == "cab":
        inset = 0.18 * size[0]
        window = size[0] - 2 * inset, 0.3 * size[1]
        glass = corner[0] + inset, corner[1] + 0.1 * size[1]
        yield svg.rectangle(glass, window, fill=palette.card, radius=4, line=palette.line, px=1.5)


def _band(height: float) -> tuple[float, float]:
    """Where the rows of lamps begin, and how high they are together, px."""
    below = height - TOP - MARGIN / 2
    return TOP + _BODY_SHARE * below, _ROWS_SHARE * below


def _span(plan: PlanShapes, shape: Shape, width: float) -> tuple[float, float]:
    """From where to where a part lies across the picture, px."""
    ends = sorted(_along(plan, x, width) for x, _ in shape.points)
    return ends[0], ends[-1]


def _along(plan: PlanShapes, x_mm: float, width: float) -> float:
    share = x_mm / plan.length_mm
    share = share if plan.stand == "left" else 1 - share
    return MARGIN + share * (width - 2 * MARGIN)
