"""What goes where in the picture of the plan: numbers, the figure that looks, and the words.

Nothing lies over anything else: numbers stand in a row outside the vehicle, pushed apart where
their places crowd, each with a line to its place; words stand in the margin.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from math import dist

from walkaround.base.message import Message, message
from walkaround.drawing.frame import DISC_RADIUS, LINE_PX, MARGIN, Frame, frame, numbers_px
from walkaround.drawing.labels import Label, margin_words, word_px
from walkaround.drawing.lamp_symbol import Shown
from walkaround.drawing.svg import Point
from walkaround.drawing.vehicle_plan import PLAN_SIDES, PlanShapes, PlanSide, Shape, clip_polygon

DISC_GAP = 5.0
"""Clear distance between two numbered discs, px."""
SPOT_RADIUS = 7.5
"""The place itself, small beside its number."""
_FIGURE_SHARE = 0.75
"""Height of the figure in the zone kept for it."""
_YOU_ROOM = 56.0
DOT_RADIUS = 3.5
"""A place that is not of this step; of two whose dots would touch only one is drawn."""


@dataclass(frozen=True, slots=True)
class Disc:
    """A numbered disc around `center`, with a line to the place `at` that it speaks of.

    Attributes:
        look: how the lamp there looks, if it is one.
        reach: room around the disc for its rays, px.
    """

    number: int
    color: str
    center: Point
    at: Point
    radius: float
    look: Shown | None = None
    reach: float = 0.0


@dataclass(frozen=True, slots=True)
class PlanPicture:
    """Everything to draw, in px from the top left corner of the box.

    Attributes:
        shapes: the visible part of the vehicle, those underneath first.
        cuts: for each cut end a line across the vehicle, first and last point.
        dots: places that are not of this step.
        discs: places of this step, by number.
        figure, figure_px: the middle of the standing figure and its height.
        look: the triangle that is seen from there.
        labels: YOU, FRONT, LEFT and RIGHT.
    """

    shapes: tuple[Shape, ...]
    cuts: tuple[tuple[Point, Point], ...]
    dots: tuple[Point, ...]
    discs: tuple[Disc, ...]
    figure: Point
    figure_px: float
    look: tuple[Point, ...]
    labels: tuple[Label, ...]


def picture(
    plan: PlanShapes, width_px: float, height_px: float, read: Callable[[Message], str] = str
) -> PlanPicture:
    """Fit a plan into a box of this size; made for boxes from 240 by 140 px.

    Args:
        plan: what there is to draw.
        width_px, height_px: the box.
        read: puts a message into words; into those of logs if not said.
    """
    fitted = frame(plan, width_px, height_px)
    low, high = fitted.window
    visible = [Shape(s.part, clip_polygon(s.points, low, high)) for s in plan.shapes]
    discs = [disc for side in PLAN_SIDES for disc in _row(fitted, side)]
    figure = _figure(fitted, discs)
    return PlanPicture(
        shapes=tuple(Shape(s.part, fitted.points(s.points)) for s in visible if s.points),
        cuts=fitted.cuts(),
        dots=tuple(_dots(fitted)),
        discs=tuple(sorted(discs, key=lambda disc: disc.number)),
        figure=figure,
        figure_px=_figure_px(fitted),
        look=_look(fitted, figure),
        labels=(_you_label(fitted, figure, read), *margin_words(fitted, figure, read)),
    )


def spread_apart(
    wanted_values: Sequence[float], gap: float, low: float, high: float
) -> list[float]:
    """Place values from `low` to `high` at least `gap` apart, as near as can be to those wanted.

    `wanted_values` is in ascending order; where there is no room for all of them the gap shrinks.
    Gives the least sum of squared shifts, by pooling neighbors that would overlap (isotonic
    regression; from memory: Barlow, Bartholomew, Bremner and Brunk, 1972).
    """
    count = len(wanted_values)
    gap = min(gap, (high - low) / max(1, count - 1))
    pools: list[tuple[float, int]] = []
    for number, value in enumerate(wanted_values):
        pools.append((value - number * gap, 1))
        while len(pools) > 1 and pools[-2][0] > pools[-1][0]:
            (mean_a, n_a), (mean_b, n_b) = pools[-2:]
            pools[-2:] = [((mean_a * n_a + mean_b * n_b) / (n_a + n_b), n_a + n_b)]
    unspread = [mean for mean, many in pools for _ in range(many)]
    most = high - (count - 1) * gap
    return [min(max(place, low), most) + n * gap for n, place in enumerate(unspread)]


def _row(fitted: Frame, side: PlanSide) -> Iterator[Disc]:
    """The numbered discs along one side of the vehicle."""
    axis, plan = fitted.axis(side), fitted.plan
    here = [(fitted.point(p.x_mm, p.y_mm), p) for p in plan.marked if p.side == side]
    here.sort(key=lambda pair: (pair[0][axis], pair[1].number))
    # Below the words in the margin above the vehicle.
    words_px = LINE_PX if axis == 1 else 0.0
    first, last = MARGIN / 2 + words_px + DISC_RADIUS, fitted.box[axis] - MARGIN / 2 - DISC_RADIUS
    gap = min(2 * DISC_RADIUS + DISC_GAP, (last - first) / max(1, len(here) - 1))
    positions = spread_apart([at[axis] for at, _ in here], gap, first, last)
    for (at, place), middle in zip(here, positions, strict=True):
        center = fitted.outside(side, middle, fitted.stub + DISC_RADIUS, body=True)
        radius = min(DISC_RADIUS, (gap - DISC_GAP) / 2)
        reach = min(DISC_GAP, fitted.stub) if radius == DISC_RADIUS else 0.0
        yield Disc(place.number, place.color, center, at, radius, place.look, reach)


def _dots(fitted: Frame) -> Iterator[Point]:
    """Where every other lamp is; wheels are seen anyway."""
    occupied = [fitted.point(place.x_mm, place.y_mm) for place in fitted.plan.marked]
    for place in fitted.plan.places:
        at = fitted.point(place.x_mm, place.y_mm)
        if not place.color or not fitted.shows(place):
            continue
        if all(dist(at, other) > 2.5 * DOT_RADIUS for other in occupied):
            occupied.append(at)
            yield at


def _figure(fitted: Frame, discs: Sequence[Disc]) -> Point:
    """The mechanic stands before the middle of an end, or of what is looked at on a side."""
    side = fitted.plan.stand
    axis = fitted.axis(side)
    seen = [disc.center[axis] for disc in discs] if side in ("left", "right") else []
    middle = (min(seen) + max(seen)) / 2 if seen else fitted.edge(side, body=False)[axis]
    # The word beside the figure takes as much room as a wide figure.
    along = min(max(middle, _YOU_ROOM), fitted.box[axis] - _YOU_ROOM)
    numbers = numbers_px(fitted.plan, side, fitted.stub)
    away = numbers + fitted.figure_zone / 2 + MARGIN / 2
    return fitted.outside(side, along, away, body=numbers > 0)


def _figure_px(fitted: Frame) -> float:
    return _FIGURE_SHARE * fitted.figure_zone


def _look(fitted: Frame, figure: Point) -> tuple[Point, ...]:
    """From the figure to what it looks at on its side of the vehicle."""
    side = fitted.plan.stand
    axis = fitted.axis(side)
    seen = [fitted.point(p.x_mm, p.y_mm)[axis] for p in fitted.plan.marked if p.side == side]
    reach = DISC_RADIUS if seen else 2 * DISC_RADIUS
    ends = min(seen, default=figure[axis]) - reach, max(seen, default=figure[axis]) + reach
    return figure, *(fitted.outside(side, end, 0.0, body=True) for end in ends)


def _you_label(fitted: Frame, figure: Point, read: Callable[[Message], str]) -> Label:
    """Place the word beside the figure, or below it where that stands beside the vehicle."""
    you = read(message("picture-you"))
    (x, y), (width, height), tall = figure, word_px(you), _figure_px(fitted)
    if fitted.axis(fitted.plan.stand) == 0:
        return Label(you, (x + tall / 4 + 8 + width / 2, y + tall / 4), you=True)
    return Label(you, (x, y + tall / 2 + height / 2), you=True)
