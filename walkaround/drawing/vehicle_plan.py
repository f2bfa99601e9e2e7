"""What there is to see on the plan of this vehicle for one step, in millimeters.

Seen from above, x runs rearward from the foremost point and y to the vehicle's own right. The
outline tells the kind of vehicle and where its wheels are; it is no drawing to measure from.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import cos, pi, sin
from typing import Literal, get_args

from walkaround.base.message import Message, message
from walkaround.drawing.lamp_symbol import Shown
from walkaround.drawing.svg import Point
from walkaround.plan.steps import UNPLACED, Mark, Plan, Step
from walkaround.vehicle.model import POWER_UNITS, Vehicle
from walkaround.vehicle.outline import axle_x_mm, drawbar_mm

PlanSide = Literal["front", "rear", "left", "right"]
PLAN_SIDES: tuple[PlanSide, ...] = get_args(PlanSide)
VehiclePart = Literal[
    "body", "cab", "glass", "frame", "drawbar", "fifth_wheel", "kingpin", "landing_gear", "wheel"
]

# Usual sizes, common practice, no source: enough to tell a wheel from a landing gear.
WHEEL_MM = (1000.0, 280.0)
DUAL_GAP_MM = 90.0
KINGPIN_MM = 950.0
LANDING_GEAR_MM = 2800.0
CAB_MM = 2100.0
FRAME_SHARE = 0.36
# How much of the body at least is shown behind the lamps of its end, as a share of the width.
END_DEPTH_SHARE = 0.12
# What is shown before and behind the marked places of a side.
AROUND_MM = 700.0

_SIDE_OF_SPOT: dict[str, PlanSide] = {
    "front": "front",
    "rear": "rear",
    "left_side": "left",
    "right_side": "right",
    # Lines and cable are connected at the front, and the cab is there.
    "source": "front",
    "cab": "front",
}


@dataclass(frozen=True, slots=True)
class Shape:
    """A part of the vehicle as a closed polygon of (x, y) in mm."""

    part: VehiclePart
    points: tuple[Point, ...]


@dataclass(frozen=True, slots=True)
class PlacedMark:
    """A mark as drawn: `number` counts the items of the step from 1, and is 0 for all others.

    Attributes:
        kind: of the lamp or reflector there, if any step of the plan asks about it.
        look: how it must look in this step, if it is a lamp.
    """

    id: str
    x_mm: float
    y_mm: float
    color: str
    number: int
    side: PlanSide
    kind: str = ""
    look: Shown | None = None


@dataclass(frozen=True, slots=True)
class PlanShapes:
    """The plan of one vehicle for one step.

    Attributes:
        body_from_mm: where the body begins, behind a drawbar if there is one.
        shapes: the parts of the vehicle, those underneath first.
        places: every mark; those of this step have a number.
        stand: the side where the mechanic stands, looking at the vehicle.
        focus: from where to where along the vehicle this step looks, mm.
        end: whether it looks at one end only.
        from_there: whether the vehicle is drawn as it is seen from there, not from above.
    """

    length_mm: float
    width_mm: float
    body_from_mm: float
    shapes: tuple[Shape, ...]
    places: tuple[PlacedMark, ...]
    stand: PlanSide
    focus: tuple[float, float]
    end: bool
    from_there: bool = False

    @property
    def numbered(self) -> tuple[PlacedMark, ...]:
        """The places of this step."""
        return tuple(place for place in self.places if place.number)

    @property
    def at_end(self) -> tuple[PlacedMark, ...]:
        """The places of this step, and lamps that must be dark in it."""
        return tuple(place for place in self.places if place.number or place.look)

    @property
    def marked(self) -> tuple[PlacedMark, ...]:
        """The places of this step, in the order of their numbers."""
        return tuple(sorted((p for p in self.places if p.number), key=lambda p: p.number))


def plan_shapes_of(plan: Plan, step: Step) -> PlanShapes:
    """Tell what to draw for this step of this plan."""
    vehicle = plan.vehicle
    stand = _SIDE_OF_SPOT[step.spot]
    places = tuple(_places(plan, step, stand))
    marked_x = [place.x_mm for place in places if place.number]
    end = bool(marked_x) and stand in ("front", "rear")
    return PlanShapes(
        length_mm=vehicle.length_mm,
        width_mm=vehicle.width_mm,
        body_from_mm=drawbar_mm(vehicle),
        shapes=tuple(vehicle_parts(vehicle)),
        places=places,
        stand=stand,
        focus=_focus(vehicle, marked_x, stand if end else None),
        end=end,
        from_there=bool(marked_x) and step.kind == "lamp",
    )


def plan_words(plan: Plan, step: Step) -> Message:
    """Put the plan into words, for those who hear the screen."""
    seen = plan_shapes_of(plan, step)
    count = len(seen.marked)
    where = message(f"picture-at-{step.spot.replace('_', '-')}")
    if seen.from_there:
        return message("picture-end", vehicle=plan.vehicle.name, where=where, count=count)
    return message(
        "picture-plan" if count else "picture-plan-without-marks",
        vehicle=plan.vehicle.name,
        where=where,
        count=count,
    )


def clip_polygon(points: Sequence[Point], low_mm: float, high_mm: float) -> tuple[Point, ...]:
    """Cut a convex polygon to x from `low_mm` to `high_mm`; empty when all is outside."""
    polygon = list(points)
    for sign, limit in ((1.0, low_mm), (-1.0, -high_mm)):
        polygon = list(_half(polygon, sign, limit))
    return tuple(polygon)


def _half(points: Sequence[Point], sign: float, limit: float) -> Iterator[Point]:
    """Sutherland and Hodgman (1974): a convex polygon cut by the line sign * x = limit."""
    for (x0, y0), (x1, y1) in zip([*points[-1:], *points[:-1]], points, strict=True):
        before, after = sign * x0 - limit, sign * x1 - limit
        if (before < 0) != (after < 0):
            share = before / (before - after)
            yield x0 + share * (x1 - x0), y0 + share * (y1 - y0)
        if after >= 0:
            yield x1, y1


def _places(plan: Plan, step: Step, stand: PlanSide) -> Iterator[PlacedMark]:
    places = dict.fromkeys(item.place for item in step.items if item.kind not in UNPLACED)
    numbers = {id_: number for number, id_ in enumerate(places, start=1)}
    kinds = {item.place: item.kind for each in plan.steps for item in each.items}
    for mark in plan.marks:
        number = numbers.get(mark.id, 0)
        yield PlacedMark(
            id=mark.id,
            x_mm=on_body_mm(mark, plan.vehicle),
            y_mm=mark.y_mm,
            color=mark.colour,
            number=number,
            side=_side(mark, stand),
            kind=kinds.get(mark.id, ""),
            look=step.expect.get(mark.id),
        )


def on_body_mm(mark: Mark, vehicle: Vehicle) -> float:
    """Place a mark behind the foremost point.

    Lamps are placed along the whole length, but none hangs in the air beside a drawbar.
    """
    if mark.id.startswith("axle_"):
        return mark.x_mm
    front = drawbar_mm(vehicle)
    return front + mark.x_mm * (1 - front / vehicle.length_mm)


def _side(mark: Mark, stand: PlanSide) -> PlanSide:
    """Where the number of this mark is written: the end looked at, else the nearer side."""
    if stand in ("front", "rear"):
        return stand
    if mark.y_mm == 0:
        return stand
    return "right" if mark.y_mm > 0 else "left"


def _focus(
    vehicle: Vehicle, marked_x: Sequence[float], end: PlanSide | None
) -> tuple[float, float]:
    length = vehicle.length_mm
    if not marked_x:
        return 0.0, length
    depth = END_DEPTH_SHARE * vehicle.width_mm
    if end == "front":
        return drawbar_mm(vehicle), min(length, max(marked_x) + depth)
    if end == "rear":
        return max(0.0, min(marked_x) - depth), length
    return max(0.0, min(marked_x) - AROUND_MM), min(length, max(marked_x) + AROUND_MM)


def vehicle_parts(vehicle: Vehicle) -> Iterator[Shape]:
    """List the parts of this kind of vehicle, those underneath first."""
    length, half = vehicle.length_mm, vehicle.width_mm / 2
    front, frame = drawbar_mm(vehicle), FRAME_SHARE * vehicle.width_mm / 2
    cab = min(CAB_MM, 0.35 * length)
    match vehicle.kind:
        case "semitrailer":
            yield _box("body", 0, length, -half, half)
            yield _disc("kingpin", min(KINGPIN_MM, 0.1 * length), 0, 130)
            at = min(LANDING_GEAR_MM, 0.24 * length)
            for side in (-1, 1):
                yield _box("landing_gear", at - 130, at + 130, side * frame, side * (frame + 260))
        case "full trailer":
            yield Shape("drawbar", ((0, -60), (front, -frame), (front, frame), (0, 60)))
            yield _box("body", front, length, -half, half)
        case "converter dolly":
            yield Shape("drawbar", ((0, -60), (front, -frame), (front, frame), (0, 60)))
            yield _box("frame", front, length, -frame, frame)
            yield _disc("fifth_wheel", 0.6 * length, 0, 0.9 * frame)
            yield _crossbar(length, half)
        case "pole trailer":
            yield _box("drawbar", 0, front, -90, 90)
            yield _box("frame", front, length, -frame, frame)
            for bolster in (front + 125, 0.82 * length):
                yield _box("frame", bolster - 125, bolster + 125, -half, half)
            yield _crossbar(length, half)
        case "truck tractor":
            yield _box("frame", 0.6 * cab, length, -frame, frame)
            yield _disc("fifth_wheel", 0.76 * length, 0, 0.9 * frame)
            yield _crossbar(length, half)
            yield from _cab(cab, half)
        case "truck":
            yield _box("frame", 0.6 * cab, length, -frame, frame)
            yield _box("body", cab + 150, length, -half, half)
            yield from _cab(cab, half)
        case "bus":
            yield _box("body", 0, length, -half, half)
            yield _box("glass", 60, 320, -half + 150, half - 150)
    yield from _wheels(vehicle)


def _crossbar(length: float, half: float) -> Shape:
    """Return the crossbar that carries the rear lamps of a vehicle without a body."""
    return _box("frame", length - 150, length, -half + 40, half - 40)


def _cab(length: float, half: float) -> Iterator[Shape]:
    yield _box("cab", 0, length, -half + 60, half - 60)
    yield _box("glass", 0.14 * length, 0.3 * length, -half + 220, half - 220)


def _wheels(vehicle: Vehicle) -> Iterator[Shape]:
    """Duals on every axle but the steered one of a power unit."""
    length, tread = WHEEL_MM
    for number, x in enumerate(axle_x_mm(vehicle)):
        steered = number == 0 and vehicle.kind in POWER_UNITS
        for tire in range(1 if steered else 2):
            outer = vehicle.width_mm / 2 - tire * (tread + DUAL_GAP_MM)
            for side in (-1, 1):
                ends = side * (outer - tread), side * outer
                yield _box("wheel", x - length / 2, x + length / 2, *ends)


def _box(part: VehiclePart, x0: float, x1: float, y0: float, y1: float) -> Shape:
    return Shape(part, ((x0, y0), (x1, y0), (x1, y1), (x0, y1)))


def _disc(part: VehiclePart, x: float, y: float, radius: float) -> Shape:
    turns = [2 * pi * corner / 32 for corner in range(32)]
    return Shape(part, tuple((x + radius * cos(a), y + radius * sin(a)) for a in turns))
