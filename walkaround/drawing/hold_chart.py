"""The chart of one gauge in an air hold: where readings, limit and bounds lie in a box of px.

Limit line and bounds start in one point: where the fitted line has its first reading. So the
limit line lies in the fan exactly while the bounds of the rate have the limit between them, and
the eye sees what keeps a hold undecided.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from walkaround.airhold.gauge import Gauge
from walkaround.airhold.hold import Hold
from walkaround.airhold.verdict import LONGEST_HOLD_S, Assessment
from walkaround.base.units import from_psi, mark_text, to_psi
from walkaround.drawing.svg import Point
from walkaround.rules.limits import Line

LEFT_PX, RIGHT_PX, TOP_PX, BOTTOM_PX = 48.0, 24.0, 12.0, 22.0
"""Room around the frame, for the numbers on its axes."""
CORNER_PX = 10.0
"""A pressure nearer to the corner than this would run into the first of the times."""
WINDOWS_S = (60.0, 120.0, 180.0, 240.0, LONGEST_HOLD_S)
"""How much time is shown, the first that holds it all."""
MOST_NUMBERS = 4
_NICE = (1.0, 2.0, 5.0)


@dataclass(frozen=True, slots=True)
class Tick:
    """A number on an axis: where on it, and what it says."""

    at_px: float
    label: str


@dataclass(frozen=True, slots=True)
class HoldChart:
    """One gauge's chart, all of it inside the frame.

    Attributes:
        left, top, right, bottom: the frame.
        points: the readings, in order of time.
        limit: the line along which the limit would lose pressure; its label goes at its end.
        fitted: the line through the readings; None before there are two.
        fan: the corners of what lies between the bounds of the rate; empty likewise.
        times, pressures: the numbers on the two axes.
    """

    left: float
    top: float
    right: float
    bottom: float
    points: tuple[Point, ...]
    limit: tuple[Point, Point]
    fitted: tuple[Point, Point] | None
    fan: tuple[Point, ...]
    times: tuple[Tick, ...]
    pressures: tuple[Tick, ...]


@dataclass(frozen=True, slots=True)
class _Scale:
    """From seconds and psi to px."""

    left: float
    top: float
    right: float
    bottom: float
    from_s: float
    to_s: float
    low_psi: float
    high_psi: float

    def x(self, at_s: float) -> float:
        return self.left + (self.right - self.left) * (at_s - self.from_s) / (
            self.to_s - self.from_s
        )

    def y(self, psi: float) -> float:
        return self.bottom - (self.bottom - self.top) * (psi - self.low_psi) / (
            self.high_psi - self.low_psi
        )

    def point(self, at_s: float, psi: float) -> Point:
        return self.x(at_s), self.y(psi)


def hold_chart(
    hold: Hold,
    line: Line,
    assessment: Assessment | None,
    at_s: float,
    width_px: float,
    height_px: float,
) -> HoldChart:
    """Return the chart of one gauge as it stands `at_s` seconds into the hold.

    Args:
        hold: the hold with its readings so far.
        line: whose gauge.
        assessment: its assessment; None while there is none.
        at_s: how far the hold is; the time axis holds that and the minute.
        width_px, height_px: of the whole box, with the numbers on its axes.
    """
    gauge, limit = hold.gauge(line), hold.rule.limit_psi_per_min
    looks = [(look.at_s, look.psi) for look in hold.readings if look.gauge == line]
    start_s, start_psi = _start(looks, assessment) if looks else (hold.from_s, hold.last_psi(line))
    scale = _scale(hold, gauge, looks, (start_s, start_psi), at_s, (width_px, height_px))

    def ray(rate_psi_per_min: float) -> Point:
        """Where the line of this rate from the start leaves the frame."""
        end_s, end_psi = _exit_point(scale, start_s, start_psi, rate_psi_per_min)
        return scale.point(end_s, end_psi)

    start = scale.point(start_s, start_psi)
    return HoldChart(
        left=scale.left,
        top=scale.top,
        right=scale.right,
        bottom=scale.bottom,
        points=tuple(scale.point(*look) for look in looks),
        limit=(start, ray(limit)),
        fitted=(start, ray(assessment.rate_psi_per_min)) if assessment else None,
        fan=_bounds_polygon(
            scale, start, ray(assessment.high_psi_per_min), ray(assessment.low_psi_per_min)
        )
        if assessment
        else (),
        times=tuple(_times(scale)),
        pressures=tuple(_pressures(scale, gauge)),
    )


def _start(looks: Sequence[Point], assessment: Assessment | None) -> Point:
    """Return where the fitted line begins; before there is one, the first reading."""
    if assessment is None:
        return looks[0]
    mean_s = math.fsum(at_s for at_s, _ in looks) / len(looks)
    mean_psi = math.fsum(psi for _, psi in looks) / len(looks)
    first_s = looks[0][0]
    return first_s, mean_psi + assessment.rate_psi_per_min * (mean_s - first_s) / 60.0


def _scale(
    hold: Hold, gauge: Gauge, looks: Sequence[Point], start: Point, at_s: float, size_px: Point
) -> _Scale:
    """Time from the first reading on; pressure so that the limit's line crosses most of it."""
    first_s = looks[0][0] if looks else hold.from_s
    least_s = max(at_s, hold.end_s, *(look[0] for look in looks)) - first_s
    window_s = next((each for each in WINDOWS_S if each >= least_s), least_s)
    step = gauge.step_psi
    falls_to = start[1] - 1.4 * hold.rule.limit_psi_per_min * window_s / 60.0
    pressures = [psi for _, psi in looks] + [start[1]]
    return _Scale(
        left=LEFT_PX,
        top=TOP_PX,
        right=size_px[0] - RIGHT_PX,
        bottom=size_px[1] - BOTTOM_PX,
        from_s=first_s,
        to_s=first_s + window_s,
        low_psi=min([*pressures, falls_to]) - 0.5 * step,
        high_psi=max(pressures) + step,
    )


