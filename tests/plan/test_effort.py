"""The way round a vehicle: metres walked."""

from __future__ import annotations

from math import cos, dist, pi, sin
from typing import get_args

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.plans import made_vehicle, vehicles
from support.walks import STEPS, plan, step

from walkaround.plan.effort import (
    SECONDS_OF_KIND,
    WALKING_M_PER_S,
    round_m,
    trips,
    walk_s,
    walked_m,
    way_m,
)
from walkaround.plan.steps import Step
from walkaround.rules.checklist import Station, StepKind
from walkaround.rules.limits import WaitRule
from walkaround.vehicle.model import Vehicle


def paced_m(length_m: float, width_m: float) -> float:
    """The way 1 m outside a rectangle, paced out in short straight steps."""
    corners = [(length_m, width_m), (0.0, width_m), (0.0, 0.0), (length_m, 0.0)]
    steps = [
        (x + cos(pi / 2 * (corner + n / 1000)), y + sin(pi / 2 * (corner + n / 1000)))
        for corner, (x, y) in enumerate(corners)
        for n in range(1001)
    ]
    return sum(dist(a, b) for a, b in zip(steps, [*steps[1:], steps[0]], strict=True))


@given(vehicles)
def test_a_round_is_as_long_as_one_paced_out(vehicle: Vehicle) -> None:
    paced = paced_m(vehicle.length_mm / 1000, vehicle.width_mm / 1000)
    assert round_m(vehicle) == pytest.approx(paced, rel=1e-6)


@pytest.mark.parametrize(
    ("trips", "rounds"),
    [
        ([], 0.0),
        ([[]], 0.0),
        ([["front"]], 0.0),
        ([["right_side"]], 0.5),
        ([["rear"]], 1.0),
        ([["left_side"]], 0.5),
        ([["front", "rear"]], 1.0),
        ([["front", "right_side", "rear", "left_side"], ["rear"], ["left_side"]], 2.5),
    ],
)
def test_one_spot_is_walked_to_and_back_and_several_take_a_round(
    trips: list[list[str]], rounds: float
) -> None:
    assert walked_m(made_vehicle(), trips) == pytest.approx(rounds * round_m(made_vehicle()))


@pytest.mark.parametrize(
    ("stations", "rounds", "there"),
    [
        ([], 0.0, 0),
        (["rear"], 0.0, 0),
        (["rear", "rear"], 0.0, 0),
        (["source", "front", "cab"], 0.0, 1),
        (["source", "right_side", "rear", "left_side", "source"], 1.0, 1),
        # Both ways between the sides are as long; a quarter back is shorter than three on.
        (["right_side", "left_side"], 0.5, 0),
        (["left_side", "front"], 0.25, 0),
        (["cab", "left_side", "cab", "rear", "source"], 1.5, 2),
    ],
)
def test_from_station_to_station_the_shorter_way_is_walked(
    stations: list[Station], rounds: float, there: int
) -> None:
    assert way_m(made_vehicle(), stations) == pytest.approx(rounds * round_m(made_vehicle()))
    assert trips(stations) == there


def test_words_way_and_what_is_done_are_added_up() -> None:
    steps = (
        step("chocks", "secure", "act", spot="left_side"),
        step("gauges", "connect", "gauges", spot="source"),
        step("tails", "lamps", "lamp", spot="rear"),
        step("settle", "finish", "wait", spot="rear"),
    )
    towed = made_vehicle()
    # Left side to the front is a quarter of the way round, the front to the rear a half.
    walked_s = 0.75 * round_m(towed) / 1.2
    took_s = walk_s(plan(steps, vehicle=towed), spoken_words=320, words_per_min=160)
    assert took_s == pytest.approx(120 + 15 + 15 + 6 + walked_s)


def test_of_a_wait_only_what_other_steps_leave_of_it_is_waited_for() -> None:
    wait = {"after": "chocks", "seconds": 900.0}
    between = step("gauges", "connect", "gauges", spot="left_side")

    def took_s(*steps: Step) -> float:
        return walk_s(plan(steps), spoken_words=0, words_per_min=160)

    chocks = step("chocks", "secure", "act", spot="left_side")
    settle = step("settle", "finish", "wait", spot="left_side", wait=wait)
    assert took_s(chocks, settle) - took_s(chocks) == pytest.approx(900)
    assert took_s(chocks, between, settle) == pytest.approx(took_s(chocks, settle))
    short = settle.model_copy(update={"wait": WaitRule(after="chocks", seconds=15.0)})
    assert took_s(chocks, between, short) == pytest.approx(took_s(chocks, between))


def test_every_kind_of_step_has_its_time() -> None:
    assert set(SECONDS_OF_KIND) == set(get_args(StepKind))
    assert WALKING_M_PER_S == 1.2


@given(st.integers(0, 5000), st.integers(0, 5000), st.sampled_from([120, 160, 220]))
def test_more_words_and_a_slower_voice_take_longer(fewer: int, more: int, rate: int) -> None:
    least, most = sorted((fewer, more))
    asked = plan(STEPS)
    assert walk_s(asked, least, rate) <= walk_s(asked, most, rate) <= walk_s(asked, most, 100)
