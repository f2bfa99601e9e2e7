"""How the plan lies in a box of pixels: which way the front points, how large, what is shown.

What is looked at lies before the mechanic's eyes: at the rear the front of the vehicle points
up, at the front it points down, and along a side that side is below. So what is on the left of
the picture is on the left of the eyes. Of a long vehicle only the part in question is shown.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

from walkaround.planview import SIDES, Place, PlanShapes, Point, Side

Heading = Literal["up", "down", "left", "right"]

MARGIN = 10.0
DISC_RADIUS = 17.0
STUB = 14.0
"""Clear distance between the vehicle and a numbered disc; the line to the place runs there."""
FIGURE_ZONE = 56.0
"""Px for the standing figure, away from the vehicle."""
# Cutting off less than the rest of this share of the vehicle is not worth it.
_ALMOST_WHOLE = 0.8
# However small the box, something of the vehicle is drawn.
_LEAST_ROOM = 24.0

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
        box: width and height, px.
    """

    plan: PlanShapes
    heading: Heading
    px_per_mm: float
    window: tuple[float, float]
    origin: Point
    box: Point

    def point(self, x_mm: float, y_mm: float) -> Point:
        """Where a place on the vehicle is in the box."""
        rear, right = self.outward("rear"), self.outward("right")
        x, y = (x_mm - self.window[0]) * self.px_per_mm, y_mm * self.px_per_mm
        return (
            self.origin[0] + x * rear[0] + y * right[0],
            self.origin[1] + x * rear[1] + y * right[1],
        )

    def points(self, places_mm: Iterable[Point]) -> tuple[Point, ...]:
        """Where several places on the vehicle are in the box."""
        return tuple(self.point(x, y) for x, y in places_mm)

    def outward(self, side: Side) -> Point:
        """The way out of the vehicle on one side, as a step on screen."""
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

    def axis(self, side: Side) -> int:
        """Which of x (0) and y (1) runs along that side of the vehicle on screen."""
        return 0 if self.outward(side)[1] else 1

    def edge(self, side: Side, *, body: bool) -> Point:
        """The middle of one edge of the vehicle as shown, or of its body without a drawbar."""
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

    def outside(self, side: Side, along_px: float, away_px: float, *, body: bool) -> Point:
        """A point `away_px` out from that edge, at `along_px` on the axis along it."""
        axis = self.axis(side)
        across = self.edge(side, body=body)[1 - axis] + sum(self.outward(side)) * away_px
        return (along_px, across) if axis == 0 else (across, along_px)

    def shows(self, place: Place) -> bool:
        """Whether a place is in the part of the vehicle that is shown."""
        return self.window[0] <= place.x_mm <= self.window[1]

    def cuts(self) -> tuple[tuple[Point, Point], ...]:
        """Across the vehicle at each end where it is cut, from its left to its right edge."""
        low, high = self.window
        half = self.plan.width_mm / 2
        cut = [low] * (low > 0) + [high] * (high < self.plan.length_mm)
        return tuple((self.point(x, -half), self.point(x, half)) for x in cut)


def frame(plan: PlanShapes, width_px: float, height_px: float) -> Frame:
    """Choose heading, scale and the part of the vehicle shown; then centre it all in the box."""
    heading = _heading(plan, wide=width_px > height_px)
    upright = heading in ("up", "down")
    along, across = (height_px, width_px) if upright else (width_px, height_px)
    taken = {side: _taken(plan, side) for side in SIDES}
    room_along = max(_LEAST_ROOM, along - taken["front"] - taken["rear"])
    room_across = max(_LEAST_ROOM, across - taken["left"] - taken["right"])
    fill = room_across / plan.width_mm
    scale = min(fill, room_along / (plan.focus[1] - plan.focus[0]))
    if room_along / scale > _ALMOST_WHOLE * plan.length_mm:
        scale = min(fill, room_along / plan.length_mm)
    window = _window(plan, room_along / scale)
    start = Frame(plan, heading, scale, window, (0.0, 0.0), (width_px, height_px))
    return Frame(plan, heading, scale, window, _centred(start, taken), start.box)


def numbers_px(plan: PlanShapes, side: Side) -> float:
    """Px between the vehicle and the standing figure for the numbered discs of a side.

    Numbers at the front of a trailer with a drawbar stand beside the drawbar and take none.
    """
    beside_drawbar = side == "front" and plan.body_from_mm > 0
    numbered = any(place.side == side for place in plan.marked)
    return STUB + 2 * DISC_RADIUS if numbered and not beside_drawbar else 0.0


def _taken(plan: PlanShapes, side: Side) -> float:
    """Px needed outside the vehicle on one side of it: margin, numbers, the standing figure."""
    figure = FIGURE_ZONE if side == plan.stand else 0.0
    # Numbers at the corners of an end reach past its sides.
    corner = DISC_RADIUS if plan.end and side in ("left", "right") else 0.0
    return MARGIN + numbers_px(plan, side) + figure + corner


def _heading(plan: PlanShapes, *, wide: bool) -> Heading:
    if plan.end:
        return "up" if plan.stand == "rear" else "down"
    if not wide:
        return "up"
    return "right" if plan.stand == "right" else "left"


def _window(plan: PlanShapes, shown_mm: float) -> tuple[float, float]:
    if shown_mm >= plan.length_mm:
        return 0.0, plan.length_mm
    middle = sum(plan.focus) / 2
    start = min(max(middle - shown_mm / 2, 0.0), plan.length_mm - shown_mm)
    return start, start + shown_mm


def _centred(start: Frame, taken: dict[Side, float]) -> Point:
    """The origin that puts the vehicle with all that is written around it in the middle."""
    reach = []
    for side in SIDES:
        (x, y), (dx, dy) = start.edge(side, body=False), start.outward(side)
        reach.append((x + dx * taken[side], y + dy * taken[side]))
    xs, ys = zip(*reach, strict=True)
    return (start.box[0] - min(xs) - max(xs)) / 2, (start.box[1] - min(ys) - max(ys)) / 2