def _exit_point(scale: _Scale, start_s: float, start_psi: float, rate: float) -> Point:
    """Return the last point of a falling or rising line in the frame, as seconds and psi."""
    end_psi = start_psi - rate * (scale.to_s - start_s) / 60.0
    inside = min(max(end_psi, scale.low_psi), scale.high_psi)
    if inside == end_psi:
        return scale.to_s, end_psi
    return start_s + (start_psi - inside) / rate * 60.0, inside


def _bounds_polygon(scale: _Scale, start: Point, low: Point, high: Point) -> tuple[Point, ...]:
    """Return the bounds as a polygon, with the corner where they leave by two edges."""
    corners = [
        (scale.right, edge)
        for edge, leaves in ((scale.bottom, low), (scale.top, high))
        if leaves[0] < scale.right
    ]
    if low[0] < scale.right and high[0] < scale.right and low[1] == high[1]:
        corners = []
    return (start, low, *corners, high)


def _times(scale: _Scale) -> Iterator[Tick]:
    """List seconds from 0 on, in steps that people count in."""
    span = scale.to_s - scale.from_s
    step = next((s for s in (30.0, 60.0, 120.0) if span / s < MOST_NUMBERS), span)
    at_s = math.ceil(scale.from_s / step) * step
    while at_s <= scale.to_s:
        yield Tick(scale.x(at_s), f"{at_s:g}")
        at_s += step


def _pressures(scale: _Scale, gauge: Gauge) -> Iterator[Tick]:
    """List round pressures in the gauge's own unit, at most `MOST_NUMBERS` of them."""
    low, high = (from_psi(psi, gauge.unit) for psi in (scale.low_psi, scale.high_psi))
    step = _nice_step((high - low) / MOST_NUMBERS)
    for number in range(math.ceil(low / step), math.floor(high / step) + 1):
        value = number * step
        at_px = scale.y(to_psi(value, gauge.unit))
        if at_px <= scale.bottom - CORNER_PX:
            yield Tick(at_px, mark_text(value, step))


def _nice_step(least: float) -> float:
    """Return the smallest of 1, 2, 5, 10, 20 ... (or 0.1, 0.2 ...) that is no less."""
    power = 10.0 ** math.floor(math.log10(least))
    steps = [nice * power for nice in (*_NICE, 10.0)]
    return round(next(step for step in steps if step >= least), 6)
