"""The whole vehicle from above, its front to the left, with what was found at its places.

Every place has a label beside the vehicle and a line to it. A label is filled where something is
wrong and still is: a defect that nobody has rechecked, a stroke over its limit; else it is empty.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace

from walkaround.base.message import Message, message
from walkaround.drawing import svg
from walkaround.drawing.labels import word_px
from walkaround.drawing.palette import LIGHT
from walkaround.drawing.picture import DOT_RADIUS, spread_apart
from walkaround.drawing.plan_svg import vehicle_part
from walkaround.drawing.svg import Point
from walkaround.drawing.vehicle_plan import Shape, on_body_mm, vehicle_parts
from walkaround.plan.steps import Mark, Plan

Read = Callable[[Message], str]

WIDTH_PX = 720.0
_MOST_ACROSS_PX = 80.0
"""A vehicle is drawn no wider than this; a long one less, to fit its length."""
_MARGIN_PX = 6.0
_WORD_PX = 12.0
_STUB_PX = 12.0
_ROUND_PX = 11.5
_GLYPH = 0.66
"""Width of a letter in sizes of the text."""
_GAP_PX = 4.0


@dataclass(frozen=True, slots=True)
class PlaceLabel:
    """The label beside one place of the vehicle.

    Attributes:
        mark: id of the place's mark in the plan.
        lines: its words, one below the other.
        loud: it is wrong, and still so.
    """

    mark: str
    lines: tuple[str, ...]
    loud: bool


@dataclass(frozen=True, slots=True)
class _Placed:
    label: PlaceLabel
    at: Point
    upper: bool
    middle: Point = (0.0, 0.0)


@dataclass(frozen=True, slots=True)
class _Scale:
    """From mm on the vehicle to px."""

    px_per_mm: float
    left: float
    middle: float

    def point(self, x_mm: float, y_mm: float) -> Point:
        # The front points left, so the vehicle's right is above.
        return self.left + x_mm * self.px_per_mm, self.middle - y_mm * self.px_per_mm


def findings_svg(plan: Plan, labels: Sequence[PlaceLabel], title: str, read: Read = str) -> str:
    """Draw the numbers of what was found beside each place; all other lamps are dots."""
    return _vehicle_svg(plan, labels, _size(labels, 2 * _ROUND_PX), title, _ROUND_PX, read)


def strokes_svg(plan: Plan, labels: Sequence[PlaceLabel], title: str, read: Read = str) -> str:
    """Draw a box of words for each wheel end."""
    return _vehicle_svg(plan, labels, _size(labels, 40.0), title, 3.0, read)


def _size(labels: Sequence[PlaceLabel], least_px: float) -> Point:
    """Of the box around a label: they share the width, as far as their words need it."""
    longest = max((len(line) for label in labels for line in label.lines), default=1)
    lines = max((len(label.lines) for label in labels), default=1)
    room = (WIDTH_PX - 2 * _MARGIN_PX) / max(1, (len(labels) + 1) // 2) - _GAP_PX
    wide = min(longest * _WORD_PX * _GLYPH + 10, max(room, least_px))
    return max(wide, least_px), lines * (_WORD_PX + 3) + (4 if lines > 1 else 7)


def _vehicle_svg(
    plan: Plan,
    labels: Sequence[PlaceLabel],
    size: Point,
    title: str,
    radius: float,
    read: Read,
) -> str:
    vehicle = plan.vehicle
    room = WIDTH_PX - 2 * _MARGIN_PX
    px_per_mm = min(room / vehicle.length_mm, _MOST_ACROSS_PX / vehicle.width_mm)
    across = vehicle.width_mm * px_per_mm
    margin = _MARGIN_PX + _WORD_PX
    beside = size[1] + _STUB_PX
    scale = _Scale(
        px_per_mm,
        (WIDTH_PX - vehicle.length_mm * px_per_mm) / 2,
        margin + beside + across / 2,
    )
    height = 2 * (margin + beside) + across
    placed_labels = list(_place_labels(plan, labels, scale, size, height))
    return svg.document(
        WIDTH_PX, height, title, _pieces(plan, placed_labels, scale, size, height, radius, read)
    )


def _place_labels(
    plan: Plan, labels: Sequence[PlaceLabel], scale: _Scale, size: Point, height: float
) -> Iterator[_Placed]:
    """Place labels in two rows, the right side above, each as near its place as can be."""
    marks = {mark.id: mark for mark in plan.marks}
    for upper in (True, False):
        row = [
            _Placed(label, _at(marks[label.mark], plan, scale), upper)
            for label in labels
            if label.mark in marks and (marks[label.mark].y_mm > 0) == upper
        ]
        row.sort(key=lambda each: each.at[0])
        low, high = _MARGIN_PX + size[0] / 2, WIDTH_PX - _MARGIN_PX - size[0] / 2
        middles = (
            spread_apart([box.at[0] for box in row], size[0] + _GAP_PX, low, high) if row else []
        )
        y = _MARGIN_PX + _WORD_PX + size[1] / 2
        for box, x in zip(row, middles, strict=True):
            yield replace(box, middle=(x, y if upper else height - y))


def _at(mark: Mark, plan: Plan, scale: _Scale) -> Point:
    return scale.point(on_body_mm(mark, plan.vehicle), mark.y_mm)


def _pieces(
    plan: Plan,
    placed_labels: Sequence[_Placed],
    scale: _Scale,
    size: Point,
    height: float,
    radius: float,
    read: Read,
) -> Iterator[str]:
    """Everything in the picture, from the bottom up."""
    for shape in vehicle_parts(plan.vehicle):
        points = tuple(scale.point(*point) for point in shape.points)
        yield vehicle_part(Shape(shape.part, points), LIGHT)
    labeled = {box.label.mark for box in placed_labels}
    for mark in plan.marks:
        if mark.colour and mark.id not in labeled:
            at = _at(mark, plan, scale)
            yield svg.circle(at, DOT_RADIUS - 1, fill=LIGHT.card, line=LIGHT.line, px=1)
    yield from _names(height, read)
    for box in placed_labels:
        toward = size[1] / 2 if box.upper else -size[1] / 2
        foot = box.middle[0], box.middle[1] + toward
        yield svg.polyline([box.at, foot], line=LIGHT.ink, px=1.25)
        fill = LIGHT.ink if box.label.loud else LIGHT.card
        yield svg.circle(box.at, DOT_RADIUS, fill=fill, line=LIGHT.ink, px=1.25)
    for box in placed_labels:
        yield from _box(box, size, radius)


def _names(height: float, read: Read) -> Iterator[str]:
    """Which way the front is, and which side is which."""
    top = _MARGIN_PX / 2 + _WORD_PX / 2
    for id_, y in (("picture-right", top), ("picture-left", height - top)):
        word = read(message(id_))
        yield svg.text(word, (WIDTH_PX / 2, y), _WORD_PX, fill=LIGHT.quiet_ink)
    front = read(message("picture-front"))
    x, y = _MARGIN_PX, top
    yield svg.polygon([(x, y), (x + 10, y - 6), (x + 10, y + 6)], fill=LIGHT.quiet_ink)
    half = word_px(front)[0] * _WORD_PX / 32
    yield svg.text(front, (x + 16 + half, y), _WORD_PX, fill=LIGHT.quiet_ink)


def _box(box: _Placed, size: Point, radius: float) -> Iterator[str]:
    (x, y), (wide, high) = box.middle, size
    fill, ink = (LIGHT.bad, LIGHT.on_bad) if box.label.loud else (LIGHT.card, LIGHT.ink)
    corner = x - wide / 2, y - high / 2
    yield svg.rectangle(corner, size, fill=fill, radius=radius, line=LIGHT.ink, px=1.5)
    longest = max(map(len, box.label.lines))
    text_px = min(_WORD_PX, (wide - 6) / (_GLYPH * longest))
    for number, line in enumerate(box.label.lines):
        middle = x, y + (number - (len(box.label.lines) - 1) / 2) * (_WORD_PX + 3)
        yield svg.text(line, middle, text_px, fill=ink)
