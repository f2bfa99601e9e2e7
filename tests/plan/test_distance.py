"""The way round a vehicle: metres walked."""

from __future__ import annotations

from math import cos, dist, pi, sin

import pytest
from hypothesis import given
from support.plans import made_vehicle, vehicles

from walkaround.plan.distance import round_m, trips, walked_m, way_m
from walkaround.rules.checklist import Station
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
