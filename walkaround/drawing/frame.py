"""How the plan lies in a box of pixels: which way the front points, how large, what is shown.

What is looked at lies before the mechanic's eyes: at the rear the front of the vehicle points
up, at the front it points down, and along a side that side is below. So what is on the left of
the picture is on the left of the eyes. Of a long vehicle only the part in question is shown.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import Literal

from walkaround.drawing.svg import Point
from walkaround.drawing.vehicle_plan import (
    PLAN_SIDES,
    PlacedMark,
    PlanShapes,
    PlanSide,
    clip_polygon,
)

Heading = Literal["up", "down", "left", "right"]

MARGIN = 10.0
DISC_RADIUS = 17.0
# Clear distance between the vehicle and a numbered disc; the line to the place runs there. In a
# low box with numbers on both sides the discs stand on the edge of the vehicle instead.
_STUB = 14.0
_LOW_BOX = 210.0
CUT_DEPTH = 14.0
"""How far a cut end is ragged, px."""
# Px for the standing figure, away from the vehicle: a share of the box's shorter side.
_FIGURE_SHARE, _FIGURE_LEAST, _FIGURE_MOST = 0.19, 36.0, 56.0
# Cutting off less than the rest of this share of the vehicle is not worth it.
_ALMOST_WHOLE = 0.8
_ROUNDING_MM = 1.0
# However small the box, something of the vehicle is drawn.
_LEAST_ROOM = 24.0
LINE_PX = 20.0
"""Height of a line of words in the margin, px."""
_WORDS_LEAVE_PX = 40.0
"""A vehicle that would get less height than this gets the room of the words as well."""

_REARWARD: dict[Heading, Point] = {
    "up": (0.0, 1.0),
    "down": (0.0, -1.0),
    "left": (1.0, 0.0),
    "right": (-1.0, 0.0),
}


@dataclass(frozen=True, slots=True)
class Frame:
    """The mapping from mm on the vehicle to px in the box.

    Attributes:
        heading: which way the front of the vehicle points on screen.
        px_per_mm: the scale.
        window: from where to where the vehicle is shown, mm behind the foremost point.
        origin: where the middle of the window's front end is, px from the top left corner.
        stub: clear distance between the vehicle and its numbered discs, px.
        box: width and height, px.
        has_words: whether there is a margin for words above the vehicle, and below one that lies
            across.
    """

    plan: PlanShapes
    heading: Heading
    px_per_mm: float
    window: tuple[float, float]
    origin: Point
    box: Point
    stub: float
    has_words: bool

    @property
    def figure_zone(self) -> float:
        """Px kept free outside the vehicle for the standing figure."""
        return _figure_zone(*self.box)

    def point(self, x_mm: float, y_mm: float) -> Point:
        """Tell where a place on the vehicle is in the box."""
        rear, right = self.outward("rear"), self.outward("right")
        x, y = (x_mm - self.window[0]) * self.px_per_mm, y_mm * self.px_per_mm
        return (
            self.origin[0] + x * rear[0] + y * right[0],
            self.origin[1] + x * rear[1] + y * right[1],
        )

    def points(self, places_mm: Iterable[Point]) -> tuple[Point, ...]:
        """Tell where several places on the vehicle are in the box."""
        return tuple(self.point(x, y) for x, y in places_mm)

    def outward(self, side: PlanSide) -> Point:
        """Return the way out of the vehicle on one side, as a step on screen."""
        x, y = _REARWARD[self.heading]
        # The vehicle's right is a quarter turn from rearward: turned, never mirrored.
        match side:
            case "rear":
                return x, y
            case "front":
                return -x, -y
            case "right":
                return y, -x
            case "left":
                return -y, x

    def axis(self, side: PlanSide) -> int:
        """Tell which of x (0) and y (1) runs along that side of the vehicle on screen."""
        return 0 if self.outward(side)[1] else 1

    def edge(self, side: PlanSide, *, body: bool) -> Point:
        """Return the middle of one edge of the vehicle as shown, or of a body without drawbar."""
        low, high = self.window
        middle, half = (low + high) / 2, self.plan.width_mm / 2
        match side:
            case "front":
                return self.point(max(low, self.plan.body_from_mm) if body else low, 0.0)
            case "rear":
                return self.point(high, 0.0)
            case "left":
                return self.point(middle, -half)
            case "right":
                return self.point(middle, half)

    def outside(self, side: PlanSide, along_px: float, away_px: float, *, body: bool) -> Point:
        """Return a point `away_px` out from that edge, at `along_px` on the axis along it."""
        axis = self.axis(side)
        across = self.edge(side, body=body)[1 - axis] + sum(self.outward(side)) * away_px
        return (along_px, across) if axis == 0 else (across, along_px)

    def shows(self, place: PlacedMark) -> bool:
        """Tell whether a place is in the part of the vehicle that is shown, clear of its cuts."""
        low, high = self.window
        ragged = CUT_DEPTH / self.px_per_mm
        return (low == 0 or place.x_mm > low + ragged) and (
            high == self.plan.length_mm or place.x_mm < high - ragged
        )

    def cuts(self) -> tuple[tuple[Point, Point], ...]:
        """List the lines across the vehicle where it is cut, each from its left to its right."""
        low, high = self.window
        cut = [low] * (low > 0) + [high] * (high < self.plan.length_mm)
        return tuple(
            (self.point(x, -half), self.point(x, half)) for x in cut for half in self._half(x)
        )

    def _half(self, x_mm: float) -> tuple[float, ...]:
        """Half the width of the vehicle there, mm; nothing where there is no vehicle."""
        points = [p for s in self.plan.shapes for p in clip_polygon(s.points, x_mm - 1, x_mm + 1)]
        return (max(y for _, y in points),) if points else ()


def frame(plan: PlanShapes, width_px: float, height_px: float) -> Frame:
    """Choose heading, scale and the part of the vehicle shown; then center it all in the box."""
    heading = _heading(plan, wide=width_px > height_px)
    upright = heading in ("up", "down")
    along, across = (height_px, width_px) if upright else (width_px, height_px)
    stub = _stub(plan, across)
    zone = _figure_zone(width_px, height_px)
    margin_px = {side: _margin_px(plan, side, stub, zone) for side in PLAN_SIDES}
    worded = _worded_sides(plan, heading)
    down: tuple[PlanSide, PlanSide] = ("front", "rear") if upright else ("left", "right")
    left_px = height_px - sum(margin_px[side] for side in down) - LINE_PX * len(worded)
    has_words = left_px >= _WORDS_LEAVE_PX
    for side in worded if has_words else ():
        margin_px[side] += LINE_PX
    room_along = max(_LEAST_ROOM, along - margin_px["front"] - margin_px["rear"])
    room_across = max(_LEAST_ROOM, across - margin_px["left"] - margin_px["right"])
    most = plan.length_mm - _first_mm(plan)
    fill = room_across / plan.width_mm
    scale = min(fill, room_along / (plan.focus[1] - plan.focus[0]))
    if room_along / scale > _ALMOST_WHOLE * most:
        scale = min(fill, room_along / most)
    window = _window(plan, room_along / scale)
    start = Frame(plan, heading, scale, window, (0.0, 0.0), (width_px, height_px), stub, has_words)
    return _with_drawbar(replace(start, origin=_centered_origin(start, margin_px)))


def numbers_px(plan: PlanShapes, side: PlanSide, stub: float) -> float:
    """Return the room for the numbered discs outside one side of the vehicle, px."""
    numbered = any(place.side == side for place in plan.marked)
    return stub + 2 * DISC_RADIUS if numbered else 0.0


def _stub(plan: PlanShapes, across_px: float) -> float:
    both = {"left", "right"} <= {place.side for place in plan.marked}
    return -DISC_RADIUS if both and across_px < _LOW_BOX else _STUB


def _figure_zone(width_px: float, height_px: float) -> float:
    share = _FIGURE_SHARE * min(width_px, height_px)
    return min(max(share, _FIGURE_LEAST), _FIGURE_MOST)


def _margin_px(plan: PlanShapes, side: PlanSide, stub: float, figure_zone: float) -> float:
    """Return the room outside the vehicle on one side, px: margin, numbers, standing figure."""
    figure = figure_zone if side == plan.stand else 0.0
    # Numbers at the corners of an end reach past its sides.
    corner = DISC_RADIUS if plan.end and side in ("left", "right") else 0.0
    return MARGIN + numbers_px(plan, side, stub) + figure + corner


def _worded_sides(plan: PlanShapes, heading: Heading) -> list[PlanSide]:
    """The sides of the vehicle beyond which a line of words stands: above it, and what is below
    a vehicle that lies across, unless the standing figure keeps room for words there anyway.
    """
    above: dict[Heading, PlanSide] = {
        "up": "front",
        "down": "rear",
        "left": "right",
        "right": "left",
    }
    below: dict[Heading, PlanSide] = {"left": "left", "right": "right"}
    return [above[heading], *(s for s in [below.get(heading)] if s and s != plan.stand)]


def _heading(plan: PlanShapes, *, wide: bool) -> Heading:
    if plan.end:
        return "up" if plan.stand == "rear" else "down"
    if not wide:
        return "up"
    return "right" if plan.stand == "right" else "left"


def _first_mm(plan: PlanShapes) -> float:
    """Return where the window may begin: at the front, numbers stand beside the drawbar."""
    return plan.body_from_mm if plan.end and plan.stand == "front" else 0.0


def _window(plan: PlanShapes, shown_mm: float) -> tuple[float, float]:
    first, last = _first_mm(plan), plan.length_mm
    start = min(max(sum(plan.focus) / 2 - shown_mm / 2, first), last - shown_mm)
    end = start + shown_mm
    # What rounding leaves over is no cut.
    return (
        first if start < first + _ROUNDING_MM else start,
        last if end > last - _ROUNDING_MM else end,
    )


def _with_drawbar(start: Frame) -> Frame:
    """Show what there is of a drawbar between the numbers of the front end."""
    numbers_mm = numbers_px(start.plan, "front", start.stub) / start.px_per_mm
    low = max(0.0, start.window[0] - numbers_mm) if _first_mm(start.plan) else start.window[0]
    return replace(start, window=(low, start.window[1]), origin=start.point(low, 0.0))


def _centered_origin(start: Frame, margin_px: dict[PlanSide, float]) -> Point:
    """Return the origin that centers the vehicle with all that is written around it."""
    reach = []
    for side in PLAN_SIDES:
        (x, y), (dx, dy) = start.edge(side, body=False), start.outward(side)
        reach.append((x + dx * margin_px[side], y + dy * margin_px[side]))
    xs, ys = zip(*reach, strict=True)
    return (start.box[0] - min(xs) - max(xs)) / 2, (start.box[1] - min(ys) - max(ys)) / 2
