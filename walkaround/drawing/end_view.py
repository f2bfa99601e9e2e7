"""The front or the rear of a vehicle as it is seen from there: every lamp where the eye finds it.

How high lamps hang is drawn in three rows, from what the rules say of their height; across, each
is where it is on the vehicle. Left is left of the eyes: at the front that is the vehicle's right.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from walkaround.base.message import Message, message
from walkaround.drawing import svg
from walkaround.drawing.frame import DISC_RADIUS, LINE_PX, MARGIN
from walkaround.drawing.labels import TEXT, word_px
from walkaround.drawing.lamp_symbol import Symbol, symbol_svg
from walkaround.drawing.palette import Palette
from walkaround.drawing.picture import DOT_RADIUS, spread
from walkaround.drawing.svg import Point
from walkaround.drawing.vehicle_plan import PlacedMark, PlanShapes
from walkaround.plan.lamp_items import END_ROWS, end_row

_REACH = 8.0
"""Room for the rays of a lamp, px."""
_LEAST_RADIUS = 11.5
_APART, _WELL_APART = 2.0, 8.0
"""Clear distance between rays of two lamps where they crowd, and where there is room, px."""


def end_view(
    plan: PlanShapes, width: float, height: float, palette: Palette, read: Callable[[Message], str]
) -> Iterator[str]:
    """Draw the end where the mechanic stands, from the bottom up; for boxes from 240 by 90 px.

    Args:
        plan: what there is to draw; its `stand` is front or rear.
        width, height: the box.
        palette: the colors.
        read: puts a message into words.
    """
    top = MARGIN / 2 + LINE_PX
    row_px = (height - top - MARGIN / 2) / len(END_ROWS)
    middles = [top + (n + 0.5) * row_px for n in range(len(END_ROWS))]
    yield from _outline(plan, width, middles, row_px, palette)
    yield from _words(plan, width, top, palette, read)
    for middle, row in zip(middles, END_ROWS, strict=True):
        here = [p for p in plan.at_end if end_row(p.kind, p.id) == row]
        for place in here:
            if not place.number:
                at = _across(plan, place, width, DISC_RADIUS + _REACH), middle
                yield svg.circle(at, DOT_RADIUS, fill=palette.card, line=palette.line, px=1.5)
    for middle, row in zip(middles, END_ROWS, strict=True):
        numbered = [p for p in plan.at_end if p.number and end_row(p.kind, p.id) == row]
        for symbol in _in_row(plan, numbered, width, middle, row_px):
            yield from symbol_svg(symbol, palette)


def _in_row(
    plan: PlanShapes, places: Sequence[PlacedMark], width: float, middle: float, row_px: float
) -> Iterator[Symbol]:
    """The numbered places of one row, as large as they fit, pushed apart where they crowd."""
    if not places:
        return
    radius = min(DISC_RADIUS, row_px / 2 - _REACH)
    side = MARGIN + DISC_RADIUS + _REACH
    gap = (width - 2 * side) / max(1, len(places) - 1)
    radius = max(_LEAST_RADIUS, min(radius, (gap - _APART) / 2 - _REACH))
    reach = max(0.0, min(_REACH, row_px / 2 - radius, (gap - _APART) / 2 - radius))
    wanted = sorted((_across(plan, p, width, side), p.number, p) for p in places)
    apart = min(gap, 2 * (radius + reach) + _WELL_APART)
    at = spread([x for x, _, _ in wanted], apart, side, width - side)
    for x, (_, _, place) in zip(at, wanted, strict=True):
        yield Symbol(
            place.number,
            place.color,
            (x, middle),
            radius,
            reach,
            look=place.look,
            square=place.kind == "reflector",
            flat=place.kind == "tape",
        )


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
    plan: PlanShapes, width: float, top: float, palette: Palette, read: Callable[[Message], str]
) -> Iterator[str]:
    """LEFT and RIGHT of the vehicle on the sides where they are, and which end it is."""
    near = ("left", "right") if plan.stand == "rear" else ("right", "left")
    middle = top - LINE_PX / 2
    for side, at_left in zip(near, (True, False), strict=True):
        word = read(message(f"picture-{side}"))
        half = word_px(word)[0] / 2
        at: Point = (MARGIN + half if at_left else width - MARGIN - half, middle)
        yield svg.text(word, at, TEXT, fill=palette.quiet_ink)
    word = read(message(f"picture-{plan.stand}"))
    yield svg.text(word, (width / 2, middle), TEXT, fill=palette.accent)
