"""The front or the rear of a vehicle as it is seen from there: every lamp where the eye finds it.

How high lamps hang is drawn in three rows, from what the rules say of their height; across, each
is where it is on the vehicle. Left is left of the eyes: at the front that is the vehicle's right.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from walkaround.base.message import Message, message
from walkaround.drawing import svg
from walkaround.drawing.frame import DISC_RADIUS, LINE_PX, MARGIN
from walkaround.drawing.ground_views.rows import REACH, SIDE_PX, SeenLamp, in_row
from walkaround.drawing.labels import TEXT, word_px
from walkaround.drawing.palette import Palette
from walkaround.drawing.picture import DOT_RADIUS
from walkaround.drawing.svg import Point
from walkaround.drawing.vehicle_plan import PlacedMark, PlanShapes
from walkaround.plan.lamp_items import END_ROWS, end_row

TOP = MARGIN / 2 + LINE_PX
"""Where the vehicle begins, below a line of words."""


def end_lamps(plan: PlanShapes, width: float, height: float) -> Iterator[SeenLamp]:
    """Place the numbered lamps of the end where the mechanic stands, in a box of this size."""
    for middle, row_px, row in _rows(height):
        here = [p for p in plan.numbered if end_row(p.kind, p.id) == row]
        places = [(_across(plan, place, width, SIDE_PX), place) for place in here]
        yield from in_row(places, width, middle, row_px)


def end_outline(
    plan: PlanShapes, width: float, height: float, palette: Palette, read: Callable[[Message], str]
) -> Iterator[str]:
    """Draw that end without its numbered lamps, from the bottom up; for boxes from 240 by 90 px.

    Args:
        plan: what there is to draw; its `stand` is front or rear.
        width, height: the box.
        palette: the colors.
        read: puts a message into words.
    """
    rows = _rows(height)
    yield from _outline(plan, width, [middle for middle, _, _ in rows], rows[0][1], palette)
    yield from _words(plan, width, palette, read)
    for middle, _, row in rows:
        for place in plan.at_end:
            if not place.number and end_row(place.kind, place.id) == row:
                at = _across(plan, place, width, DISC_RADIUS + REACH), middle
                yield svg.circle(at, DOT_RADIUS, fill=palette.card, line=palette.line, px=1.5)


def _rows(height: float) -> list[tuple[float, float, str]]:
    """Middle and height of each row, and which it is, from the top."""
    row_px = (height - TOP - MARGIN / 2) / len(END_ROWS)
    return [(TOP + (n + 0.5) * row_px, row_px, row) for n, row in enumerate(END_ROWS)]


def _across(plan: PlanShapes, place: PlacedMark, width: float, side: float) -> float:
    sign = 1 if plan.stand == "rear" else -1
    half = width / 2 - side
    return width / 2 + sign * max(-1.0, min(1.0, 2 * place.y_mm / plan.width_mm)) * half


def _outline(
    plan: PlanShapes, width: float, middles: Sequence[float], row_px: float, palette: Palette
) -> Iterator[str]:
    """The end of the body, or the crossbar and frame of what has none, and two tires below."""
    top, sill = middles[0] - row_px / 2, middles[1] + row_px / 2
    bottom, edge, across = middles[2] + row_px / 2, MARGIN, width - 2 * MARGIN
    for at in (edge + 0.1 * width, width - edge - 0.1 * width - 0.12 * width):
        size = 0.12 * width, bottom - sill
        yield svg.rectangle((at, sill), size, fill=palette.line, radius=4)
    bodied = any(shape.part in ("body", "cab") for shape in plan.shapes)
    begin = top if bodied else middles[1] - row_px / 2
    size = across, sill - begin
    yield svg.rectangle((edge, begin), size, fill=palette.body, radius=6, line=palette.line, px=2)
    if plan.stand == "front" and any(shape.part in ("cab", "glass") for shape in plan.shapes):
        glass = middles[0] + row_px * 0.3, middles[1] - row_px * 0.35
        inset = 0.12 * width
        corners = [(inset + 12, glass[0]), (width - inset - 12, glass[0])]
        corners += [(width - inset, glass[1]), (inset, glass[1])]
        yield svg.polygon(corners, line=palette.line, px=1.5)


def _words(
    plan: PlanShapes, width: float, palette: Palette, read: Callable[[Message], str]
) -> Iterator[str]:
    """LEFT and RIGHT of the vehicle on the sides where they are, and which end it is."""
    near = ("left", "right") if plan.stand == "rear" else ("right", "left")
    yield from three_words((near[0], plan.stand, near[1]), width, palette, read)


def three_words(
    parts: tuple[str, str, str], width: float, palette: Palette, read: Callable[[Message], str]
) -> Iterator[str]:
    """Write over the vehicle what is at its left, which part of it this is, and what is right."""
    middle = TOP - LINE_PX / 2
    for part, at_left in ((parts[0], True), (parts[2], False)):
        word = read(message(f"picture-{part}"))
        half = word_px(word)[0] / 2
        at: Point = (MARGIN + half if at_left else width - MARGIN - half, middle)
        yield svg.text(word, at, TEXT, fill=palette.quiet_ink)
    word = read(message(f"picture-{parts[1]}"))
    yield svg.text(word, (width / 2, middle), TEXT, fill=palette.accent)
