"""Where readings, limit line and bounds lie on the chart of a hold."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from support.walks import FakeClock, hold_rule

from walkaround.airhold.gauge import Gauge
from walkaround.airhold.hold import Hold
from walkaround.airhold.verdict import assess
from walkaround.drawing.hold_chart import MOST_NUMBERS, HoldChart, hold_chart

SIZE = 336.0, 150.0
"""A chart on a small phone, px."""
ONE = Hold(rule=hold_rule(supply=110.0), began=FakeClock()())
GAUGES = [
    Gauge(name="supply", unit=unit, step=step)
    for unit, steps in (("psi", (1, 5, 10)), ("kPa", (5, 50)), ("bar", (0.05, 0.5)))
    for step in steps
]
drops = st.lists(st.integers(-3, 12), min_size=2, max_size=19)


def read(drop_psi: list[int], gauge: Gauge = GAUGES[0]) -> Hold:
    """Readings every 15 s, so many psi below 110."""
    hold = replace(ONE, gauges={"supply": gauge})
    for number, drop in enumerate(drop_psi):
        hold = hold.with_reading("supply", 15.0 * number, 110.0 - drop)
    return hold


def drawn(hold: Hold) -> HoldChart:
    looks = [(look.at_s, look.psi) for look in hold.readings]
    found = assess(looks, 2.0, hold.gauge("supply").step_psi) if len(looks) > 1 else None
    at_s = looks[-1][0] if looks else 0.0
    return hold_chart(hold, "supply", found, at_s, *SIZE)


@given(drops, st.sampled_from(GAUGES))
def test_all_that_is_drawn_lies_inside_the_frame(drop_psi: list[int], gauge: Gauge) -> None:
    chart = drawn(read(drop_psi, gauge))
    assert chart.fitted is not None
    for x, y in (*chart.points, *chart.limit, *chart.fitted, *chart.fan):
        assert chart.left - 1e-6 <= x <= chart.right + 1e-6
        assert chart.top - 1e-6 <= y <= chart.bottom + 1e-6
    assert 0 < chart.left < chart.right < SIZE[0]
    assert 0 < chart.top < chart.bottom < SIZE[1]


@given(drops, st.sampled_from(GAUGES))
def test_an_axis_has_a_few_numbers_that_rise_and_differ(drop_psi: list[int], gauge: Gauge) -> None:
    chart = drawn(read(drop_psi, gauge))
    for ticks in (chart.times, chart.pressures):
        values = [float(tick.label) for tick in ticks]
        assert 1 <= len(ticks) <= MOST_NUMBERS + 1
        assert values == sorted(set(values))
    assert [t.at_px for t in chart.pressures] == sorted(
        (t.at_px for t in chart.pressures), reverse=True
    )


@given(drops)
def test_the_numbers_tell_the_truth_about_the_points(drop_psi: list[int]) -> None:
    """Read off the axes by hand, as an eye would, each point is its reading."""
    chart = drawn(read(drop_psi))
    assume(len(chart.pressures) > 1)
    first, last = chart.pressures[0], chart.pressures[-1]
    per_px = (float(last.label) - float(first.label)) / (last.at_px - first.at_px)
    for (_, y), drop in zip(chart.points, drop_psi, strict=True):
        assert float(first.label) + (y - first.at_px) * per_px == pytest.approx(110 - drop)
    start, end = chart.times[0], chart.times[-1]
    per_px = (float(end.label) - float(start.label)) / (end.at_px - start.at_px)
    for number, (x, _) in enumerate(chart.points):
        at_s = float(start.label) + (x - start.at_px) * per_px
        assert at_s == pytest.approx(15.0 * number, abs=1e-6)


def heights(chart: HoldChart, x: float) -> list[float]:
    """Where the edges of the fan are at this x, by cutting its polygon."""
    corners = [*chart.fan, chart.fan[0]]
    found = []
    for (x1, y1), (x2, y2) in pairwise(corners):
        if min(x1, x2) <= x < max(x1, x2):
            found.append(y1 + (y2 - y1) * (x - x1) / (x2 - x1))
    return found


@given(drops)
def test_the_limit_lies_in_the_fan_exactly_when_the_bounds_hold_the_limit(
    drop_psi: list[int],
) -> None:
    hold = read(drop_psi)
    looks = [(look.at_s, look.psi) for look in hold.readings]
    found = assess(looks, 2.0)
    assume(min(abs(found.low_psi_per_min - 2), abs(found.high_psi_per_min - 2)) > 0.01)
    chart = drawn(hold)
    x = chart.left + 2.0
    edges = heights(chart, x)
    (x1, y1), (x2, y2) = chart.limit
    limit = y1 + (y2 - y1) * (x - x1) / (x2 - x1)
    # Where the fan is cut off by the frame, its edge is the frame's.
    inside = min(edges) <= limit <= max(edges)
    assert inside == (found.low_psi_per_min < 2 < found.high_psi_per_min)


def test_the_fan_narrows_as_readings_come_in() -> None:
    few, many = (drawn(read([round(n / 2) for n in range(count)])) for count in (5, 9))
    assert few.times == many.times or few.right == many.right
    openings = []
    for chart in (few, many):
        x = chart.left + 40.0
        top, bottom = sorted(heights(chart, x))[:: max(1, len(heights(chart, x)) - 1)][:2]
        openings.append(bottom - top)
    assert openings[1] < openings[0]


def test_without_a_reading_the_limit_starts_at_the_pressure_set() -> None:
    chart = drawn(ONE)
    assert (chart.points, chart.fitted, chart.fan) == ((), None, ())
    assert [tick.label for tick in chart.times] == ["0", "30", "60"]
    set_px = next(tick.at_px for tick in chart.pressures if tick.label == "110")
    assert chart.limit[0] == (chart.left, pytest.approx(set_px))


@pytest.mark.parametrize(
    ("at_s", "last"), [(0, "60"), (60, "60"), (61, "120"), (130, "180"), (299, "240")]
)
def test_the_time_axis_holds_the_minute_and_then_as_much_as_it_needs(
    at_s: float, last: str
) -> None:
    chart = hold_chart(read([0, 1]), "supply", None, at_s, *SIZE)
    assert chart.times[-1].label == last


def test_crossings_of_one_mark_are_drawn_too() -> None:
    coarse = Gauge(name="supply", step=5.0, crossing=True)
    hold = replace(ONE, gauges={"supply": coarse}).with_reading("supply", 2.0, 110.0)
    chart = hold_chart(hold, "supply", hold.results(40.0)["supply"], 40.0, *SIZE)
    assert len(chart.points) == 1
    assert chart.fan
